"""What corners off square and walls out of plumb leave open, and whether an L stands in its corner.

A piece is made square and set level: where a corner or a wall is not, a wedge stays open, as wide as the
slant times the reach of the piece along it. Lengths in nm.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from ..finding import Finding, Level
from ..measure import MM, Writer
from .model import Envelope
from .space import SIDES, Space
from .stand import Standing, end_room

RULE = "fit"
SEEN_NM = 5 * MM                 # diagonals equal within this count as a rectangle; glazing practice, seen
SCRIBED_NM = 12 * MM             # a board is scribed to a wall by up to this; common practice, memory
CLOSE_NM = 50 * MM               # with more to spare between two walls it stands free of one; judgement
FAR_NM = 150 * MM                # further than this from its corner an L is not in it; judgement
SOURCE = "geometry; up to 12 mm (1/2 in) is scribed: common practice, memory"


@dataclass(frozen=True, slots=True)
class Wedge:
    """What stays open at a wall: at ``where`` of the piece, over ``over_nm`` of it along the wall."""

    wall: str                    # "left" | "right" | "back"
    title: str
    where: str
    slant: float
    over_nm: int
    grave: bool = False

    @property
    def wide_nm(self) -> int:
        return round(abs(self.slant) * self.over_nm)


def open_wedges(piece: Envelope, space: Space) -> Iterator[Wedge]:
    """Every wedge wider than eyes pass over; at the wing of an L, one too wide is grave."""
    return (wedge for wedge in _all(piece, space) if wedge.wide_nm > SEEN_NM)


def _all(piece: Envelope, space: Space) -> Iterator[Wedge]:
    for name in SIDES:
        side = space.side(name)
        if not side.held:
            continue
        slant = (side.closing + side.opening) / 2
        far = "the end of its wing" if piece.wing == name else "its front"
        corner = Wedge(name, f"The {name} corner is off square", "its back" if slant > 0 else far, slant,
                       piece.out_nm(name))
        yield replace(corner, grave=piece.wing == name and corner.wide_nm > SCRIBED_NM)
        yield _out_of_plumb(name, side.lean, piece.height_nm)
    if space.back_held:
        yield _out_of_plumb("back", space.back_lean, piece.height_nm)


def _out_of_plumb(name: str, lean: float, height_nm: int) -> Wedge:
    return Wedge(name, f"The {name} wall is out of plumb", "its bottom" if lean > 0 else "its top", lean,
                 height_nm)


def wedges(piece: Envelope, space: Space, standing: Standing, writer: Writer) -> Iterator[Finding]:
    """A note for every open wedge, a caution for a grave one."""
    fitted = fitted_against(space, standing)
    for wedge in open_wedges(piece, space):
        wide = writer.length(wedge.wide_nm)
        mend = ("Build the wing to the angle of the corner, or cover the wedge with a board scribed to the "
                "wall." if wedge.grave else "Scribe the board there to the wall, or leave the wedge open.")
        if wedge.wall in fitted:
            mend += " Where installing is asked, the time for scribing it is in the price."
        yield Finding(RULE, Level.CAUTION if wedge.grave else Level.NOTE, wedge.title,
                      f"Made square and set level, it stands {wide} further off the {wedge.wall} wall at "
                      f"{wedge.where} than at the other end.", wide, writer.length(SCRIBED_NM), SOURCE, mend,
                      f"slant {abs(wedge.slant):.4f} × {writer.length(wedge.over_nm)} of the piece along it "
                      f"= {wide}")


def fitted_against(space: Space, standing: Standing) -> frozenset[str]:
    """Ends where it stands close to a wall: the only one held, or both with little to spare between them.

    The back stands off its wall for air and is not fitted to it.
    """
    held = frozenset(name for name in SIDES if space.side(name).held)
    spare = [c.clearance_nm - c.needed_nm for c in standing.clearances if c.side == "along"]
    if not standing.fits or not spare or (len(held) > 1 and spare[0] > CLOSE_NM):
        return frozenset()
    return held


def scribed_nm(piece: Envelope, space: Space, standing: Standing) -> tuple[int, ...]:
    """How long each edge is that is scribed to a wall it is fitted against."""
    fitted = fitted_against(space, standing)
    return tuple(wedge.over_nm for wedge in open_wedges(piece, space) if wedge.wall in fitted)


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
