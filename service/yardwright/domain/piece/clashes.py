"""Solids that share room: shut, and with a lid or a door anywhere on its way."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import islice
from math import atan2, ceil, degrees, hypot

from ..formula import Budget
from .contacts import STEPS, near_pairs
from .flat_faces import Face
from .model import Box, Clash, Member
from .passes import Seen, flat, passes
from .solid import Solid, shared, turned_solid
from .vectors import Vector, bounds, cross, dot, sub, turned, turner

LEAST_MM3 = 1.0          # a smaller overlap is rounding
LEAST_MM = 0.05          # and so is a shallower one
MOST_TOLD = 30           # clashes; a piece with more is no nearer to being built
KERNEL_STEPS = 120       # of work, for one question to the kernel
STEP_DEG = 5.0           # a moving group is tried every so often, and fully open

Hinge = tuple[Vector, Vector, float]     # a point, the axis, degrees to fully open


def overlap_mm3(a: Member, b: Member) -> float:
    """Volume two members share, mm3."""
    return shared(a.solid, b.solid)[0]


def clashes(members: Sequence[Member], allowed: Mapping[tuple[str, str], float],
            budget: Budget | None = None) -> tuple[Clash, ...]:
    """Pairs that share more than 1 mm3 and deeper than their joint allows (mm), everything shut."""
    budget = budget or Budget(STEPS)
    found = (_clash(a, b, allowed, 0.0, budget) for a, b in near_pairs(members, -LEAST_MM, budget))
    return tuple(islice((c for c in found if c is not None), MOST_TOLD))


def clashes_in_motion(members: Sequence[Member], moving: Mapping[str, Hinge],
                      budget: Budget | None = None, most: int = MOST_TOLD) -> tuple[Clash, ...]:
    """The same with each group turned about its hinge, the rest shut: every 5 degrees, fully open, and
    wherever a corner of one passes through the other's box between those.

    A pair is reported once, at the angle where it shares most.
    """
    worst: dict[tuple[str, str], Clash] = {}
    budget = budget or Budget(STEPS)
    for name, hinge in moving.items() if most > 0 else ():
        found = list(_in_reach(name, members, hinge, budget))
        budget.afford(len(stations(hinge[2])) * sum(_turn_steps(own, near) for own, near in found))
        seen: dict[str, Seen] = {}
        for own, near in found:
            for clash in _on_the_way(own, near, hinge, budget, seen):
                pair = (clash.first, clash.second)
                if pair not in worst or clash.volume_mm3 > worst[pair].volume_mm3:
                    worst[pair] = clash
            if len(worst) >= most:
                return tuple(worst.values())
    return tuple(worst.values())


def _in_reach(name: str, members: Sequence[Member], hinge: Hinge,
              budget: Budget) -> Iterator[tuple[Member, list[Member]]]:
    """Each member of a moving group with those it could meet on its way."""
    budget.spend(2 * len(members))
    others = [(m, _radii(m.solid, hinge)[0]) for m in members if m.group != name]
    for own in (m for m in members if m.group == name):
        budget.spend(1 + (len(others) + len(own.solid.corners)) // 3)
        reach = _radii(own.solid, hinge)[1]
        near = [m for m, least in others if least < reach and _abreast(own.solid, m.solid, hinge[1])]
        if near:
            yield own, near


def _turn_steps(own: Member, near: Sequence[Member]) -> int:
    """Work to turn one member once and to see whose box it meets."""
    return 4 + len(near) // 5 + len(own.solid.corners)


def stations(opens_deg: float) -> list[float]:
    """The angles at which a moving group is tried, shut left out, fully open included."""
    steps = max(1, ceil(abs(opens_deg) / STEP_DEG))
    return [opens_deg * k / steps for k in range(1, steps + 1)]


def opened_box(members: Iterable[Member], moving: Mapping[str, Hinge]) -> Box:
    """The box around the piece shut and in every open position; exact, from the arcs of the corners."""
    points: list[Vector] = []
    for m in members:
        points.extend(m.solid.box)
        hinge = moving.get(m.group)
        if hinge is not None:
            points.extend(q for p in m.solid.corners for q in _extremes(p, hinge))
    return Box(*bounds(points))


def _on_the_way(own: Member, near: Sequence[Member], hinge: Hinge, budget: Budget,
                seen: dict[str, Seen]) -> Iterator[Clash]:
    about, axis, opens = hinge
    boxes = [(*(at + LEAST_MM for at in m.solid.box[0]), *(at - LEAST_MM for at in m.solid.box[1]))
             for m in near]
    corners = own.solid.corners
    for angle in stations(opens):
        budget.spend(_turn_steps(own, near))
        (ax, ay, az), (bx, by, bz) = bounds(map(turner(about, axis, angle), corners))
        met = [m for m, (cx, cy, cz, dx, dy, dz) in zip(near, boxes, strict=True)
               if cx < bx and dx > ax and cy < by and dy > ay and cz < bz and dz > az]
        if met:
            budget.spend(30 + 8 * len(corners))
            there = replace(own, solid=turned_solid(own.solid, about, axis, angle))
            found = (_clash(there, other, {}, angle, budget) for other in met)
            yield from (c for c in found if c is not None)
    yield from _between(own, near, hinge, budget, seen)


def _between(own: Member, near: Sequence[Member], hinge: Hinge, budget: Budget,
             seen: dict[str, Seen]) -> Iterator[Clash]:
    """Clashes on passes too short for the tried angles (passes.py)."""
    about, axis, opens = hinge
    tried = [0.0, *stations(opens)]
    for member in (own, *near):
        if member.key not in seen:
            budget.spend(2 + 2 * len(member.solid.corners))
            seen[member.key] = flat(member.solid, hinge)
    for other in near:
        budget.spend(4 + len(seen[own.key][1]) + len(seen[other.key][1]))
        for angle in passes(seen[own.key], seen[other.key], hinge, tried):
            budget.spend(30 + 8 * len(own.solid.corners))
            there = replace(own, solid=turned_solid(own.solid, about, axis, angle))
            clash = _clash(there, other, {}, angle, budget)
            if clash is not None:
                yield clash


def _abreast(a: Solid, b: Solid, axis: Vector) -> bool:
    """Whether they overlap along the hinge line, which turning does not change."""
    k = max(range(3), key=lambda i: abs(axis[i]))
    return a.box[0][k] < b.box[1][k] - LEAST_MM and b.box[0][k] < a.box[1][k] - LEAST_MM


def _clash(a: Member, b: Member, allowed: Mapping[tuple[str, str], float], angle: float,
           budget: Budget) -> Clash | None:
    ends = len(a.solid.corners) + len(b.solid.corners)
    budget.spend(3 + ends // 4)
    if _apart(a.solid, b.solid):
        return None
    budget.spend(KERNEL_STEPS + 11 * ends)
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


def _radii(solid: Solid, hinge: Hinge) -> tuple[float, float]:
    """Least (by its box, so never too great) and greatest distance from the hinge line."""
    about, axis, _ = hinge
    k = max(range(3), key=lambda i: abs(axis[i]))
    i, j = (n for n in range(3) if n != k)
    low, high = solid.box
    gaps = [max(low[n] - about[n], 0.0, about[n] - high[n]) for n in (i, j)]
    return hypot(*gaps), max(hypot(p[i] - about[i], p[j] - about[j]) for p in solid.corners)


def _extremes(point: Vector, hinge: Hinge) -> Iterator[Vector]:
    """Where a point stands fully open, and wherever on its way a coordinate of it turns back."""
    about, axis, opens = hinge
    yield turned(point, about, axis, opens)
    r = sub(point, about)
    along, side = dot(axis, r), cross(axis, r)
    for k in range(3):
        # coordinate k runs as C + A cos t + B sin t: its turning points are at atan2(B, A) and opposite
        at = degrees(atan2(side[k], r[k] - axis[k] * along))
        for t in (at - 360, at - 180, at, at + 180, at + 360):
            if min(0.0, opens) < t < max(0.0, opens):
                yield turned(point, about, axis, t)
