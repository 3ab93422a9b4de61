/** Findings of a quote: stops before everything, cautions and what nobody checked open, the rest folded by kind. */
import { ownMend } from '../logic/mends.js';
import { findingsOf, hasShopSide, levelWord, overrideKey, stopsOf } from '../logic/view.js';
import { button, fold, h } from './dom.js';
import { field } from './field.js';
import { lookForMends, mendButtons } from './mends.js';

/** One finding: what was found, against which limit, what would mend it, and who says so. */
export function finding(view, one) {
  const level = one.level.replace(' ', '-');
  const mend = ownMend(one);
  return h(
    'div',
    { class: `finding ${level}` },
    h(
      'p',
      {},
      h('span', { class: 'level' }, `${levelWord(one.level)}: `),
      h('b', {}, one.title),
      one.item && ` (${one.item})`,
    ),
    one.detail && h('p', {}, one.detail),
    (one.measured || one.limit) &&
      h(
        'p',
        { class: 'small' },
        [one.measured && `Found: ${one.measured}`, one.limit && `Limit: ${one.limit}`].filter(Boolean).join('. '),
      ),
    mend && h('p', {}, h('b', {}, 'What would mend it: '), mend),
    mendButtons(view, one),
    one.source && h('p', { class: 'small' }, `Source: ${one.source}`),
  );
}

const FOLDS = [
  ['note', 'noted', 'Notes'],
  ['ok', 'checked', 'Checked and fine'],
];

export function findings(view, quote) {
  const told = (one) => finding(view, one);
  const all = findingsOf(quote);
  // Which parts go in stands beside what does not go in whole.
  const grave = all.filter((one) => one.level === 'caution' || (one.level === 'note' && one.rule === 'way in'));
  const open = all.filter((one) => one.level === 'not checked');
  const rest = all.filter((one) => one.level !== 'stop' && !grave.includes(one) && !open.includes(one));
  return [
    grave.length > 0 &&
      h('div', { class: 'stack' }, h('h2', {}, 'To be minded'), grave.map(told), lookForMends(view, 'caution')),
    open.length > 0 &&
      h('div', { class: 'stack', id: 'unchecked' }, h('h2', {}, 'Not checked: look yourself'), open.map(told)),
    rest.length > 0 &&
      h(
        'div',
        { class: 'sheet' },
        FOLDS.map(([level, id, title]) => {
          const these = rest.filter((one) => one.level === level);
          return these.length > 0 && fold(id, title, `${these.length}`, these.map(told));
        }),
      ),
  ];
}

/** What stops the job stands before the price, open, answered for or not. */
export function stops(view, quote) {
  const all = findingsOf(quote).filter((one) => one.level === 'stop');
  if (!all.length) return null;
  return h(
    'div',
    { class: 'stack' },
    h('h2', {}, all.length === 1 ? 'One thing stops this job' : `${all.length} things stop this job`),
    all.map((one) => finding(view, one)),
    lookForMends(view, 'stop'),
    (quote.overrides ?? []).map((one) => h('p', {}, h('b', {}, `Answered for in writing (${one.what}): `), one.reason)),
    stopsOf(quote).map((one) => override(view, one)),
  );
}

function override(view, stop) {
  if (!hasShopSide(view.quote.answer)) return null;
  const key = overrideKey(stop.rule);
  return h(
    'div',
    { class: 'sheet noprint' },
    h('h3', {}, `To issue the paper in spite of “${stop.title}”`),
    h('p', { class: 'hint' }, 'The shop answers for it in writing. The reason is printed on the customer’s paper.'),
    field(`overrides.${key}.reason`, view),
    button('Ask again with this reason', 'override', { key, what: stop.rule, to: stop.measured || 'accepted' }),
  );
}
