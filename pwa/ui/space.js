/** Step 1: the space as measured. Only what this kind of place has is asked. */
import { heightOf, KINDS, LEVELS } from '../logic/draft.js';
import { depthLabel, runLabel } from '../logic/fields.js';
import { sides } from '../logic/request.js';
import { button, fold, h, redraw } from './dom.js';
import { choose, field, pick } from './field.js';
import { sketch } from './sketch.js';

const UNITS = [{ id: 'in', label: 'Inches' }, { id: 'mm', label: 'Millimetres' }];
const SURFACES = ['', 'paving', 'concrete', 'deck', 'balcony', 'gravel', 'soil', 'grass'];
const WAYS = ['gate', 'passage', 'stairs', 'turn'];
const RUN_HELP = {
  'between walls': 'Take it low, at mid height and high, and once more at the front edge. The smallest one decides.',
  corner: 'From the side wall to where the free place ends: a gate, a step, a path.',
  'against a wall': 'From where the free place begins to where it ends.',
  open: 'How much room there is, left to right.',
};

const remove = (list, index, what) => button('Remove', 'remove-line', { list, index }, { 'aria-label': `Remove ${what}`, class: 'wide' });
const NTH = ['First', 'Second', 'Third', 'Fourth', 'Fifth', 'Sixth'];
const nth = (index) => `${NTH[index] ?? `${index + 1}th`} reading`;

/** What a line of readings is called, and what is known of where it was taken. */
function naming(view, list, index, line) {
  const level = list === 'site.readings' && view.draft.site.kind !== 'open' ? LEVELS[line.level]?.name : '';
  const height = list === 'site.readings' ? heightOf(view.draft, line) : '';
  const told = [height && `${height} up`, line.out && `${line.out} out`, line.along && `${line.along} along`].filter(Boolean).join(', ');
  return { name: level || nth(index), told: told || 'not noted' };
}

function reading(view, list, index, what, ...where) {
  const base = `${list}.${index}`;
  const line = view.draft.site[list.split('.')[1]][index];
  const { name, told } = naming(view, list, index, line);
  const several = view.draft.site[list.split('.')[1]].length > 1;
  return h('div', { class: 'line', role: 'group', 'aria-label': `${what}, ${name.toLowerCase()}` },
    field(`${base}.value`, view, { label: name }),
    fold(`at-${base.replaceAll('.', '-')}`, 'Where taken', told,
      h('div', { class: 'pair' }, where.map((key) => field(`${base}.${key}`, view))),
      several && remove(list, index, `${what}, ${name.toLowerCase()}`)));
}

function readings(view) {
  const { site } = view.draft;
  return [
    h('div', { class: 'sheet' }, h('h2', {}, runLabel(view.draft)), h('p', { class: 'hint' }, RUN_HELP[site.kind]),
      site.readings.map((_, index) => reading(view, 'site.readings', index, runLabel(view.draft), 'height', 'out')),
      button('Add a reading', 'add-line', { list: 'site.readings' }, { class: 'wide' })),
    h('div', { class: 'sheet' }, h('h2', {}, depthLabel(view.draft)), h('p', { class: 'hint' }, 'How far out the piece may stand. Take it at both ends if the place is not even.'),
      site.depths.map((_, index) => reading(view, 'site.depths', index, depthLabel(view.draft), 'along')),
      button('Add a reading', 'add-line', { list: 'site.depths' }, { class: 'wide' })),
  ];
}

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
    how === 'tapes' && h('div', { class: 'stack' }, h('p', { class: 'hint' }, 'Square when along, out and across are as 3, 4 and 5: 36, 48 and 60 in, or 600, 800 and 1000 mm.'),
      field(`${base}.along`, view), field(`${base}.out`, view), field(`${base}.across`, view)),
    how === 'angle' && field(`${base}.angle`, view),
  ];
}

function walls(view) {
  const { site } = view.draft;
  if (site.kind === 'open') return null;
  const parts = sides(site).map((side) => fold(`wall-${side}`, `${side === 'left' ? 'Left' : 'Right'} wall and corner`, toldOf(site[side]),
    cornerPart(view, side), field(`site.${side}.run`, view),
    h('div', { class: 'pair' }, field(`site.${side}.lean`, view), field(`site.${side}.leanOver`, view))));
  const back = fold('wall-back', 'Back wall out of plumb', site.backLean ? 'measured' : 'not measured',
    h('p', { class: 'hint' }, 'Hold a level against the wall: how far does the top lean into the place?'),
    h('div', { class: 'pair' }, field('site.backLean', view), field('site.backLeanOver', view)));
  return h('div', { class: 'sheet' }, h('h2', {}, 'Walls'), h('p', { class: 'hint' }, 'Left and right as you stand in the yard and face the wall.'), parts, back);
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
  return h('div', { class: 'line', role: 'group', 'aria-label': name },
    pick(`${base}.kind`, `What is in the way (${index + 1})`, [{ id: '', label: 'Choose' }, ...kinds], view),
    keep?.advice && h('p', { class: 'hint' }, keep.advice),
    line.kind && [
      onSides.length > 0 && pick(`${base}.wall`, 'On which wall', wallOptions, view),
      h('p', { class: 'hint' }, line.wall === 'back' ? 'From and to: along the wall, from its left end.' : 'From and to: out from the back wall.'),
      h('div', { class: 'pair' }, field(`${base}.from`, view, { label: 'From' }), field(`${base}.to`, view, { label: 'To' })),
      field(`${base}.projection`, view, { label: 'Stands out from the wall' }),
      h('div', { class: 'pair' }, field(`${base}.bottom`, view, { label: 'Its bottom, above ground' }), field(`${base}.top`, view, { label: 'Its top, above ground' })),
    ],
    remove('site.obstructions', index, name));
}

function inTheWay(view) {
  const list = view.draft.site.obstructions;
  return h('div', { class: 'sheet' }, h('h2', {}, 'In the way'),
    h('p', { class: 'hint' }, 'Taps, downpipes, meters, vents, windows, doors: anything on the walls that needs room or stands out.'),
    list.map((_, index) => obstruction(view, index)),
    button(list.length ? 'Add another thing' : 'Add a thing in the way', 'add-line', { list: 'site.obstructions' }, { class: 'wide' }));
}

function ground(view) {
  const { surface } = view.draft.site.ground;
  const surfaces = SURFACES.map((id) => ({ id, label: id ? id[0].toUpperCase() + id.slice(1) : 'Not noted' }));
  return h('div', { class: 'sheet' }, h('h2', {}, 'Ground'),
    pick('site.ground.surface', 'Surface', surfaces, view),
    field('site.ground.fallAlong', view), field('site.ground.fallAway', view), field('site.ground.dropBehind', view),
    (surface === 'deck' || surface === 'balcony') && field('site.ground.allowedLoad', view));
}

function wayIn(view) {
  const list = view.draft.site.access;
  const options = WAYS.map((id) => ({ id, label: id[0].toUpperCase() + id.slice(1) }));
  return h('div', { class: 'sheet' }, h('h2', {}, 'The way in'), h('p', { class: 'hint' }, 'The narrowest places the finished piece must pass.'),
    list.map((line, index) => h('div', { class: 'line' },
      pick(`site.access.${index}.kind`, `Narrow place ${index + 1}`, options, view),
      h('div', { class: 'pair' }, field(`site.access.${index}.width`, view), field(`site.access.${index}.height`, view)),
      remove('site.access', index, line.kind))),
    button(list.length ? 'Add another narrow place' : 'Add a narrow place', 'add-line', { list: 'site.access' }, { class: 'wide' }));
}

/** Readings that do not agree, said while the maker still stands there. */
export function doubts(view) {
  return view.doubts.map((one) => h('div', { class: `finding ${one.level.replace(' ', '-')}` }, h('p', {}, h('b', {}, one.title)), h('p', {}, [one.detail, one.mend].filter(Boolean).join(' '))));
}

/** Draw the step. */
export function drawSpace(root, view) {
  const { site } = view.draft;
  redraw(root,
    h('h1', { id: 'step-title', tabindex: '-1' }, 'The space'),
    h('div', { class: 'sheet' }, choose('units', 'My tape reads', UNITS, view, { side: true })),
    h('div', { class: 'sheet' }, choose('site.kind', 'What is the place like?', KINDS, view),
      site.kind === 'corner' && choose('site.cornerAt', 'Which side has the wall?', [{ id: 'left', label: 'Left' }, { id: 'right', label: 'Right' }], view, { side: true })),
    site.kind && h('div', { class: 'beside' }, readings(view),
      h('div', { class: 'aside stack' }, h('div', { id: 'doubts', role: 'status' }, doubts(view)), h('div', { id: 'sketch' }, sketch(view))),
      walls(view), inTheWay(view), ground(view), wayIn(view),
      h('div', { class: 'sheet' }, h('h2', {}, 'Above and in front'), field('site.heightUnder', view), field('site.walkway', view))));
}
