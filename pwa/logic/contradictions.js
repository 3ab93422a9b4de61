/**
 * Readings that contradict each other, told while the tape is still in hand. The same limits as the
 * service's domain/fit/readings.py; both pass tests/vectors/fits.json. Lengths in nm.
 *
 * @typedef {import('./fit.js').Finding} Finding
 * @typedef {(nm: number) => number} Off the most a reading of that length is off
 */
import { MM } from './measure.js';
import { anglesOf, heldSides, say, takes, toNm, uncertaintyOf, wallOf } from './space.js';

const SAME_PLACE = 25 * MM;
const APART = 40 * MM;
const STEEP = 0.1;

/** @param {any} site @param {any} shop @param {'in'|'mm'} units @returns {Finding[]} */
export function siteFindings(site, shop, units) {
  const mark = toNm(shop.fitting.reading);
  /** @type {Off} */
  const off = (nm) => uncertaintyOf(nm, site.tape_class || shop.fitting.tape_class, mark);
  const walls = (site.walls ?? []).map((/** @type {any} */ w) => ({ side: 'back', ...w }));
  return [
    ...walls.flatMap((/** @type {any} */ w) => [
      ...apart(w.readings ?? [], `${w.side} wall`, off, units), ...leaning(w, units), ...misplaced(w, off)]),
    ...apart(site.depths ?? [], 'depth', off, units),
    ...(site.corners ?? []).flatMap((/** @type {any} */ c) => corner(c, off, units)),
    ...frontAgainstCorners(site, off, units),
  ];
}

/** @param {string} title @param {string} detail @param {string} mend @param {string} level @returns {Finding} */
const finding = (title, detail, mend, level = 'caution') => ({ rule: 'readings', level, title, detail, mend });

/** @template T @param {T[]} list @returns {[T, T][]} */
const pairs = (list) => list.flatMap((a, i) => list.slice(i + 1).map((b) => /** @type {[T, T]} */ ([a, b])));

/** @param {any} a @param {any} b a place not said is only like another not said */
function near(a, b) {
  const [x, y] = [a ?? null, b ?? null];
  return x === null || y === null ? x === y : Math.abs(toNm(x) - toNm(y)) <= SAME_PLACE;
}

/** @param {any[]} readings @param {string} name @param {Off} off @param {'in'|'mm'} units */
function apart(readings, name, off, units) {
  const mend = `Measure the ${name} again, and say at what height and depth.`;
  const said = (/** @type {number} */ nm) => `The ${name}: two readings differ by ${say(nm, units)}.`;
  for (const [a, b] of pairs(readings)) {
    const [one, other] = [toNm(a.value), toNm(b.value)];
    const same = ['at_height', 'at_depth', 'at_along'].every((at) => near(a[at], b[at]));
    if (same && Math.abs(one - other) > off(one) + off(other)) {
      return [finding('Two readings of one place disagree', said(Math.abs(one - other)), mend)];
    }
  }
  const values = readings.map((r) => toNm(r.value));
  const spread = values.length ? Math.max(...values) - Math.min(...values) : 0;
  return spread > APART ? [finding('The readings are far apart', said(spread), mend)] : [];
}

/** @param {any} wall @param {'in'|'mm'} units */
function leaning(wall, units) {
  const [by, over] = [Math.abs(toNm(wall.out_of_plumb ?? 0)), toNm(wall.plumb_over ?? 0)];
  if (over <= 0 || by <= STEEP * over) return [];
  return [finding('A wall leans more than walls do',
    `The ${wall.side} wall is said to lean ${say(by, units)} over ${say(over, units)}.`,
    `Hold the level against the ${wall.side} wall again.`)];
}

/** @param {any} wall @param {Off} off */
function misplaced(wall, off) {
  const longest = Math.max(-1, ...(wall.readings ?? []).map((/** @type {any} */ r) => toNm(r.value)));
  return (wall.obstructions ?? []).flatMap((/** @type {any} */ thing) => {
    const [from, to] = [toNm(thing.from), toNm(thing.to)];
    const beyond = longest >= 0 && to > longest + off(longest);
    const inverted = thing.top !== undefined && thing.top !== null && toNm(thing.bottom ?? 0) > toNm(thing.top);
    if (from <= to && !beyond && !inverted) return [];
    const why = from > to ? 'ends before it begins'
      : beyond ? 'reaches beyond the wall' : 'has its top below its bottom';
    return [finding('A thing on a wall cannot be where it is said to be', `The ${wall.side} wall: the ${thing.kind} ${why}.`,
      `Measure the ${thing.kind} again from the left end of the wall.`)];
  });
}

/** @param {any} read @param {Off} off @param {'in'|'mm'} units */
function corner(read, off, units) {
  const mend = `Measure the ${read.at} corner again.`;
  for (const d of read.diagonals ?? []) {
    const [a, b, c] = [toNm(d.along), toNm(d.out), toNm(d.across)];
    const loose = off(a) + off(b) + off(c);
    if (c > a + b + loose || c < Math.abs(a - b) - loose) {
      return [finding('Three readings of a corner make no triangle',
        `The ${read.at} corner: ${say(a, units)}, ${say(b, units)} and ${say(c, units)} cannot meet.`, mend, 'stop')];
    }
  }
  const disagree = pairs(anglesOf(read, off)).some(([a, b]) => a.least > b.most || b.least > a.most);
  return disagree ? [finding('Two readings of a corner disagree',
    `The ${read.at} corner comes out at two angles further apart than the readings allow.`, mend)] : [];
}

/** @param {any} site @param {Off} off @param {'in'|'mm'} units run, run further out, both corners: three give the fourth */
function frontAgainstCorners(site, off, units) {
  const held = heldSides(site);
  const known = (site.corners ?? []).filter((/** @type {any} */ c) => held.includes(c.at))
    .map((/** @type {any} */ c) => anglesOf(c, off)).filter((/** @type {any[]} */ angles) => angles.length);
  if (held.length < 2 || known.length < 2) return [];
  const sum = (/** @type {(angles: any[]) => number} */ of) =>
    known.reduce((/** @type {number} */ total, /** @type {any[]} */ angles) => total + takes(of(angles)), 0);
  const most = sum((angles) => Math.min(...angles.map((a) => a.least)));
  const least = sum((angles) => Math.max(...angles.map((a) => a.most)));
  const depthOf = (/** @type {any} */ r) => toNm(r.at_depth ?? 0);
  const readings = [...(wallOf(site, 'back')?.readings ?? [])].sort((a, b) => depthOf(a) - depthOf(b));
  for (const [a, b] of pairs(readings)) {
    const deep = depthOf(b) - depthOf(a);
    const [one, other] = [toNm(a.value), toNm(b.value)];
    const loose = off(one) + off(other);
    const fitting = other >= one - most * deep - loose && other <= one - least * deep + loose;
    if (deep > SAME_PLACE && near(a.at_height, b.at_height) && !fitting) {
      return [finding('Width further out and corners disagree',
        `By the corners the run ${say(depthOf(b), units)} out is not ${say(other, units)}.`,
        'Measure the width further out and both corners again.')];
    }
  }
  return [];
}
