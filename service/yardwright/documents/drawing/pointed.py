"""A piece with some of its members pointed out: the rest in thin lines, those full, each with its name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import hypot
from typing import TYPE_CHECKING

from yardwright.domain.measure import Writer

from .model import Drawing, Line, Point, Text
from .projection import VIEWS
from .solids import solids
from .views import view_of
from .visible import visible_lines

if TYPE_CHECKING:
    from yardwright.domain.piece.model import Piece

_WORDS = 0.034               # text height as a share of the drawing's width


def pointed_out(piece: Piece, keys: Sequence[str], said: str, units: str, opened_deg: float = 0.0) -> Drawing:
    """An isometric drawing: ``keys`` drawn whole in front of the outlines of the rest, ``said`` below.

    With ``opened_deg`` its lids and doors are turned that far.
    """
    if opened_deg:
        piece = replace(piece, moving={name: (at, axis, opened_deg)
                                       for name, (at, axis, _) in piece.moving.items()})
    members = solids(piece, opened=bool(opened_deg))
    view = VIEWS["isometric"]
    around = tuple(Line(segment, "hatch") for lines in visible_lines(members, view) for segment in lines)
    chosen = [rings for m, rings in zip(piece.members, members, strict=False) if m.key in keys]
    drawing = view_of(chosen or members, "isometric", Writer(units), piece.template.name)
    points = [p for line in around for p in line.points]
    low = (min(p[0] for p in points), min(p[1] for p in points))
    high = (max(p[0] for p in points), max(p[1] for p in points))
    height = _WORDS * (high[0] - low[0])
    left, over, under = low[0], high[1] + 0.5 * height, low[1] - 0.5 * height
    names = tuple(Text((left, over + 1.5 * (len(keys) - k) * height), f"{k + 1}  {key}", height, "start")
                  for k, key in enumerate(keys))
    middles = _apart([_middle(piece, key, members) for key in keys], 1.7 * height)
    numbers = tuple(Text(at, str(k + 1), 1.3 * height, bold=True, halo=True) for k, at in enumerate(middles))
    told = tuple(Text((left, under - 1.5 * (k + 1) * height), line, height, "start")
                 for k, line in enumerate(_lines(said)))
    return replace(drawing, shapes=(*around, *drawing.shapes, *names, *numbers, *told))


def _middle(piece: Piece, key: str, members: Sequence[Sequence[Sequence[tuple[float, float, float]]]]
            ) -> tuple[float, float]:
    rings = next(rings for m, rings in zip(piece.members, members, strict=False) if m.key == key)
    view = VIEWS["isometric"]
    flat = [view.flat(p) for ring in rings for p in ring]
    return sum(p[0] for p in flat) / len(flat), sum(p[1] for p in flat) / len(flat)


def _apart(middles: Sequence[Point], least: float) -> list[Point]:
    """Members that clash have their middles near each other: their numbers step aside to the right."""
    found: list[Point] = []
    for x, y in middles:
        while any(hypot(x - u, y - v) < least for u, v in found):
            x += least / 2
        found.append((x, y))
    return found


def _lines(said: str, most: int = 52) -> list[str]:
    found = [""]
    for word in said.split():
        if len(found[-1]) + len(word) >= most and found[-1]:
            found.append("")
        found[-1] = f"{found[-1]} {word}".strip()
    return found
