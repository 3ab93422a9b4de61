"""Solids that share room: shut, and with a lid or a door anywhere on its way."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import islice
from math import ceil

from ..formula import Budget
from .contacts import STEPS, near_pairs
from .flat_faces import Face
from .model import Box, Clash, Member
from .passes import ROUNDED_MM, Hinge, Seen, across, flat, passes, swept, turned_span
from .solid import Solid, shared, turned_solid
from .values import MOST_CLASHES
from .vectors import Vector, bounds, dot

LEAST_MM3 = 1.0          # a smaller overlap is rounding
LEAST_MM = 0.05          # and so is a shallower one
KERNEL_STEPS = 220       # of work, for one question to the kernel
TURNED_STEPS = 50        # for one member turned
STEP_DEG = 5.0           # a moving group is tried every so often, and fully open


def overlap_mm3(a: Member, b: Member) -> float:
    """Volume two members share, mm3."""
    return shared(a.solid, b.solid)[0]


def clashes(members: Sequence[Member], allowed: Mapping[tuple[str, str], float],
            budget: Budget | None = None, most: int = MOST_CLASHES) -> tuple[Clash, ...]:
    """Pairs that share more than 1 mm3 and deeper than their joint allows (mm), everything shut."""
    budget = budget or Budget(STEPS)
    found = (_clash(a, b, allowed, 0.0, budget) for a, b in near_pairs(members, -LEAST_MM, budget))
    return tuple(islice((c for c in found if c is not None), most))


def clashes_in_motion(members: Sequence[Member], moving: Mapping[str, Hinge],
                      budget: Budget | None = None, most: int = MOST_CLASHES) -> tuple[Clash, ...]:
    """The same with each group turned about its hinge, the rest shut: every 5 degrees, fully open, and
    wherever a corner of one passes through the other's box between those.

    A pair is reported once, at the angle where it shares most.
    """
    worst: dict[tuple[str, str], Clash] = {}
    budget = budget or Budget(STEPS)
    for name, hinge in moving.items() if most > 0 else ():
        seen: dict[str, Seen] = {}
        found = list(_in_reach(name, members, hinge, budget, seen))
        budget.afford(len(stations(hinge[2])) * sum(_turn_steps(seen[own.key], near) for own, near in found))
        for own, near in found:
            for clash in _on_the_way(own, near, hinge, budget, seen):
                pair = (clash.first, clash.second)
                if pair not in worst or clash.volume_mm3 > worst[pair].volume_mm3:
                    worst[pair] = clash
            if len(worst) >= most:
                return tuple(worst.values())
    return tuple(worst.values())


def _in_reach(name: str, members: Sequence[Member], hinge: Hinge, budget: Budget,
              seen: dict[str, Seen]) -> Iterator[tuple[Member, list[Member]]]:
    """Each member of a moving group with those whose boxes it could meet on its way; ``seen`` is filled."""
    budget.spend(len(members))
    others = [(m, *_shrunk(m.solid.box)) for m in members if m.group != name]
    for own in (m for m in members if m.group == name):
        budget.spend(8 + len(others) // 4 + 4 * len(own.solid.corners))
        seen[own.key] = flat(own.solid, hinge)
        (ax, ay, az), (bx, by, bz) = swept(own.solid.box, seen[own.key], hinge)
        near = [m for m, (cx, cy, cz), (dx, dy, dz) in others
                if cx < bx and dx > ax and cy < by and dy > ay and cz < bz and dz > az]
        if near:
            yield own, near


def _shrunk(box: tuple[Vector, Vector]) -> tuple[Vector, Vector]:
    """A box less what may be shared everywhere, but for the rounding of what is seen along a hinge."""
    (ax, ay, az), (bx, by, bz) = box
    less = LEAST_MM - 10 * ROUNDED_MM
    return (ax + less, ay + less, az + less), (bx - less, by - less, bz - less)


def _turn_steps(own: Seen, near: Sequence[Member]) -> int:
    """Work to turn one member once and to see whose box it meets."""
    return 4 + len(near) // 5 + 3 * len(own[1]) // 4


def stations(opens_deg: float) -> list[float]:
    """The angles at which a moving group is tried, shut left out, fully open included."""
    steps = max(1, ceil(abs(opens_deg) / STEP_DEG))
    return [opens_deg * k / steps for k in range(1, steps + 1)]


def opened_box(members: Iterable[Member], moving: Mapping[str, Hinge]) -> Box:
    """The box around the piece shut and in every open position; exact, from the arcs of the corners."""
    points: list[Vector] = []
    for m in members:
        points.extend(m.solid.box)
        if m.group in moving:
            hinge = moving[m.group]
            points.extend(swept(m.solid.box, flat(m.solid, hinge, exact=True), hinge))
    return Box(*bounds(points))


def _on_the_way(own: Member, near: Sequence[Member], hinge: Hinge, budget: Budget,
                seen: dict[str, Seen]) -> Iterator[Clash]:
    about, axis, opens = hinge
    i, j = across(axis)
    boxes = [(m, low[i] - about[i], low[j] - about[j], high[i] - about[i], high[j] - about[j])
             for m in near for low, high in [_shrunk(m.solid.box)]]
    flat_own = seen[own.key]
    for angle in stations(opens):
        budget.spend(_turn_steps(flat_own, near))
        (ax, ay), (bx, by) = turned_span(flat_own, axis, angle)
        met = [m for m, cx, cy, dx, dy in boxes if cx < bx and dx > ax and cy < by and dy > ay]
        if met:
            yield from _clashes_at(own, met, hinge, angle, budget)
    yield from _between(own, near, hinge, budget, seen)


def _clashes_at(own: Member, others: Sequence[Member], hinge: Hinge, angle: float,
                budget: Budget) -> Iterator[Clash]:
    """With one member turned."""
    budget.spend(TURNED_STEPS + 8 * len(own.solid.corners))
    there = replace(own, solid=turned_solid(own.solid, hinge[0], hinge[1], angle))
    for other in others:
        clash = _clash(there, other, {}, angle, budget)
        if clash is not None:
            yield clash


def _between(own: Member, near: Sequence[Member], hinge: Hinge, budget: Budget,
             seen: dict[str, Seen]) -> Iterator[Clash]:
    """Clashes on passes too short for the tried angles (passes.py)."""
    tried = [0.0, *(abs(angle) for angle in stations(hinge[2]))]
    for other in near:
        if other.key not in seen:
            budget.spend(4 + 3 * len(other.solid.corners))
            seen[other.key] = flat(other.solid, hinge)
        budget.spend(8 + 3 * (len(seen[own.key][1]) + len(seen[other.key][1])))
        for angle in passes(seen[own.key], seen[other.key], hinge, tried):
            yield from _clashes_at(own, [other], hinge, angle, budget)


def _clash(a: Member, b: Member, allowed: Mapping[tuple[str, str], float], angle: float,
           budget: Budget) -> Clash | None:
    ends = len(a.solid.corners) + len(b.solid.corners)
    budget.spend(3 + ends // 4)
    if _apart(a.solid, b.solid):
        return None
    budget.spend(KERNEL_STEPS + 6 * ends)
    volume, corners = shared(a.solid, b.solid)
    if volume <= LEAST_MM3:
        return None
    ways = _ways((*a.solid.faces, *b.solid.faces))
    budget.spend(len(a.solid.faces) + len(b.solid.faces) + len(corners) * len(ways) // 3)
    depth = min(_extent(corners, way) for way in ways)
    limit = max(allowed.get((a.key, b.key), 0.0), allowed.get((b.key, a.key), 0.0))
    if depth <= limit + LEAST_MM:
        return None
    return Clash(a.key, b.key, volume, depth, angle)


def _apart(a: Solid, b: Solid) -> bool:
    """True when a face of one has the whole other beyond it (only convex solids can tell)."""
    for one, other in ((a, b), (b, a)):
        if not one.convex:
            continue
        for f in one.faces:
            (x, y, z), limit = f.normal, f.offset - LEAST_MM
            if all(x * p[0] + y * p[1] + z * p[2] >= limit for p in other.corners):
                return True
    return False


def _ways(faces: Iterable[Face]) -> list[Vector]:
    """The directions that faces look in, those that look in opposite ways once."""
    found: dict[tuple[float, ...], Vector] = {}
    for f in faces:
        x, y, z = (round(n, 9) + 0.0 for n in f.normal)
        found.setdefault(max((x, y, z), (-x, -y, -z)), f.normal)
    return list(found.values())


def _extent(points: Sequence[Vector], direction: Vector) -> float:
    along = [dot(direction, p) for p in points]
    return max(along) - min(along)
