/**
 * From a draft to what the service is asked. Every field is read by reading.js; what cannot be read becomes
 * a fault that names the field. `where` remembers which field each part of the body came from, so that a
 * refusal of the service ("/items/0/dimensions/length") is shown at the field that caused it.
 */
import { billOf } from './bill.js';
import { at, chosenItems, heightOf } from './draft.js';
import { describe, stepOf } from './fields.js';
import { hiddenSizes } from './holding.js';
import { read } from './measure.js';
import { readField } from './reading.js';

const NM = 1_000_000;

class Collector {
  constructor(draft, catalogue) {
    Object.assign(this, { draft, catalogue, faults: [], where: {} });
  }

  fault(path, detail, label = describe(path, this.draft, this.catalogue).label) {
    this.faults.push({ path, step: stepOf(path), label, detail });
  }

  /** The value of one field or undefined when empty or wrong; a length leaves as exact millimetres. */
  take(path, pointer, required = '') {
    const spec = describe(path, this.draft, this.catalogue);
    const reading = readField(at(this.draft, path), this.draft.units, spec);
    this.where[pointer] = path;
    if (reading.state === 'bad') this.fault(path, reading.fault, spec.label);
    if (reading.state === 'empty' && required) this.fault(path, `${spec.label}: ${required}`, spec.label);
    if (reading.state !== 'good') return undefined;
    return spec.kind === 'length' ? { mm: reading.value / NM } : reading.value;
  }

  /** Several fields at once into one record; empty ones are left out. */
  record(paths, pointer, required = {}) {
    const out = {};
    for (const [name, path] of Object.entries(paths)) {
      const value = this.take(path, `${pointer}/${name}`, required[name]);
      if (value !== undefined) out[name] = value;
    }
    return out;
  }
}

const empty = (record) => Object.keys(record).length === 0;

const TYPED = ['value', 'height', 'out', 'along'];

/** The lines of a list of readings in which something is written. */
const typedLines = (list) => list.filter((line) => TYPED.some((key) => line[key]?.trim()));

function readings(take, listPath, pointer, names) {
  const out = [];
  const typed = typedLines(at(take.draft, listPath));
  at(take.draft, listPath).forEach((line, index) => {
    const paths = Object.fromEntries(Object.entries(names).map(([name, key]) => [name, `${listPath}.${index}.${key}`]));
    if (!typed.includes(line)) return;
    out.push(take.record(paths, `${pointer}/${out.length}`, { value: 'the reading itself is missing.' }));
  });
  return out;
}

function obstructions(take, wall, pointer) {
  const out = [];
  take.draft.site.obstructions.forEach((line, index) => {
    if (line.wall !== wall || !line.kind) return;
    const base = `site.obstructions.${index}`;
    const here = `${pointer}/obstructions/${out.length}`;
    const paths = Object.fromEntries(
      ['from', 'to', 'projection', 'bottom', 'top'].map((key) => [key, `${base}.${key}`]),
    );
    const needed = {
      from: 'measure where it begins.',
      to: 'measure where it ends.',
      projection: 'measure how far it stands out.',
    };
    out.push({ kind: line.kind, ...take.record(paths, here, needed) });
  });
  return out;
}

function lean(take, leanPath, overPath, leansPath, pointer) {
  const record = take.record({ out_of_plumb: leanPath, plumb_over: overPath }, pointer);
  if (record.out_of_plumb && !record.plumb_over) take.fault(overPath, 'Say over what height the wall leans.');
  return record.out_of_plumb && at(take.draft, leansPath) === 'away' ? { ...record, leans: 'away' } : record;
}

function backWall(take, pointer) {
  const wall = {
    side: 'back',
    readings: readings(take, 'site.readings', `${pointer}/readings`, {
      value: 'value',
      at_height: 'height',
      at_depth: 'out',
    }),
  };
  typedLines(take.draft.site.readings).forEach((line, index) => {
    const usual = read(heightOf(take.draft, line), null);
    if (!wall.readings[index].at_height && !line.height.trim() && !usual.error)
      wall.readings[index].at_height = { mm: usual.nm / NM };
  });
  const things = obstructions(take, 'back', pointer);
  if (things.length) wall.obstructions = things;
  return take.draft.site.kind === 'open'
    ? wall
    : { ...wall, ...lean(take, 'site.backLean', 'site.backLeanOver', 'site.backLeans', pointer) };
}

function sideWall(take, side, pointer) {
  const run = take.take(`site.${side}.run`, `${pointer}/readings/0/value`);
  const things = obstructions(take, side, pointer);
  return {
    side,
    readings: run ? [{ value: run }] : [],
    ...(things.length ? { obstructions: things } : {}),
    ...lean(take, `site.${side}.lean`, `site.${side}.leanOver`, `site.${side}.leans`, pointer),
  };
}

function corner(take, side, pointer) {
  const base = `site.${side}`;
  const how = at(take.draft, `${base}.corner`);
  if (how === 'angle') {
    const angle = take.take(`${base}.angle`, `${pointer}/angle`, 'type the angle, or say that it was not measured.');
    return angle === undefined ? null : { at: side, angle };
  }
  if (how !== 'tapes') return null;
  const needed = 'all three tapes are needed.';
  const paths = { along: `${base}.along`, out: `${base}.out`, across: `${base}.across` };
  const all = { along: needed, out: needed, across: needed };
  const diagonals = [take.record(paths, `${pointer}/diagonals/0`, all)];
  const again = Object.fromEntries(Object.keys(all).map((key) => [key, `${base}.again.${key}`]));
  if (Object.values(again).some((path) => at(take.draft, path)?.trim()))
    diagonals.push(take.record(again, `${pointer}/diagonals/1`, all));
  return { at: side, diagonals };
}

/** Which side walls this kind of place has. */
export function sides(site) {
  if (site.kind === 'between walls') return ['left', 'right'];
  return site.kind === 'corner' ? [site.cornerAt] : [];
}

function ground(take) {
  const base = 'site.ground';
  const paths = { fall_along: `${base}.fallAlong`, fall_away: `${base}.fallAway`, drop_behind: `${base}.dropBehind` };
  const surface = at(take.draft, `${base}.surface`);
  if (surface === 'deck' || surface === 'balcony') paths.allowed_load_kn_m2 = `${base}.allowedLoad`;
  const record = take.record(paths, '/site/ground');
  return surface ? { surface, ...record } : record;
}

function siteOf(take) {
  const { site } = take.draft;
  const body = { kind: site.kind || 'open', walls: [backWall(take, '/site/walls/0')] };
  sides(site).forEach((side) => body.walls.push(sideWall(take, side, `/site/walls/${body.walls.length}`)));
  const corners = [];
  for (const side of sides(site)) {
    const one = corner(take, side, `/site/corners/${corners.length}`);
    if (one) corners.push(one);
  }
  if (corners.length) body.corners = corners;
  const depths = readings(take, 'site.depths', '/site/depths', { value: 'value', at_along: 'along' });
  if (depths.length) body.depths = depths;
  Object.assign(body, take.record({ height_under: 'site.heightUnder', walkway: 'site.walkway' }, '/site'));
  const floor = ground(take);
  if (!empty(floor)) body.ground = floor;
  const access = [];
  site.access.forEach((line, index) => {
    const base = `site.access.${index}`;
    const paths = { width: `${base}.width`, height: `${base}.height` };
    if (line.kind === 'turn') paths.width_after = `${base}.widthAfter`;
    const record = take.record(paths, `/site/access/${access.length}`, { width: 'measure the clear width.' });
    access.push({ kind: line.kind, ...record });
  });
  if (access.length) body.access = access;
  if (site.exposure) body.exposure = site.exposure;
  return body;
}

/** One item; the service fills what is left empty with the template's defaults. */
function itemOf(take, item, index, pointer) {
  const dimensions = {};
  const hidden = hiddenSizes(take.draft, index, take.catalogue);
  for (const name of Object.keys(item.dimensions).filter((one) => !hidden.has(one))) {
    const value = take.take(`items.${index}.dimensions.${name}`, `${pointer}/dimensions/${name}`);
    if (value !== undefined) dimensions[name] = value;
  }
  const quantity = take.take(`items.${index}.quantity`, `${pointer}/quantity`, 'how many?') ?? 1;
  return { template: item.template, dimensions, choices: { ...item.choices }, quantity };
}

/**
 * The whole job for POST /v1/quotes. Returns {body, faults, where}; with faults the body is not for sending.
 * `today` is the date on the paper (YYYY-MM-DD).
 */
export function toJob(draft, catalogue, today) {
  const take = new Collector(draft, catalogue);
  const body = { reference: draft.reference.trim() || `J${draft.number}`, units: draft.units, date: today };
  body.customer = take.record(
    { name: 'customer.name', address: 'customer.address', phone: 'customer.phone', email: 'customer.email' },
    '/customer',
  );
  if (!draft.site.kind)
    take.fault(
      'site.kind',
      'Say what the place is like: between walls, a corner, one wall or open ground.',
      'The place',
    );
  body.site = siteOf(take);
  body.items = [];
  draft.items.forEach((item, index) => {
    if (item.template) body.items.push(itemOf(take, item, index, `/items/${body.items.length}`));
  });
  if (!chosenItems(draft).length) take.fault('items.0.template', 'Choose what is to be made.', 'The piece');
  Object.assign(body, billOf(take));
  const wanted = take.take('wantedBy', '/wanted_by');
  if (wanted) body.wanted_by = wanted;
  if (draft.notes.trim()) body.notes = draft.notes.trim();
  const overrides = Object.values(draft.overrides).filter((one) => one.what && one.reason?.trim());
  if (overrides.length)
    body.overrides = overrides.map((one) => ({ what: one.what, to: one.to, reason: one.reason.trim() }));
  return { body, faults: take.faults, where: take.where };
}

/** One item alone, for a drawing. */
export function toItem(draft, index, catalogue) {
  const take = new Collector(draft, catalogue);
  return { body: itemOf(take, draft.items[index], index, '/item'), faults: take.faults };
}

/** The site alone, for the fit on the phone. */
export function toSite(draft, catalogue) {
  const take = new Collector(draft, catalogue);
  return { body: siteOf(take), faults: take.faults };
}

/** The dimensions of one item in nm, defaults filled in, also for hidden ones; null when one cannot be read. */
export function sizesOf(draft, index, template, catalogue) {
  const sizes = {};
  const hidden = hiddenSizes(draft, index, catalogue);
  for (const rule of template.dimensions) {
    const path = `items.${index}.dimensions.${rule.name}`;
    const text = hidden.has(rule.name) ? '' : at(draft, path);
    const reading = readField(text, draft.units, describe(path, draft, catalogue));
    if (reading.state === 'bad') return null;
    sizes[rule.name] = reading.state === 'good' ? reading.value : Math.round(rule.default.mm * NM);
  }
  return sizes;
}

/** The field of the draft a JSON Pointer of a refusal means; the nearest parent when the exact one is unknown. */
export function fieldAt(where, pointer) {
  let here = pointer;
  while (here) {
    if (where[here]) return where[here];
    here = here.slice(0, here.lastIndexOf('/'));
  }
  return null;
}
