/** The walls of the space: corners, lean, and what is in the way on them. */
import { sides } from '../logic/request.js';
import { button, fold, h, removeButton } from './dom.js';
import { choose, field, pick } from './field.js';

const LEANS = [
  { id: 'in', label: 'Its top leans into the place' },
  { id: 'away', label: 'Its top leans away' },
];

function cornerPart(view, side) {
  const base = `site.${side}`;
  const how = view.draft.site[side].corner;
  const ways = [
    { id: 'unknown', label: 'Not measured', help: 'It is then taken as square, and the quote says so.' },
    { id: 'tapes', label: 'Three tapes', help: 'Mark a length along each wall, then measure across.' },
    { id: 'angle', label: 'Angle known' },
  ];
  return [
    choose(`${base}.corner`, `Is the ${side} corner square?`, ways, view),
    how === 'tapes' &&
      h(
        'div',
        { class: 'stack' },
        h(
          'p',
          { class: 'hint' },
          'Square when along, out and across are as 3, 4 and 5: 36, 48 and 60 in, or 600, 800 and 1000 mm.',
        ),
        field(`${base}.along`, view),
        field(`${base}.out`, view),
        field(`${base}.across`, view),
        fold(
          `${side}-again`,
          'Measured once more',
          Object.values(view.draft.site[side].again ?? {}).some((text) => text.trim()) ? 'yes' : 'no',
          h('p', { class: 'hint' }, 'At another height or with other marks. The worse of both counts.'),
          ['along', 'out', 'across'].map((key) => field(`${base}.again.${key}`, view)),
        ),
      ),
    how === 'angle' && field(`${base}.angle`, view),
  ];
}

export function walls(view) {
  const { site } = view.draft;
  if (site.kind === 'open') return null;
  const parts = sides(site).map((side) =>
    fold(
      `wall-${side}`,
      `${side === 'left' ? 'Left' : 'Right'} wall and corner`,
      toldOf(site[side]),
      cornerPart(view, side),
      field(`site.${side}.run`, view),
      h('div', { class: 'pair' }, field(`site.${side}.lean`, view), field(`site.${side}.leanOver`, view)),
      pick(`site.${side}.leans`, `Which way the ${side} wall leans`, LEANS, view),
    ),
  );
  const back = fold(
    'wall-back',
    'Back wall out of plumb',
    site.backLean ? 'measured' : 'not measured',
    h('p', { class: 'hint' }, 'Hold a level against the wall: how far does its top lean?'),
    h('div', { class: 'pair' }, field('site.backLean', view), field('site.backLeanOver', view)),
    pick('site.backLeans', 'Which way the back wall leans', LEANS, view),
  );
  return h(
    'div',
    { class: 'sheet' },
    h('h2', {}, 'Walls'),
    h('p', { class: 'hint' }, 'Left and right as you stand in the yard and face the wall.'),
    parts,
    back,
  );
}

const toldOf = (side) => (side.corner !== 'unknown' || side.lean || side.run ? 'measured' : 'not measured');

function obstruction(view, index) {
  const base = `site.obstructions.${index}`;
  const line = view.draft.site.obstructions[index];
  const kinds = [...view.catalogue.things].map(([id, label]) => ({ id, label }));
  const onSides = sides(view.draft.site);
  const name = view.catalogue.things.get(line.kind) ?? `thing ${index + 1}`;
  const keep = view.catalogue.keepClear(line.kind);
  const wallOptions = ['back', ...onSides].map((id) => ({ id, label: `${id[0].toUpperCase()}${id.slice(1)} wall` }));
  return h(
    'div',
    { class: 'line', role: 'group', 'aria-label': name },
    pick(`${base}.kind`, `What is in the way (${index + 1})`, [{ id: '', label: 'Choose' }, ...kinds], view),
    keep?.advice && h('p', { class: 'hint' }, keep.advice),
    line.kind && [
      onSides.length > 0 && pick(`${base}.wall`, 'On which wall', wallOptions, view),
      h(
        'p',
        { class: 'hint' },
        line.wall === 'back'
          ? 'From and to: along the wall, from its left end.'
          : 'From and to: out from the back wall.',
      ),
      h(
        'div',
        { class: 'pair' },
        field(`${base}.from`, view, { label: 'From' }),
        field(`${base}.to`, view, { label: 'To' }),
      ),
      field(`${base}.projection`, view, { label: 'Stands out from the wall' }),
      h(
        'div',
        { class: 'pair' },
        field(`${base}.bottom`, view, { label: 'Its bottom, above ground' }),
        field(`${base}.top`, view, { label: 'Its top, above ground' }),
      ),
    ],
    removeButton('site.obstructions', index, name),
  );
}

export function inTheWay(view) {
  const list = view.draft.site.obstructions;
  return h(
    'div',
    { class: 'sheet' },
    h('h2', {}, 'In the way'),
    h(
      'p',
      { class: 'hint' },
      'Taps, downpipes, meters, vents, windows, doors: anything on the walls that needs room or stands out.',
    ),
    list.map((_, index) => obstruction(view, index)),
    button(
      list.length ? 'Add another thing' : 'Add a thing in the way',
      'add-line',
      { list: 'site.obstructions' },
      { class: 'wide' },
    ),
  );
}
