"""Where a piece stands: the outline around its feet, and how far a place lies within or outside it.

The outline is the tightest one round everything that reaches the ground (its convex hull), so that three
legs or an L stand on the line between their outer feet, not on a rectangle. A piece tips over a side of it
when the weights on it balance outside that side. mm, level ground, stiff feet. Source: moments (geometry).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import hypot

from ..piece.model import Piece, Vector
from .rule import Unknown
from .touches import corners

Level2 = tuple[float, float]
_ALIKE_MM = 0.01             # places nearer than this are one
_STRAIGHT = 0.38             # below this share of a direction (22.5 deg) it is not named


@dataclass(frozen=True, slots=True)
class Side:
    """One side of the outline: its level direction outward, and where it lies along that."""

    out: Level2
    at: float

    def inside(self, x: float, y: float) -> float:
        """How far a place lies within the side; negative outside."""
        return self.at - self.out[0] * x - self.out[1] * y

    def past(self, places: Iterable[Vector]) -> float:
        """How far the outermost of some places reaches past the side; 0 where none does."""
        return max(0.0, *(-self.inside(p[0], p[1]) for p in places))

    @property
    def name(self) -> str:
        """``front``, ``right end``, ``back left corner``."""
        x = "right" if self.out[0] > _STRAIGHT else "left" if self.out[0] < -_STRAIGHT else ""
        y = "back" if self.out[1] > _STRAIGHT else "front" if self.out[1] < -_STRAIGHT else ""
        return f"{y} {x} corner" if x and y else f"{x} end" if x else y

    @property
    def way(self) -> str:
        """The way of a push over it: ``backward``, ``to the left``, ``backward and to the left``."""
        x = "to the right" if self.out[0] > _STRAIGHT else "to the left" if self.out[0] < -_STRAIGHT else ""
        y = "backward" if self.out[1] > _STRAIGHT else "forward" if self.out[1] < -_STRAIGHT else ""
        return f"{y} and {x}" if x and y else x or y


@dataclass(frozen=True, slots=True)
class Unheld:
    """What the weight of a piece leaves to its anchors: a moment, pushed at a height, over one side."""

    why: str
    moment_nmm: float
    high_mm: float
    way: Level2


@dataclass(frozen=True, slots=True)
class Stance:
    """The sides that a piece can tip over."""

    sides: tuple[Side, ...]

    def nearest(self, x: float, y: float) -> tuple[Side, float]:
        """The side that a place is nearest to, and how far within it the place lies."""
        return min(((s, s.inside(x, y)) for s in self.sides), key=lambda found: found[1])

    def room(self, x: float, y: float, way: Level2) -> float:
        """How far a place may go ``way`` (a unit direction) before it leaves the outline."""
        ahead = ((s.inside(x, y), s.out[0] * way[0] + s.out[1] * way[1]) for s in self.sides)
        return min((inside / along for inside, along in ahead if along > 1e-9), default=float("inf"))


def stance_of(piece: Piece, standing_mm: float) -> Stance:
    """The outline of what reaches the ground; Unknown when nothing does."""
    low = [(c[0], c[1]) for m in piece.members if m.material != "roll"
           for c in corners(m) if c[2] <= standing_mm]
    if not low:
        raise Unknown("no member reaches the ground")
    return stance_on(low)


def stance_on(places: Sequence[Level2]) -> Stance:
    """The outline around places seen from above, one at least."""
    around = outline(places)
    if len(around) < 3:                      # feet in one line: their own small breadth is not known
        (x0, x1), (y0, y1) = ((min(v), max(v)) for v in zip(*places, strict=True))
        return Stance((Side((0.0, -1.0), -y0), Side((1.0, 0.0), x1), Side((0.0, 1.0), y1),
                       Side((-1.0, 0.0), -x0)))
    return Stance(tuple(_side(a, b) for a, b in zip(around, (*around[1:], around[0]), strict=True)))


def outline(places: Sequence[Level2]) -> tuple[Level2, ...]:
    """The corners of the tightest outline, anticlockwise seen from above (Andrew's monotone chain)."""
    order = sorted({(round(x, 3), round(y, 3)) for x, y in places})
    lower, upper = _chain(order), _chain(order[::-1])
    return (*lower[:-1], *upper[:-1])


def _chain(order: Sequence[Level2]) -> list[Level2]:
    kept: list[Level2] = []
    for p in order:
        while len(kept) > 1 and _turn(kept[-2], kept[-1], p) <= _ALIKE_MM * _ALIKE_MM:
            kept.pop()
        kept.append(p)
    return kept


def _turn(a: Level2, b: Level2, c: Level2) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _side(a: Level2, b: Level2) -> Side:
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = hypot(dx, dy)
    out = (dy / length + 0.0, -dx / length + 0.0)
    return Side(out, out[0] * a[0] + out[1] * a[1])
