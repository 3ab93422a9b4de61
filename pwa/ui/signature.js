/** The pad to sign on: strokes are kept as points on a sheet of 1000 by 380, so that the paper draws them sharp. */
import { h } from './dom.js';

const [WIDE, HIGH] = [1000, 380];
const MOST_POINTS = 500;

/** A stroke of at most 500 points: more say nothing and only make the paper heavy. */
function thin(stroke) {
  const every = Math.ceil(stroke.length / MOST_POINTS);
  return stroke.filter((_, index) => index % every === 0 || index === stroke.length - 1);
}

/** Where on the sheet a finger is. */
function pointOn(canvas, event) {
  const box = canvas.getBoundingClientRect();
  return [
    Math.round(((event.clientX - box.left) / box.width) * WIDE),
    Math.round(((event.clientY - box.top) / box.height) * HIGH),
  ];
}

function paint(canvas, strokes) {
  const pen = canvas.getContext('2d');
  pen.clearRect(0, 0, WIDE, HIGH);
  Object.assign(pen, { lineWidth: 5, lineCap: 'round', lineJoin: 'round', strokeStyle: '#17211b' });
  for (const one of strokes) {
    pen.beginPath();
    one.forEach(([x, y], index) => (index ? pen.lineTo(x, y) : pen.moveTo(x, y)));
    pen.stroke();
  }
}

function follow(canvas, strokes) {
  let stroke = null;
  canvas.addEventListener('pointerdown', (event) => {
    canvas.setPointerCapture(event.pointerId);
    stroke = [pointOn(canvas, event)];
    strokes.push(stroke);
  });
  canvas.addEventListener('pointermove', (event) => {
    if (!stroke) return;
    for (const one of event.getCoalescedEvents?.() ?? [event]) stroke.push(pointOn(canvas, one));
    paint(canvas, strokes);
  });
  const lift = () => {
    if (stroke) stroke.splice(0, stroke.length, ...thin(stroke));
    stroke = null;
  };
  canvas.addEventListener('pointerup', lift);
  canvas.addEventListener('pointercancel', lift);
}

/** The pad and the button that wipes it. `strokes` is filled in place. */
export function signaturePad(strokes) {
  const canvas = h('canvas', {
    class: 'pad',
    width: WIDE,
    height: HIGH,
    role: 'img',
    'aria-label': 'Sign here with a finger or a pen',
  });
  const wipe = () => {
    strokes.length = 0;
    paint(canvas, strokes);
  };
  follow(canvas, strokes);
  paint(canvas, strokes);
  return [canvas, h('button', { type: 'button', on: { click: wipe } }, 'Wipe the signature')];
}
