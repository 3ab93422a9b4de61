/** Step 4: who it is for, how it gets there, and what else is on the bill. The address asked here is the site's. */
import { button, fold, h, redraw } from './dom.js';
import { field, tick } from './field.js';

function extra(view, index) {
  return h('div', { class: 'line' }, field(`extras.${index}.text`, view), field(`extras.${index}.amount`, view),
    tick(`extras.${index}.untaxed`, 'Without tax', view),
    button('Remove', 'remove-line', { list: 'extras', index, what: 'extra' }, { 'aria-label': `Remove extra ${index + 1}` }));
}

/** Draw the step. */
export function drawCustomer(root, view) {
  const { draft } = view;
  redraw(root,
    h('h1', { id: 'step-title', tabindex: '-1' }, 'Customer and delivery'),
    h('div', { class: 'two' },
      h('div', { class: 'sheet' }, h('h2', {}, 'Customer'), field('customer.name', view), field('customer.address', view), field('customer.phone', view), field('customer.email', view), field('reference', view)),
      h('div', { class: 'stack' },
        h('div', { class: 'sheet' }, h('h2', {}, 'Delivery'), field('delivery.distance', view), tick('delivery.install', 'Set up in place', view),
          field('delivery.crew', view), field('wantedBy', view)),
        h('div', { class: 'sheet' }, h('h2', {}, 'Extras'), h('p', { class: 'hint' }, 'Anything on the bill that is not one of the pieces: taking an old bench away, a cushion.'),
          draft.extras.map((_, index) => extra(view, index)), button(draft.extras.length ? 'Add another extra' : 'Add an extra', 'add-line', { list: 'extras' }, { class: 'wide' })),
        h('div', { class: 'sheet' }, fold('discount', 'Discount', draft.discount.share ? `${draft.discount.share} %` : 'none', field('discount.share', view), field('discount.reason', view)),
          fold('notes', 'Notes for the shop', draft.notes ? 'written' : 'none', field('notes', view))))));
}
