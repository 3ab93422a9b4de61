"""Lines on top of each other made one, so that each stretch of a drawing is drawn once."""

from __future__ import annotations

from collections.abc import Iterable
from math import atan2, cos, hypot, pi, sin

from .clipping import unions
from .model import Point

Segment = tuple[Point, Point]

SHORTEST_MM = 0.3      # a shorter visible stretch is a speck, not a line
_SAME_MM = 0.02        # lines nearer to each other than this are one


def merged(segments: Iterable[Segment]) -> list[Segment]:
    """Segments on one line that overlap or meet become one; each stretch is drawn once."""
    placed = []
    for (ax, ay), (bx, by) in segments:
        if hypot(bx - ax, by - ay) < SHORTEST_MM:
            continue
        angle = atan2(by - ay, bx - ax) % pi
        angle = 0.0 if pi - angle < 5e-4 else angle
        c, s = cos(angle), sin(angle)
        offset = ay * c - ax * s
        along = sorted((ax * c + ay * s, bx * c + by * s))
        placed.append((round(angle, 3), offset, along[0], along[1], angle))
    joined: list[Segment] = []
    for line in _lines(sorted(placed)):
        angle, offset = line[0][4], line[0][1]
        c, s = cos(angle), sin(angle)
        joined += [((a * c - offset * s, a * s + offset * c), (b * c - offset * s, b * s + offset * c))
                   for a, b in unions((p[2], p[3]) for p in line)]
    return joined


_Placed = tuple[float, float, float, float, float]


def _lines(placed: list[_Placed]) -> list[list[_Placed]]:
    """Groups that lie on the same line: same direction, next to nothing apart."""
    groups: list[list[_Placed]] = []
    for one in placed:
        last = groups[-1][0] if groups else None
        if last is not None and one[0] == last[0] and one[1] - last[1] < _SAME_MM:
            groups[-1].append(one)
        else:
            groups.append([one])
    return groups
