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

function settings(view) {
  const { settings: set } = view;
  return fold(
    'settings',
    'Key and safe keeping',
    set.key ? 'key kept' : '',
    h(
      'div',
      { class: 'field' },
      h('label', { for: 'key' }, 'Key to the shop’s service'),
      h('input', {
        id: 'key',
        type: 'text',
        autocomplete: 'off',
        autocapitalize: 'off',
        spellcheck: 'false',
        value: set.key ?? '',
      }),
      h('p', { class: 'told' }, 'Only needed away from the shop’s own computer. Ask the shop.'),
    ),
    button('Keep the key', 'keep-key'),
    h(
      'p',
      { class: 'hint' },
      {
        true: 'The phone has promised to keep these jobs.',
        false:
          'Jobs are kept on this phone only; the phone may clear them when it is short of room. Add the app to the home screen.',
      }[set.kept] ?? 'Jobs are kept on this phone only.',
    ),
    button('Save all jobs as a file', 'export-jobs'),
    h(
      'div',
      { class: 'field' },
      h('label', { for: 'import' }, 'Bring in jobs from such a file'),
      h('input', { id: 'import', type: 'file', accept: 'application/json,.json' }),
    ),
  );
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
