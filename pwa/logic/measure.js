/**
 * Lengths as people write them: whole nanometres in, words out. What could mean two things is returned
 * as trouble with the candidates, never guessed. The same rule as the service's domain/measure; both
 * pass tests/vectors/lengths.json. Fractions are worked in BigInt, so nothing is lost before rounding.
 *
 * @typedef {{nm: number, text: string, note: string}} Reading
 * @typedef {{error: string, detail: string, candidates: string[]}} Trouble
 * @typedef {[bigint, bigint]} Ratio  a number as top and bottom, bottom above 0
 */

export const MM = 1_000_000;
export const INCH = 25_400_000;
export const FOOT = 12 * INCH;
export const SIXTEENTH = INCH / 16;
export const LIKELY_NM = [0, 40 * FOOT];
export const MOST_NM = 100_000 * MM;
const MOST_CHARS = 40;

/** @type {Record<string, number>} */
const UNITS = { mm: MM, cm: 10 * MM, m: 1000 * MM, in: INCH, ft: FOOT };

/** @type {Record<string, string>} */
const SPELT = {
  ...Object.fromEntries([['mm', 'milli'], ['cm', 'centi'], ['m', '']].flatMap(([unit, prefix]) => [
    [unit, unit], ...['metre', 'metres', 'meter', 'meters'].map((word) => [prefix + word, unit])])),
  '"': 'in', in: 'in', 'in.': 'in', ins: 'in', inch: 'in', inches: 'in',
  "'": 'ft', ft: 'ft', 'ft.': 'ft', foot: 'ft', feet: 'ft',
};

/** @type {Record<string, string>} */
const VULGAR = {
  '½': '1/2', '¼': '1/4', '¾': '3/4', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8', '⅓': '1/3',
  '⅔': '2/3', '⅕': '1/5', '⅖': '2/5', '⅗': '3/5', '⅘': '4/5', '⅙': '1/6', '⅚': '5/6', '⅒': '1/10',
};
const RAISED = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const LOWERED = '₀₁₂₃₄₅₆₇₈₉';

/** @type {[string, string][]} */
const SETS = [
  ['′ʹ’‘ʼ´`', "'"], ['″ʺ”“„', '"'], ['‐‑‒–—−', '-'], ['⁄∕', '/'],
  ['\u00a0\u2007\u2009\u202f\u2002\u2003\t', ' '],
];
/** @type {Map<string, string>} */
const PLAIN = new Map([
  ...SETS.flatMap(([from, to]) => [...from].map((c) => /** @type {[string, string]} */ ([c, to]))),
  ...[RAISED, LOWERED].flatMap((set) => [...set].map((c, i) => /** @type {[string, string]} */ ([c, String(i)]))),
]);

const NUM = '(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)';
const FRACTION = '[0-9]+ ?/ ?[0-9]+';
const VALUE = `(?:[0-9]+[ -]${FRACTION}|${FRACTION}|[0-9]{1,3}(?: [0-9]{3})+|${NUM})`;
const INCH_MARK = '(?:in\\.?|ins|inch|inches|")?';
const SINGLE = new RegExp(`^(${VALUE}) ?([a-z]+\\.?|['"])?$`);
const FEET = new RegExp(`^(${VALUE}) ?(?:ft\\.?|foot|feet|') ?(?:- ?|, )?(${VALUE}) ?${INCH_MARK}$`);
const DASHED = new RegExp(`^([0-9]+) ?- ?(${VALUE}) ?${INCH_MARK}$`);
const SPACED = new RegExp(`^([0-9]+) ([0-9]+(?: ${FRACTION})?) ?${INCH_MARK}$`);

class Stop extends Error {
  /** @param {string} code @param {string} detail @param {string[]} candidates */
  constructor(code, detail, candidates = []) {
    super(detail);
    this.trouble = { error: code, detail, candidates };
  }
}

/**
 * @param {string} text @param {'in'|'mm'|null} unit what a bare number means; null refuses one
 * @param {number[]} likelyNm a bare number outside this that fits in the other unit is asked about
 * @returns {Reading|Trouble}
 */
export function read(text, unit, likelyNm = LIKELY_NM) {
  try {
    const [nm, note] = readPlain(plain(text), unit, likelyNm);
    return { nm, text: text.trim(), note };
  } catch (stop) {
    if (stop instanceof Stop) return stop.trouble;
    throw stop;
  }
}

/** @param {string} text @returns {string} the text in ASCII, ½ as " 1/2" */
function plain(text) {
  const characters = [...text];
  if (characters.length > MOST_CHARS) {
    throw new Stop('unreadable', `A length is at most ${MOST_CHARS} characters long.`);
  }
  const spelt = characters.map((c, i) => (VULGAR[c] ? ` ${VULGAR[c]}` : inAscii(characters, i))).join('');
  const spaced = spelt.replaceAll("''", '"').replace(/ +/g, ' ').trim().toLowerCase();
  if (!spaced) throw new Stop('empty', 'Nothing is written.');
  return characters.some((c) => VULGAR[c]) ? spaced.replace(/- (?=[0-9]+\/)/g, '-') : spaced;
}

/** @param {string[]} characters @param {number} i a raised digit after an ordinary one starts a fraction */
function inAscii(characters, i) {
  const starts = RAISED.includes(characters[i]) && i > 0 && /[0-9]/.test(characters[i - 1]);
  return (starts ? ' ' : '') + (PLAIN.get(characters[i]) ?? characters[i]);
}

/** @param {string} text @param {string|null} unit @param {number[]} likelyNm @returns {[number, string]} */
function readPlain(text, unit, likelyNm) {
  if (text.startsWith('-')) throw new Stop('negative', 'A length is not negative.');
  const single = SINGLE.exec(text);
  if (single) return readSingle(single[1], single[2] ?? '', unit, likelyNm);
  const feet = FEET.exec(text);
  if (feet) return readFeetInches(feet[1], feet[2]);
  askAboutTwoNumbers(text);
  throw unreadable(text);
}

/** @param {string} value @param {string} spelt @param {string|null} unit @param {number[]} likelyNm
 *  @returns {[number, string]} */
function readSingle(value, spelt, unit, likelyNm) {
  if (spelt && !Object.hasOwn(SPELT, spelt)) {
    throw new Stop('unreadable', `'${spelt}' is no unit known here: mm, cm, m, in, ft, ' or ".`);
  }
  if (spelt) return [one(valuesOf(value, SPELT[spelt]), SPELT[spelt]), ''];
  const candidates = inEitherUnit(value);
  if (unit === null) throw new Stop('no-unit', `${value} has no unit.`, candidates);
  if (value.includes('/') && unit === 'mm') {
    throw new Stop('ambiguous', 'A fraction is usually inches, but mm are asked here.', candidates);
  }
  const values = valuesOf(value, unit);
  const here = length(values[0], unit);
  const swapped = length(values[0], unit === 'in' ? 'mm' : 'in');
  const [least, most] = likelyNm;
  if (values.length === 1 && (here < least || here > most) && swapped >= least && swapped <= most) {
    throw new Stop('unlikely', `${value} ${unit} is far from what is likely here.`,
      unit === 'in' ? candidates : candidates.reverse());
  }
  return [one(values, unit), ''];
}

/** @param {string} value @returns {string[]} what a bare number may mean, in inches and in mm */
function inEitherUnit(value) {
  const grouped = value.includes(' ') && !value.includes('/');
  const told = [...(grouped ? [] : sayAll(valuesOf(value, 'in'), 'in')), ...sayAll(valuesOf(value, 'mm'), 'mm')];
  if (!told.length) throw new Stop('too-long', 'That is more than 100 m.');
  return told;
}

/** @param {Ratio[]} values @param {string} unit @param {string} saidIn @returns {string[]} */
function sayAll(values, unit, saidIn = unit) {
  return values.map((v) => length(v, unit)).filter((nm) => nm <= MOST_NM).map((nm) => say(nm, saidIn));
}

/** @param {string} feet @param {string} inches @returns {[number, string]} */
function readFeetInches(feet, inches) {
  if (!/^[0-9]+$/.test(feet)) throw new Stop('unreadable', `Feet before inches are whole, ${feet} is not.`);
  const base = BigInt(feet) * 12n;
  const nm = one(valuesOf(inches, 'in').map(([top, bottom]) => [base * bottom + top, bottom]), 'in', 'ft');
  const over = nm - Number(base) * INCH;
  if (over >= 100 * INCH) throw new Stop('unreadable', `${inches} inches beside feet cannot be meant.`);
  return [nm, over >= FOOT ? `12 in or more beside feet: read as ${say(nm, 'ft')}.` : ''];
}

/** @param {string} text @param {string} unit @returns {Ratio[]} more than one when it reads in two ways */
function valuesOf(text, unit) {
  if (text.includes('/')) return fractionValues(text);
  if (text.includes(' ')) {
    if (unit === 'in' || unit === 'ft') {
      throw new Stop('unreadable', `${text} is two numbers: write feet as 5' 3".`);
    }
    return [[BigInt(text.replaceAll(' ', '')), 1n]];
  }
  const grouped = /^[1-9][0-9]{0,2}[.,][0-9]{3}$/.test(text);
  // 1,610 is a thousand to some and a decimal to others; in metres only the decimal is possible,
  // and a point is taken for a thousand only where nobody reads thousandths of a unit off a tape.
  if (grouped && unit !== 'm' && (text.includes(',') || unit === 'mm')) {
    return [decimalOf(text), [BigInt(text.replace(/[.,]/, '')), 1n]];
  }
  return [decimalOf(text)];
}

/** @param {string} text @returns {Ratio} */
function decimalOf(text) {
  const [whole, rest = ''] = text.split(/[.,]/);
  return [BigInt(`${whole || '0'}${rest}`), 10n ** BigInt(rest.length)];
}

/** @param {string} text @returns {Ratio[]} */
function fractionValues(text) {
  const [, whole, top, bottomText] = /** @type {RegExpExecArray} */ (
    /^(?:([0-9]+)[ -])?([0-9]+) ?\/ ?([0-9]+)$/.exec(text));
  const bottom = BigInt(bottomText);
  if (bottom === 0n) throw new Stop('zero-denominator', `${text}: nothing can be divided by 0.`);
  if (BigInt(top) < bottom) return [[BigInt(whole ?? '0') * bottom + BigInt(top), bottom]];
  if (whole !== undefined) {
    throw new Stop('bad-fraction', `${top}/${bottomText} beside a whole number must be less than 1.`);
  }
  // 31/2 is what a hurried thumb makes of 3 1/2.
  const splits = [1, 2].filter((n) => top.length > n && top.at(-n) !== '0')
    .map((n) => [BigInt(top.slice(0, -n)), BigInt(top.slice(-n))]).filter(([, b]) => b < bottom);
  return [...splits.map(([a, b]) => /** @type {Ratio} */ ([a * bottom + b, bottom])), [BigInt(top), bottom]];
}

/** @param {Ratio[]} alternatives @param {string} unit @param {string} saidIn @returns {number} */
function one(alternatives, unit, saidIn = unit) {
  if (alternatives.length > 1) {
    throw new Stop('ambiguous', 'This can be read in more than one way.', sayAll(alternatives, unit, saidIn));
  }
  const nm = length(alternatives[0], unit);
  if (nm > MOST_NM) throw new Stop('too-long', 'That is more than 100 m.');
  return nm;
}

/** @param {string} text `5-3 1/2` may be feet and inches or a difference; `5 3` feet and inches or a slip */
function askAboutTwoNumbers(text) {
  for (const pattern of [DASHED, SPACED]) {
    const two = pattern.exec(text);
    if (!two) continue;
    const first = BigInt(two[1]);
    const [top, bottom] = valuesOf(two[2], 'in')[0];
    const sum = (/** @type {bigint} */ a, /** @type {bigint} */ sign) =>
      /** @type {Ratio} */ ([a * bottom + sign * top, bottom]);
    let meant = [sum(first, 0n), sum(0n, 1n)];
    if (pattern === DASHED && top < bottom) meant = [sum(first, 1n), sum(first, -1n)];
    else if (top < 12n * bottom) {
      meant = pattern === DASHED ? [sum(first * 12n, 1n), sum(first, -1n)] : [sum(first * 12n, 1n)];
    }
    const lengths = meant.map((v) => length(v, 'in'));
    throw new Stop('ambiguous', 'Two numbers without marks can be read in more than one way.',
      lengths.filter((nm) => nm > 0 && nm <= MOST_NM).map((nm) => say(nm, nm >= FOOT ? 'ft' : 'in')));
  }
}

/** @param {string} text @returns {Stop} */
function unreadable(text) {
  if (/[0-9] ?\/ ?(?:in\b|["'])?$/.test(text)) return new Stop('half-typed', 'The fraction lacks its lower number.');
  if (/\/.*\//.test(text)) return new Stop('unreadable', 'Two fraction bars in one length.');
  if (/^[1-9][0-9]{0,2}(?:,[0-9]{3})+\.[0-9]+ ?(?:mm)?$/.test(text)) {
    return new Stop('ambiguous', 'Write it without the thousand mark.',
      [`${text.replaceAll(',', '').replace('mm', '').trim()} mm`]);
  }
  return new Stop('unreadable', 'This is no length: write it like 44 in, 5 1/2 in, 3\' 8" or 1118 mm.');
}

/** @param {Ratio} value @param {string} unit @returns {number} whole nm, half way to even */
function length([top, bottom], unit) {
  return Number(divideToEven(top * BigInt(UNITS[unit]), bottom));
}

/** @param {bigint} top @param {bigint} bottom above 0 @returns {bigint} the nearest whole, half way to even */
function divideToEven(top, bottom) {
  const down = top / bottom - (top % bottom < 0n ? 1n : 0n);
  const twice = 2n * (top - down * bottom);
  const up = twice > bottom || (twice === bottom && down % 2n !== 0n);
  return up ? down + 1n : down;
}

/**
 * @param {number} nm @param {number} stepNm @param {'nearest'|'down'|'up'} how
 * @returns {number} a multiple of the step; half way goes to the even mark
 */
export function roundTo(nm, stepNm, how = 'nearest') {
  if (how === 'down') return Math.floor(nm / stepNm) * stepNm;
  if (how === 'up') return Math.ceil(nm / stepNm) * stepNm;
  return Number(divideToEven(BigInt(nm), BigInt(stepNm))) * stepNm;
}

/** @param {number} nm @param {string} unit @returns {string} exactly, decimals where 64ths do not do */
export function say(nm, unit) {
  if ((unit === 'in' || unit === 'ft') && nm % (INCH / 64) === 0) {
    return write(nm, unit === 'ft' ? 'ft-in' : 'in', INCH / 64);
  }
  const per = unit === 'ft' ? 'in' : unit;
  return `${decimal(nm, UNITS[per], 6)} ${per}`;
}

/**
 * @param {number} nm @param {'in'|'ft-in'|'mm'} style @param {number} [stepNm] default 1/16 in or 1 mm
 * @returns {string} `5 1/2 in`, `3' 8"` or `1118 mm`
 */
export function write(nm, style, stepNm = style === 'mm' ? MM : SIXTEENTH) {
  const rounded = roundTo(nm, stepNm);
  const size = Math.abs(rounded);
  const sign = rounded < 0 ? '-' : '';
  if (style === 'mm') return `${sign}${decimal(size, MM, 6)} mm`;
  if (style === 'in') return `${sign}${inches(size)} in`;
  const rest = size % FOOT;
  return `${sign}${Math.floor(size / FOOT)}' ${rest > 0 && rest < INCH ? '0 ' : ''}${inches(rest)}"`;
}

/** @param {number} nm @returns {string} */
function inches(nm) {
  const whole = Math.floor(nm / INCH);
  const rest = nm % INCH;
  if (rest % (INCH / 64) !== 0) return decimal(nm, INCH, 4);
  if (rest === 0) return String(whole);
  let [top, bottom] = [rest / (INCH / 64), 64];
  while (top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return whole ? `${whole} ${top}/${bottom}` : `${top}/${bottom}`;
}

/** @param {number} nm @param {number} per @param {number} places @returns {string} */
function decimal(nm, per, places) {
  const scaled = divideToEven(BigInt(nm) * 10n ** BigInt(places), BigInt(per));
  const digits = String(scaled).padStart(places + 1, '0');
  return `${digits.slice(0, -places)}.${digits.slice(-places)}`.replace(/0+$/, '').replace(/\.$/, '');
}
