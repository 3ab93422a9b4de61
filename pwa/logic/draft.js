/**
 * A draft is one job as typed: every field is the text in the box, never a number, so that nothing
 * typed is lost and half-typed text comes back as it was. No DOM, no clock, no network here.
 *
 * @typedef {Object} Draft
 * @property {string} id
 * @property {string} units  "in" | "mm": what a bare number means and what the paper shows
 * @property {Object} site
 * @property {Object[]} items
 */
import { read } from './measure.js';

export const STEPS = [
  { id: 'space', name: 'Space', title: 'The space' },
  { id: 'piece', name: 'Piece', title: 'The piece' },
  { id: 'choices', name: 'Choices', title: 'Choices' },
  { id: 'customer', name: 'Customer', title: 'Customer and delivery' },
  { id: 'price', name: 'Price', title: 'Price and paper' },
];

export const KINDS = [
  {
    id: 'between walls',
    label: 'Between two walls',
    help: 'A side on the left and on the right; the piece must go in between.',
  },
  { id: 'corner', label: 'In a corner', help: 'One side wall, left or right.' },
  { id: 'against a wall', label: 'Against one wall', help: 'Both ends free.' },
  { id: 'open', label: 'Open ground', help: 'Nothing behind and nothing beside.' },
];

/** Where the three usual readings of a wall are taken when nothing else is noted: text, by unit. */
export const LEVELS = {
  low: { name: 'Low', in: '4 in', mm: '100 mm' },
  middle: { name: 'Middle', in: '18 in', mm: '450 mm' },
  high: { name: 'High', in: '36 in', mm: '900 mm' },
};

/** The height a reading counts at: what was typed, else its usual level; "" where there is no wall. */
export function heightOf(draft, line) {
  if (line.height.trim() || draft.site.kind === 'open') return line.height.trim();
  return LEVELS[line.level]?.[draft.units] ?? '';
}

const BLANK = {
  readings: (level = '') => ({ level, value: '', height: '', out: '' }),
  depths: () => ({ value: '', along: '' }),
  obstructions: () => ({ kind: '', wall: 'back', from: '', to: '', projection: '', bottom: '', top: '' }),
  access: () => ({ kind: 'gate', width: '', height: '', widthAfter: '' }),
  extras: () => ({ text: '', amount: '', untaxed: false }),
  items: () => ({ template: '', dimensions: {}, choices: {}, quantity: '1' }),
  rack: () => ({ timber: '', section: '', length: '', count: '1' }),
};

/** A new, empty job. `number` counts the jobs of this phone; a quote number needs no clock. */
export function newDraft(id, number, units, now) {
  const side = () => ({
    run: '',
    lean: '',
    leanOver: '',
    leans: 'in',
    corner: 'unknown',
    angle: '',
    along: '',
    out: '',
    across: '',
    again: { along: '', out: '', across: '' },
  });
  return {
    id,
    number,
    units,
    made: now,
    changed: now,
    deleted: 0,
    item: 0,
    reference: `J${String(number).padStart(3, '0')}`,
    site: {
      kind: '',
      cornerAt: 'left',
      readings: [BLANK.readings('low'), BLANK.readings('middle'), BLANK.readings('high')],
      depths: [BLANK.depths()],
      left: side(),
      right: side(),
      backLean: '',
      backLeanOver: '',
      backLeans: 'in',
      heightUnder: '',
      obstructions: [],
      ground: { surface: '', fallAlong: '', fallAway: '', dropBehind: '', allowedLoad: '' },
      access: [],
      walkway: '',
      exposure: '',
    },
    items: [BLANK.items()],
    customer: { name: '', address: '', phone: '', email: '' },
    delivery: { distance: '', install: false, crew: '' },
    discount: { share: '', amount: '', reason: '' },
    extras: [],
    rack: [],
    wantedBy: '',
    notes: '',
    overrides: {},
  };
}

/** The value at a dotted path (`site.readings.0.value`), or undefined. */
export function at(draft, path) {
  return path.split('.').reduce((node, key) => (node == null ? undefined : node[key]), draft);
}

/** Put a value at a dotted path; missing maps on the way are made. Own keys only. */
export function put(draft, path, value) {
  const keys = path.split('.');
  if (keys.some((key) => key === '__proto__' || key === 'constructor')) return;
  const last = keys.pop();
  let node = draft;
  for (const key of keys) {
    if (node[key] == null) node[key] = {};
    node = node[key];
  }
  node[last] = value;
}

/** One more line in a list (`site.readings`, `items`, ...); a draft kept by an older app may lack the list. */
export function addLine(draft, listPath) {
  if (!at(draft, listPath)) put(draft, listPath, []);
  const list = at(draft, listPath);
  list.push(BLANK[listPath.split('.').pop()]());
  return list.length - 1;
}

/** Take a line out and give it back, so that it can be put in again (undo). */
export function removeLine(draft, listPath, index) {
  return at(draft, listPath).splice(index, 1)[0];
}

export function insertLine(draft, listPath, index, line) {
  at(draft, listPath).splice(index, 0, line);
}

/** What the job is called in a list: the customer, else the reference. */
export function titleOf(draft) {
  return draft.customer.name.trim() || draft.reference.trim() || `Job ${draft.number}`;
}

/** Does any piece in the job have a template? */
export function chosenItems(draft) {
  return draft.items.filter((item) => item.template);
}

const LENGTH_KEYS = new Set([
  'value',
  'length',
  'height',
  'out',
  'along',
  'from',
  'to',
  'projection',
  'bottom',
  'top',
  'width',
  'widthAfter',
  'run',
  'lean',
  'leanOver',
  'across',
  'backLean',
  'backLeanOver',
  'heightUnder',
  'dropBehind',
  'walkway',
]);

const bare = (text, units) => read(text, null).error === 'no-unit' && !read(text, units).error;

function markUnits(node, units, all) {
  for (const [key, value] of Object.entries(node)) {
    if (value && typeof value === 'object') markUnits(value, units, all || key === 'dimensions');
    else if (typeof value === 'string' && (all || LENGTH_KEYS.has(key)) && bare(value, units)) {
      node[key] = `${value.trim()} ${units}`;
    }
  }
}

/**
 * Work in the other unit from now on. A number typed without a unit was meant in the old one:
 * that unit is written behind it, so no reading changes its meaning.
 */
export function switchUnits(draft, units) {
  if (units === draft.units) return;
  markUnits(draft.site, draft.units, false);
  for (const line of draft.rack ?? []) markUnits(line, draft.units, false);
  for (const item of draft.items) markUnits(item.dimensions, draft.units, true);
  draft.units = units;
}
