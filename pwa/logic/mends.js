/** Changes the service found that take a stop or a caution away: in words, and taken into the draft. */
import { chosenItems } from './draft.js';
import { MM, read } from './measure.js';
import { findingsOf, money } from './view.js';

const SERIOUS = ['stop', 'caution'];

/** Of the place, not of the piece: no change of the piece mends these. */
const OF_THE_PLACE = ['drop behind', 'fall of the ground'];

/** Could a change of the piece take this finding away? Those of the whole job have no piece to change. */
export const mendable = (one) =>
  one.at !== undefined && SERIOUS.includes(one.level) && !OF_THE_PLACE.includes(one.rule);

export const mendableOf = (quote) => findingsOf(quote).filter(mendable);

const NONE_FOUND = 'No change of its sizes and choices that was tried mends it, nor two at once.';

/** What the finding itself says would mend it, without the changes: they are offered one by one; or that none was found. */
export function ownMend({ mend, mends, searched }) {
  if (searched === 'nothing') return [mend, NONE_FOUND].filter(Boolean).join(' ');
  if (!mends?.length) return mend;
  const from = mend.toLowerCase().indexOf(mends[0].text.toLowerCase());
  return from < 0 ? mend : mend.slice(0, from).replace(/; or $/, '.');
}

function difference(amount, currency) {
  const figure = Number(amount);
  if (figure === 0) return 'same price';
  return `${figure < 0 ? '−' : '+'}${money(Math.abs(figure), currency)}`;
}

/** What the same check then finds: "Then: stands a push. Found: 60 N·m. Limit: 58 N·m." */
export const thenFound = ({ after, measured, limit }) =>
  [after && `Then: ${after[0].toLowerCase()}${after.slice(1)}`, measured && `Found: ${measured}`, limit && `Limit: ${limit}`]
    .filter(Boolean)
    .join('. ');

/** Of these findings: was a change found for one, or at least looked for? "" for answers of before that was done. */
export function searchedOf(found) {
  if (found.some((one) => one.mends?.length)) return 'found';
  return found.some((one) => one.searched) ? 'none' : '';
}

/** "Timber: White oak, +$120.00" */
export function mendLabel(mend, template, currency) {
  const label = (rules, name) => rules?.find((one) => one.name === name)?.label ?? name;
  const option = (name, id) =>
    template?.choices.find((one) => one.name === name)?.options.find((one) => one.id === id)?.label ?? id;
  const parts = [
    ...Object.entries(mend.dimensions).map(([name, size]) => `${label(template?.dimensions, name)}: ${size.text}`),
    ...Object.entries(mend.choices).map(([name, id]) => `${label(template?.choices, name)}: ${option(name, id)}`),
  ];
  return [...parts, difference(mend.price_difference, currency)].join(', ');
}

/** A length of the service as it is typed: in the job's unit where that says it to the nanometre. */
export function typedLength(size, units) {
  const nm = Math.round(size.mm * MM);
  return read(size.text, units).nm === nm ? size.text.replace(new RegExp(` ${units}$`), '') : `${size.mm} mm`;
}

/** Put the change into the draft's item; gives back what puts the former sizes and choices in again. */
export function takeInto(draft, index, mend) {
  const item = chosenItems(draft)[index];
  const changes = [
    ...Object.entries(mend.dimensions).map(([name, size]) => ['dimensions', name, typedLength(size, draft.units)]),
    ...Object.entries(mend.choices).map(([name, id]) => ['choices', name, id]),
  ];
  const before = changes.map(([where, name]) => [where, name, item[where][name]]);
  const set = (all) => {
    for (const [where, name, value] of all) {
      if (value === undefined) delete item[where][name];
      else item[where][name] = value;
    }
  };
  set(changes);
  return () => set(before);
}
