/** The fit of one item in the place as measured, worked out on the phone. */
import { fit } from './fit.js';
import { choicesOf, sizesOf, toSite } from './request.js';

/** {trial} as POST /v1/fits would answer, or {wants: what is still missing, in words}. */
export function tryFit(draft, index, catalogue) {
  const item = draft.items[index];
  const template = catalogue.template(item.template);
  if (!template) return { wants: 'Choose a piece.' };
  const sizes = sizesOf(draft, index, template, catalogue);
  if (!sizes) return { wants: 'One of the sizes cannot be read yet.' };
  const { body, faults } = toSite(draft, catalogue);
  if (faults.length) return { wants: `In the space, put this right first: ${faults[0].detail}` };
  return { trial: fit(template, sizes, choicesOf(item, template), body, catalogue.shop.fitting, draft.units) };
}
