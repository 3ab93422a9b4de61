/**
 * The answer in one sentence, for every place that shows one: it says no more than the findings do. The same
 * sentence as the service's domain/fit/verdict.py; both pass tests/vectors/fits.json.
 */

/** @param {import('./fit.js').Finding[]} found @param {string} level @returns {string} */
const named = (found, level) =>
  [...new Set(found.filter((f) => f.level === level).map((f) => f.title.replace(/: not checked$/, '')))].join('; ');

/** @param {boolean} fits @param {import('./fit.js').Finding[]} found @returns {string} */
export function verdictOf(fits, found) {
  const [stops, cautions, unknown] = ['stop', 'caution', 'not checked'].map((level) => named(found, level));
  if (!fits) {
    const why = stops || cautions;
    if (unknown && !why) return `Whether it fits the space is not known. Not checked: ${unknown}.`;
    return `It does not fit the space as measured${why ? `: ${why}` : ''}.`;
  }
  let said = `Its size fits the space as measured, but it is stopped: ${stops}.`;
  if (!stops) {
    said = unknown ? 'It fits as far as measured' : 'It fits the space as measured';
    said += cautions ? `, but see: ${cautions}.` : '.';
  }
  return unknown ? `${said} Not checked: ${unknown}.` : said;
}
