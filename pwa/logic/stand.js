/**
 * How a piece stands in a space: clearances, where along the wall, how far off it, what it blocks. The same
 * arithmetic as the service's domain/fit/stand.py and blocked.py. Lengths in nm.
 *
 * @typedef {import('./space.js').Space} Space
 * @typedef {import('./space.js').Thing} Thing
 * @typedef {{length: number, depth: number, height: number, openHeight: number, openFront: number,
 *   openBehind: number, useFront: number, wing: string, wingLength: number, wingDepth: number}} Envelope
 * @typedef {[number, number]} Span
 * @typedef {{thing: Thing, level: string, span: Span, stretch: Span}} Block nothing of that stretch of the
 *   piece's length may come into the span
 * @typedef {{side: string, clearance: number, needed: number, binding: string}} Clearance
 * @typedef {{fits: boolean, gap: number, clearances: Clearance[], positions: Span[], blocked: Block[],
 *   spans: Block[], base: Span}} Standing
 */
import { BadFormula, evaluate } from './formula.js';
import { MM } from './measure.js';
import { FOREVER, SIDES, interpolated, say, shortest, up } from './space.js';

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
  const wing = fit.wing ? evaluate(fit.wing, names, budget) : 'none';
  if (![...SIDES, 'none'].includes(wing)) throw new BadFormula(`The wing is at ${wing}; it is left, right or none.`);
  const [out, along] = [at('wing_length'), at('wing_depth')];
  const winged = wing !== 'none' && out > at('depth') && along > 0;
  return {
    length: at('length'), depth: at('depth'), height, openHeight: Math.max(height, at('open_height', height)),
    openFront: Math.max(0, at('open_front')), openBehind: Math.max(0, at('open_behind')),
    useFront: Math.max(0, at('use_front')), wing: winged ? wing : 'none', wingLength: winged ? out : 0,
    wingDepth: winged ? Math.min(along, at('length')) : 0,
  };
}

/** @param {Envelope} piece @param {string} name @returns {number} how far out from its back it reaches at an end */
export const outOf = (piece, name) => (piece.wing === name ? Math.max(piece.depth, piece.wingLength) : piece.depth);

/** @param {Envelope} piece @returns {number} out from its back over all, the wing included */
export const wholeDepth = (piece) => Math.max(...SIDES.map((name) => outOf(piece, name)));

/** @param {Envelope} piece @param {Space} site @returns {Standing} */
export function stand(piece, site) {
  const space = leant(site, piece.openHeight);
  const tried = gaps(piece, space).map((gap) => standAt(piece, space, gap));
  return tried.find((t) => t.positions.length) ?? tried[0];
}

/** @param {Space} space @param {number} height @returns {Space} a wall that leans in carries what is on it */
function leant(space, height) {
  if (space.backLean <= 0) return space;
  const further = (/** @type {Thing} */ t) => {
    const more = leanIn(space.backLean, Math.min(t.top, height));
    return { ...t, body: { ...t.body, out: t.body.out + more }, room: { ...t.room, out: t.room.out + more } };
  };
  return { ...space, things: space.things.map((t) => (t.wall === 'back' ? further(t) : t)) };
}

/** @param {Envelope} piece @param {Space} space @returns {number[]} distances off the wall worth trying */
function gaps(piece, space) {
  const least = leastGap(piece, space);
  const solid = new Set(space.things.filter((t) => t.wall === 'back' && t.rule.solid)
    .map((t) => t.body.out + piece.openBehind));
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
  const ends = [shutEnds(piece, space, gap), openedEnds(piece, space, gap)];
  const run = shortestRun(piece, space, gap);
  const spans = blocks({ piece, gap, run: run && run.nm }, space);
  const clearances = clearancesOf(piece, space, gap, run, ends);
  const roomy = clearances.every((c) => c.clearance >= c.needed);
  if (run === null) {
    return { fits: roomy && space.kind !== 'between walls', gap, clearances, positions: [], blocked: [], spans, base: [0, 0] };
  }
  const [left, other] = [0, 1].map((at) => Math.max(...ends.map((e) => e.taken[at] + e.kept[at])));
  const base = /** @type {Span} */ ([left, run.nm - other - piece.length]);
  const [positions, blocked] = places(base, spans);
  return { fits: roomy && positions.length > 0, gap, clearances, positions, blocked, spans, base };
}

/** @param {Envelope} piece @param {Space} space @param {string} name @returns {number} what an end keeps from a wall */
export function endRoom(piece, space, name) {
  if (!space[/** @type {'left'|'right'} */ (name)].held) return 0;
  return piece.wing === name ? Math.max(space.allowance, space.airflow, piece.openBehind) : space.allowance;
}

/** @typedef {{taken: number[], kept: number[], words: string}} Ends what each end takes of the run and keeps free */

/** @param {Envelope} piece @param {string} name @returns {number} out at an end, with open what opens in front */
const openedOut = (piece, name) => Math.max(outOf(piece, name), piece.depth + piece.openFront);

/** @param {Envelope} piece @param {Space} space @param {number} gap @returns {Ends} the piece shut */
const shutEnds = (piece, space, gap) => ({
  taken: SIDES.map((name) => takenAt(space, name, gap + outOf(piece, name),
    piece.wing === name ? piece.openHeight : piece.height)),
  kept: SIDES.map((name) => endRoom(piece, space, name)),
  words: '',
});

/** @param {Envelope} piece @param {Space} space @param {number} gap @returns {Ends} what opens must not touch */
const openedEnds = (piece, space, gap) => ({
  taken: SIDES.map((name) => takenAt(space, name, gap + openedOut(piece, name), piece.openHeight)),
  kept: SIDES.map((name) =>
    (piece.wing === name && space[/** @type {'left'|'right'} */ (name)].held ? piece.openBehind : 0)),
  words: ', where it opens',
});

/** @param {Space} space @param {string} name @param {number} out @param {number} high @returns {number} */
function takenAt(space, name, out, high) {
  const side = space[/** @type {'left'|'right'} */ (name)];
  return side.held ? up(Math.max(0, side.closing) * out) + up(Math.max(0, side.lean) * high) : 0;
}

/** @param {Span} base @param {Block[]} spans @returns {[Span[], Block[]]} */
function places(base, spans) {
  const clearOf = (/** @type {string[]} */ ...levels) => free(base, spans.filter((b) => levels.includes(b.level)));
  const near = (/** @type {string} */ level, /** @type {Span[]} */ found) =>
    spans.filter((b) => b.level === level && touches(b, found))
      .filter((b, n, met) => met.findIndex((o) => o.thing === b.thing) === n);
  const all = clearOf('solid', 'stop', 'caution');
  if (all.length) return [all, []];
  const most = clearOf('solid', 'stop');
  if (most.length) return [most, near('caution', most)];
  return [[], near(clearOf('solid').length ? 'stop' : 'solid', [base])];
}

/** @param {Block} block @param {Span[]} found */
const touches = ({ span, stretch }, found) =>
  found.some(([a, b]) => a <= b && a + stretch[0] < span[1] && b + stretch[1] > span[0]);

/** @param {Span} base @param {Block[]} taken @returns {Span[]} touching is free */
export function free(base, taken) {
  let left = base[0] <= base[1] ? [base] : [];
  for (const { span, stretch } of taken) {
    const [low, high] = [span[0] - stretch[1], span[1] - stretch[0]];
    left = left.flatMap(([a, b]) => (b <= low || a >= high ? [/** @type {Span} */ ([a, b])]
      : /** @type {Span[]} */ ([[a, low], [high, b]]).filter(([from, to]) => from <= to)));
  }
  return left;
}

/** @param {Envelope} piece @param {Space} space @param {number} gap @returns {import('./space.js').Run|null} */
function shortestRun(piece, space, gap) {
  const opened = gap + Math.max(...SIDES.map((name) => openedOut(piece, name)));
  const found = [[piece.height, gap + wholeDepth(piece)], [piece.openHeight, opened]].flatMap(([high, out]) => {
    const binding = interpolated(space.runs, high, out);
    return shortest(binding.map((r) => atTheWall(r, space, high, out)), binding.filter((r) => space.runs.includes(r))) ?? [];
  });
  return found.length ? found.reduce((least, r) => (r.nm < least.nm ? r : least)) : null;
}

/** @param {import('./space.js').Run} run @param {Space} space @param {number} height @param {number} depth
 *  @returns {import('./space.js').Run} */
function atTheWall(run, space, height, depth) {
  let more = 0;
  for (const side of [space.left, space.right].filter((s) => s.held)) {
    const [high, out] = [run.height ?? (side.lean < 0 ? height : 0), run.depth ?? 0];
    more += side.lean * (side.lean > 0 ? Math.min(high, height) : high);
    more += side.opening * (side.opening > 0 ? Math.min(out, depth) : out);
  }
  return { ...run, nm: run.nm - up(-more) };
}

/** @param {Ends} ends @param {import('./space.js').Run} run @param {number} length @param {string} units
 *  @returns {Clearance} both ends together */
function along({ taken, kept, words }, run, length, units) {
  const both = taken[0] + taken[1];
  const less = both ? `, less ${say(both, units)} for corners and lean${words}` : words;
  return { side: 'along', clearance: run.nm - both - length, needed: kept[0] + kept[1], binding: run.words + less };
}

/** @param {Clearance} c */
const spare = (c) => c.clearance - c.needed;

/** @param {Clearance[]} found @returns {Clearance[]} the one with least to spare, of none none */
const tightest = (found) => (found.length ? [found.reduce((least, c) => (spare(c) < spare(least) ? c : least))] : []);

/** @param {Envelope} piece @param {Space} space @param {number} gap @param {import('./space.js').Run|null} run
 *  @param {Ends[]} ends shut, opened @returns {Clearance[]} */
function clearancesOf(piece, space, gap, run, ends) {
  const found = run ? tightest(ends.map((e) => along(e, run, piece.length, space.units))) : [];
  const depths = interpolated(space.depths, piece.height, FOREVER);
  if (depths.length) {
    const depth = depths.reduce((least, r) => (r.nm < least.nm ? r : least));
    const use = space.kind === 'between walls' ? 0 : piece.useFront;
    found.push({ side: 'front', clearance: depth.nm - gap - piece.depth,
      needed: Math.max(piece.openFront, use, space.walkway), binding: depth.words });
  }
  found.push(...ofTheWing(piece, space, gap, run, ends[0].taken));
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

/** @param {Envelope} piece @param {Space} space @param {number} gap @param {import('./space.js').Run|null} run
 *  @param {number[]} taken @returns {Clearance[]} beyond the end of an L's wing, and across to the opposite wall */
function ofTheWing(piece, space, gap, run, taken) {
  if (piece.wing === 'none') return [];
  const [own, other] = piece.wing === 'left' ? [space.left, space.right] : [space.right, space.left];
  const end = (/** @type {number} */ needed) => (/** @type {import('./space.js').Run} */ r) =>
    ({ side: 'wing', clearance: r.nm - gap - piece.wingLength, needed, binding: r.words });
  const ends = [...interpolated(space.depths, piece.height, FOREVER).map(end(space.walkway)),
    ...interpolated(own.runs, piece.height, FOREVER).map(end(0))];
  const found = tightest(ends);
  return run && other.held ? [...found, { side: 'across', needed: piece.openFront, binding: run.words,
    clearance: run.nm - taken[0] - taken[1] - endRoom(piece, space, piece.wing) - piece.wingDepth }] : found;
}

/**
 * @param {{piece: Envelope, gap: number, run: number|null}} stance
 * @param {Space} space @returns {Block[]} every span a thing takes, by its body and by the room it wants
 */
function blocks(stance, space) {
  return space.things.flatMap((thing) => [...body(thing, stance, space).map((taken) => ({ level: 'solid', taken })),
    ...room(thing, stance, space).map((taken) => ({ level: thing.rule.level, taken }))]
    .map(({ level, taken: [span, stretch] }) => ({ thing, level, span, stretch })));
}

/** @param {any} stance @param {boolean} opened @returns {[Span, Span][]} stretch of its length, out from the wall */
function boxes({ piece, gap }, opened) {
  const [opens, back] = opened ? [piece.openFront, piece.openBehind] : [0, 0];
  const main = /** @type {[Span, Span]} */ ([[0, piece.length], [gap - back, gap + piece.depth + opens]]);
  if (piece.wing === 'none') return [main];
  const low = piece.wing === 'left' ? 0 : piece.length - piece.wingDepth;
  const high = low + piece.wingDepth;
  const turned = /** @type {Span} */ (piece.wing === 'left' ? [low - back, high + opens] : [low - opens, high + back]);
  return [main, [turned, [gap - back, gap + piece.wingLength]]];
}

/** @param {Thing} thing @param {any} stance @param {Space} space
 *  @returns {[Span, Span][]} the thing itself against the piece, also open */
function body(thing, stance, space) {
  const { piece, gap } = stance;
  if (!thing.rule.solid || thing.bottom >= piece.openHeight) return [];
  if (thing.wall !== 'back') return fromSide(thing, stance, space, true);
  const swept = boxes(stance, true).map(([stretch]) => stretch);
  const whole = /** @type {Span} */ ([Math.min(...swept.map(([low]) => low)), Math.max(...swept.map(([, high]) => high))]);
  return gap - piece.openBehind < thing.body.out ? [[[thing.body.from, thing.body.to], whole]] : [];
}

/** @param {Thing} thing @param {any} stance @param {Space} space
 *  @returns {[Span, Span][]} the room around it against the shut piece */
function room(thing, stance, space) {
  const { piece, gap } = stance;
  if (thing.bottom - thing.rule.below >= piece.height) return [];
  if (thing.wall !== 'back') return fromSide(thing, stance, space, false);
  return gap < thing.room.out ? [[[thing.room.from, thing.room.to], [0, piece.length]]] : [];
}

/** @param {Thing} thing @param {any} stance @param {Space} space @param {boolean} opened
 *  @returns {[Span, Span][]} all from its wall to where it reaches, and each part of the piece that it meets */
function fromSide(thing, stance, space, opened) {
  const { piece, run } = stance;
  const taken = opened ? thing.body : thing.room;
  if (taken.out <= 0 || (thing.wall === 'right' && run === null)) return [];
  const high = opened || piece.wing === thing.wall ? piece.openHeight : piece.height;
  return boxes(stance, opened).filter(([, [near, far]]) => taken.from < far && taken.to > near)
    .map(([stretch, [, far]]) => {
      const reach = takenAt(space, thing.wall, far, high) + taken.out;
      return [/** @type {Span} */ (thing.wall === 'left' ? [-FOREVER, reach] : [run - reach, FOREVER]), stretch];
    });
}
