/** The fit of one item in the place as measured, worked out on the phone and put in words. */
import { siteFindings } from './contradictions.js';
import { fit } from './fit.js';
import { BadFormula } from './formula.js';
import { choicesOf, hiddenSizes } from './holding.js';
import { INCH, MM, roundTo, write } from './measure.js';
import { sizesOf, toSite } from './request.js';
import { envelopeOf } from './stand.js';

const MARK = { in: INCH / 16, mm: MM };

/** A length as the service writes it; what is free is rounded down and what is needed up, never kinder. */
function written(nm, units, how = 'nearest') {
  return { mm: nm / MM, text: write(roundTo(nm, MARK[units], how), units) };
}

const lengths = (record, units) =>
  Object.fromEntries(Object.entries(record).map(([name, nm]) => [name, nm ? written(nm, units) : null]));

/** The shape on the ground; a wing, where there is one, runs out from the back at one end. */
const outline = (envelope, behind) => ({
  lengthMm: envelope.length / MM,
  depthMm: envelope.depth / MM,
  behindMm: (behind?.needed ?? 0) / MM,
  wing: envelope.wing,
  wingLengthMm: envelope.wingLength / MM,
  wingDepthMm: envelope.wingDepth / MM,
});

const told = (found, level) => [...found.doubts, ...found.findings].some((one) => one.level === level);

function inWords(found, sizes, envelope, units) {
  const behind = found.clearances.find((one) => one.side === 'behind');
  return {
    ...found,
    dimensions: lengths(sizes, units),
    clearances: found.clearances.map((one) => ({
      ...one,
      clearance: written(one.clearance, units, 'down'),
      needed: written(one.needed, units, 'up'),
    })),
    positions: found.positions.map(([from, to]) => ({
      from: written(from, units, 'up'),
      to: written(Math.max(from, to), units, 'down'),
    })),
    largest: lengths(found.largest, units),
    best: found.best && lengths(found.best, units),
    uncertainty: written(found.uncertainty, units, 'up'),
    envelope: outline(envelope, behind),
    stopped: told(found, 'stop'),
    unsure: told(found, 'not checked'),
    minded: told(found, 'caution'),
  };
}

/** {trial} much as POST /v1/fits would answer, or {wants: what is still missing, in words}. */
export function tryFit(draft, index, catalogue) {
  const item = draft.items[index];
  const template = catalogue.template(item.template);
  if (!template) return { wants: 'Choose a piece.' };
  if (!draft.site.kind) return { wants: 'Measure the space first.' };
  const sizes = sizesOf(draft, index, template, catalogue);
  if (!sizes) return { wants: 'One of the sizes cannot be read yet.' };
  const { body, faults } = toSite(draft, catalogue);
  if (faults.length) return { wants: `In the space, put this right first: ${faults[0].detail}` };
  if (!body.walls[0].readings.length && !body.depths && !body.access && !body.height_under)
    return { wants: 'Nothing of the space is measured yet.' };
  try {
    const choices = choicesOf(item, template);
    const hidden = hiddenSizes(draft, index, catalogue);
    const open = { ...template, dimensions: template.dimensions.filter((rule) => !hidden.has(rule.name)) };
    const found = fit(open, sizes, choices, body, catalogue.shop, draft.units);
    const shown = Object.fromEntries(Object.entries(sizes).filter(([name]) => !hidden.has(name)));
    const best = found.best && Object.fromEntries(Object.keys(shown).map((name) => [name, found.best[name]]));
    return { trial: inWords({ ...found, best }, shown, envelopeOf(template.fit, sizes, choices), draft.units) };
  } catch (error) {
    if (error instanceof BadFormula) return { wants: 'These sizes do not go together. Change one of them.' };
    throw error;
  }
}

/** Readings that cannot all be true, while the tape is still in hand. Needs the shop's tape, so nothing before that is fetched. */
export function doubtsAbout(draft, catalogue) {
  const { body } = toSite(draft, catalogue);
  if (!draft.site.kind || !catalogue.shop) return [];
  try {
    return siteFindings(body, catalogue.shop, draft.units).filter((one) => one.level !== 'ok');
  } catch {
    return [];
  }
}
