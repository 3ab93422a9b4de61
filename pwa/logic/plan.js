/** The place seen from above, in mm, from what can be read so far: for the sketch, not for the fit. */
import { describe } from './fields.js';
import { at } from './draft.js';
import { readField } from './reading.js';
import { sides } from './request.js';

const NM = 1_000_000;

/**
 * {widthMm, depthMm, walls: {back, left, right}, things: [{label, wall, fromMm, toMm, outMm}]}; null while
 * there is no width yet. Width and depth are the smallest readings, as a maker takes them.
 */
export function planOf(draft, catalogue) {
  const value = (path) => {
    const reading = readField(at(draft, path), draft.units, describe(path, draft, catalogue));
    return reading.state === 'good' ? reading.value / NM : null;
  };
  const least = (list) => {
    const found = at(draft, list)
      .map((_, index) => value(`${list}.${index}.value`))
      .filter((one) => one !== null);
    return found.length ? Math.min(...found) : null;
  };
  const widthMm = least('site.readings');
  if (!widthMm) return null;
  const things = draft.site.obstructions
    .map((line, index) => {
      const part = (key) => value(`site.obstructions.${index}.${key}`);
      return {
        label: catalogue.things.get(line.kind) ?? line.kind,
        wall: line.wall,
        fromMm: part('from'),
        toMm: part('to'),
        outMm: part('projection') ?? 0,
      };
    })
    .filter((one) => one.fromMm !== null && one.toMm > one.fromMm);
  const has = sides(draft.site);
  return {
    widthMm,
    depthMm: least('site.depths'),
    things,
    walls: { back: draft.site.kind !== 'open', left: has.includes('left'), right: has.includes('right') },
  };
}
