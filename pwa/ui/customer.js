/** Step 4: who it is for, how it gets there, and what else is on the bill. The address asked here is the site's. */
import { button, fold, h, redraw, sheet } from './dom.js';
import { field, pick, tick } from './field.js';

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

function boards(view, index) {
  const line = view.draft.rack[index];
  const timbers = (view.catalogue.shop?.timbers ?? []).map(({ id, name }) => ({ id, label: name }));
  return h(
    'div',
    { class: 'line', role: 'group', 'aria-label': `Boards ${index + 1}` },
    pick(`rack.${index}.timber`, 'Timber', [{ id: '', label: 'That of the piece' }, ...timbers], view, { draws: false }),
    field(`rack.${index}.section`, view, { label: 'Section' }),
    field(`rack.${index}.length`, view, { label: 'Length of one' }),
    field(`rack.${index}.count`, view, { label: 'How many' }),
    button(
      'Remove',
      'remove-line',
      { list: 'rack', index, what: 'boards' },
      { 'aria-label': `Remove boards ${index + 1}: ${line.section || 'not named'}` },
    ),
  );
}

function rack(view) {
  const lines = view.draft.rack ?? [];
  return fold(
    'rack',
    'Boards in the rack',
    lines.length ? `${lines.length}` : 'none',
    h('p', { class: 'hint' }, 'What the shop already has. It is cut first where that is cheapest, and not bought.'),
    lines.map((_, index) => boards(view, index)),
    button(lines.length ? 'Add more boards' : 'Add boards', 'add-line', { list: 'rack' }, { class: 'wide' }),
  );
}

function rest(view) {
  const { discount, notes } = view.draft;
  const off = discount.share ? `${discount.share} %` : discount.amount || 'none';
  const fields = ['discount.share', 'discount.amount', 'discount.reason'];
  return sheet(
    '',
    fold(
      'discount',
      'Discount',
      off,
      fields.map((path) => field(path, view)),
    ),
    rack(view),
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
