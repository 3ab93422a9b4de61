/**
 * Works out the formula trees a template sends for its fit. The service has read and checked them; this
 * only evaluates, the same way, and both pass tests/vectors/formulas.json. Lengths mm, angles degrees.
 *
 * @typedef {{count: number, width: number, gap: number, note: string}} Spread
 * @typedef {{wide: number, narrow: number, face: number, square: number}} Leg
 * @typedef {number|boolean|string|Spread|Leg} Value
 * @typedef {any} Tree number | boolean | [head, ...rest]
 */

const SLACK = 1e-9;
const MOST = 1e15;
const MOST_BOARDS = 1000;

/** A formula that has no finite answer, in words. */
export class BadFormula extends Error {}

/**
 * @param {Tree} tree @param {Record<string, Value>} values @param {{steps: number}} [budget]
 * @returns {any} the value
 */
export function evaluate(tree, values, budget = { steps: 10_000 }) {
  budget.steps -= 1;
  if (budget.steps < 0) throw new BadFormula('more work than one template may ask for');
  if (!Array.isArray(tree)) return typeof tree === 'boolean' ? tree : finite(tree);
  const [head, ...rest] = tree;
  const at = (/** @type {number} */ i) => evaluate(rest[i], values, budget);
  switch (head) {
    case 'name': return named(rest[0], values);
    case 'text': return rest[0];
    case 'choose': return at(at(0) ? 1 : 2);
    case 'and': return at(0) && at(1);
    case 'or': return at(0) || at(1);
    case 'field': return field(at(0), rest[1]);
    case 'call': return called(rest[0], rest.slice(1).map((_, i) => at(i + 1)));
    default:
      if (!Object.hasOwn(OPERATORS, head)) throw new BadFormula(`no operator ${head}`);
      return finite(OPERATORS[head](...rest.map((_, i) => at(i))));
  }
}

/** @param {string} name @param {Record<string, Value>} values @returns {any} */
function named(name, values) {
  if (Object.hasOwn(values, name)) {
    return typeof values[name] === 'number' ? finite(values[name]) : values[name];
  }
  const dot = name.lastIndexOf('.');
  if (dot > 0 && Object.hasOwn(values, name.slice(0, dot))) {
    return field(values[name.slice(0, dot)], name.slice(dot + 1));
  }
  throw new BadFormula(`'${name}' has no value`);
}

/** @param {any} record @param {string} name @returns {any} */
function field(record, name) {
  if (typeof record !== 'object' || !Object.hasOwn(record, name)) throw new BadFormula(`no field '${name}' here`);
  return record[name];
}

/** @param {any} value @returns {any} */
function finite(value) {
  if (typeof value === 'boolean') return value;
  if (typeof value !== 'number' || !Number.isFinite(value) || Math.abs(value) > MOST) {
    throw new BadFormula('the result is no finite length or number');
  }
  return value;
}

/** @param {any} a @param {any} b @returns {boolean} forgiving a floating error */
function equal(a, b) {
  if (typeof a !== 'number' || typeof b !== 'number') return a === b;
  return Math.abs(a - b) <= SLACK * Math.max(1, Math.abs(a), Math.abs(b));
}

/** @type {Record<string, (...args: any[]) => any>} */
const OPERATORS = {
  '+': (a, b) => a + b,
  '-': (a, b) => a - b,
  '*': (a, b) => a * b,
  '/': (a, b) => {
    if (b === 0) throw new BadFormula('division by 0');
    return a / b;
  },
  neg: (a) => -a,
  not: (a) => !a,
  '==': equal,
  '!=': (a, b) => !equal(a, b),
  '<': (a, b) => a < b && !equal(a, b),
  '<=': (a, b) => a < b || equal(a, b),
  '>': (a, b) => a > b && !equal(a, b),
  '>=': (a, b) => a > b || equal(a, b),
};

const radians = (/** @type {number} */ degrees) => (degrees * Math.PI) / 180;
const degrees = (/** @type {number} */ angle) => (angle * 180) / Math.PI;
const floor = (/** @type {number} */ x) => Math.floor(x + SLACK * Math.max(1, Math.abs(x)));
const ceil = (/** @type {number} */ x) => -floor(-x);
const round = (/** @type {number} */ x) => floor(x + 0.5);

/** @param {(x: number) => number} how @returns {(x: number, step: number) => number} */
const toStep = (how) => (x, step) => {
  if (step <= 0) throw new BadFormula('a step must be above 0');
  return how(x / step) * step;
};

/** @param {(x: number) => number} arc @returns {(x: number) => number} */
const arcOf = (arc) => (x) => {
  if (Math.abs(x) > 1 + SLACK) throw new BadFormula('no angle has a sine or cosine beyond 1');
  return degrees(arc(Math.max(-1, Math.min(1, x))));
};

/** @param {number} x */
function sqrt(x) {
  if (x < -SLACK) throw new BadFormula('square root of a negative');
  return Math.sqrt(Math.max(0, x));
}

/** @param {number} angle */
function tan(angle) {
  if (Math.abs(Math.cos(radians(angle))) < SLACK) {
    throw new BadFormula('the tangent of a right angle has no end');
  }
  return Math.tan(radians(angle));
}

/**
 * Boards side by side: as many full widths as keep every gap at least the least; a gap above the most
 * means one board more, all ripped alike.
 * @param {number} span @param {number} width @param {number} least @param {number} most @param {number} step
 * @returns {Spread}
 */
export function spread(span, width, least, most, step = 0) {
  if (span <= 0 || width <= 0 || least < 0 || most < least || step < 0) {
    throw new BadFormula('spread wants span and width above 0 and 0 <= least gap <= most gap');
  }
  if ((span + least) / (width + least) > MOST_BOARDS) {
    throw new BadFormula(`spread wants more than ${MOST_BOARDS} boards`);
  }
  if (span <= width + SLACK) {
    return { count: 1, width: Math.min(span, width), gap: 0,
      note: span >= width - SLACK ? '' : 'one board ripped to the span' };
  }
  const count = Math.floor((span + least) / (width + least) + SLACK);
  const gap = (span - count * width) / (count - 1);
  if (count > 1 && gap <= most + SLACK) return { count, width, gap: Math.max(gap, 0), note: '' };
  return ripped(span, count + 1, least, step);
}

/** @param {number} span @param {number} count @param {number} gap @param {number} step @returns {Spread} */
function ripped(span, count, gap, step) {
  let width = (span - (count - 1) * gap) / count;
  if (step) width = Math.floor(width / step + SLACK) * step;
  if (width <= 0) throw new BadFormula('spread finds no board width: the gaps fill the span');
  return { count, width, gap: (span - count * width) / (count - 1),
    note: 'every board ripped narrower, alike, to keep the gaps in range' };
}

/**
 * A leg glued to an L from one board ripped once into `wide` and the rest.
 * @param {number} boardWidth @param {number} thickness @param {number} kerf @param {number} wide
 * @returns {Leg}
 */
export function lLeg(boardWidth, thickness, kerf, wide) {
  const narrow = boardWidth - kerf - wide;
  if (Math.min(thickness, wide) <= 0 || kerf < 0 || narrow <= SLACK) {
    throw new BadFormula('l_leg: the board is too narrow for this wide strip');
  }
  return { wide, narrow, face: narrow + thickness, square: (boardWidth - kerf + thickness) / 2 };
}

/** @type {Record<string, (...args: any[]) => any>} */
const FUNCTIONS = {
  min: Math.min, max: Math.max, abs: Math.abs, sqrt, floor, ceil, round,
  round_to: toStep(round), floor_to: toStep(floor), ceil_to: toStep(ceil),
  sin: (a) => Math.sin(radians(a)), cos: (a) => Math.cos(radians(a)), tan,
  asin: arcOf(Math.asin), acos: arcOf(Math.acos), atan: (x) => degrees(Math.atan(x)),
  spread, l_leg: lLeg,
};

/** @param {string} name @param {any[]} args */
function called(name, args) {
  if (!Object.hasOwn(FUNCTIONS, name)) throw new BadFormula(`no function ${name}`);
  const result = FUNCTIONS[name](...args);
  return typeof result === 'object' ? result : finite(result);
}
