/**
 * What corners off square and walls out of plumb leave open, and whether an L stands in its corner. The same
 * limits as the service's domain/fit/scribing.py. Lengths in nm.
 *
 * @typedef {import('./stand.js').Envelope} Envelope
 * @typedef {import('./space.js').Space} Space
 * @typedef {import('./fit.js').Finding} Finding
 */
import { MM } from './measure.js';
import { SIDES, say } from './space.js';
import { endRoom, outOf } from './stand.js';

const SEEN = 5 * MM;
const SCRIBED = 12 * MM;
const FAR = 150 * MM;

/** @param {string} level @param {string} title @param {string} detail @param {string} mend @returns {Finding} */
const finding = (level, title, detail, mend) => ({ rule: 'fit', level, title, detail, mend });

/** @param {Envelope} piece @param {Space} space @returns {Finding[]} a wedge that stays open at a wall or corner */
export function wedges(piece, space) {
  const found = SIDES.flatMap((name) => {
    const side = name === 'left' ? space.left : space.right;
    if (!side.held) return [];
    const slant = (side.closing + side.opening) / 2;
    const far = piece.wing === name ? 'the end of its wing' : 'its front';
    const wide = wideOf(slant, outOf(piece, name));
    return [
      ...wedge(`The ${name} corner is off square`, name, slant > 0 ? 'its back' : far, wide,
        piece.wing === name && wide > SCRIBED, space.units),
      ...outOfPlumb(name, side.lean, piece.height, space.units)];
  });
  return space.backHeld ? [...found, ...outOfPlumb('back', space.backLean, piece.height, space.units)] : found;
}

/** @param {number} slant @param {number} over */
const wideOf = (slant, over) => Math.round(Math.abs(slant) * over);

/** @param {string} name @param {number} lean @param {number} height @param {'in'|'mm'} units */
const outOfPlumb = (name, lean, height, units) => wedge(`The ${name} wall is out of plumb`, name,
  lean > 0 ? 'its bottom' : 'its top', wideOf(lean, height), false, units);

/** @param {string} title @param {string} name @param {string} where @param {number} wide @param {boolean} grave
 *  @param {'in'|'mm'} units @returns {Finding[]} */
function wedge(title, name, where, wide, grave, units) {
  if (wide <= SEEN) return [];
  return [finding(grave ? 'caution' : 'note', title,
    `It stands ${say(wide, units)} further off the ${name} wall at ${where} than at the other end.`,
    grave ? 'Build the wing to the angle of the corner, or cover the wedge with a scribed board.'
      : 'Scribe the board there to the wall, or leave the wedge open.')];
}

/** @param {Envelope} piece @param {Space} space @param {import('./stand.js').Standing} standing @returns {Finding[]} */
export function inItsCorner(piece, space, standing) {
  if (piece.wing === 'none' || !space.held) return [];
  const other = piece.wing === 'left' ? 'right' : 'left';
  if (!(piece.wing === 'left' ? space.left : space.right).held) {
    return [finding('caution', 'Its wing is at the end without a wall',
      `The wall is at the ${other} end, the wing at the ${piece.wing}.`, `Choose the piece with its wing at the ${other}.`)];
  }
  const { positions, base } = standing;
  if (!positions.length) return [];
  const off = piece.wing === 'left' ? positions[0][0] - base[0] : base[1] - positions[positions.length - 1][1];
  if (off <= FAR) return [];
  const away = say(off + endRoom(piece, space, piece.wing), space.units);
  return [finding('caution', 'It cannot stand in its corner',
    `What is on the walls keeps it ${away} from the ${piece.wing} wall.`, 'Take the things away, or choose another piece.')];
}
