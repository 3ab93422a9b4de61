/**
 * Does the piece fit the measured space, answered on the phone without signal. The same numbers as the
 * service's domain/fit; both pass tests/vectors/fits.json. Findings say the same things in fewer words.
 *
 * @typedef {{name: string, label?: string, default: any, min: any, max: any, step: any}} Dimension
 * @typedef {{dimensions: Dimension[], fit: {values: any[], envelope: Record<string, any>, priority: string[]}}}
 *   FitTemplate as served by GET /v1/templates/{id}
 * @typedef {{rule: string, level: string, title: string, detail: string, mend: string}} Finding
 * @typedef {{fits: boolean, clearances: import('./stand.js').Clearance[], positions: [number, number][],
 *   largest: Record<string, number>, best: Record<string, number>|null, uncertainty: number,
 *   findings: Finding[], doubts: Finding[], verdict: string}} Fit lengths in nm; doubts: readings that contradict
 */
import { wayIn } from './access.js';
import { siteFindings } from './contradictions.js';
import { BadFormula } from './formula.js';
import { MM, SIXTEENTH, roundTo } from './measure.js';
import { inItsCorner, wedges } from './scribing.js';
import { cornered, say, spaceOf, toNm } from './space.js';
import { envelopeOf, leastGap, stand } from './stand.js';
import { verdictOf } from './verdict.js';

const MOST_TRIES = 256;
const WHERE = /** @type {Record<string, string>} */ ({
  along: 'between the ends', front: 'in front', behind: 'behind', above: 'above', wing: 'beyond its wing',
  across: 'across from its wing' });

/**
 * @param {FitTemplate} template @param {Record<string, number>} sizes nm, every dimension
 * @param {Record<string, string>} choices @param {any} site as sent to the service
 * @param {any} shop as served by GET /v1/shop: fitting, keep_clear @param {'in'|'mm'} units @returns {Fit}
 */
export function fit(template, sizes, choices, site, shop, units) {
  const piece = envelopeOf(template.fit, sizes, choices);
  const space = spaceOf(cornered(site, piece.wing), shop, units);
  const standing = stand(piece, space);
  const fitsAt = (/** @type {Record<string, number>} */ tried) => fitsSizes(template, tried, choices, space);
  const largest = Object.fromEntries(
    template.dimensions.map((d) => [d.name, largestOf(d, sizes, fitsAt, toNm(d.max))]));
  const best = bestOf(template, sizes, fitsAt);
  const found = [
    ...misfits(piece, standing, mendOf(template, sizes, largest, best, units), units), ...tooNear(standing, units),
    ...notChecked(piece, space, units), ...notes(piece, space, standing, units),
    ...wedges(piece, space), ...inItsCorner(piece, space, standing),
    ...(site.access ?? []).map((/** @type {any} */ access) => wayIn(piece, access, units)),
  ];
  const sure = standing.fits && !found.some((f) => f.level === 'stop' || f.level === 'not checked');
  const doubts = siteFindings(site, shop, units);
  return {
    fits: standing.fits, clearances: standing.clearances, positions: standing.positions, largest, best,
    uncertainty: space.uncertainty, findings: sure ? [roomForIt(standing, units), ...found] : found, doubts,
    verdict: verdictOf(standing.fits, [...doubts, ...found]),
  };
}

/** @param {FitTemplate} template @param {Record<string, number>} sizes @param {Record<string, string>} choices
 *  @param {import('./space.js').Space} space @returns {boolean} */
function fitsSizes(template, sizes, choices, space) {
  try {
    return stand(envelopeOf(template.fit, sizes, choices), space).fits;
  } catch (wrong) {
    if (wrong instanceof BadFormula) return false;
    throw wrong;
  }
}

/** @typedef {(sizes: Record<string, number>) => boolean} FitsAt */

/** @param {Dimension} dimension @returns {number} the least size on the step */
function leastOf(dimension) {
  const step = toNm(dimension.step);
  return Math.min(Math.ceil(toNm(dimension.min) / step) * step, toNm(dimension.max));
}

/** @param {Dimension} dimension @param {Record<string, number>} held @param {FitsAt} fitsAt @param {number} most
 *  @returns {number} the largest size on its step that fits with the others held; 0 = none */
function largestOf(dimension, held, fitsAt, most) {
  const step = toNm(dimension.step);
  const fitAt = (/** @type {number} */ size) => fitsAt({ ...held, [dimension.name]: size });
  if (fitAt(most)) return most;
  let top = Math.floor(most / step);
  let bottom = Math.ceil(leastOf(dimension) / step);
  if (top - bottom < MOST_TRIES) {
    for (let n = top; n >= bottom; n -= 1) if (fitAt(n * step)) return n * step;
    return 0;
  }
  if (!fitAt(bottom * step)) return 0;
  while (top - bottom > 1) {
    const middle = Math.floor((bottom + top) / 2);
    if (fitAt(middle * step)) bottom = middle;
    else top = middle;
  }
  return bottom * step;
}

/** @param {FitTemplate} template @param {Record<string, number>} sizes @param {FitsAt} fitsAt
 *  @returns {Record<string, number>|null} what was asked, or given up in the template's priority */
function bestOf(template, sizes, fitsAt) {
  if (fitsAt(sizes)) return { ...sizes };
  const found = { ...sizes };
  const givenUp = template.fit.priority.flatMap((name) => template.dimensions.filter((d) => d.name === name));
  for (const d of givenUp) found[d.name] = Math.min(leastOf(d), sizes[d.name]);
  for (const d of givenUp.toReversed?.() ?? [...givenUp].reverse()) {
    found[d.name] = largestOf(d, found, fitsAt, sizes[d.name]);
    if (!found[d.name]) return null;
  }
  return fitsAt(found) ? found : null;
}

/** @param {string} rule @param {string} level @param {string} title @param {string} detail @param {string} mend
 *  @returns {Finding} */
const finding = (rule, level, title, detail, mend = '') => ({ rule, level, title, detail, mend });

/** @param {import('./stand.js').Standing} standing @param {'in'|'mm'} units */
function roomForIt(standing, units) {
  const said = standing.clearances
    .map((c) => `${say(c.clearance, units)} ${WHERE[c.side]} (${say(c.needed, units)} needed)`).join('; ');
  return finding('fit', 'ok', 'There is room for it', `Free around it: ${said}.`);
}

/** @param {FitTemplate} template @param {Record<string, number>} asked @param {Record<string, number>} largest
 *  @param {Record<string, number>|null} best @param {'in'|'mm'} units @returns {string} what would fit */
function mendOf(template, asked, largest, best, units) {
  const label = (/** @type {string} */ name) =>
    (template.dimensions.find((d) => d.name === name)?.label ?? name).toLowerCase();
  const one = Object.entries(largest).filter(([name, nm]) => nm > 0 && nm < asked[name]);
  if (one.length) return `Make ${one.map(([n, nm]) => `the ${label(n)} ${say(nm, units)} or less`).join(', or ')}.`;
  if (!best) return 'Choose another piece or another place.';
  return `These fit: ${template.dimensions.map((d) => `${label(d.name)} ${say(best[d.name], units)}`).join(', ')}.`;
}

/** @param {import('./stand.js').Envelope} piece @param {import('./stand.js').Standing} standing
 *  @param {string} mend @param {'in'|'mm'} units */
function misfits(piece, standing, mend, units) {
  return standing.clearances.filter((c) => c.clearance < c.needed).map((c) => {
    const left = c.clearance < 0 ? `It is ${shown(-c.clearance, units, 'up')} too big`
      : `${shown(c.clearance, units, 'down')} is left`;
    const hard = c.clearance < ({ front: piece.openFront, wing: 0 }[c.side] ?? c.needed);
    return finding('fit', hard ? 'stop' : 'caution', misfitTitle(c, hard),
      `${left} ${WHERE[c.side]}${c.needed ? `, ${shown(c.needed, units, 'up')} is needed` : ''}. `
      + `Binding: ${c.binding}.`, mend);
  });
}

/** @param {number} nm @param {'in'|'mm'} units @param {'down'|'up'} how so that a shortage never reads as enough */
const shown = (nm, units, how) => say(roundTo(nm, units === 'mm' ? MM : SIXTEENTH, how), units);

/** @param {import('./stand.js').Clearance} c @param {boolean} hard */
function misfitTitle(c, hard) {
  if (!hard) return `Little room to walk ${c.side === 'wing' ? 'past its wing' : 'or sit in front'}`;
  if (['front', 'across'].includes(c.side) && c.clearance >= 0) return 'Its lid or doors cannot open to the front';
  return /** @type {Record<string, string>} */ ({ along: 'It is too long for the space',
    front: 'It is too deep for the space', wing: 'Its wing is too long for the space', above: 'It is too high, shut or open' })[c.side] ?? 'It does not fit';
}

/** @param {import('./stand.js').Standing} standing @param {'in'|'mm'} units */
function tooNear(standing, units) {
  return standing.blocked.map(({ thing, level, span }) => {
    const where = thing.wall === 'back'
      ? `${say(Math.max(0, span[0]), units)} to ${say(span[1], units)} along the wall`
      : `Room by the ${thing.wall} wall`;
    if (level === 'solid') {
      return finding('fit', 'stop', `${thing.label} is in the way`, `${where} is taken, and no place is left.`,
        'Choose a smaller piece or another place.');
    }
    return finding('keep clear', level, `${thing.label}: too near`,
      `${where} is taken by the room it needs. ${thing.rule.advice}`,
      'Move or shorten the piece. Local rules and the utility come first.');
  });
}

/** @param {import('./stand.js').Envelope} piece @param {import('./space.js').Space} space @param {'in'|'mm'} units */
function notChecked(piece, space, units) {
  const found = [];
  const missing = (/** @type {string} */ what, /** @type {string} */ detail, /** @type {string} */ mend) =>
    found.push(finding('fit', 'not checked', `${what}: not checked`, detail, mend));
  if (!space.runs.length && space.kind !== 'open') {
    missing('Length of the wall', "The back wall's run was not measured.", 'Measure the run.');
  }
  const tops = space.runs.flatMap((r) => (r.height === null ? [] : [r.height]));
  if (space.held && tops.length && tops.length === space.runs.length && Math.max(...tops) < piece.height - 150 * MM) {
    missing('Width at the top', `The highest reading was taken ${say(Math.max(...tops), units)} up.`,
      'Measure the run again up there.');
  }
  for (const [name, side] of /** @type {const} */ ([['left', space.left], ['right', space.right]])) {
    if (side.held && !side.measured) {
      missing(`The ${name} corner`, `The ${name} corner is taken as square.`,
        `Measure the ${name} corner: along, out and across.`);
    }
  }
  if (!space.depths.length && space.kind !== 'open') {
    missing('Room in front', 'How far it is free out from the wall was not measured.',
      'Measure the depth of the space.');
  } else if (space.kind === 'between walls' && !space.walkway && piece.useFront) {
    missing('Room in front', `${say(piece.useFront, units)} in front of the piece should stay free to use it.`,
      'Look whether people can pass.');
  }
  const wall = { left: space.left, right: space.right }[piece.wing];
  if (space.kind === 'corner' && wall?.held && !wall.runs.length) {
    missing(`Length of the ${piece.wing} wall`, `How far the ${piece.wing} wall reaches out was not measured.`,
      `Measure the run of the ${piece.wing} wall.`);
  }
  if (!space.runs.length) {
    for (const thing of space.things) {
      missing(thing.label, `Where the piece stands to it is not known. ${thing.rule.advice}`,
        'Measure the run of the wall.');
    }
  }
  return found;
}

/** @param {import('./stand.js').Envelope} piece @param {import('./space.js').Space} space
 *  @param {import('./stand.js').Standing} standing @param {'in'|'mm'} units */
function notes(piece, space, standing, units) {
  const found = [];
  if (standing.gap > leastGap(piece, space)) {
    found.push(finding('fit', 'note', 'It stands off the wall',
      `The piece stands ${say(standing.gap, units)} off the wall.`));
  }
  if (standing.positions.length && standing.spans.length) {
    const places = standing.positions
      .map(([a, b]) => (a === b ? say(a, units) : `${say(a, units)} to ${say(b, units)}`));
    const named = [...new Set(standing.spans.map((b) => b.thing.label.toLowerCase()))].join(', ');
    found.push(finding('fit', 'note', 'Where it may stand',
      `Its left end ${places.join('; ')} from the left end of the wall, because of: ${named}.`));
  }
  return found;
}
