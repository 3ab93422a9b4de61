"""The workshop's pictures: measured views with part marks, then the inside with marked parts taken off.

Every mark of the cut list is shown at least once: in the first view in which its part shows well, else in
a three-quarter view from which the parts already marked are left out, and so on inwards.
"""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import replace
from typing import TYPE_CHECKING

from yardwright.domain.measure import Writer, to_mm

from .balloons import ballooned
from .draw import PAPER_TEXT_SHARE, draw
from .model import Drawing, Line, Point
from .projection import VIEWS, Ring
from .seen import best_places
from .solids import solids
from .views import view_of
from .visible import visible_lines

if TYPE_CHECKING:
    from yardwright.domain.parts import Part
    from yardwright.domain.piece.model import Piece

_MOST_INSIDES = 8
_THIN_MM = 15.0              # a part seen through a slit narrower than about a third of this shows nothing
_INSIDE_WORDS = 0.03         # text height of the inside views, as a share of their width


def workshop_drawings(piece: Piece, parts: Sequence[Part], units: str, item: int = 0) -> tuple[Drawing, ...]:
    """Front, side and plan with balloons, then as many inside views as it takes to show every mark."""
    length, depth, height = piece.closed.size
    text_mm = PAPER_TEXT_SHARE * max(length + depth, 1.1 * height)
    members = solids(piece)
    shown: set[str] = set()
    found: list[Drawing] = []
    for view in ("front", "side", "plan"):
        anchors = _anchors(piece, [p for p in parts if p.mark not in shown], members, view, text_mm)
        drawing, more = ballooned(draw(piece, view, units, text_mm=text_mm), anchors, text_mm)
        found.append(drawing)
        shown |= more
    return tuple(replace(d, item=item) for d in (*found, *_insides(piece, parts, members, shown)))


def _insides(piece: Piece, parts: Sequence[Part], members: Sequence[Sequence[Ring]],
             shown: Set[str]) -> list[Drawing]:
    """Three-quarter views of what is left, the marked parts taken off layer by layer."""
    found: list[Drawing] = []
    done = set(shown)
    around = tuple(Line(s, "hatch") for s in visible_lines(members, VIEWS["isometric"])[0])
    while len(found) < _MOST_INSIDES and (left := [p for p in parts if p.mark not in done]):
        keys = {key for part in left for key in part.keys}
        rest = [rings if m.key in keys else () for m, rings in zip(piece.members, members, strict=False)]
        drawing = view_of([rings for rings in rest if rings], "isometric", Writer("mm"), piece.template.name)
        drawing = replace(drawing, shapes=(*around, *drawing.shapes))
        height = _INSIDE_WORDS * drawing.bounds.width
        anchors = _anchors(piece, left, rest, "isometric", height) or _anchors(piece, left, rest,
                                                                               "isometric", 0.0)
        drawing, more = ballooned(drawing, anchors, height)
        if not more:
            break
        gone = "with the parts marked so far taken off"
        found.append(replace(drawing, view="inside", title=f"{piece.template.name}: {gone}",
                             description=f"{piece.template.name} {gone}."))
        done |= more
    return found


def _anchors(piece: Piece, parts: Sequence[Part], members: Sequence[Sequence[Ring]], view: str,
             height: float) -> dict[str, Point]:
    """Where the leader of each mark ends: in the member of the part that shows best, if it shows at all."""
    numbers = {member.key: n for n, member in enumerate(piece.members)}
    best = best_places(members, VIEWS[view])
    found: dict[str, Point] = {}
    for part in parts:
        places = [best[numbers[key]] for key in part.keys if numbers[key] in best]
        least = 0.3 * min(height, to_mm(part.width_nm), max(to_mm(part.thickness_nm), _THIN_MM))
        if places and (place := max(places, key=lambda p: (p[1], p[0])))[1] >= least:
            found[part.mark] = place[0]
    return found
