/**
 * Outlines in plan carried through narrow places: an L round a corner, or leg first through a gate. The same
 * arithmetic as the service's domain/fit/outline.py, where it is argued. Lengths in nm, angles in radians.
 *
 * @typedef {[number, number]} Spot
 */
import { MM } from './measure.js';
import { wholeDepth } from './stand.js';

const FULL = 2 * Math.PI;
const FINEST = MM;
const POST = 150 * MM;
const TURNS = 720;
const CLEAR = 3;

/** @param {import('./stand.js').Envelope} piece @returns {Spot[]|null} the plan of an L, outer corner at [0, 0] */
export function lOutline(piece) {
  if (piece.wing === 'none') return null;
  const { length: a, depth: b, wingDepth: c, wingLength: d } = piece;
  return [[0, 0], [a, 0], [a, b], [c, b], [c, d], [0, d]];
}

/** @param {Spot} a @param {Spot} b @param {Spot} p */
const leftOf = (a, b, p) => (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);

/** @param {Spot[]} order @returns {Spot[]} half of a convex outline (monotone chain) */
function half(order) {
  const chain = /** @type {Spot[]} */ ([]);
  for (const p of order) {
    while (chain.length > 1 && leftOf(chain[chain.length - 2], chain[chain.length - 1], p) <= 0) chain.pop();
    chain.push(p);
  }
  return chain.slice(0, -1);
}

/** @param {Spot[]} places @returns {Spot[]} the convex outline around them */
function hull(places) {
  const spots = [...places].sort((p, q) => p[0] - q[0] || p[1] - q[1]);
  return [...half(spots), ...half([...spots].reverse())];
}

/** @param {Spot[]} ring @returns {[Spot, Spot][]} */
const sidesOf = (ring) => ring.map((p, n) => [p, ring[(n + 1) % ring.length]]);

/** @param {Spot[]} outline @returns {number[]} turns that lay a side of its hull upright in plan */
const headings = (outline) => sidesOf(hull(outline)).map(([a, b]) => Math.PI / 2 - Math.atan2(b[1] - a[1], b[0] - a[0]));

/** @param {Spot[]} outline @param {number} angle @returns {Spot[]} */
function turned(outline, angle) {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return outline.map(([x, y]) => [x * c - y * s, x * s + y * c]);
}

/** @param {Spot[]} outline @param {0|1} axis */
function extent(outline, axis) {
  const reach = outline.map((p) => p[axis]);
  return Math.max(...reach) - Math.min(...reach);
}

/** @param {Spot[]} outline @returns {number} the least width between two parallel lines around it */
export const narrowest = (outline) => Math.min(...headings(outline).map((t) => extent(turned(outline, t), 0)));

/** @param {Spot[]} outline @param {number} wide @param {number} onward @returns {boolean} */
export const turnsRound = (outline, wide, onward) =>
  rounds(outline, wide, onward) || (wide !== onward && rounds(outline, onward, wide));

/** @param {number} t */
const within = (t) => ((t % FULL) + FULL) % FULL;

/** @param {Spot[]} outline @param {number} wide @param {number} onward @returns {boolean} */
function rounds(outline, wide, onward) {
  const flush = headings(outline).map(within);
  const begins = flush.filter((t) => extent(turned(outline, t), 0) <= wide);
  const first = new Set([...begins, ...begins.map((t) => within(t + Math.PI))]);
  const last = new Set(flush.flatMap((f) => [within(f + Math.PI / 2), within(f - Math.PI / 2)])
    .filter((t) => extent(turned(outline, t), 1) <= onward));
  if (!first.size || !last.size) return false;
  const stops = [...new Set([...first, ...last])].sort((a, b) => a - b);
  const reach = Math.max(...outline.flatMap((p) => outline.map((q) => Math.hypot(p[0] - q[0], p[1] - q[1]))));
  const clear = (/** @type {number} */ a, /** @type {number} */ b) => isFree(outline, wide, onward, a, b, reach);
  const runs = [[stops[0]]];
  for (let n = 1; n < stops.length; n += 1) {
    if (clear(stops[n - 1], stops[n])) runs[runs.length - 1].push(stops[n]);
    else runs.push([stops[n]]);
  }
  if (runs.length > 1 && clear(stops[stops.length - 1], stops[0] + FULL)) runs[0].push(...(runs.pop() ?? []));
  return runs.some((run) => run.some((t) => first.has(t)) && run.some((t) => last.has(t)));
}

/** @param {Spot[]} outline @param {number} wide @param {number} onward @param {number} low @param {number} high
 *  @param {number} reach @returns {boolean} clear of the inner corner at every angle between */
function isFree(outline, wide, onward, low, high, reach) {
  const [middle, side] = [(low + high) / 2, (high - low) / 2];
  const far = into(turned(outline, middle), wide, onward);
  if (far + side * reach <= 0) return true;
  if (far > 0 || side * reach < FINEST) return false;
  return isFree(outline, wide, onward, low, middle, reach) && isFree(outline, wide, onward, middle, high, reach);
}

/** @param {Spot[]} outline @param {number} wide @param {number} onward @returns {number} past the inner corner */
function into(outline, wide, onward) {
  const left = Math.min(...outline.map((p) => p[0])) + wide;
  const low = Math.min(...outline.map((p) => p[1])) + onward;
  const past = outline.map(([x, y]) => /** @type {Spot} */ ([x - left, y - low]));
  let most = Math.max(...past.map((p) => Math.min(...p)));
  for (const [[ax, ay], [bx, by]] of sidesOf(past)) {
    const across = (ax - ay) - (bx - by);
    const share = across ? (ax - ay) / across : 0;
    if (share > 0 && share < 1) most = Math.max(most, ax + share * (bx - ax));
  }
  return most;
}

/** @param {import('./stand.js').Envelope} piece @param {number} wide @returns {boolean} leg first through a gate */
export function roundThePost(piece, wide) {
  const outline = lOutline(piece);
  if (!outline || Math.max(piece.depth, piece.wingDepth) > wide) return false;
  const about = outline.map(([x, y]) => /** @type {Spot} */ ([x - piece.wingDepth, y - piece.depth]));
  const step = Math.PI / 2 / TURNS;
  const swings = (Math.max(...about.map((p) => Math.hypot(...p))) * step) / 2;
  const run = POST + 2 * CLEAR * swings;
  const moves = swings + run / TURNS / 2;
  for (let n = 0; n < TURNS; n += 1) {
    if (inStrip(about, (n + 0.5) * step, CLEAR * swings - (run * (n + 0.5)) / TURNS, moves) > wide) return false;
  }
  return true;
}

/** @param {Spot[]} about @param {number} angle @param {number} from @param {number} more @returns {number} */
function inStrip(about, angle, from, more) {
  const [low, high] = [from - more, from + POST + more];
  const found = [];
  for (const [[ax, ay], [bx, by]] of sidesOf(turned(about, -angle))) {
    if (low <= ay && ay <= high) found.push(ax);
    for (const edge of [low, high]) {
      if ((ay < edge) !== (by < edge)) found.push(ax + ((edge - ay) / (by - ay)) * (bx - ax));
    }
  }
  return found.length ? Math.max(...found) - Math.min(...found) + 2 * more : 0;
}

/** @param {import('./stand.js').Envelope} piece @returns {number} what the longer leg of an L needs free to swing */
export const longerLeg = (piece) => Math.max(piece.length, wholeDepth(piece));
