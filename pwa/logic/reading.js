/**
 * What the text in one field means, at once and in words: a value and an echo, or what is wrong and what
 * would be right. Lengths go through measure.js; the other notations are the few the service reads too.
 *
 * A reading is {state: "empty"} | {state: "good", value, echo} | {state: "bad", fault, candidates: [text]}.
 */
import { read, write } from './measure.js';

const NM = 1_000_000;
export const EMPTY = { state: 'empty' };
const good = (value, echo = '', note = '') => ({ state: 'good', value, echo, note });
const bad = (fault, candidates = []) => ({ state: 'bad', fault, candidates });

/** A length in both systems, the job's first: "63 1/2 in = 1613 mm". */
export function both(nm, units) {
  const inch = write(nm, 'in');
  const metric = write(nm, 'mm');
  return units === 'mm' ? `${metric} = ${inch}` : `${inch} = ${metric}`;
}

/** A length in the job's unit. */
export const say = (mm, units) => write(Math.round(mm * NM), units);

/** Is this a number without a unit? */
function isBare(text) {
  return read(text, null).error === 'no-unit';
}

function didYouMean(candidates) {
  return candidates.length ? ` Did you mean ${candidates.join(' or ')}?` : '';
}

function outOfRange(nm, text, units, spec) {
  const low = nm < spec.least * NM;
  const wrong = `${spec.label}: ${write(nm, units)} is ${low ? 'less' : 'more'} than ${say(low ? spec.least : spec.most, units)}, the ${low ? 'least' : 'most'}`;
  if (spec.rule)
    return bad(`${wrong} this piece is made. Right is ${say(spec.least, units)} to ${say(spec.most, units)}.`);
  return bad(`${wrong} usual here. If it is right, write the unit behind it.`, [`${text} ${units}`]);
}

function readLength(text, units, spec) {
  const [least, most] = [(spec.least ?? 0) * NM, (spec.most ?? Infinity) * NM];
  const found = read(text, units, [least, most]);
  if (found.error) {
    const example =
      spec.example && !found.candidates.length && found.error !== 'unreadable'
        ? ` Right would be, for example, ${spec.example[units]}.`
        : '';
    return bad(`${spec.label}: ${found.detail}${didYouMean(found.candidates)}${example}`, found.candidates);
  }
  const outside = found.nm < least || found.nm > most;
  if (outside && (spec.rule || isBare(text))) return outOfRange(found.nm, text, units, spec);
  return good(found.nm, both(found.nm, units), found.note);
}

const plain = (text) => (/^\d+(?:[.,]\d+)?$/.test(text) ? Number(text.replace(',', '.')) : NaN);

function readFall(text, spec) {
  const wrong = bad(`${spec.label}: “${text}” is no fall. Right would be 2 %, 1:48, 1/4 in per ft, or 0 for level.`);
  const percent = text.match(/^(\d+(?:[.,]\d+)?)\s*%$/);
  const ratio = text.match(/^1\s*(?::|in)\s*(\d+(?:[.,]\d+)?)$/);
  const per = text.match(/^(.+?)\s+per\s+(.+)$/) ?? text.match(/^(.+?)\s+in\s+(.+)$/);
  let share = NaN;
  if (/^(0|level)$/i.test(text)) share = 0;
  else if (percent) share = plain(percent[1]) / 100;
  else if (ratio) share = 1 / plain(ratio[1]);
  else if (per) {
    const drop = read(per[1], null);
    const run = read(/^\d/.test(per[2]) ? per[2] : `1 ${per[2]}`, null);
    share = drop.error || run.error ? NaN : drop.nm / run.nm;
  }
  if (!(share >= 0)) return wrong;
  if (share > 0.25) return bad(`${spec.label}: ${(share * 100).toFixed(0)} % is steeper than 25 %. Check the reading.`);
  return good(share, share === 0 ? 'level' : `${(share * 100).toFixed(1)} % = 1:${Math.round(1 / share)}`);
}

function readNumber(text, spec, kind) {
  const value = plain(text.replace(/\s*(kN\/m²|kN\/m2|%|degrees|deg|°)$/i, ''));
  if (Number.isNaN(value))
    return bad(
      `${spec.label}: “${text}” is no number. Right would be, for example, ${kind === 'angle' ? '89.5' : '2.5'}.`,
    );
  if (kind === 'angle' && (value < 30 || value > 150))
    return bad(`${spec.label}: ${value} degrees is outside 30 to 150. 90 is a square corner.`);
  if (kind === 'share' && value >= 100)
    return bad(`${spec.label}: ${value} % is all of it or more. Right is less than 100.`);
  return good(value, kind === 'angle' ? `${value} degrees${value === 90 ? ', square' : ''}` : '');
}

function readWhole(text, spec) {
  if (!/^\d{1,6}$/.test(text))
    return bad(`${spec.label}: “${text}” is no whole number. Right would be 1, 2, 3 and so on.`);
  const value = Number(text);
  if (value < spec.least || value > spec.most) return bad(`${spec.label}: right is ${spec.least} to ${spec.most}.`);
  return good(value);
}

function readMoney(text, spec) {
  if (!/^-?\d{1,9}(?:[.,]\d{1,2})?$/.test(text))
    return bad(`${spec.label}: “${text}” is no amount. Right would be 45 or 45.50.`);
  return good(text.replace(',', '.'));
}

function readDistance(text, units, spec) {
  const found = text.match(/^(\d+(?:[.,]\d+)?)\s*(km|mi|miles?)?$/i);
  if (!found) return bad(`${spec.label}: “${text}” is no distance. Right would be 12 mi or 20 km.`);
  const unit = (found[2] ?? (units === 'mm' ? 'km' : 'mi')).toLowerCase().startsWith('k') ? 'km' : 'mi';
  const value = plain(found[1]);
  const other = unit === 'km' ? `${(value / 1.609344).toFixed(1)} mi` : `${(value * 1.609344).toFixed(1)} km`;
  return good(`${value} ${unit}`, `${value} ${unit} = ${other}`);
}

function readDate(text, spec) {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return bad(`${spec.label}: “${text}” is no date.`);
  return good(text);
}

/** Read one field. `spec` comes from fields.js. */
export function readField(text, units, spec) {
  const trimmed = String(text ?? '').trim();
  if (trimmed === '') return EMPTY;
  if (spec.chars && trimmed.length > spec.chars)
    return bad(`${spec.label}: at most ${spec.chars} characters, these are ${trimmed.length}.`);
  switch (spec.kind) {
    case 'length':
      return readLength(trimmed, units, spec);
    case 'fall':
      return readFall(trimmed, spec);
    case 'number':
    case 'angle':
    case 'share':
      return readNumber(trimmed, spec, spec.kind);
    case 'whole':
      return readWhole(trimmed, spec);
    case 'money':
      return readMoney(trimmed, spec);
    case 'distance':
      return readDistance(trimmed, units, spec);
    case 'date':
      return readDate(trimmed, spec);
    case 'email':
      return /^\S+@\S+$/.test(trimmed)
        ? good(trimmed)
        : bad(`${spec.label}: “${trimmed}” has no @. Right would be name@example.org.`);
    default:
      return good(trimmed);
  }
}

const FRACTION = /^(.*?)(?:(\d+)\s+)?(\d+)\/(2|4|8|16|32|64)$/;

/**
 * A fraction key pressed: "63" + 1/2 is "63 1/2", and "63 1/2" + 1/16 is "63 9/16", so four keys
 * give every sixteenth without a slash. Other text gets the fraction behind it.
 */
export function addFraction(text, over) {
  const tail = text.match(/\s*(?:["″]|in)?\s*$/)[0];
  const body = text.slice(0, text.length - tail.length);
  return fractionAdded(body, over) + tail.trimEnd();
}

function fractionAdded(body, over) {
  const found = body.match(FRACTION);
  let head = '';
  let whole = 0;
  let share = 1 / over;
  if (found) {
    head = found[1];
    whole = Number(found[2] ?? 0);
    share += Number(found[3]) / Number(found[4]);
  } else {
    const last = body.match(/^(.*?)(\d+)$/);
    if (!last && body !== '' && !/['′-]$/.test(body)) return `${body} 1/${over}`;
    head = last ? last[1] : body;
    if (/[.,]$/.test(head)) return `${body} 1/${over}`;
    whole = Number(last?.[2] ?? 0);
    if (head && /['′]$/.test(head)) head += ' ';
  }
  whole += Math.floor(share);
  let top = Math.round((share % 1) * 64);
  let under = 64;
  while (top && top % 2 === 0) {
    top /= 2;
    under /= 2;
  }
  return head + [whole || '', top ? `${top}/${under}` : ''].filter(Boolean).join(' ');
}

const clamp = (value, spec) => Math.min(spec.most ?? Infinity, Math.max(spec.least ?? 0, value));

/** The text one step up or down: a template's own step for a size, 1 for a count. */
export function stepped(text, units, spec, sign) {
  const reading = readField(text, units, spec);
  if (spec.kind === 'whole') return String(clamp((reading.value ?? 0) + sign, spec));
  const nm = reading.state === 'good' ? reading.value : Math.round(spec.rule.default.mm * NM);
  const step = Math.round(spec.rule.step.mm * NM);
  const next = sign > 0 ? (Math.floor(nm / step) + 1) * step : (Math.ceil(nm / step) - 1) * step;
  return say(clamp(next / NM, spec), units).replace(/ (in|mm)$/, '');
}
