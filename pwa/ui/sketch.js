/** A sketch of the place from above, the wall on top: what was measured, what is in the way, where the piece stands. */
import { planOf } from '../logic/plan.js';
import { say } from '../logic/reading.js';
import { h, svg } from './dom.js';

const WIDE = 320;
const EDGE = 34;
const WALL = 8;

function walls(plan, scale, depth) {
  const right = EDGE + plan.widthMm * scale;
  const bar = (x, y, width, height) => svg('rect', { class: 'wall', x, y, width, height });
  return [
    plan.walls.back && bar(EDGE - WALL, EDGE - WALL, plan.widthMm * scale + 2 * WALL, WALL),
    plan.walls.left && bar(EDGE - WALL, EDGE - WALL, WALL, depth + WALL),
    plan.walls.right && bar(right, EDGE - WALL, WALL, depth + WALL),
  ];
}

function box(plan, one, scale) {
  const along = one.fromMm * scale;
  const long = (one.toMm - one.fromMm) * scale;
  const out = Math.max(one.outMm * scale, 4);
  if (one.wall === 'left') return svg('rect', { class: 'thing', x: EDGE, y: EDGE + along, width: out, height: long });
  if (one.wall === 'right')
    return svg('rect', {
      class: 'thing',
      x: EDGE + plan.widthMm * scale - out,
      y: EDGE + along,
      width: out,
      height: long,
    });
  return svg('rect', { class: 'thing', x: EDGE + along, y: EDGE, width: long, height: out });
}

function standing(trial, scale) {
  if (!trial?.envelope || !trial.positions?.length) return null;
  const [{ from, to }] = trial.positions;
  const { envelope } = trial;
  const left = EDGE + ((from.mm + to.mm) / 2) * scale;
  const points = corners(envelope).map(([along, out]) =>
    [left + along * scale, EDGE + (envelope.behindMm + out) * scale].map((one) => one.toFixed(2)).join(','),
  );
  return svg('polygon', { class: 'piece', points: points.join(' ') });
}

/** The corners of the piece from its back left one on, mm along and out from its back: a rectangle or an L. */
function corners({ lengthMm, depthMm, wing, wingLengthMm, wingDepthMm }) {
  if (wing === 'none') return [[0, 0], [lengthMm, 0], [lengthMm, depthMm], [0, depthMm]];
  const wide = [[0, 0], [lengthMm, 0], [lengthMm, depthMm]];
  const ell = [...wide, [wingDepthMm, depthMm], [wingDepthMm, wingLengthMm], [0, wingLengthMm]];
  return wing === 'left' ? ell : ell.map(([along, out]) => [lengthMm - along, out]);
}

function standingInWords(trial) {
  if (!trial?.positions?.length) return [];
  const { wing } = trial.envelope;
  return [wing === 'none' ? 'the piece in its place' : `the piece in its place, its wing on the ${wing}`];
}

/** The sketch, or nothing while no width is known. */
export function sketch(view) {
  const plan = planOf(view.draft, view.catalogue);
  if (!plan) return null;
  const { units } = view.draft;
  const depthMm = plan.depthMm ?? plan.widthMm * 0.45;
  const scale = Math.min((WIDE - 2 * EDGE) / plan.widthMm, 260 / depthMm);
  const depth = depthMm * scale;
  const right = EDGE + plan.widthMm * scale;
  const words = [
    `${say(plan.widthMm, units)} wide`,
    plan.depthMm ? `${say(plan.depthMm, units)} deep` : 'depth not measured',
    ...plan.things.map(
      (one) => `${one.label} ${say(one.fromMm, units)} to ${say(one.toMm, units)} on the ${one.wall} wall`,
    ),
    ...standingInWords(view.trial),
  ];
  const text = (x, y, content, more = {}) => svg('text', { x, y, 'text-anchor': 'middle', ...more }, content);
  return h(
    'figure',
    { class: 'sheet' },
    svg(
      'svg',
      {
        class: 'sketch',
        viewBox: `0 0 ${WIDE} ${depth + EDGE + 30}`,
        role: 'img',
        'aria-label': `The place from above: ${words.join(', ')}`,
      },
      walls(plan, scale, depth),
      plan.things.map((one) => box(plan, one, scale)),
      standing(view.trial, scale),
      svg('path', { class: 'edge', d: `M${EDGE} ${EDGE + depth}H${right}` }),
      text(EDGE + (plan.widthMm * scale) / 2, 18, say(plan.widthMm, units)),
      plan.depthMm &&
        text(right + 24, EDGE + depth / 2, say(plan.depthMm, units), {
          transform: `rotate(90 ${right + 24} ${EDGE + depth / 2})`,
        }),
      text(EDGE + (plan.widthMm * scale) / 2, EDGE + depth + 20, 'front, where you stand'),
    ),
    h('figcaption', { class: 'small' }, 'From above. The smallest readings count.'),
  );
}
