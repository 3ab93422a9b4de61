/**
 * The paper: made by the service from the quote that is on the screen, then opened, shared or saved.
 * It is made before the tap, because a phone shares a file only on a fresh tap.
 */
import { stopsOf } from '../logic/view.js';
import { button, h, tell } from './dom.js';
import { signaturePad } from './signature.js';

function handOver(view) {
  const { paper } = view;
  return h(
    'div',
    { class: 'stack' },
    paper.canShare && button('Share the paper', 'share-paper', {}, { class: 'primary wide', id: 'share-paper' }),
    h(
      'a',
      {
        class: paper.canShare ? 'button wide' : 'button primary wide',
        id: 'open-paper',
        href: paper.address,
        target: '_blank',
        rel: 'noopener',
      },
      'Open the paper',
    ),
    h('a', { class: 'button wide', id: 'save-paper', href: paper.address, download: paper.name }, 'Save as a file'),
    h(
      'p',
      { class: 'small' },
      paper.signed ? `Signed by ${paper.signed}.` : 'Not signed yet: it has room to sign by hand.',
    ),
  );
}

function sign(view) {
  const { signature } = view;
  const name = h('input', {
    id: 'sign-name',
    type: 'text',
    autocomplete: 'name',
    value: signature.name,
    on: {
      input: (event) => {
        signature.name = event.target.value;
      },
    },
  });
  const place = h('input', {
    id: 'sign-place',
    type: 'text',
    autocomplete: 'off',
    value: signature.place,
    on: {
      input: (event) => {
        signature.place = event.target.value;
      },
    },
  });
  return h(
    'details',
    { id: 'sign' },
    h('summary', {}, 'Let the customer sign'),
    h(
      'div',
      { class: 'inside' },
      h(
        'p',
        { class: 'hint' },
        'Type the name, and sign with a finger or a pen. Without a finger the typed name stands alone.',
      ),
      signaturePad(signature.strokes),
      h('div', { class: 'field' }, h('label', { for: 'sign-name' }, 'Name of the person signing'), name),
      h('div', { class: 'field' }, h('label', { for: 'sign-place' }, 'Place'), place),
      h(
        'button',
        { type: 'button', class: 'primary wide', on: { click: (event) => tell(event.currentTarget, 'sign') } },
        'Put the signature on the paper',
      ),
      view.signFault && h('p', { class: 'told bad', role: 'alert' }, view.signFault),
    ),
  );
}

/** The part of the price step about the paper. */
export function drawPaper(view) {
  const held = stopsOf(view.quote.answer);
  if (held.length) {
    return h(
      'div',
      { class: 'sheet faults-box' },
      h('h2', {}, 'No paper yet'),
      h(
        'p',
        {},
        `${held.length === 1 ? 'A stop holds' : `${held.length} stops hold`} the paper back: ${held.map((one) => one.title).join('; ')}.`,
      ),
    );
  }
  return h(
    'div',
    { class: 'sheet noprint' },
    h('h2', {}, 'The paper'),
    view.paper && handOver(view),
    !view.paper &&
      view.paperFault && [
        h('p', { role: 'alert' }, view.paperFault),
        button('Make the paper', 'make-paper', {}, { class: 'primary wide' }),
      ],
    !view.paper && !view.paperFault && h('p', {}, 'The paper is being made.'),
    sign(view),
  );
}
