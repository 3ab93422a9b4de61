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


def passes(own: Solid, other: Solid, hinge: tuple[Vector, Vector, float],
           tried: Sequence[float]) -> Iterator[float]:
    """The angles to try besides ``tried`` (0 among them) for one moving and one standing solid."""
    about, axis, opens = hinge
    k = max(range(3), key=lambda n: abs(axis[n]))
    i, j = (k + 1) % 3, (k + 2) % 3
    turn = opens if axis[k] > 0 else -opens
    found: set[Span] = set()
    for moving, standing, way in ((own, other, 1.0), (other, own, -1.0)):
        low, high = ((p[i] - about[i], p[j] - about[j]) for p in standing.box)
        for x, y in {(round(p[i] - about[i], 3), round(p[j] - about[j], 3)) for p in moving.corners}:
            found.update(_inside(x, y, (low[0], high[0]), (low[1], high[1]), way * turn))
    marks = [abs(t) for t in tried]
    for first, last in found:
        if not any(first <= mark <= last for mark in marks):
            yield from ((first + (last - first) * share) * (1.0 if opens > 0 else -1.0) for share in _SHARES)


def _inside(x: float, y: float, across: Span, up: Span, turn: float) -> Iterator[Span]:
    """From..to (degrees turned, both positive) in which a point on its circle lies in a rectangle."""
    r = hypot(x, y)
    nearest = hypot(max(across[0], -across[1], 0.0), max(up[0], -up[1], 0.0))
    if r < nearest or r > max(hypot(a, b) for a in across for b in up):
        return
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
