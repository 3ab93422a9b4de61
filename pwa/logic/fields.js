/**
 * What each field of a draft is: its label, its kind, and what would be right in it. One table, used both
 * to draw the form and to name a field that holds something wrong.
 */

const IN = 25.4;
const FT = 304.8;

/** Lengths a yard can have; a bare number outside is asked about, never guessed. */
const YARD = { least: 100, most: 100 * FT, example: { in: '63 1/2 in', mm: '1613 mm' } };
const SMALL = { least: 0, most: 20 * FT, example: { in: '4 1/2 in', mm: '115 mm' } };
const LEAN = { least: 0, most: 12 * IN, example: { in: '3/8 in', mm: '10 mm' } };

const length = (label, range, more = {}) => ({ kind: 'length', label, ...range, ...more });
const ordinal = (index) => ['first', 'second', 'third', 'fourth', 'fifth', 'sixth'][index] ?? `${index + 1}th`;

const RUNS = {
  'between walls': 'Width between the walls',
  corner: 'Free length from the corner',
  'against a wall': 'Free length of the wall',
  open: 'Length of the place',
};
const DEPTHS = {
  'between walls': 'Depth, wall to front edge',
  corner: 'Depth, wall to front edge',
  'against a wall': 'Depth, wall to front edge',
  open: 'Depth of the place',
};

/** A turn has two widths, before it and after it. */
const clearWidth = (kind) => (kind === 'turn' ? 'Clear width before the turn' : `Clear width of the ${kind ?? 'way in'}`);

export const runLabel = (draft) => RUNS[draft.site.kind] ?? 'Length of the place';
export const depthLabel = (draft) => DEPTHS[draft.site.kind] ?? 'Depth of the place';

/** "low", "middle", "high" for the usual readings of a wall, else "fourth reading". */
export function nthReading(draft, index) {
  const level = draft.site.kind === 'open' ? '' : draft.site.readings[index]?.level;
  return level || `${ordinal(index)} reading`;
}

const thing = (draft, index, names) => names.get(draft.site.obstructions[index]?.kind) ?? `thing ${index + 1}`;

const SITE = [
  [/^site\.readings\.(\d+)\.value$/, (d, n) => length(`${runLabel(d)}, ${nthReading(d, n)}`, YARD)],
  [/^site\.readings\.(\d+)\.height$/, () => length('Height above ground', SMALL)],
  [/^site\.readings\.(\d+)\.out$/, () => length('Out from the wall', SMALL)],
  [/^site\.depths\.(\d+)\.value$/, (d, n) => length(`${depthLabel(d)}, ${ordinal(n)} reading`, YARD)],
  [/^site\.depths\.(\d+)\.along$/, () => length('Taken how far from the left end', SMALL, { most: YARD.most })],
  [/^site\.backLean$/, () => length('Back wall leans by', LEAN)],
  [/^site\.backLeanOver$/, () => length('over a height of', SMALL)],
  [/^site\.(left|right)\.run$/, (d, side) => length(`How far out the ${side} wall runs`, YARD)],
  [/^site\.(left|right)\.lean$/, (d, side) => length(`${side === 'left' ? 'Left' : 'Right'} wall leans by`, LEAN)],
  [/^site\.(left|right)\.leanOver$/, () => length('over a height of', SMALL)],
  [
    /^site\.(left|right)\.angle$/,
    (d, side) => ({
      kind: 'angle',
      label: `Angle in the ${side} corner`,
      unit: 'degrees',
      help: '90 is square; less closes in towards the front.',
    }),
  ],
  [/^site\.(left|right)\.along$/, () => length('Along the back wall', YARD)],
  [/^site\.(left|right)\.out$/, (d, side) => length(`Out along the ${side} wall`, YARD)],
  [/^site\.(left|right)\.across$/, () => length('Across, mark to mark', YARD)],
  [/^site\.(left|right)\.again\.along$/, () => length('Along the back wall, once more', YARD)],
  [/^site\.(left|right)\.again\.out$/, (d, side) => length(`Out along the ${side} wall, once more`, YARD)],
  [/^site\.(left|right)\.again\.across$/, () => length('Across, mark to mark, once more', YARD)],
  [
    /^site\.heightUnder$/,
    () => length('Free height', YARD, { help: 'Only where something is above: a sill, a rail, eaves.' }),
  ],
  [
    /^site\.walkway$/,
    () => length('Keep free in front', SMALL, { help: 'Room to walk past. Empty: the shop’s usual.' }),
  ],
  [
    /^site\.ground\.fallAlong$/,
    () => ({
      kind: 'fall',
      label: 'Falls along the wall',
      help: 'How much it drops from left to right. 0 when level.',
    }),
  ],
  [
    /^site\.ground\.fallAway$/,
    () => ({
      kind: 'fall',
      label: 'Falls away from the wall',
      help: 'How much it drops towards the front. 0 when level.',
    }),
  ],
  [
    /^site\.ground\.dropBehind$/,
    () =>
      length('Drop at the back edge', SMALL, {
        help: 'At the edge of a deck or terrace. 0 when level; empty: not measured.',
      }),
  ],
  [
    /^site\.ground\.allowedLoad$/,
    () => ({
      kind: 'number',
      label: 'Load the floor may carry',
      unit: 'kN/m²',
      help: 'Only if you have it in writing from the building’s papers or an engineer.',
    }),
  ],
];

const THINGS = [
  [
    /^site\.obstructions\.(\d+)\.from$/,
    (d, n, names) => length(`From (${thing(d, n, names)})`, SMALL, { most: YARD.most }),
  ],
  [
    /^site\.obstructions\.(\d+)\.to$/,
    (d, n, names) => length(`To (${thing(d, n, names)})`, SMALL, { most: YARD.most }),
  ],
  [/^site\.obstructions\.(\d+)\.projection$/, (d, n, names) => length(`Stands out (${thing(d, n, names)})`, SMALL)],
  [
    /^site\.obstructions\.(\d+)\.bottom$/,
    (d, n, names) => length(`Its bottom above ground (${thing(d, n, names)})`, SMALL),
  ],
  [/^site\.obstructions\.(\d+)\.top$/, (d, n, names) => length(`Its top above ground (${thing(d, n, names)})`, SMALL)],
  [/^site\.access\.(\d+)\.width$/, (d, n) => length(clearWidth(d.site.access[n]?.kind), YARD)],
  [
    /^site\.access\.(\d+)\.widthAfter$/,
    () => length('Clear width after the turn', YARD, { help: 'Empty: as wide as before it.' }),
  ],
  [
    /^site\.access\.(\d+)\.height$/,
    (d, n) =>
      length(`Clear height of the ${d.site.access[n]?.kind ?? 'way in'}`, YARD, {
        help: 'Empty: not tried on end or tilted there.',
      }),
  ],
];

const PEOPLE = [
  [/^reference$/, () => ({ kind: 'text', label: 'Job number', chars: 40 })],
  [/^customer\.name$/, () => ({ kind: 'text', label: 'Name', autocomplete: 'name', chars: 120 })],
  [
    /^customer\.address$/,
    () => ({ kind: 'text', label: 'Address', autocomplete: 'street-address', lines: 3, chars: 300 }),
  ],
  [/^customer\.phone$/, () => ({ kind: 'text', label: 'Phone', autocomplete: 'tel', inputmode: 'tel', chars: 40 })],
  [
    /^customer\.email$/,
    () => ({ kind: 'email', label: 'Email', autocomplete: 'email', inputmode: 'email', chars: 120 }),
  ],
  [
    /^delivery\.distance$/,
    () => ({
      kind: 'distance',
      label: 'Distance to the customer',
      help: 'By road, one way. Empty: the customer fetches it.',
    }),
  ],
  [/^delivery\.crew$/, () => ({ kind: 'whole', label: 'People to carry and set up', least: 1, most: 6 })],
  [/^extras\.(\d+)\.text$/, (d, n) => ({ kind: 'text', label: `Extra ${n + 1}, what`, chars: 120 })],
  [/^extras\.(\d+)\.amount$/, (d, n) => ({ kind: 'money', label: `Extra ${n + 1}, price` })],
  [/^discount\.share$/, () => ({ kind: 'share', label: 'Discount, a share of the price', unit: '%' })],
  [
    /^discount\.amount$/,
    () => ({ kind: 'money', label: 'Discount, an amount', help: 'A share or an amount, not both.' }),
  ],
  [/^discount\.reason$/, () => ({ kind: 'text', label: 'Reason for the discount', chars: 200 })],
  [
    /^rack\.(\d+)\.section$/,
    (d, n) => ({ kind: 'text', label: `Boards ${n + 1}, section`, chars: 40, help: 'As sold: 1x6, 5/4x6, 28x120.' }),
  ],
  [/^rack\.(\d+)\.length$/, (d, n) => length(`Boards ${n + 1}, length of one`, YARD)],
  [/^rack\.(\d+)\.count$/, (d, n) => ({ kind: 'whole', label: `Boards ${n + 1}, how many`, least: 1, most: 500 })],
  [/^wantedBy$/, () => ({ kind: 'date', label: 'Wanted by' })],
  [/^notes$/, () => ({ kind: 'text', label: 'Notes for the shop', lines: 3, chars: 2000 })],
  [/^items\.(\d+)\.quantity$/, () => ({ kind: 'whole', label: 'How many', least: 1, most: 200 })],
  [/^overrides\.(.+)$/, () => ({ kind: 'text', label: 'Reason, printed on the paper', lines: 2, chars: 400 })],
];

const TABLE = [...SITE, ...THINGS, ...PEOPLE];

function dimension(draft, path, catalogue) {
  const [, index, , name] = path.split('.');
  const rule = catalogue?.template(draft.items[index]?.template)?.dimensions.find((one) => one.name === name);
  if (!rule) return null;
  return length(
    rule.label,
    { least: rule.min.mm, most: rule.max.mm },
    { rule, help: rule.help, example: { in: rule.default.text, mm: rule.default.text } },
  );
}

/** The description of the field at `path`. `catalogue` knows the templates and the names of things on walls. */
export function describe(path, draft, catalogue) {
  if (/^items\.\d+\.dimensions\./.test(path)) {
    return dimension(draft, path, catalogue) ?? length('Size', YARD);
  }
  for (const [pattern, make] of TABLE) {
    const found = path.match(pattern);
    if (!found) continue;
    const group = found[1] === undefined ? undefined : Number.isNaN(Number(found[1])) ? found[1] : Number(found[1]);
    return make(draft, group, catalogue?.things ?? new Map());
  }
  return { kind: 'text', label: path };
}

/** The step of the form a field is on, for links from a list of faults. */
export function stepOf(path) {
  if (path.startsWith('site.')) return 'space';
  if (/^items\.\d+\.(choices|quantity)/.test(path)) return 'choices';
  if (path.startsWith('items')) return 'piece';
  if (path.startsWith('overrides.')) return 'price';
  return 'customer';
}
