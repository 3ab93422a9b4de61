"""Short passes of a moving member: through what it would slip between two tried angles.

In the plane square to the hinge line a corner of the moving member runs on a circle, and seen from the
moving member a corner of the standing one does. Two bodies that are apart and come to share room do so with
a corner of one inside the other; so the angles at which a corner lies within the other's box hold every
meeting. Passes that no tried angle falls into are tried at a quarter, the middle and three quarters of
their way. mm, degrees; hinge lines along an axis.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import acos, atan2, ceil, cos, degrees, floor, hypot, radians, sin

from .solid import Solid
from .vectors import Vector

ROUNDED_MM = 0.001       # corners nearer than this are seen as one
_EDGE_MM = 0.05
_SHARES = (0.25, 0.5, 0.75)
Hinge = tuple[Vector, Vector, float]     # a point, the axis, degrees to fully open
Span = tuple[float, float]
Flat = tuple[float, float, float, float]
Seen = tuple[tuple[Span, Span], tuple[Flat, ...]]


def across(axis: Vector) -> tuple[int, int]:
    """The two coordinates square to a hinge line, right-handed about it."""
    k = max(range(3), key=lambda n: abs(axis[n]))
    return (k + 1) % 3, (k + 2) % 3


def flat(solid: Solid, hinge: Hinge, exact: bool = False) -> Seen:
    """A solid seen along the hinge line, from it: its box (across, up) and its corners (x, y, distance,
    bearing in degrees), those that lie behind each other once."""
    i, j = across(hinge[1])
    (low, high), a, b = solid.box, hinge[0][i], hinge[0][j]
    corners = dict.fromkeys((p[i] - a, p[j] - b) if exact else (round(p[i] - a, 3), round(p[j] - b, 3))
                            for p in solid.corners)
    return (((low[i] - a, high[i] - a), (low[j] - b, high[j] - b)),
            tuple((x, y, hypot(x, y), degrees(atan2(y, x))) for x, y in corners))


def turned_span(seen: Seen, axis: Vector, angle_deg: float) -> tuple[Span, Span]:
    """Lowest and highest (across, up) of what is seen, turned, from the hinge line."""
    turn = radians(angle_deg if max(axis, key=abs) > 0 else -angle_deg)
    c, s = cos(turn), sin(turn)
    us = [x * c - y * s for x, y, _, _ in seen[1]]
    vs = [x * s + y * c for x, y, _, _ in seen[1]]
    return (min(us), min(vs)), (max(us), max(vs))


def swept(box: tuple[Vector, Vector], seen: Seen, hinge: Hinge) -> tuple[Vector, Vector]:
    """The box around a solid, shut, fully open and everywhere between: where a corner's arc passes straight
    above, below or beside the hinge line it reaches its distance from it."""
    about, axis, opens = hinge
    i, j = across(axis)
    turn = opens if max(axis, key=abs) > 0 else -opens
    (us, vs), ((ax, ay), (bx, by)) = seen[0], turned_span(seen, axis, opens)
    left, right, low, high = min(us[0], ax), max(us[1], bx), min(vs[0], ay), max(vs[1], by)
    for _, _, r, start in seen[1]:
        first, last = (start, start + turn) if turn > 0 else (start + turn, start)
        for quarter in range(ceil(first / 90), floor(last / 90) + 1):
            side = quarter % 4
            if side == 0:
                right = max(right, r)
            elif side == 1:
                high = max(high, r)
            elif side == 2:
                left = min(left, -r)
            else:
                low = min(low, -r)
    lowest, highest = list(box[0]), list(box[1])
    lowest[i], highest[i] = left + about[i], right + about[i]
    lowest[j], highest[j] = low + about[j], high + about[j]
    return (lowest[0], lowest[1], lowest[2]), (highest[0], highest[1], highest[2])


def passes(own: Seen, other: Seen, hinge: Hinge, tried: Sequence[float]) -> Iterator[float]:
    """The angles to try besides ``tried`` (from 0 up, without their sign) for one moving and one standing
    solid, each as ``flat`` sees it."""
    _, axis, opens = hinge
    turn = opens if max(axis, key=abs) > 0 else -opens
    found: dict[Span, None] = {}
    for (_, corners), (box, _), way in ((own, other, turn), (other, own, -turn)):
        nearest, furthest, first, wide = _seen_from_hinge(*box)
        for corner in corners:
            if nearest <= corner[2] <= furthest and _meets(corner[3], first, wide, way):
                found.update(dict.fromkeys(_inside(corner, *box, way)))
    for first, last in found:
        following = bisect_left(tried, first)
        if following == len(tried) or tried[following] > last:
            yield from ((first + (last - first) * share) * (1.0 if opens > 0 else -1.0) for share in _SHARES)


def _seen_from_hinge(across: Span, up: Span) -> tuple[float, float, float, float]:
    """Least and greatest distance of a rectangle from the hinge line, the bearing at which it begins and how
    wide it is, in degrees; all round where the hinge runs through it."""
    nearest = hypot(max(across[0], -across[1], 0.0), max(up[0], -up[1], 0.0))
    furthest = max(hypot(a, b) for a in across for b in up)
    if nearest <= _EDGE_MM:
        return nearest, furthest, 0.0, 360.0
    middle = degrees(atan2(up[0] + up[1], across[0] + across[1]))
    off = [(degrees(atan2(b, a)) - middle + 180.0) % 360.0 - 180.0 for a in across for b in up]
    return nearest, furthest, middle + min(off), max(off) - min(off)


def _meets(bearing: float, first: float, wide: float, turn: float) -> bool:
    """Whether a point that turns from its bearing comes into a sector; a hair too often, never too seldom."""
    ahead = (first - bearing if turn > 0 else bearing - first - wide) % 360.0
    return ahead <= abs(turn) + 1e-6 or ahead + wide >= 360.0 - 1e-6


def _inside(corner: Flat, across: Span, up: Span, turn: float) -> Iterator[Span]:
    """From..to (degrees turned, both positive) in which a point on its circle lies in a rectangle."""
    _, _, r, start = corner
    way, most = 1.0 if turn > 0 else -1.0, abs(turn)
    marks = {0.0, most}
    for edge, shift in ((across[0], 0.0), (across[1], 0.0), (up[0], 90.0), (up[1], 90.0)):
        if abs(edge) < r:
            half = degrees(acos(edge / r))
            marks.add(way * (shift + half - start) % 360.0)
            marks.add(way * (shift - half - start) % 360.0)
    for a, b in pairwise(sorted(m for m in marks if m <= most)):
        at = radians(start + way * (a + b) / 2)
        u, v = r * cos(at), r * sin(at)
        if (across[0] + _EDGE_MM < u < across[1] - _EDGE_MM and up[0] + _EDGE_MM < v < up[1] - _EDGE_MM
                and b - a > 1e-6):
            yield a, b
