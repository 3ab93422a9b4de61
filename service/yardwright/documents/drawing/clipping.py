"""Stretches of a straight line inside an outline, and sums over such stretches.

A stretch is a pair of shares of the line's run, 0 at its start and 1 at its end.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from math import hypot

from .model import Point
from .projection import Face

Span = tuple[float, float]

_TOUCH_MM = 0.02       # nearer to an outline than this counts as on it, not inside


def inside(start: Point, end: Point, face: Face) -> list[Span]:
    """Stretches of a line inside a face's outline."""
    return _inside_convex(start, end, face.points) if face.convex else _inside_any(start, end, face.points)


def _inside_convex(start: Point, end: Point, points: tuple[Point, ...]) -> list[Span]:
    """Clipped against each side in turn (the outline is counter-clockwise)."""
    first, last = 0.0, 1.0
    (ax, ay), (bx, by) = start, end
    px, py = points[-1]
    for qx, qy in points:
        dx, dy = qx - px, qy - py
        size = hypot(dx, dy)
        if size > 1e-9:
            a = (dx * (ay - py) - dy * (ax - px)) / size
            b = (dx * (by - py) - dy * (bx - px)) / size
            if a <= _TOUCH_MM and b <= _TOUCH_MM:
                return []
            if a < 0.0:
                first = max(first, a / (a - b))
            elif b < 0.0:
                last = min(last, a / (a - b))
            if first >= last:
                return []
        px, py = qx, qy
    return [(first, last)]


def _inside_any(start: Point, end: Point, points: tuple[Point, ...]) -> list[Span]:
    """Cut where the outline is crossed; each stretch is in or out as its middle is (even-odd rule)."""
    (ax, ay), (bx, by) = start, end
    dx, dy = bx - ax, by - ay
    size = hypot(dx, dy)
    if size < 1e-9:
        return []
    cuts = {0.0, 1.0}
    px, py = points[-1]
    for qx, qy in points:
        p = (dx * (py - ay) - dy * (px - ax)) / size
        q = (dx * (qy - ay) - dy * (qx - ax)) / size
        for x, y, off in ((px, py, p), (qx, qy, q)):
            if abs(off) <= _TOUCH_MM:
                cuts.add(((x - ax) * dx + (y - ay) * dy) / (size * size))
        if p * q < 0.0:
            s = p / (p - q)
            x, y = px + (qx - px) * s, py + (qy - py) * s
            cuts.add(((x - ax) * dx + (y - ay) * dy) / (size * size))
        px, py = qx, qy
    ends = sorted(c for c in cuts if 0.0 <= c <= 1.0)
    return [(s, t) for s, t in pairwise(ends)
            if t - s > 1e-9 and _well_inside((ax + dx * (s + t) / 2, ay + dy * (s + t) / 2), points)]


def _well_inside(point: Point, points: tuple[Point, ...]) -> bool:
    """Inside by the even-odd rule and not on the outline."""
    x, y = point
    odd = False
    px, py = points[-1]
    for qx, qy in points:
        if (py > y) != (qy > y) and x < px + (qx - px) * (y - py) / (qy - py):
            odd = not odd
        dx, dy = qx - px, qy - py
        size = hypot(dx, dy)
        if size > 1e-9:
            along = ((x - px) * dx + (y - py) * dy) / size
            if abs(dx * (y - py) - dy * (x - px)) / size <= _TOUCH_MM and -1e-9 <= along <= size + 1e-9:
                return False
        px, py = qx, qy
    return odd


def gaps(spans: Iterable[Span]) -> list[Span]:
    """What of 0..1 no span covers."""
    free: list[Span] = []
    reached = 0.0
    for a, b in sorted(spans):
        if a > reached:
            free.append((reached, a))
        reached = max(reached, b)
    if reached < 1.0:
        free.append((reached, 1.0))
    return free


def unions(spans: Iterable[Span], meet: float = 0.05) -> list[Span]:
    """Spans that overlap or come within ``meet`` of each other, joined."""
    joined: list[Span] = []
    for a, b in sorted(spans):
        if joined and a <= joined[-1][1] + meet:
            joined[-1] = (joined[-1][0], max(b, joined[-1][1]))
        else:
            joined.append((a, b))
    return joined
