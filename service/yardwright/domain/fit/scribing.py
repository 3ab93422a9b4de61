"""What corners off square and walls out of plumb leave open, and whether an L stands in its corner.

A piece is made square and set level: where a corner or a wall is not, a wedge stays open, as wide as the
slant times the reach of the piece along it. Lengths in nm.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..measure import MM, Writer
from .model import Envelope
from .space import SIDES, Space
from .stand import Standing, end_room

RULE = "fit"
SEEN_NM = 5 * MM                 # diagonals equal within this count as a rectangle; glazing practice, seen
SCRIBED_NM = 12 * MM             # a board is scribed to a wall by up to this; common practice, memory
FAR_NM = 150 * MM                # further than this from its corner an L is not in it; judgement
SOURCE = "geometry; up to 12 mm (1/2 in) is scribed: common practice, memory"


def wedges(piece: Envelope, space: Space, writer: Writer) -> Iterator[Finding]:
    """A note for every wedge wider than eyes pass over; at the wing of an L, one too wide is a caution."""
    for name in SIDES:
        side = space.side(name)
        if not side.held:
            continue
        slant = (side.closing + side.opening) / 2
        far = "the end of its wing" if piece.wing == name else "its front"
        over = piece.out_nm(name)
        grave = piece.wing == name and _wide(slant, over) > SCRIBED_NM
        yield from _wedge(f"The {name} corner is off square", f"the {name} wall",
                          "its back" if slant > 0 else far, slant, over, grave, writer)
        yield from _out_of_plumb(name, side.lean, piece.height_nm, writer)
    if space.back_held:
        yield from _out_of_plumb("back", space.back_lean, piece.height_nm, writer)


def _wide(slant: float, over_nm: int) -> int:
    return round(abs(slant) * over_nm)


def _out_of_plumb(name: str, lean: float, height_nm: int, writer: Writer) -> Iterator[Finding]:
    yield from _wedge(f"The {name} wall is out of plumb", f"the {name} wall",
                      "its bottom" if lean > 0 else "its top", lean, height_nm, False, writer)


def _wedge(title: str, wall: str, where: str, slant: float, over_nm: int, grave: bool, writer: Writer
           ) -> Iterator[Finding]:
    wide_nm = _wide(slant, over_nm)
    if wide_nm <= SEEN_NM:
        return
    wide, slant = writer.length(wide_nm), abs(slant)
    mend = ("Build the wing to the angle of the corner, or cover the wedge with a board scribed to the wall."
            if grave else "Scribe the board there to the wall, or leave the wedge open.")
    yield Finding(RULE, Level.CAUTION if grave else Level.NOTE, title,
                  f"Made square and set level, it stands {wide} further off {wall} at {where} than at the "
                  "other end.", wide, writer.length(SCRIBED_NM), SOURCE, mend,
                  f"slant {slant:.4f} × {writer.length(over_nm)} of the piece along it = {wide}")


def in_its_corner(piece: Envelope, space: Space, standing: Standing, writer: Writer) -> Iterator[Finding]:
    """A caution for an L whose wing has no wall behind it, or that a thing keeps out of its corner."""
    if piece.wing == "none" or not space.held:
        return
    other = "right" if piece.wing == "left" else "left"
    if not space.side(piece.wing).held:
        yield Finding(RULE, Level.CAUTION, "Its wing is at the end without a wall",
                      f"The wall is at the {other} end, the wing at the {piece.wing}.", f"wing {piece.wing}",
                      f"wall {other}", "geometry", f"Choose the piece with its wing at the {other}.",
                      f"measured sides: {other} only; wing asked for: {piece.wing}")
    elif standing.positions:
        first, last = standing.positions[0][0], standing.positions[-1][1]
        off = first - standing.base[0] if piece.wing == "left" else standing.base[1] - last
        if off > FAR_NM:
            away = writer.length(off + end_room(piece, space, piece.wing))
            yield Finding(RULE, Level.CAUTION, "It cannot stand in its corner",
                          f"What is on the walls keeps it {away} from the {piece.wing} wall.", away,
                          writer.length(FAR_NM), "judgement",
                          "Take the things away, or choose another piece.",
                          f"nearest free place {away} off the {piece.wing} wall > {writer.length(FAR_NM)}")
