/** Which sizes and cautions of a template say something with the choices as they are. */
import { at } from './draft.js';
import { describe } from './fields.js';
import { BadFormula, evaluate } from './formula.js';
import { MM } from './measure.js';
import { readField } from './reading.js';

/** The choices of one item, defaults filled in. */
export function choicesOf(item, template) {
  return Object.fromEntries(template.choices.map((rule) => [rule.name, item.choices[rule.name] ?? rule.default]));
}

/** A condition that cannot be worked out hides nothing: rather a size or a warning too many. */
function holds(when, values) {
  if (when === null || when === undefined) return true;
  try {
    return Boolean(evaluate(when, values));
  } catch (error) {
    if (error instanceof BadFormula) return true;
    throw error;
  }
}

/** What conditions see: choices, and sizes in mm; a size that cannot be read yet counts as the usual one. */
function valuesOf(draft, index, template, catalogue) {
  const size = (rule) => {
    const path = `items.${index}.dimensions.${rule.name}`;
    const reading = readField(at(draft, path), draft.units, describe(path, draft, catalogue));
    return reading.state === 'good' ? reading.value / MM : rule.default.mm;
  };
  const sizes = Object.fromEntries(template.dimensions.map((rule) => [rule.name, size(rule)]));
  return { ...sizes, ...choicesOf(draft.items[index], template) };
}

/** Names of the sizes that mean nothing with these choices: neither shown nor sent, but kept in the draft. */
export function hiddenSizes(draft, index, catalogue) {
  const template = catalogue.template(draft.items[index].template);
  if (!template?.dimensions.some((rule) => rule.when)) return new Set();
  const values = valuesOf(draft, index, template, catalogue);
  return new Set(template.dimensions.filter((rule) => !holds(rule.when, values)).map((rule) => rule.name));
}

/** The cautions of a template that hold for this item. */
export function cautionsOf(draft, index, catalogue) {
  const template = catalogue.template(draft.items[index].template);
  const values = valuesOf(draft, index, template, catalogue);
  return (template.cautions ?? []).filter((_, nth) => holds(template.caution_conditions?.[nth], values));
}
