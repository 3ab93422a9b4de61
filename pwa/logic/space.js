/**
 * The measured site made ready for the fit: every reading at its worst, sides held or open, things in the
 * way. The same arithmetic as the service's domain/fit; both pass tests/vectors/fits.json. Lengths in nm.
 *
 * @typedef {{mm: number, text?: string}|string|number} Length words with a unit, mm, or nm
 * @typedef {{nm: number, height: number|null, depth: number|null, words: string}} Run
 * @typedef {{held: boolean, closing: number, opening: number, lean: number, measured: boolean, slant: number,
 *   stretched: number, runs: Run[]}} Side see domain/fit/space.py
 * @typedef {{from: number, to: number, out: number}} Taken a stretch along a wall, and how far it reaches off it
 * @typedef {{wall: string, label: string, body: Taken, room: Taken, bottom: number, top: number, rule: any}} Thing
 * @typedef {{kind: string, runs: Run[], depths: Run[], under: Run|null, left: Side, right: Side, held: number,
 *   backHeld: boolean, backLean: number, things: Thing[], allowance: number, airflow: number, walkway: number,
 *   uncertainty: number, units: 'in'|'mm'}} Space
 */
import { MM, read, write } from './measure.js';

export const FOREVER = 1_000_000_000_000;
const MICRON = 1000;
/** +-(a + b L), micrometres, L in metres rounded up: EU tape classes, Directive 2014/32/EU annex X. */
const CLASSES = /** @type {Record<string, number[]>} */ ({ I: [100, 100], II: [300, 200], III: [600, 400] });
const ANGLE_MARK = 0.5;
export const SIDES = ['left', 'right'];
const ROOM = ['sides', 'front', 'above', 'below'];

/** @param {Length} said @returns {number} */
export function toNm(said) {
  if (typeof said === 'number') return said;
  if (typeof said !== 'string') return Math.round(said.mm * MM);
  const answer = read(said, null);
  if ('error' in answer) throw new RangeError(answer.detail);
  return answer.nm;
}

/** @param {Length|null|undefined} said @returns {number|null} */
const maybe = (said) => (said === null || said === undefined ? null : toNm(said));

/** @param {number} nm @param {'in'|'mm'} units */
export const say = (nm, units) => write(nm, units);

/** @param {number} nm up to the next whole micrometre; a floating error above one stays on it */
export const up = (nm) => Math.ceil(nm / MICRON - 1e-6) * MICRON;

/** @param {number} nm @param {string} tapeClass @param {number} mark @returns {number} the most a reading is off */
export function uncertaintyOf(nm, tapeClass, mark) {
  const [a, b] = CLASSES[tapeClass] ?? CLASSES.III;
  return (a + b * Math.ceil(nm / 1_000_000_000)) * MICRON + Math.floor(mark / 2);
}

/** @typedef {{least: number, most: number}} Angle degrees, as the readings allow */

/** @param {number} along @param {number} out @param {number} across @returns {number} */
function angleOf(along, out, across) {
  const [a, b] = [Math.max(along, 1), Math.max(out, 1)];
  const cosine = (a * a + b * b - across * across) / (2 * a * b);
  const degrees = (Math.acos(Math.min(1, Math.max(-1, cosine))) * 180) / Math.PI;
  return Math.min(150, Math.max(30, degrees));
}

/** @param {any} corner @param {(nm: number) => number} off @returns {Angle[]} one for each way it was read */
export function anglesOf(corner, off) {
  const given = corner.angle ?? null;
  const half = ANGLE_MARK / 2;
  return [
    ...(given === null ? [] : [{ least: given - half, most: given + half }]),
    ...(corner.diagonals ?? []).map((/** @type {any} */ d) => {
      const [a, b, c] = [toNm(d.along), toNm(d.out), toNm(d.across)];
      return { least: angleOf(a + off(a), b + off(b), c - off(c)), most: angleOf(a - off(a), b - off(b), c + off(c)) };
    }),
  ];
}

/** @param {number} degrees @returns {number} what a corner takes from the run for each unit of depth */
export const takes = (degrees) => Math.tan(((90 - degrees) * Math.PI) / 180);

/** @param {any} site @param {string} name @returns {any} */
export const wallOf = (site, name) => (site.walls ?? []).find((/** @type {any} */ w) => (w.side ?? 'back') === name);

/** @param {any} site @param {string} name @returns {number} inwards over height; outwards is negative */
function leanOf(site, name) {
  const wall = wallOf(site, name);
  const over = maybe(wall?.plumb_over) ?? 0;
  return over > 0 ? ((wall.leans === 'away' ? -1 : 1) * (maybe(wall.out_of_plumb) ?? 0)) / over : 0;
}

/** @param {any} site @param {string} wing @returns {any} a corner that nothing says the end of is at the wing of an L */
export function cornered(site, wing) {
  const said = [...(site.walls ?? []).map((/** @type {any} */ w) => w.side),
    ...(site.corners ?? []).map((/** @type {any} */ c) => c.at)];
  if (site.kind !== 'corner' || !SIDES.includes(wing) || SIDES.some((side) => said.includes(side))) return site;
  return { ...site, corners: [{ at: wing }] };
}

/** @param {any} site @returns {string[]} ends with a wall: by the kind of site, and wherever one was measured */
export function heldSides(site) {
  if (site.kind === 'between walls') return SIDES;
  const named = [...(site.walls ?? []).map((/** @type {any} */ w) => w.side),
    ...(site.corners ?? []).map((/** @type {any} */ c) => c.at)];
  const held = SIDES.filter((side) => named.includes(side));
  return site.kind === 'corner' && !held.length ? ['left'] : held;
}

/** @param {any} site @param {string} name @param {(nm: number) => number} off @param {'in'|'mm'} units
 *  @returns {Side} its run out from the corner shortened by the corner's slant */
function sideOf(site, name, off, units) {
  const held = heldSides(site).includes(name);
  const corner = (site.corners ?? []).find((/** @type {any} */ c) => c.at === name);
  const angles = held && corner ? anglesOf(corner, off) : [];
  const closing = angles.length ? takes(Math.min(...angles.map((a) => a.least))) : 0;
  const opening = angles.length ? takes(Math.max(...angles.map((a) => a.most))) : 0;
  const slant = Math.max(Math.abs(closing), Math.abs(opening));
  const stretched = Math.hypot(1, slant);
  const runs = runsOf(held ? wallOf(site, name)?.readings : [], `${name} wall`, off, units)
    .map((r) => ({ ...r, nm: -up(-r.nm / stretched) }));
  return { held, lean: held ? leanOf(site, name) : 0, closing, opening, slant, stretched, runs,
    measured: angles.length > 0 };
}

/** @param {any} site @param {any} shop @param {'in'|'mm'} units @returns {Space} */
export function spaceOf(site, shop, units) {
  const { fitting } = shop;
  const mark = toNm(fitting.reading);
  const off = (/** @type {number} */ nm) => uncertaintyOf(nm, site.tape_class || fitting.tape_class, mark);
  const back = wallOf(site, 'back');
  const kind = site.kind ?? 'open';
  const under = maybe(site.height_under);
  const runs = runsOf(back?.readings, 'back wall', off, units);
  const depths = runsOf(site.depths, 'depth', off, units);
  const values = [...(back?.readings ?? []), ...(site.depths ?? [])].map((/** @type {any} */ m) => toNm(m.value));
  const [left, right] = SIDES.map((name) => sideOf(site, name, off, units));
  return {
    kind, runs, depths, left, right, units,
    held: Number(left.held) + Number(right.held),
    under: under ? runsOf([{ value: under }], 'height under', off, units)[0] : null,
    backHeld: kind !== 'open' || (back?.obstructions ?? []).length > 0,
    backLean: leanOf(site, 'back'),
    things: (site.walls ?? []).flatMap((/** @type {any} */ w) => (w.obstructions ?? []).map(
      (/** @type {any} */ o) => thingOf(o, w.side ?? 'back', { left, right }, shop, off))),
    allowance: toNm(fitting.allowance),
    airflow: toNm(fitting.airflow),
    walkway: maybe(site.walkway) ?? (kind === 'between walls' ? 0 : toNm(fitting.walkway)),
    uncertainty: Math.max(...values.map(off), off(under ?? 0)),
  };
}

/** @param {any[]|undefined} readings @param {string} name @param {(nm: number) => number} off
 *  @param {'in'|'mm'} units @returns {Run[]} */
function runsOf(readings, name, off, units) {
  return (readings ?? []).map((m) => {
    const nm = toNm(m.value);
    const places = [[m.at_height, 'high'], [m.at_depth, 'out'], [m.at_along, 'along']]
      .filter(([at]) => at !== undefined && at !== null).map(([at, word]) => `${say(toNm(at), units)} ${word}`);
    const where = places.length ? ` at ${places.join(' and ')}` : '';
    return { nm: nm - off(nm), height: maybe(m.at_height), depth: maybe(m.at_depth),
      words: `${name}, ${say(nm, units)}${where}` };
  });
}

/** @param {any} o @param {string} wall @param {Record<string, Side>} sides @param {any} shop
 *  @param {(nm: number) => number} off @returns {Thing} on a side wall off square it is turned with that wall */
function thingOf(o, wall, sides, shop, off) {
  const find = (/** @type {string} */ kind) => shop.keep_clear.find((/** @type {any} */ k) => k.kind === kind);
  const known = find(o.kind);
  const rule = known ?? find('other') ?? { sides: 0, front: 0, above: 0, below: 0, solid: true, level: 'caution',
    advice: 'Say what it is, and look whether it must stay reachable.' };
  const [from, to, out] = [toNm(o.from), toNm(o.to), toNm(o.projection)];
  const [bottom, top] = [maybe(o.bottom), maybe(o.top)];
  const far = off(Math.max(from, to));
  const { slant, stretched } = sides[wall] ?? { slant: 0, stretched: 1 };
  const turned = (/** @type {number} */ start, /** @type {number} */ end, /** @type {number} */ reach) => {
    if (slant <= 0) return { from: start, to: end, out: reach };
    const along = (reach * slant) / stretched;
    return { from: -up(along - start / stretched), to: end + up(along), out: up(reach * stretched) };
  };
  const [start, end, reach] = [Math.min(from, to) - far, Math.max(from, to) + far, out ? out + off(out) : 0];
  const nm = Object.fromEntries(ROOM.map((side) => [side, toNm(rule[side])]));
  return {
    wall, label: known ? known.label : o.kind, body: turned(start, end, reach),
    room: turned(start - nm.sides, end + nm.sides, reach + nm.front),
    bottom: bottom ? Math.max(0, bottom - off(bottom)) : 0, top: top === null ? FOREVER : top + off(top),
    rule: { ...rule, ...nm },
  };
}

/**
 * The readings that bind a piece reaching up to `height` and out to `depth`; see domain/fit/space.py.
 * @param {Run[]} runs @param {number} height @param {number} depth @returns {Run[]}
 */
export function interpolated(runs, height, depth) {
  const near = runs.filter((r) => (r.height ?? 0) <= height && (r.depth ?? 0) <= depth);
  if (!near.length) return runs;
  const beyond = runs.filter((r) => !near.includes(r));
  return [...near, ...beyond.filter((r) => !beyond.some((o) => shields(o, r, height, depth)))
    .flatMap((r) => between(near, r, height, depth))];
}

/**
 * The least of the runs that bind; a far upper corner that was not read loses upwards and outwards together.
 * @param {Run[]} runs @param {Run[]} read @returns {Run|null} see domain/fit/space.py
 */
export function shortest(runs, read) {
  if (!runs.length) return null;
  let least = runs.reduce((best, r) => (r.nm < best.nm ? r : best));
  const far = (/** @type {Run} */ r) => (r.height ?? 0) + (r.depth ?? 0);
  const foot = runs.reduce((best, r) => (far(r) < far(best) || (far(r) === far(best) && r.nm < best.nm) ? r : best));
  const tight = runs.filter((r) => r.nm < foot.nm);
  for (const upper of tight) {
    for (const outer of tight) {
      const [height, depth, nm] = [upper.height ?? 0, outer.depth ?? 0, upper.nm + outer.nm - foot.nm];
      if (nm < least.nm && height > (outer.height ?? 0) && depth > (upper.depth ?? 0)
        && !read.some((r) => (r.height ?? 0) >= height && (r.depth ?? 0) >= depth)) {
        least = { nm, height, depth, words: `${upper.words} and ${outer.words}` };
      }
    }
  }
  return least;
}

/** @param {Run} nearer @param {Run} run @param {number} height @param {number} depth @returns {boolean} */
function shields(nearer, run, height, depth) {
  const pairs = [[height, nearer.height ?? 0, run.height ?? 0], [depth, nearer.depth ?? 0, run.depth ?? 0]];
  const onTheWay = pairs.every(([limit, a, b]) => (a > limit) === (b > limit) && a <= b && (b > limit || a === b));
  return onTheWay && pairs.some(([, a, b]) => a !== b);
}

/** @param {Run[]} near @param {Run} beyond @param {number} height @param {number} depth @returns {Run[]} */
function between(near, beyond, height, depth) {
  const overHeight = (beyond.height ?? 0) > height;
  const overDepth = (beyond.depth ?? 0) > depth;
  const like = near.filter((r) => (overHeight || (r.height ?? 0) === (beyond.height ?? 0))
    && (overDepth || (r.depth ?? 0) === (beyond.depth ?? 0)));
  const far = (/** @type {Run} */ r) => (r.height ?? 0) + (r.depth ?? 0);
  const within = (like.length ? like : near)
    .reduce((best, r) => (far(r) > far(best) || (far(r) === far(best) && r.nm < best.nm) ? r : best));
  if (within.nm <= beyond.nm) return [];
  const share = (/** @type {number} */ limit, /** @type {number|null} */ a, /** @type {number|null} */ b) =>
    (limit - (a ?? 0)) / ((b ?? 0) - (a ?? 0));
  const shares = [...(overHeight ? [share(height, within.height, beyond.height)] : []),
    ...(overDepth ? [share(depth, within.depth, beyond.depth)] : [])];
  return [{
    nm: within.nm - up((within.nm - beyond.nm) * Math.min(...shares)),
    height: Math.min(height, beyond.height ?? 0) || within.height,
    depth: Math.min(depth, beyond.depth ?? 0) || within.depth,
    words: `between ${within.words} and ${beyond.words}`,
  }];
}
