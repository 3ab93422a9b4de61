"""Arcs in an outline of straight chords: runs of equal chords that turn by equal angles."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, hypot, pi

from .model import Point

_WIDEST_TURN = 0.82          # radians: a corner sharper than about 47° is no part of a curve
_OFF_MM = 0.12               # how far off the circle a corner of the outline may lie


@dataclass(frozen=True, slots=True)
class Arc:
    """A stretch of a circle, from ``start`` to ``end``; ``whole`` is the full round of a hole."""

    start: Point
    end: Point
    crown: Point                 # the middle of the stretch
    centre: Point
    radius_mm: float
    whole: bool = False

    @property
    def chord_mm(self) -> float:
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])

    @property
    def rise_mm(self) -> float:
        """How far the crown stands off the chord."""
        (ax, ay), (bx, by), (mx, my) = self.start, self.end, self.crown
        return abs((bx - ax) * (my - ay) - (by - ay) * (mx - ax)) / max(self.chord_mm, 1e-9)

    def holds(self, p: Point) -> bool:
        """Whether a corner lies on the circle."""
        return abs(hypot(p[0] - self.centre[0], p[1] - self.centre[1]) - self.radius_mm) < _OFF_MM


def arcs_of(outline: Sequence[Point]) -> list[Arc]:
    """The arcs of a closed outline; a loop bridged into it as a hole is looked at by itself."""
    found: list[Arc] = []
    for loop in _loops(list(outline)):
        found += _arcs_of_loop(loop)
    return found


def _loops(ring: list[Point]) -> list[list[Point]]:
    """The outline and the holes that a bridge, walked there and back, has joined to it."""
    for i, p in enumerate(ring):
        for j in range(len(ring) - 1, i + 1, -1):
            if ring[j] == p and j - i < len(ring) - 1:
                inner, outer = ring[i:j], ring[:i] + ring[j:]
                return [loop for part in (inner, outer) for loop in _loops(part) if len(loop) > 2]
    return [ring]


def _arcs_of_loop(loop: list[Point]) -> list[Arc]:
    n = len(loop)
    sides = [hypot(loop[(i + 1) % n][0] - p[0], loop[(i + 1) % n][1] - p[1]) for i, p in enumerate(loop)]
    turns = [_turn(loop[i - 1], loop[i], loop[(i + 1) % n]) for i in range(n)]
    alike = [abs(sides[i] - sides[i - 1]) < 1e-3 * sides[i] + 1e-3 and 1e-5 < abs(turns[i]) < _WIDEST_TURN
             for i in range(n)]
    if n >= 8 and all(alike):
        return [_whole(loop)]
    first = alike.index(False) if False in alike else 0
    found: list[Arc] = []
    run: list[int] = []
    for k in range(first, first + n + 1):
        i = k % n
        if alike[i] and (not run or abs(turns[i] - turns[run[-1]]) < 1e-3) and k < first + n:
            run.append(i)
            continue
        if len(run) >= 2:
            found.append(_arc(loop, run))
        run = [i] if alike[i] else []
    return found


def _turn(a: Point, b: Point, c: Point) -> float:
    bend = atan2(c[1] - b[1], c[0] - b[0]) - atan2(b[1] - a[1], b[0] - a[0])
    return (bend + pi) % (2 * pi) - pi


def _whole(loop: Sequence[Point]) -> Arc:
    n = len(loop)
    centre = (sum(p[0] for p in loop) / n, sum(p[1] for p in loop) / n)
    return Arc(loop[0], loop[0], loop[n // 2], centre,
               hypot(loop[0][0] - centre[0], loop[0][1] - centre[1]), True)


def _arc(loop: Sequence[Point], run: Sequence[int]) -> Arc:
    """The arc through the corners of a run, with the cut-off chords at either end that lie on it too."""
    n = len(loop)
    first, last = run[0] - 1, run[0] - 1 + len(run) + 1
    centre, radius = _circle(loop[first % n], loop[((first + last) // 2) % n], loop[last % n])
    trial = Arc(loop[first % n], loop[last % n], loop[0], centre, radius)
    while last - first < n - 1 and trial.holds(loop[(first - 1) % n]):
        first -= 1
    while last - first < n - 1 and trial.holds(loop[(last + 1) % n]):
        last += 1
    start, end = loop[first % n], loop[last % n]
    inside = loop[((first + last) // 2) % n]
    return Arc(start, end, _crown(start, end, inside, centre, radius), centre, radius)


def _circle(a: Point, m: Point, b: Point) -> tuple[Point, float]:
    """Centre and radius of the circle through three points (equal distances, solved)."""
    (ax, ay), (mx, my), (bx, by) = a, m, b
    twice = 2 * (ax * (my - by) + mx * (by - ay) + bx * (ay - my))
    sa, sm, sb = ax * ax + ay * ay, mx * mx + my * my, bx * bx + by * by
    cx = (sa * (my - by) + sm * (by - ay) + sb * (ay - my)) / twice
    cy = (sa * (bx - mx) + sm * (ax - bx) + sb * (mx - ax)) / twice
    return (cx, cy), hypot(ax - cx, ay - cy)


def _crown(start: Point, end: Point, inside: Point, centre: Point, radius: float) -> Point:
    """Where the circle is farthest from the chord, on the side on which the stretch runs."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    size = hypot(dx, dy) or 1.0
    nx, ny = -dy / size, dx / size
    side = (inside[0] - start[0]) * nx + (inside[1] - start[1]) * ny
    sign = 1.0 if side >= 0 else -1.0
    return (centre[0] + sign * nx * radius, centre[1] + sign * ny * radius)
