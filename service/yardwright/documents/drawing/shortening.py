"""A long plain part drawn short: its middle left out between break lines, both ends true to scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .features import Features
from .model import Line, Point, Shape

Segment = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Shortening:
    """From ``first`` to ``last`` along the part nothing is drawn; the gap is drawn ``gap_mm`` wide."""

    first: float
    last: float
    gap_mm: float

    def __call__(self, along: float) -> float:
        """Where a place along the part is drawn."""
        if along <= self.first:
            return along
        return max(self.first, along - (self.last - self.first) + self.gap_mm)

    def lines(self, segments: Sequence[Segment]) -> list[Segment]:
        """The segments less what falls in the gap."""
        found = []
        for a, b in segments:
            a, b = (a, b) if a[0] <= b[0] else (b, a)
            for low, high in ((float("-inf"), self.first), (self.last, float("inf"))):
                if (part := _between(a, b, low, high)) is not None:
                    found.append(((self(part[0][0]), part[0][1]), (self(part[1][0]), part[1][1])))
        return found

    def breaks(self, low: float, high: float, over: float) -> tuple[Shape, ...]:
        """The two break lines across a view from ``low`` to ``high``, standing out by ``over``."""
        if not self.gap_mm:
            return ()
        level, tooth = (low + high) / 2, min(0.3 * self.gap_mm, 0.25 * (high - low))
        return tuple(Line(((x, low - over), (x, level - tooth), (x + tooth, level - tooth / 2),
                           (x - tooth, level + tooth / 2), (x, level + tooth), (x, high + over)), "thin")
                     for x in (self.first, self.first + self.gap_mm))


def _between(a: Point, b: Point, low: float, high: float) -> Segment | None:
    """The stretch of a segment (left to right) between two places."""
    if b[0] < low or a[0] > high:
        return None
    run = b[0] - a[0]
    if run < 1e-9:
        return (a, b)

    def at(x: float) -> Point:
        return (x, a[1] + (b[1] - a[1]) * (x - a[0]) / run)

    return (a if a[0] >= low else at(low), b if b[0] <= high else at(high))


def shortened(found: Features) -> Shortening:
    """How much of a part is left out: none where work lies in its middle or its sides are not parallel."""
    length, width, thickness = found.size
    shown = max(3.2 * max(width, 2.0 * thickness), 150.0)
    gap = 0.06 * shown
    first, last = shown / 2 - gap / 2, length - shown / 2 + gap / 2
    whole = Shortening(length, length, 0.0)
    if last - first < 2 * gap or any(e.kind != "bevel" for e in found.edges):
        return whole
    worked = [*found.along_mm, *(p[0] for p, _ in found.floors),
              *(x for hole in found.holes for x in (hole.centre[0] - hole.radius_mm,
                                                    hole.centre[0] + hole.radius_mm))]
    cut_ends = max((abs(e.at[0] - (0.0 if e.left else length)) * 2 for e in found.ends), default=0.0)
    spread = [(min(a.start[0], a.end[0]), max(a.start[0], a.end[0])) for a in found.arcs]
    if cut_ends > first or any(first < x < last for x in worked):
        return whole
    return whole if any(x0 < last and x1 > first for x0, x1 in spread) else Shortening(first, last, gap)
