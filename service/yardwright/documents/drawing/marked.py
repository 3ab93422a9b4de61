"""The workshop's pictures: measured views with part marks, then the inside with marked parts taken off.

Every mark of the cut list is shown at least once: in the first view in which its part shows well, else in
a three-quarter view from which the parts already marked are left out, and so on inwards.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import replace
from math import dist
from typing import TYPE_CHECKING

from yardwright.domain.measure import Writer, to_mm

from .balloons import ballooned
from .draw import PAPER_TEXT_SHARE, draw
from .model import Drawing, Line, Point, worded
from .projection import VIEWS, Ring
from .seen import best_places
from .solids import solids
from .views import view_of
from .visible import visible_lines

if TYPE_CHECKING:
    from yardwright.domain.parts import Part
    from yardwright.domain.piece.model import Piece

_MOST_INSIDES = 8
_THIN_MM = 15.0              # mesh or cloth shows by its face or not at all, never through a slit
_INSIDE_WIDE, _INSIDE_HIGH = 0.049, 0.055  # text height as a share of an inside view's width and height
_TRIES = 4
_SPECK_MM = 5.0              # of the outline around an inside view, less is dust

Places = Mapping[int, tuple[Point, float]]


def workshop_drawings(piece: Piece, parts: Sequence[Part], units: str, item: int = 0,
                      words_mm: Callable[[Sequence[Drawing]], float] | None = None) -> tuple[Drawing, ...]:
    """Front, side and plan with balloons, then as many inside views as it takes to show every mark.

    ``words_mm`` says how high the words of these views must be to read where they are printed.
    """
    length, depth, height = piece.closed.size
    text_mm = PAPER_TEXT_SHARE * max(length + depth, 1.1 * height)
    members = solids(piece)
    plain = [(draw(piece, view, units, text_mm=text_mm), best_places(members, VIEWS[view]))
             for view in ("front", "side", "plan")]
    found, shown = _measured(piece, parts, plain, text_mm)
    for _ in range(_TRIES if words_mm else 0):
        assert words_mm is not None
        before, text_mm = text_mm, words_mm(found)
        if abs(text_mm - before) < 0.01 * text_mm:
            break
        found, shown = _measured(piece, parts, plain, text_mm)
    return tuple(replace(d, item=item) for d in (*found, *_insides(piece, parts, members, shown)))


def _measured(piece: Piece, parts: Sequence[Part], plain: Sequence[tuple[Drawing, Places]],
              text_mm: float) -> tuple[list[Drawing], set[str]]:
    """The measured views with words of one height, each mark in the first in which its part shows well."""
    found: list[Drawing] = []
    shown: set[str] = set()
    for view, best in plain:
        anchors = _anchors(piece, [p for p in parts if p.mark not in shown], best, text_mm)
        drawing, more = ballooned(worded(view, text_mm), anchors, text_mm)
        found.append(drawing)
        shown |= more
    return found, shown


def _insides(piece: Piece, parts: Sequence[Part], members: Sequence[Sequence[Ring]],
             shown: Set[str]) -> list[Drawing]:
    """Three-quarter views of what is left, the marked parts taken off layer by layer."""
    found: list[Drawing] = []
    done = set(shown)
    around = tuple(Line(s, "hatch") for s in visible_lines(members, VIEWS["isometric"])[0]
                   if dist(*s) > _SPECK_MM)
    while len(found) < _MOST_INSIDES and (left := [p for p in parts if p.mark not in done]):
        keys = {key for part in left for key in part.keys}
        rest = [rings if m.key in keys else () for m, rings in zip(piece.members, members, strict=False)]
        drawing = view_of([rings for rings in rest if rings], "isometric", Writer("mm"), piece.template.name)
        drawing = replace(drawing, shapes=(*around, *drawing.shapes))
        height = max(_INSIDE_WIDE * drawing.bounds.width, _INSIDE_HIGH * drawing.bounds.height)
        best = best_places(rest, VIEWS["isometric"])
        anchors = _anchors(piece, left, best, height) or _anchors(piece, left, best, 0.0)
        drawing, more = ballooned(drawing, anchors, height)
        if not more:
            break
        gone = "with the parts marked so far taken off"
        found.append(replace(drawing, view="inside", title=f"{piece.template.name}: {gone}",
                             description=f"{piece.template.name} {gone}."))
        done |= more
    return found


def _anchors(piece: Piece, parts: Sequence[Part], best: Places, height: float) -> dict[str, Point]:
    """Where the leader of each mark ends: in the member of the part that shows best, if it shows at all."""
    numbers = {member.key: n for n, member in enumerate(piece.members)}
    found: dict[str, Point] = {}
    for part in parts:
        places = [best[numbers[key]] for key in part.keys if numbers[key] in best]
        thick = to_mm(part.thickness_nm)
        least = 0.3 * min(height, to_mm(part.width_nm), thick if thick > _THIN_MM else height)
        if places and (place := max(places, key=lambda p: (p[1], p[0])))[1] >= least:
            found[part.mark] = place[0]
    return found
