/** Step 1: the space as measured. Only what this kind of place has is asked. */
import { heightOf, KINDS, LEVELS } from '../logic/draft.js';
import { depthLabel, runLabel } from '../logic/fields.js';
import { button, fold, h, redraw, removeButton } from './dom.js';
import { choose, field, pick } from './field.js';
import { sketch } from './sketch.js';
import { inTheWay, walls } from './walls.js';

const UNITS = [
  { id: 'in', label: 'Inches' },
  { id: 'mm', label: 'Millimetres' },
];
const SURFACES = ['', 'paving', 'concrete', 'deck', 'balcony', 'gravel', 'soil', 'grass'];
const WAYS = ['gate', 'passage', 'stairs', 'turn'];
const RUN_HELP = {
  'between walls': 'Take it low, at mid height and high, and once more at the front edge. The smallest one decides.',
  corner: 'From the side wall to where the free place ends: a gate, a step, a path.',
  'against a wall': 'From where the free place begins to where it ends.',
  open: 'How much room there is, left to right.',
};

const NTH = ['First', 'Second', 'Third', 'Fourth', 'Fifth', 'Sixth'];
const nth = (index) => `${NTH[index] ?? `${index + 1}th`} reading`;

/** What a line of readings is called, and what is known of where it was taken. */
function naming(view, list, index, line) {
  const level = list === 'site.readings' && view.draft.site.kind !== 'open' ? LEVELS[line.level]?.name : '';
  const height = list === 'site.readings' ? heightOf(view.draft, line) : '';
  const told = [height && `${height} up`, line.out && `${line.out} out`, line.along && `${line.along} along`]
    .filter(Boolean)
    .join(', ');
  return { name: level || nth(index), told: told || 'not noted' };
}

function reading(view, list, index, what, ...where) {
  const base = `${list}.${index}`;
  const line = view.draft.site[list.split('.')[1]][index];
  const { name, told } = naming(view, list, index, line);
  const several = view.draft.site[list.split('.')[1]].length > 1;
  return h(
    'div',
    { class: 'line', role: 'group', 'aria-label': `${what}, ${name.toLowerCase()}` },
    field(`${base}.value`, view, { label: name }),
    fold(
      `at-${base.replaceAll('.', '-')}`,
      'Where taken',
      told,
      h(
        'div',
        { class: 'pair' },
        where.map((key) => field(`${base}.${key}`, view)),
      ),
      several && removeButton(list, index, `${what}, ${name.toLowerCase()}`),
    ),
  );
}

function readings(view) {
  const { site } = view.draft;
  return [
    h(
      'div',
      { class: 'sheet' },
      h('h2', {}, runLabel(view.draft)),
      h('p', { class: 'hint' }, RUN_HELP[site.kind]),
      site.readings.map((_, index) => reading(view, 'site.readings', index, runLabel(view.draft), 'height', 'out')),
      button('Add a reading', 'add-line', { list: 'site.readings' }, { class: 'wide' }),
    ),
    h(
      'div',
      { class: 'sheet' },
      h('h2', {}, depthLabel(view.draft)),
      h('p', { class: 'hint' }, 'How far out the piece may stand. Take it at both ends if the place is not even.'),
      site.depths.map((_, index) => reading(view, 'site.depths', index, depthLabel(view.draft), 'along')),
      button('Add a reading', 'add-line', { list: 'site.depths' }, { class: 'wide' }),
    ),
  ];
}

function ground(view) {
  const { surface } = view.draft.site.ground;
  const surfaces = SURFACES.map((id) => ({ id, label: id ? id[0].toUpperCase() + id.slice(1) : 'Not noted' }));
  return h(
    'div',
    { class: 'sheet' },
    h('h2', {}, 'Ground'),
    pick('site.ground.surface', 'Surface', surfaces, view),
    field('site.ground.fallAlong', view),
    field('site.ground.fallAway', view),
    field('site.ground.dropBehind', view),
    (surface === 'deck' || surface === 'balcony') && field('site.ground.allowedLoad', view),
  );
}

function wayIn(view) {
  const list = view.draft.site.access;
  const options = WAYS.map((id) => ({ id, label: id[0].toUpperCase() + id.slice(1) }));
  return h(
    'div',
    { class: 'sheet' },
    h('h2', {}, 'The way in'),
    h('p', { class: 'hint' }, 'The narrowest places the finished piece must pass.'),
    list.map((line, index) =>
      h(
        'div',
        { class: 'line' },
        pick(`site.access.${index}.kind`, `Narrow place ${index + 1}`, options, view),
        h(
          'div',
          { class: 'pair' },
          field(`site.access.${index}.width`, view),
          line.kind === 'turn' && field(`site.access.${index}.widthAfter`, view),
          field(`site.access.${index}.height`, view),
        ),
        removeButton('site.access', index, line.kind),
      ),
    ),
    button(
      list.length ? 'Add another narrow place' : 'Add a narrow place',
      'add-line',
      { list: 'site.access' },
      { class: 'wide' },
    ),
  );
}

/** Readings that do not agree, said while the maker still stands there. */
export function doubts(view) {
  return view.doubts.map((one) =>
    h(
      'div',
      { class: `finding ${one.level.replace(' ', '-')}` },
      h('p', {}, h('b', {}, one.title)),
      h('p', {}, [one.detail, one.mend].filter(Boolean).join(' ')),
    ),
  );
}

/** Draw the step. */
export function drawSpace(root, view) {
  const { site } = view.draft;
  redraw(
    root,
    h('h1', { id: 'step-title', tabindex: '-1' }, 'The space'),
    h('div', { class: 'sheet' }, choose('units', 'My tape reads', UNITS, view, { side: true })),
    h(
      'div',
      { class: 'sheet' },
      choose('site.kind', 'What is the place like?', KINDS, view),
      site.kind === 'corner' &&
        choose(
          'site.cornerAt',
          'Which side has the wall?',
          [
            { id: 'left', label: 'Left' },
            { id: 'right', label: 'Right' },
          ],
          view,
          { side: true },
        ),
    ),
    site.kind &&
      h(
        'div',
        { class: 'beside' },
        readings(view),
        h(
          'div',
          { class: 'aside stack' },
          h('div', { id: 'doubts', role: 'status' }, doubts(view)),
          h('div', { id: 'sketch' }, sketch(view)),
        ),
        walls(view),
        inTheWay(view),
        ground(view),
        wayIn(view),
        h(
          'div',
          { class: 'sheet' },
          h('h2', {}, 'Above and in front'),
          field('site.heightUnder', view),
          field('site.walkway', view),
        ),
      ),
  );
}
