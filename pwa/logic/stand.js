/**
 * How a piece stands in a space: clearances, where along the wall, how far off it, what it blocks. The same
 * arithmetic as the service's domain/fit/stand.py and blocked.py. Lengths in nm.
 *
 * @typedef {import('./space.js').Space} Space
 * @typedef {import('./space.js').Thing} Thing
 * @typedef {{length: number, depth: number, height: number, openHeight: number, openFront: number,
 *   openBehind: number, useFront: number}} Envelope
 * @typedef {[number, number]} Span
 * @typedef {{thing: Thing, level: string, span: Span}} Block no part of the piece may come into the span
 * @typedef {{side: string, clearance: number, needed: number, binding: string}} Clearance
 * @typedef {{fits: boolean, gap: number, clearances: Clearance[], positions: Span[], blocked: Block[],
 *   spans: Block[]}} Standing
 */
import { evaluate } from './formula.js';
import { MM } from './measure.js';
import { FOREVER, interpolated, say, up } from './space.js';

const MOST_STAND_OFF = 150 * MM;

/**
 * @param {any} fit the template's fit as served: values, envelope, priority
 * @param {Record<string, number>} sizes nm @param {Record<string, string>} choices @returns {Envelope}
 */
export function envelopeOf(fit, sizes, choices) {
  const budget = { steps: 10_000 };
  /** @type {Record<string, any>} */
  const names = { ...Object.fromEntries(Object.entries(sizes).map(([name, nm]) => [name, nm / MM])), ...choices };
  for (const { name, tree } of fit.values) names[name] = evaluate(tree, names, budget);
  const at = (/** @type {string} */ name, absent = 0) => (Object.hasOwn(fit.envelope, name)
    ? Math.round(evaluate(fit.envelope[name], names, budget) * MM) : absent);
  const height = at('height');
  return {
    length: at('length'), depth: at('depth'), height, openHeight: Math.max(height, at('open_height', height)),
    openFront: Math.max(0, at('open_front')), openBehind: Math.max(0, at('open_behind')),
    useFront: Math.max(0, at('use_front')),
  };
}

/** @param {Envelope} piece @param {Space} space @returns {Standing} */
export function stand(piece, space) {
  const tried = gaps(piece, space).map((gap) => standAt(piece, space, gap));
  return tried.find((t) => t.positions.length) ?? tried[0];
}

/** @param {Envelope} piece @param {Space} space @returns {number[]} distances off the wall worth trying */
function gaps(piece, space) {
  const least = leastGap(piece, space);
  const solid = new Set(space.things.filter((t) => t.wall === 'back' && t.rule.solid)
    .map((t) => t.out + piece.openBehind));
  return [least, ...[...solid].filter((g) => least < g && g <= least + MOST_STAND_OFF).sort((a, b) => a - b)];
}

/** @param {Envelope} piece @param {Space} space */
const neededBehind = (piece, space) => Math.max(space.backHeld ? space.airflow : 0, piece.openBehind);

/** @param {number} lean @param {number} height */
const leanIn = (lean, height) => up(Math.max(0, lean) * height);

/** @param {Envelope} piece @param {Space} space @returns {number} */
export function leastGap(piece, space) {
  if (!space.backHeld) return piece.openBehind;
  return neededBehind(piece, space) + leanIn(space.backLean, piece.openHeight);
}

/** @param {Envelope} piece @param {Space} space @param {number} gap @returns {Standing} */
function standAt(piece, space, gap) {
  const front = gap + piece.depth;
  const taken = [space.left, space.right].map((side) => (side.held
    ? up(Math.max(0, side.closing) * front) + up(Math.max(0, side.lean) * piece.height) : 0));
  const run = shortest(space, piece.height, front);
  const right = run === null ? null : run.nm - taken[1];
  const spans = blocks({ piece, gap, front, left: taken[0], right }, space);
  const clearances = clearancesOf(piece, space, gap, run, taken[0] + taken[1]);
  const roomy = clearances.every((c) => c.clearance >= c.needed);
  if (right === null) {
    return { fits: roomy && space.kind !== 'between walls', gap, clearances, positions: [], blocked: [], spans };
  }
  const allow = [space.left, space.right].map((side) => (side.held ? space.allowance : 0));
  const [positions, blocked] = places([taken[0] + allow[0], right - allow[1] - piece.length], piece.length, spans);
  return { fits: roomy && positions.length > 0, gap, clearances, positions, blocked, spans };
}

/** @param {Span} base @param {number} length @param {Block[]} spans @returns {[Span[], Block[]]} */
function places(base, length, spans) {
  const clearOf = (/** @type {string[]} */ ...levels) =>
    free(base, length, spans.filter((b) => levels.includes(b.level)).map((b) => b.span));
  const near = (/** @type {string} */ level, /** @type {Span[]} */ found) =>
    spans.filter((b) => b.level === level && touches(b, found, length));
  const all = clearOf('solid', 'stop', 'caution');
  if (all.length) return [all, []];
  const most = clearOf('solid', 'stop');
  if (most.length) return [most, near('caution', most)];
  return [[], near(clearOf('solid').length ? 'stop' : 'solid', [base])];
}

/** @param {Block} block @param {Span[]} found @param {number} length */
const touches = (block, found, length) =>
  found.some(([a, b]) => a <= b && a < block.span[1] && b + length > block.span[0]);

/** @param {Span} base @param {number} length @param {Span[]} spans @returns {Span[]} touching is free */
export function free(base, length, spans) {
  let left = base[0] <= base[1] ? [base] : [];
  for (const [start, high] of spans) {
    const low = start - length;
    left = left.flatMap(([a, b]) => (b <= low || a >= high ? [/** @type {Span} */ ([a, b])]
      : /** @type {Span[]} */ ([[a, low], [high, b]]).filter(([from, to]) => from <= to)));
  }
  return left;
}

/** @param {Space} space @param {number} height @param {number} depth @returns {import('./space.js').Run|null} */
function shortest(space, height, depth) {
  const brought = interpolated(space.runs, height, depth).map((run) => {
    let more = 0;
    for (const side of [space.left, space.right].filter((s) => s.held)) {
      const [high, out] = [run.height ?? (side.lean < 0 ? height : 0), run.depth ?? 0];
      more += side.lean * (side.lean > 0 ? Math.min(high, height) : high);
      more += side.opening * (side.opening > 0 ? Math.min(out, depth) : out);
    }
    return { ...run, nm: run.nm - up(-more) };
  });
  return brought.length ? brought.reduce((least, r) => (r.nm < least.nm ? r : least)) : null;
}

/** @param {Envelope} piece @param {Space} space @param {number} gap @param {import('./space.js').Run|null} run
 *  @param {number} taken @returns {Clearance[]} */
function clearancesOf(piece, space, gap, run, taken) {
  const found = [];
  if (run) {
    const less = taken ? `, less ${say(taken, space.units)} for corners and lean` : '';
    found.push({ side: 'along', clearance: run.nm - taken - piece.length, needed: space.held * space.allowance,
      binding: run.words + less });
  }
  const depths = interpolated(space.depths, piece.height, FOREVER);
  if (depths.length) {
    const depth = depths.reduce((least, r) => (r.nm < least.nm ? r : least));
    const use = space.kind === 'between walls' ? 0 : piece.useFront;
    found.push({ side: 'front', clearance: depth.nm - gap - piece.depth,
      needed: Math.max(piece.openFront, use, space.walkway), binding: depth.words });
  }
  if (space.backHeld) {
    const lean = leanIn(space.backLean, piece.openHeight);
    found.push({ side: 'behind', clearance: gap - lean, needed: neededBehind(piece, space),
      binding: lean ? `back wall, which leans in ${say(lean, space.units)}` : 'back wall' });
  }
  if (space.under) {
    found.push({ side: 'above', clearance: space.under.nm - piece.openHeight, needed: 0, binding: space.under.words });
  }
  return found;
}

/**
 * @param {{piece: Envelope, gap: number, front: number, left: number, right: number|null}} stance
 * @param {Space} space @returns {Block[]} every span a thing takes, by its body and by the room it wants
 */
function blocks(stance, space) {
  return space.things.flatMap((thing) => {
    const [solid, zone] = [body(thing, stance), room(thing, stance)];
    return [...(solid ? [{ thing, level: 'solid', span: solid }] : []),
      ...(zone ? [{ thing, level: thing.rule.level, span: zone }] : [])];
  });
}

/** @param {Thing} thing @param {any} stance @returns {Span|null} the thing itself against the piece, also open */
function body(thing, { piece, gap, front, left, right }) {
  if (!thing.rule.solid || thing.bottom >= piece.openHeight) return null;
  const behind = gap - piece.openBehind;
  if (thing.wall === 'back') return behind < thing.out ? [thing.from, thing.to] : null;
  const meets = thing.from < front + piece.openFront && thing.to > behind;
  return meets ? fromSide(thing, left, right, thing.out) : null;
}

/** @param {Thing} thing @param {any} stance @returns {Span|null} the room around it against the shut piece */
function room(thing, { piece, gap, front, left, right }) {
  const { rule } = thing;
  if (thing.bottom - rule.below >= piece.height) return null;
  const [start, end, out] = [thing.from - rule.sides, thing.to + rule.sides, thing.out + rule.front];
  if (thing.wall === 'back') return gap < out ? [start, end] : null;
  return start < front && end > gap ? fromSide(thing, left, right, out) : null;
}

/** @param {Thing} thing @param {number} left @param {number|null} right @param {number} out @returns {Span|null} */
function fromSide(thing, left, right, out) {
  if (out <= 0) return null;
  if (thing.wall === 'left') return [-FOREVER, left + out];
  return right === null ? null : [right - out, FOREVER];
}
