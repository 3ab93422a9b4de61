/** Whether the piece fits, in one line that stays in sight and in full, with the largest sizes that do. */
import { button, fold, h } from './dom.js';

const SIDES = {
  left: 'Left',
  right: 'Right',
  along: 'Between the ends',
  front: 'In front',
  behind: 'Behind',
  wing: 'Beyond its wing',
  across: 'Across from its wing',
  above: 'Above',
};

function clearanceList(trial) {
  return h(
    'ul',
    { class: 'clearances' },
    trial.clearances.map((one) =>
      h(
        'li',
        {},
        h('b', {}, `${SIDES[one.side] ?? one.side}: ${free(one)}`),
        `, ${one.needed.text} needed.`,
        one.binding && h('div', { class: 'small' }, `Decided by: ${one.binding}`),
      ),
    ),
  );
}

function largest(view, trial) {
  const { draft } = view;
  const template = view.catalogue.template(draft.items[draft.item].template);
  const label = (name) => template.dimensions.find((one) => one.name === name)?.label ?? name;
  const rows = Object.entries(trial.largest).map(([name, size]) => {
    if (!size) return h('p', {}, `${label(name)}: no size fits while the others stay as they are.`);
    if (Math.abs(size.mm - trial.dimensions[name].mm) < 0.01)
      return h('p', {}, `${label(name)}: ${size.text} is already the largest.`);
    return button(`${label(name)} ${size.text}: take it`, 'take-sizes', { sizes: { [name]: size } }, { class: 'wide' });
  });
  const best =
    trial.best &&
    !trial.fits &&
    button(
      `Best set that fits: ${Object.values(trial.best)
        .map((one) => one.text)
        .join(' × ')}: take it`,
      'take-sizes',
      { sizes: trial.best },
      { class: 'primary wide' },
    );
  const none =
    !trial.best && !trial.fits && h('p', { class: 'small' }, 'No size of this piece fits the place as measured.');
  if (trial.fits)
    return fold(
      'largest',
      'Largest that fits',
      '',
      h('p', { class: 'hint' }, 'Each with the other sizes as they are.'),
      rows,
    );
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
  const short = tight && spare(tight) < 0;
  const where = tight ? ` ${SIDES[tight.side] ?? tight.side}: ${free(tight)}, ${tight.needed.text} needed.` : '';
  const stop = allOf(trial).find((one) => one.level === 'stop');
  // Room that is enough is no reason: then what stops it is named.
  const mind = trial.fits && !stop ? allOf(trial).filter((one) => one.level === 'caution') : [];
  const see = shortly([...new Set(mind.map((one) => one.title))]);
  const said = stop && !short ? ` ${stop.title}.` : see || (trial.fits || short ? where : '');
  return h('p', { class: `verdict-line ${colour(trial)}` }, `${headline(trial)}.`, said);
}

/** What was found of the readings, then of the piece among them. */
const allOf = (trial) => [...trial.doubts, ...trial.findings];

/** The first two by name: the line must not hide what is typed. */
function shortly(titles) {
  if (!titles.length) return '';
  const more = titles.length > 2 ? `; and ${titles.length - 2} more` : '';
  return ` See: ${titles.slice(0, 2).join('; ')}${more}.`;
}

/** Never "fits" in green while something stops the piece or was not measured. */
function headline(trial) {
  if (!trial.fits && !trial.stopped && !trial.minded && trial.unsure) return 'Not known whether it fits';
  if (!trial.fits) return 'It does not fit';
  if (trial.stopped) return 'The size fits, but something stops it';
  if (trial.unsure) return trial.minded ? 'Fits as far as measured, with a caution' : 'Fits as far as measured';
  return trial.minded ? 'It fits, with a caution' : 'It fits';
}

const colour = (trial) => (!trial.fits || trial.stopped ? 'not' : trial.unsure || trial.minded ? 'doubt' : 'fits');

const free = (one) =>
  one.clearance.mm < 0 ? `too big by ${one.clearance.text.replace('-', '')}` : `${one.clearance.text} free`;

/** What the phone itself finds about the fit, in words. */
export function verdict(view) {
  const { trial } = view;
  if (!trial)
    return h(
      'div',
      { class: 'sheet verdict' },
      h('h2', {}, 'Fit'),
      h('p', {}, view.trialWants ?? 'Measure the place and the phone says here whether the piece fits.'),
    );
  const stops = allOf(trial).filter((one) => one.level !== 'ok');
  return h(
    'div',
    { class: `sheet verdict ${colour(trial)}` },
    h('h2', {}, headline(trial)),
    h('p', {}, trial.verdict),
    clearanceList(trial),
    trial.positions.length > 0 &&
      !stops.some((one) => one.title.startsWith('Where')) &&
      h(
        'p',
        { class: 'small' },
        `Its left end can stand ${trial.positions.map((one) => `${one.from.text} to ${one.to.text}`).join(', or ')} from the left end of the place.`,
      ),
    stops.map((one) => h('p', {}, h('b', {}, `${one.title}. `), [one.detail, one.mend].filter(Boolean).join(' '))),
    h('p', { class: 'small' }, `Tape and readings may be out by ${trial.uncertainty.text}; this is already taken off.`),
    largest(view, trial),
  );
}
