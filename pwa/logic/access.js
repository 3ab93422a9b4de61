/**
 * Whether the whole piece can be carried in through every narrow place: tried on each of its sides, and tilted;
 * an L as the L it is too. The same arithmetic as the service's domain/fit/access.py. Lengths in nm.
 *
 * @typedef {[number, number, number]} Box up, across, along
 */
import { INCH } from './measure.js';
import { lOutline, longerLeg, narrowest, roundThePost, turnsRound } from './outline.js';
import { say, toNm } from './space.js';
import { wholeDepth } from './stand.js';

const ROOM = 2 * INCH;
const STEEP = 7.75 / 10;
const STEPS = 48;
const CLOSER = 60;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const WAYS = /** @type {[number, number, number, string][]} */ ([[2, 1, 0, 'upright'], [1, 2, 0, 'on its back'],
  [2, 0, 1, 'upright, broadside'], [1, 0, 2, 'on its back, broadside'], [0, 1, 2, 'on end'], [0, 2, 1, 'on end, turned']]);

const LEG_FIRST = 'upright, one leg first and then turned round the post';
const ROUND = 'level, one leg first and then round the corner, turned over where the corner is to the other hand';

/** @param {any} access @returns {{wide: number, onward: number, high: number}} what it leaves, less what is kept to spare */
function roomOf(access) {
  const high = access.height === undefined || access.height === null ? Infinity : toNm(access.height) - ROOM;
  return { wide: toNm(access.width) - ROOM, onward: toNm(access.width_after ?? access.width) - ROOM, high };
}

/** @param {number} high @returns {number} the headroom over stairs taken square to them */
const overStairs = (high) => high / Math.hypot(1, STEEP);

/** @param {number[]} sizes length, depth, height @param {any} access @returns {string|null} how, in words; null = not */
export function carried(sizes, access) {
  const { wide, onward, high } = roomOf(access);
  const measured = Number.isFinite(high);
  for (const tilted of measured ? [false, true] : [false]) {
    for (const [up, across, along, words] of WAYS) {
      const box = /** @type {Box} */ ([sizes[up], sizes[across], sizes[along]]);
      const onEnd = box[0] === Math.max(...sizes) && box[0] > Math.min(...sizes);
      if ((measured || !onEnd) && goes(access.kind, box, wide, onward, high, tilted)) {
        return tilted ? `${words}, tilted` : words;
      }
    }
  }
  return null;
}

/** @param {string} kind @param {Box} box @param {number} wide @param {number} onward @param {number} high
 *  @param {boolean} tilted @returns {boolean} */
function goes(kind, box, wide, onward, high, tilted) {
  if (kind === 'turn') return (tilted ? tilts(box, high) : [box]).some((b) => turns(b, wide, onward, high));
  const [up, across, along] = box;
  if (kind === 'stairs') {
    const square = overStairs(high);
    if (tilted) return rectangleIn(across, up, wide, square);
    return across <= wide && (up <= square || up + along * STEEP <= high);
  }
  return tilted ? rectangleIn(across, up, wide, high) : across <= wide && up <= high;
}

/** Carver's condition, see domain/fit/access.py.
 *  @param {number} one @param {number} other @param {number} wide @param {number} high @returns {boolean} */
export function rectangleIn(one, other, wide, high) {
  const [p, q, a, b] = [Math.max(one, other), Math.min(one, other), Math.max(wide, high), Math.min(wide, high)];
  if (q > b) return false;
  if (p <= a) return true;
  const square = p * p + q * q;
  return b >= (2 * p * q * a + (p * p - q * q) * Math.sqrt(square - a * a)) / square;
}

/** @param {Box} box @param {number} high @returns {Box[]} with one end raised, and rolled on an edge */
function tilts([up, across, along], high) {
  const may = (/** @type {number} */ side) => up <= high && high < Math.hypot(side, up);
  return [
    .../** @type {Box[]} */ (may(along) ? [[high, across, tiltedSide(along, up, high)]] : []),
    .../** @type {Box[]} */ (may(across) ? [[high, tiltedSide(across, up, high), along]] : [])];
}

/** @param {number} side @param {number} up @param {number} high @returns {number} in plan, raised until it is high */
function tiltedSide(side, up, high) {
  const t = Math.asin(high / Math.hypot(side, up)) - Math.atan2(up, side);
  return side * Math.cos(t) + up * Math.sin(t);
}

/** @param {Box} box @param {number} wide @param {number} onward @param {number} high @returns {boolean} */
function turns([up, across, along], wide, onward, high) {
  if (up > high) return false;
  if ((across <= wide && along <= onward) || (along <= wide && across <= onward)) return true;
  return across <= Math.min(wide, onward) && along <= longestRound(wide, onward, across);
}

/** @param {number} wide @param {number} onward @param {number} across @returns {number} the longest that turns */
export function longestRound(wide, onward, across) {
  const room = (/** @type {number} */ t) =>
    (wide * Math.sin(t) + onward * Math.cos(t) - across) / (Math.sin(t) * Math.cos(t));
  const step = Math.PI / 2 / STEPS;
  let best = step;
  for (let n = 2; n < STEPS; n += 1) if (room(n * step) < room(best)) best = n * step;
  let [low, high] = [Math.max(best - step, step / 100), Math.min(best + step, Math.PI / 2 - step / 100)];
  for (let n = 0; n < CLOSER; n += 1) {
    const [a, b] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    if (room(a) <= room(b)) high = b;
    else low = a;
  }
  return Math.min(room((low + high) / 2), room(best));
}

/** @param {import('./stand.js').Envelope} piece @param {any} access
 *  @returns {string|null} an L as the box around it first, then as the L it is */
export function carriedWhole(piece, access) {
  const boxed = carried([piece.length, wholeDepth(piece), piece.height], access);
  const outline = lOutline(piece);
  if (boxed || !outline) return boxed;
  const { wide, onward, high } = roomOf(access);
  if (piece.height > (access.kind === 'stairs' ? overStairs(high) : high)) return null;
  if (access.kind === 'turn') return turnsRound(outline, wide, onward) ? ROUND : null;
  if (narrowest(outline) <= wide) return 'upright, askew';
  return access.kind === 'gate' && roundThePost(piece, wide) ? LEG_FIRST : null;
}

/** @param {any} access @returns {string} without a height nothing is stood on end or tilted */
const heightless = (access) => (Number.isFinite(roomOf(access).high) ? ''
  : ' Its height was not measured, so on end and tilted were not tried: measure it.');

/** @param {import('./stand.js').Envelope} piece @param {any} access @param {'in'|'mm'} units
 *  @returns {import('./fit.js').Finding} */
export function wayIn(piece, access, units) {
  const sizes = [piece.length, wholeDepth(piece), piece.height];
  const how = carriedWhole(piece, access);
  if (how) {
    const free = how === LEG_FIRST ? ` That takes ${say(longerLeg(piece), units)} of free ground on both sides of it.` : '';
    return { rule: 'way in', level: 'ok', title: 'It can be carried in',
      detail: `The whole piece passes the ${access.kind}, carried ${how}.${free}`, mend: '' };
  }
  const size = [...sizes].sort((a, b) => a - b).map((nm) => say(nm, units)).join(' x ');
  return { rule: 'way in', level: 'caution', title: `It may not go through the ${access.kind} whole`,
    detail: `The piece is ${size}; the ${access.kind} is too small for it.${heightless(access)}`,
    mend: 'Deliver it in parts: the quote says which, and prices the work on site. Or find another way in.' };
}
