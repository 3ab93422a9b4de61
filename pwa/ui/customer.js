/** Step 4: who it is for, how it gets there, and what else is on the bill. The address asked here is the site's. */
import { button, fold, h, redraw, sheet } from './dom.js';
import { field, tick } from './field.js';

function extra(view, index) {
  return h(
    'div',
    { class: 'line' },
    field(`extras.${index}.text`, view),
    field(`extras.${index}.amount`, view),
    tick(`extras.${index}.untaxed`, 'Without tax', view),
    button(
      'Remove',
      'remove-line',
      { list: 'extras', index, what: 'extra' },
      { 'aria-label': `Remove extra ${index + 1}` },
    ),
  );
}

function delivery(view) {
  return sheet(
    'Delivery',
    field('delivery.distance', view),
    tick('delivery.install', 'Set up in place', view),
    field('delivery.crew', view),
    field('wantedBy', view),
  );
}

function extras(view) {
  const { extras: lines } = view.draft;
  const hint = 'Anything on the bill that is not one of the pieces: taking an old bench away, a cushion.';
  return sheet(
    'Extras',
    h('p', { class: 'hint' }, hint),
    lines.map((_, index) => extra(view, index)),
    button(lines.length ? 'Add another extra' : 'Add an extra', 'add-line', { list: 'extras' }, { class: 'wide' }),
  );
}

function rest(view) {
  const { discount, notes } = view.draft;
  const share = discount.share ? `${discount.share} %` : 'none';
  return sheet(
    '',
    fold('discount', 'Discount', share, field('discount.share', view), field('discount.reason', view)),
    fold('notes', 'Notes for the shop', notes ? 'written' : 'none', field('notes', view)),
  );
}

/** Draw the step. */
export function drawCustomer(root, view) {
  const people = ['customer.name', 'customer.address', 'customer.phone', 'customer.email', 'reference'];
  redraw(
    root,
    h('h1', { id: 'step-title', tabindex: '-1' }, 'Customer and delivery'),
    h(
      'div',
      { class: 'two' },
      sheet(
        'Customer',
        people.map((path) => field(path, view)),
      ),
      h('div', { class: 'stack' }, delivery(view), extras(view), rest(view)),
    ),
  );
}
