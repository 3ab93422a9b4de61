"""Short passes of a moving member: through what it would slip between two tried angles.

In the plane square to the hinge line a corner of the moving member runs on a circle, and seen from the
moving member a corner of the standing one does. Two bodies that are apart and come to share room do so with
a corner of one inside the other; so the angles at which a corner lies within the other's box hold every
meeting. Passes that no tried angle falls into are tried at a quarter, the middle and three quarters of
their way. mm, degrees; hinge lines along an axis.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import acos, atan2, cos, degrees, hypot, radians, sin

from .solid import Solid
from .vectors import Vector

_EDGE_MM = 0.05
_SHARES = (0.25, 0.5, 0.75)
Span = tuple[float, float]
Flat = tuple[float, float, float]
Seen = tuple[tuple[Span, Span], tuple[Flat, ...]]


def flat(solid: Solid, hinge: tuple[Vector, Vector, float]) -> Seen:
    """A solid seen along the hinge line, from it: its box (across, up) and its corners (x, y, distance)."""
    about, axis, _ = hinge
    k = max(range(3), key=lambda n: abs(axis[n]))
    i, j = (k + 1) % 3, (k + 2) % 3
    (low, high), a, b = solid.box, about[i], about[j]
    corners = {(round(p[i] - a, 3), round(p[j] - b, 3)) for p in solid.corners}
    return (((low[i] - a, high[i] - a), (low[j] - b, high[j] - b)),
            tuple((x, y, hypot(x, y)) for x, y in corners))


def passes(own: Seen, other: Seen, hinge: tuple[Vector, Vector, float],
           tried: Sequence[float]) -> Iterator[float]:
    """The angles to try besides ``tried`` (0 among them) for one moving and one standing solid, each as
    ``flat`` sees it."""
    _, axis, opens = hinge
    turn = opens if max(axis, key=abs) > 0 else -opens
    found: set[Span] = set()
    for (_, corners), (box, _), way in ((own, other, turn), (other, own, -turn)):
        across, up = box
        nearest = hypot(max(across[0], -across[1], 0.0), max(up[0], -up[1], 0.0))
        furthest = max(hypot(a, b) for a in across for b in up)
        for corner in corners:
            if nearest <= corner[2] <= furthest:
                found.update(_inside(corner, across, up, way))
    for first, last in found:
        if not any(first <= abs(mark) <= last for mark in tried):
            yield from ((first + (last - first) * share) * (1.0 if opens > 0 else -1.0) for share in _SHARES)


def _inside(corner: Flat, across: Span, up: Span, turn: float) -> Iterator[Span]:
    """From..to (degrees turned, both positive) in which a point on its circle lies in a rectangle."""
    x, y, r = corner
    start, way, most = degrees(atan2(y, x)), 1.0 if turn > 0 else -1.0, abs(turn)
    marks = {0.0, most}
    for edge, shift in ((across[0], 0.0), (across[1], 0.0), (up[0], 90.0), (up[1], 90.0)):
        if abs(edge) < r:
            half = degrees(acos(edge / r))
            marks |= {way * (at - start) % 360.0 for at in (shift + half, shift - half)}
    for a, b in pairwise(sorted(m for m in marks if m <= most)):
        at = radians(start + way * (a + b) / 2)
        u, v = r * cos(at), r * sin(at)
        if (across[0] + _EDGE_MM < u < across[1] - _EDGE_MM and up[0] + _EDGE_MM < v < up[1] - _EDGE_MM
                and b - a > 1e-6):
            yield a, b
