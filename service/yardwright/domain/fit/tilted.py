"""A body carried at a tilt: its true corners, turned every way, through openings, over stairs, round turns.

Only positions that are tried and found to go are ever said to go. Lengths in nm.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

from ..piece.vectors import Vector, cross, dot, unit
from ..site import Access
from .access import over_stairs, room_of
from .outline import Spot, hull, narrowest, turns_round

TRIED = 100                      # ways up, evenly over half a sphere
BETTERED = 4                     # the nearest of them, closed in on
HOPELESS = 1.1                   # thicker every way than this much more than the place is wide: not looked at
FINER = 14                       # halvings of the step from one way up to the next
ROUND = 8                        # ways up tried round a turn
UP: Vector = (0.0, 0.0, 1.0)
GOLDEN_ANGLE = math.pi * (3 - math.sqrt(5))


def carried_tilted(corners: Sequence[Vector], access: Access,
                   parts: Sequence[Sequence[Vector]] = ()) -> str | None:
    """How a body with these corners goes through a place, in words; None where no way was found.

    What goes straight on through an opening or up stairs is held to its hull; round a turn an L is the two
    ``parts`` that it is, each by its own corners. Where the height was not measured it is only turned
    upright: nothing is tilted there.
    """
    wide, onward, high = room_of(access)
    high = over_stairs(high) if access.kind == "stairs" else high
    narrow = min(wide, onward) if access.kind == "turn" else wide

    def short(up: Vector) -> float:
        return _short(corners, up, narrow, high)

    if all(_extent(corners, up) > HOPELESS * narrow for up in (UP, *_sphere())):
        return None
    for up in _ways_up(short, math.isfinite(high)):
        if access.kind != "turn" or turns_round(
                [hull(_plan(part, up)) for part in parts or (corners,)], wide, onward):
            leans = round(math.degrees(math.acos(min(1.0, abs(up[2])))))
            return f"tilted {leans}°" if leans else "upright, askew"
    return None


def _ways_up(short: Callable[[Vector], float], tilts: bool) -> Iterator[Vector]:
    """Ways up at which it is short of nothing, the smallest tilt first."""
    if short(UP) <= 0:
        yield UP
    if not tilts:
        return
    found = sorted((short(u), -abs(u[2]), u) for u in (UP, *_sphere()))
    free = [u for lacks, _, u in found if lacks <= 0 and u != UP]
    if not free:
        free = [u for u in (_closed_in(u, short) for _, _, u in found[:BETTERED]) if short(u) <= 0]
    yield from sorted(free, key=lambda u: -abs(u[2]))[:ROUND]


def _sphere() -> Iterator[Vector]:
    """Directions spread evenly over the upper half of a sphere, and the level axes."""
    yield from ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    for n in range(TRIED):
        z = (n + 0.5) / TRIED
        r = math.sqrt(1 - z * z)
        yield (r * math.cos(n * GOLDEN_ANGLE), r * math.sin(n * GOLDEN_ANGLE), z)


def _closed_in(up: Vector, short: Callable[[Vector], float]) -> Vector:
    """The way up near this one that is short of least, by steps to four sides that are halved."""
    step, best = math.sqrt(2 * math.pi / TRIED), short(up)
    for _ in range(FINER):
        a, b = _level(up)
        for side in (a, b):
            for sign in (step, -step):
                near = unit((up[0] + sign * side[0], up[1] + sign * side[1], up[2] + sign * side[2]))
                if (less := short(near)) < best:
                    up, best = near, less
        if best <= 0:
            break
        step /= 1.6
    return up


def _short(corners: Sequence[Vector], up: Vector, wide: float, high: float) -> float:
    """How much it is too high and too wide together, standing this way up; 0 = it goes in."""
    return max(0.0, _extent(corners, up) - high) + max(0.0, narrowest(_plan(corners, up)) - wide)


def _extent(corners: Sequence[Vector], along: Vector) -> float:
    reach = [dot(c, along) for c in corners]
    return max(reach) - min(reach)


def _plan(corners: Sequence[Vector], up: Vector) -> list[Spot]:
    a, b = _level(up)
    return [(dot(c, a), dot(c, b)) for c in corners]


def _level(up: Vector) -> tuple[Vector, Vector]:
    """Two directions square to ``up`` and to each other."""
    across = unit(cross(up, (1.0, 0.0, 0.0) if abs(up[0]) < 0.9 else (0.0, 1.0, 0.0)))
    return across, cross(up, across)
