/** The changes that mend a stop or a caution as buttons, and asking for more of them. */
import { mendable, mendableOf, mendLabel, searchedOf, thenFound } from '../logic/mends.js';
import { chosenItems } from '../logic/draft.js';
import { button, h } from './dom.js';

/** The changes that mend one finding. On a price that no longer holds for the job they would say a wrong difference. */
export function mendButtons(view, one) {
  const { quote } = view;
  if (view.quoteIsOld || !mendable(one) || !one.mends?.length) return null;
  const template = view.catalogue.template(chosenItems(view.draft)[one.at]?.template);
  return h(
    'div',
    { class: 'stack noprint', role: 'group', 'aria-label': `Changes that mend: ${one.title}` },
    h('p', { class: 'small' }, 'Take a change, and the price is asked anew:'),
    one.mends.map((mend) => [
      button(
        mendLabel(mend, template, quote.answer.price.currency),
        'take-mend',
        { at: one.at, mend, quote: quote.id },
        { class: 'wide' },
      ),
      mend.measured && h('p', { class: 'small' }, thenFound(mend)),
    ]),
  );
}

const looking = (told) => h('p', { id: 'look-for-mends', tabindex: '-1', role: 'status' }, told);

const LABELS = {
  found: 'Look for other changes that mend it',
  none: 'Look further for a change that mends it',
  '': 'Look for a change that mends it',
};

/** The button that has more changes looked for than come unasked, or how far that is; under the gravest findings. */
export function lookForMends(view, level) {
  const found = mendableOf(view.quote.answer);
  if (found[0]?.level !== level) return null;
  const { pending } = view;
  if (pending && !pending.parked) {
    if (!pending.body.mends) return null;
    return looking(
      view.status.sending
        ? 'Looking for changes that mend it: each one is built and priced. This may take half a minute.'
        : 'Changes that mend it are looked for as soon as the service answers.',
    );
  }
  const searched = searchedOf(found);
  if (view.quote.body.mends && !view.quoteIsOld) {
    return searched === 'found'
      ? looking('The changes that mend it stand above, each with what the whole job then costs more or less.')
      : null;
  }
  const label = view.quoteIsOld ? LABELS[''] : LABELS[searched];
  return button(label, 'look-for-mends', {}, { id: 'look-for-mends', class: 'wide noprint' });
}
