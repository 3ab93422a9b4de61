/** Step 2: the piece. Sizes, and at once whether it fits, or the largest that does. Works without signal. */
import { button, fold, h, redraw, tell } from './dom.js';
import { field } from './field.js';
import { sketch } from './sketch.js';

const SIDES = {
  left: 'Left', right: 'Right', along: 'Between the ends', front: 'In front', behind: 'Behind', above: 'Above',
};

/** Buttons for the pieces of a job with more than one. */
export function itemButtons(view) {
  const { draft, catalogue } = view;
  if (draft.items.length < 2) return null;
  return h('div', { class: 'items', role: 'group', 'aria-label': 'Pieces in this job' }, draft.items.map((item, index) => button(
    `${index + 1}. ${catalogue.nameOf(item.template) || 'Not chosen'}`, 'pick-item', { index }, { 'aria-pressed': String(index === draft.item), id: `item-${index}` })));
}

function templates(view) {
  const { draft, catalogue } = view;
  const path = `items.${draft.item}.template`;
  const now = draft.items[draft.item].template;
  if (!catalogue.templates.length) {
    return h('p', { class: 'hint' }, 'The list of pieces has not been fetched on this phone yet. It comes with the first signal and is then kept.');
  }
  return h('fieldset', { class: 'choose' }, h('legend', {}, 'What is to be made?'), h('div', { class: 'options' }, catalogue.templates.map((one) => h('label', {},
    h('input', { type: 'radio', name: 'template', id: `template-${one.id}`, value: one.id, checked: one.id === now, 'data-path': path, 'data-draws': true }),
    h('span', { class: 'words' }, h('b', {}, one.name), h('span', {}, one.summary))))));
}

function clearanceList(trial) {
  return h('ul', { class: 'clearances' }, trial.clearances.map((one) => h('li', {},
    h('b', {}, `${SIDES[one.side] ?? one.side}: ${free(one)}`), `, ${one.needed.text} needed.`, one.binding && h('div', { class: 'small' }, `Decided by: ${one.binding}`))));
}

function largest(view, trial) {
  const { draft } = view;
  const template = view.catalogue.template(draft.items[draft.item].template);
  const label = (name) => template.dimensions.find((one) => one.name === name)?.label ?? name;
  const rows = Object.entries(trial.largest).map(([name, size]) => {
    if (!size) return h('p', {}, `${label(name)}: no size fits while the others stay as they are.`);
    if (Math.abs(size.mm - trial.dimensions[name].mm) < 0.01) return h('p', {}, `${label(name)}: ${size.text} is already the largest.`);
    return button(`${label(name)} ${size.text}: take it`, 'take-sizes', { sizes: { [name]: size } }, { class: 'wide' });
  });
  const best = trial.best && !trial.fits && button(
    `Best set that fits: ${Object.values(trial.best).map((one) => one.text).join(' × ')}: take it`, 'take-sizes', { sizes: trial.best }, { class: 'primary wide' });
  const none = !trial.best && !trial.fits && h('p', { class: 'small' }, 'No size of this piece fits the place as measured.');
  if (trial.fits) return fold('largest', 'Largest that fits', '', h('p', { class: 'hint' }, 'Each with the other sizes as they are.'), rows);
  return h('div', { class: 'stack' }, h('h3', {}, 'Largest that fits, the other sizes as they are'), best, none, rows);
}

/** The verdict in one line; it stays in sight while sizes are typed. */
export function verdictLine(view) {
  const { trial } = view;
  if (!trial) return h('p', { class: 'verdict-line' }, view.trialWants ?? 'Measure the place first.');
  const spare = (one) => one.clearance.mm - one.needed.mm;
  // Behind it stands as near as it may, so that side says nothing unless it fails.
  const telling = trial.clearances.filter((one) => one.side !== 'behind' || spare(one) < 0);
  const [tight] = telling.sort((a, b) => spare(a) - spare(b));
  const where = tight ? ` ${SIDES[tight.side] ?? tight.side}: ${free(tight)}, ${tight.needed.text} needed.` : '';
  const said = trial.fits && trial.stopped ? ` ${trial.findings.find((one) => one.level === 'stop').title}.` : where;
  return h('p', { class: `verdict-line ${colour(trial)}` }, `${headline(trial)}.`, said);
}

/** Never "fits" in green while something stops the piece or was not measured. */
function headline(trial) {
  if (!trial.fits) return 'It does not fit';
  if (trial.stopped) return 'The size fits, but it cannot stand or get there';
  if (trial.unsure) return 'Fits as far as measured';
  return trial.minded ? 'It fits, with a caution' : 'It fits';
}

const colour = (trial) => (!trial.fits || trial.stopped ? 'not' : trial.unsure || trial.minded ? 'doubt' : 'fits');

const free = (one) => (one.clearance.mm < 0 ? `too big by ${one.clearance.text.replace('-', '')}` : `${one.clearance.text} free`);

/** What the phone itself finds about the fit, in words. */
export function verdict(view) {
  const { trial } = view;
  if (!trial) return h('div', { class: 'sheet verdict' }, h('h2', {}, 'Fit'), h('p', {}, view.trialWants ?? 'Measure the place and the phone says here whether the piece fits.'));
  const stops = trial.findings.filter((one) => one.level !== 'ok');
  return h('div', { class: `sheet verdict ${colour(trial)}` }, h('h2', {}, headline(trial)),
    clearanceList(trial),
    trial.positions.length > 0 && !stops.some((one) => one.title.startsWith('Where')) && h('p', { class: 'small' }, `Its left end can stand ${trial.positions.map((one) => `${one.from.text} to ${one.to.text}`).join(', or ')} from the left end of the place.`),
    stops.map((one) => h('p', {}, h('b', {}, `${one.title}. `), [one.detail, one.mend].filter(Boolean).join(' '))),
    h('p', { class: 'small' }, `Tape and readings may be out by ${trial.uncertainty.text}; this is already taken off.`),
    largest(view, trial));
}

/** Draw the step. */
export function drawPiece(root, view) {
  const { draft, catalogue } = view;
  const item = draft.items[draft.item];
  const template = item.template && catalogue.template(item.template);
  redraw(root,
    h('h1', { id: 'step-title', tabindex: '-1' }, 'The piece'), itemButtons(view),
    h('div', { class: 'two' },
      h('div', { class: 'stack' }, h('div', { class: 'sheet' }, templates(view)),
        item.template && !template && h('p', { class: 'hint' }, 'The sizes of this piece have not been fetched on this phone yet.'),
        template && h('div', { class: 'sheet' }, h('h2', {}, 'Sizes'), template.dimensions.map((rule) => sizeField(view, rule)),
          button('Back to the usual sizes', 'usual-sizes', {}, { class: 'plain' }))),
      template && h('div', { class: 'stack stick' }, h('div', { id: 'verdict' }, verdict(view)), h('div', { id: 'sketch' }, sketch(view)), h('div', { id: 'picture' }, picture(view)))),
    template && h('div', { id: 'verdict-line', class: 'pinned', role: 'status' }, verdictLine(view)),
    draft.items.length > 1 && button('Take this piece out of the job', 'remove-line', { list: 'items', index: draft.item, what: 'piece' }, { class: 'wide' }));
}

function sizeField(view, rule) {
  const made = `Made from ${rule.min.text} to ${rule.max.text}.`;
  const path = `items.${view.draft.item}.dimensions.${rule.name}`;
  return h('div', {}, field(path, view, { stepped: true }), h('p', { class: 'small' }, made));
}

const SEEN = { isometric: 'seen at an angle', opened: 'opened, seen at an angle', front: 'seen from the front', side: 'seen from the side', plan: 'seen from above' };

/** The drawing the service made of this item, or why there is none. */
export function picture(view) {
  const { drawing } = view;
  if (!drawing) return h('p', { class: 'hint' }, view.status.offline ? 'The drawing needs signal.' : '');
  const opens = view.catalogue.template(view.draft.items[view.draft.item].template)?.fit.envelope.open_height !== undefined;
  const views = [['isometric', 'Whole'], ...(opens ? [['opened', 'Opened']] : []), ['front', 'Front'], ['side', 'Side'], ['plan', 'From above']];
  return h('figure', { class: 'sheet' },
    h('img', { class: 'drawing', src: drawing.address, alt: `Drawing of the ${drawing.name}, ${SEEN[drawing.view]}` }),
    h('figcaption', { class: 'items', role: 'group', 'aria-label': 'Seen from' }, views.map(([id, label]) => h('button', {
      type: 'button', id: `view-${id}`, 'aria-pressed': String(id === drawing.view), on: { click: (event) => tell(event.currentTarget, 'look', { view: id }) },
    }, label))));
}
