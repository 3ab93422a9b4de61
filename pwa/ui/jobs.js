/** The list of jobs on this phone: open, delete with undo, bring back. */
import { titleOf } from '../logic/draft.js';
import { dayText, money } from '../logic/view.js';
import { button, fold, h, redraw } from './dom.js';

function told(view, draft) {
  if (view.pendingOf(draft.id)) return 'Waiting to send';
  const quote = view.latestQuote(draft.id);
  return quote
    ? `${money(quote.answer.price.total, quote.answer.price.currency)}, valid until ${dayText(quote.answer.valid_until)}`
    : 'No price yet';
}

const pieces = (view, draft) =>
  draft.items
    .map((item) => view.catalogue.nameOf(item.template))
    .filter(Boolean)
    .join(', ') || 'No piece chosen';

function line(view, draft) {
  return h(
    'li',
    {},
    h(
      'a',
      { class: 'open', href: `#/job/${draft.id}` },
      h('b', {}, titleOf(draft)),
      h('span', {}, `${pieces(view, draft)}. ${told(view, draft)}.`),
    ),
    button('Delete', 'delete-job', { id: draft.id }, { 'aria-label': `Delete ${titleOf(draft)}` }),
  );
}

const gone = (draft) =>
  h(
    'li',
    {},
    h('span', { class: 'open' }, titleOf(draft)),
    button('Bring back', 'restore-job', { id: draft.id }, { 'aria-label': `Bring back ${titleOf(draft)}` }),
  );

const KEPT = {
  true: 'The phone has promised to keep these jobs.',
  false:
    'Jobs are kept on this phone only; the phone may clear them when it is short of room. Add the app to the home screen.',
  null: 'Jobs are kept on this phone only.',
};

const labelled = (label, id, attributes, ...after) =>
  h('div', { class: 'field' }, h('label', { for: id }, label), h('input', { id, ...attributes }), after);

function shelf(key) {
  const told = h('p', { class: 'told' }, 'Only needed away from the shop’s own computer. Ask the shop.');
  return fold(
    'settings',
    'Key and safe keeping',
    ' ',
    labelled(
      'Key to the shop’s service',
      'key',
      { type: 'text', autocomplete: 'off', autocapitalize: 'off', spellcheck: 'false', value: key },
      told,
    ),
    button('Keep the key', 'keep-key'),
    h('p', { class: 'hint', id: 'kept' }),
    button('Save all jobs as a file', 'export-jobs'),
    labelled('Bring in jobs from such a file', 'import', { type: 'file', accept: 'application/json,.json' }),
  );
}

let drawn = null;

/** Drawn once: a key half typed or a file being chosen must outlive every new drawing of the list. */
function settings(view) {
  drawn ??= shelf(view.settings.key ?? '');
  drawn.querySelector('summary .told').textContent = view.settings.key ? 'key kept' : '';
  drawn.querySelector('#kept').textContent = KEPT[view.settings.kept] ?? KEPT.null;
  return drawn;
}

/** Draw the list. */
export function drawJobs(root, view) {
  const standing = view.drafts.filter((one) => !one.deleted);
  const deleted = view.drafts.filter((one) => one.deleted);
  redraw(
    root,
    standing.length > 0 &&
      h(
        'ul',
        { class: 'jobs-list' },
        standing.map((draft) => line(view, draft)),
      ),
    deleted.length > 0 &&
      fold('deleted', 'Deleted jobs', `${deleted.length}`, h('ul', { class: 'jobs-list' }, deleted.map(gone))),
    settings(view),
  );
}
