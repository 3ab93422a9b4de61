/** Asking for changes that mend a stop or a caution, and the changes found as buttons. */
import { mendable, mendableOf, mendLabel } from '../logic/mends.js';
import { chosenItems } from '../logic/draft.js';
import { button, h } from './dom.js';

/** The changes that mend one finding. On a price that no longer holds for the job they would say a wrong difference. */
export function mendButtons(view, one) {
  const { quote } = view;
  if (view.quoteIsOld || !mendable(one)) return null;
  if (!one.mends?.length)
    return quote.body.mends && h('p', { class: 'small' }, 'No single change of this piece was found that mends it.');
  const template = view.catalogue.template(chosenItems(view.draft)[one.at]?.template);
  return h(
    'div',
    { class: 'stack noprint', role: 'group', 'aria-label': `Changes that mend: ${one.title}` },
    h('p', { class: 'small' }, 'Take one of these, and the price is asked anew:'),
    one.mends.map((mend) =>
      button(
        mendLabel(mend, template, quote.answer.price.currency),
        'take-mend',
        { at: one.at, mend, quote: quote.id },
        { class: 'wide' },
      ),
    ),
  );
}

const looking = (told) => h('p', { id: 'look-for-mends', tabindex: '-1', role: 'status' }, told);

/** The button that has changes looked for, or how far that is. It stands under the gravest findings. */
export function lookForMends(view, level) {
  const found = mendableOf(view.quote.answer);
  if (found[0]?.level !== level) return null;
  const { pending } = view;
  if (pending && !pending.parked) {
    if (!pending.body.mends) return null;
    return looking(
      view.status.sending
        ? 'Looking for a change that mends it: each one is built and priced. This may take half a minute.'
        : 'A change that mends it is looked for as soon as the service answers.',
    );
  }
  if (view.quote.body.mends && !view.quoteIsOld) {
    return found.some((one) => one.mends?.length)
      ? looking('The changes that mend it stand above, each with what the whole job then costs more or less.')
      : null;
  }
  return button('Look for a change that mends it', 'look-for-mends', {}, { id: 'look-for-mends', class: 'wide noprint' });
}
