/**
 * The paper: made by the service from the quote that is on the screen, then opened, shared or saved.
 * It is made before the tap, because a phone shares a file only on a fresh tap.
 */
import { stopsOf } from '../logic/view.js';
import { button, h, tell } from './dom.js';

function handOver(view) {
  const { paper } = view;
  return h('div', { class: 'stack' },
    paper.canShare && button('Share the paper', 'share-paper', {}, { class: 'primary wide', id: 'share-paper' }),
    h('a', { class: paper.canShare ? 'button wide' : 'button primary wide', id: 'open-paper', href: paper.address, target: '_blank', rel: 'noopener' }, 'Open the paper'),
    h('a', { class: 'button wide', id: 'save-paper', href: paper.address, download: paper.name }, 'Save as a file'),
    h('p', { class: 'small' }, paper.signed ? `Signed by ${paper.signed}.` : 'Not signed yet: it has room to sign by hand.'));
}

/** The pad to sign on. Strokes are kept as points from 0 to 1000 across, so that the paper draws them sharp. */
function signaturePad(view) {
  const canvas = h('canvas', { class: 'pad', width: 1000, height: 380, 'aria-label': 'Sign here with a finger or a pen', role: 'img' });
  const pen = canvas.getContext('2d');
  const strokes = view.signature.strokes;
  let stroke = null;
  const point = (event) => {
    const box = canvas.getBoundingClientRect();
    return [Math.round(((event.clientX - box.left) / box.width) * 1000), Math.round(((event.clientY - box.top) / box.height) * 380)];
  };
  const paint = () => {
    pen.clearRect(0, 0, 1000, 380);
    Object.assign(pen, { lineWidth: 5, lineCap: 'round', lineJoin: 'round', strokeStyle: '#17211b' });
    for (const one of strokes) {
      pen.beginPath();
      one.forEach(([x, y], index) => (index ? pen.lineTo(x, y) : pen.moveTo(x, y)));
      pen.stroke();
    }
  };
  canvas.addEventListener('pointerdown', (event) => {
    canvas.setPointerCapture(event.pointerId);
    stroke = [point(event)];
    strokes.push(stroke);
  });
  canvas.addEventListener('pointermove', (event) => {
    if (!stroke) return;
    for (const one of event.getCoalescedEvents?.() ?? [event]) stroke.push(point(one));
    paint();
  });
  const lift = () => {
    if (stroke) stroke.splice(0, stroke.length, ...thin(stroke));
    stroke = null;
  };
  canvas.addEventListener('pointerup', lift);
  canvas.addEventListener('pointercancel', lift);
  paint();
  return [canvas, h('button', { type: 'button', on: { click: () => { strokes.length = 0; paint(); } } }, 'Wipe the signature')];
}

function sign(view) {
  const { signature } = view;
  const name = h('input', { id: 'sign-name', type: 'text', autocomplete: 'name', value: signature.name, on: { input: (event) => { signature.name = event.target.value; } } });
  const place = h('input', { id: 'sign-place', type: 'text', autocomplete: 'off', value: signature.place, on: { input: (event) => { signature.place = event.target.value; } } });
  return h('details', { id: 'sign' }, h('summary', {}, 'Let the customer sign'), h('div', { class: 'inside' },
    h('p', { class: 'hint' }, 'Type the name, and sign with a finger or a pen. Without a finger the typed name stands alone.'),
    signaturePad(view),
    h('div', { class: 'field' }, h('label', { for: 'sign-name' }, 'Name of the person signing'), name),
    h('div', { class: 'field' }, h('label', { for: 'sign-place' }, 'Place'), place),
    h('button', { type: 'button', class: 'primary wide', on: { click: (event) => tell(event.currentTarget, 'sign') } }, 'Put the signature on the paper'),
    view.signFault && h('p', { class: 'told bad', role: 'alert' }, view.signFault)));
}

const MOST_POINTS = 500;

/** A stroke of at most 500 points: more say nothing and only make the paper heavy. */
function thin(stroke) {
  const every = Math.ceil(stroke.length / MOST_POINTS);
  return stroke.filter((_, index) => index % every === 0 || index === stroke.length - 1);
}

/** The part of the price step about the paper. */
export function drawPaper(view) {
  const held = stopsOf(view.quote.answer);
  if (held.length) {
    return h('div', { class: 'sheet faults-box' }, h('h2', {}, 'No paper yet'), h('p', {}, `${held.length === 1 ? 'A stop holds' : `${held.length} stops hold`} the paper back: ${held.map((one) => one.title).join('; ')}.`));
  }
  return h('div', { class: 'sheet noprint' }, h('h2', {}, 'The paper'),
    view.paper && handOver(view),
    !view.paper && view.paperFault && [h('p', { role: 'alert' }, view.paperFault), button('Make the paper', 'make-paper', {}, { class: 'primary wide' })],
    !view.paper && !view.paperFault && h('p', {}, 'The paper is being made.'),
    sign(view));
}
