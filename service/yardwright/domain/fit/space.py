"""The measured site made ready: every reading at its worst, sides held or open, things in the way."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..finding import Level
from ..measure import Writer
from ..shop import KeepClear, Shop
from ..site import Corner, Measured, Obstruction, Site
from .corner import worst
from .tape import uncertainty_nm, up

FOREVER_NM = 1_000_000_000_000   # beyond every yard
SIDES = ("left", "right")


@dataclass(frozen=True, slots=True)
class Run:
    """A reading less its uncertainty; None where it was not said at what height or depth it was taken."""

    nm: int
    height_nm: int | None
    depth_nm: int | None
    words: str


@dataclass(frozen=True, slots=True)
class Side:
    """A wall at an end. ``closing`` and ``opening`` for each unit of depth, ``lean`` of height."""

    held: bool = False
    closing: float = 0.0
    opening: float = 0.0
    lean: float = 0.0
    measured: bool = False       # whether its corner was
    runs: tuple[Run, ...] = ()   # how far it reaches out, brought square to the back wall

    @property
    def slant(self) -> float:
        """How much the corner may be off square either way, across for each unit out."""
        return max(abs(self.closing), abs(self.opening))

    @property
    def stretched(self) -> float:
        """A stretch along the wall over the same stretch square to the back wall; 1 in a square corner."""
        return math.hypot(1.0, self.slant)

    def into_nm(self, out_nm: int, high_nm: int) -> int:
        """How far it comes in along the back wall: closing in over a reach, leaning in over a height."""
        return up(max(0.0, self.closing) * out_nm) + up(max(0.0, self.lean) * high_nm)


@dataclass(frozen=True, slots=True)
class Taken:
    """A stretch along a wall, and how far it reaches off the wall."""

    from_nm: int
    to_nm: int
    out_nm: int

    def turned(self, side: Side) -> Taken:
        """On a wall off square it is turned with it: all that it may cover, square to the back wall."""
        if side.slant <= 0:
            return self
        along = self.out_nm * side.slant / side.stretched
        return Taken(-up(along - self.from_nm / side.stretched), self.to_nm + up(along),
                     up(self.out_nm * side.stretched))


@dataclass(frozen=True, slots=True)
class Thing:
    """An obstruction at its worst, with the room it wants; positions along its own wall.

    The piece stands on the ground, so what begins below its height is in its way; its top only says how far
    a wall that leans in carries it.
    """

    wall: str
    label: str
    body: Taken
    bottom_nm: int
    rule: KeepClear
    top_nm: int
    room: Taken                  # with the room it wants around it


@dataclass(frozen=True, slots=True)
class Space:
    """All the fit needs of a site and a shop."""

    kind: str
    runs: tuple[Run, ...]
    depths: tuple[Run, ...]
    under: Run | None
    left: Side
    right: Side
    back_held: bool
    back_lean: float
    things: tuple[Thing, ...]
    allowance_nm: int
    airflow_nm: int
    walkway_nm: int
    uncertainty_nm: int          # of the worst reading
    writer: Writer

    def side(self, name: str) -> Side:
        """The end of that name, "left" or "right"."""
        return self.left if name == "left" else self.right

    @property
    def held(self) -> int:
        """How many ends have a wall."""
        return int(self.left.held) + int(self.right.held)


def space(site: Site, shop: Shop, writer: Writer) -> Space:
    """The site with the shop's way of fitting and the room each thing on a wall wants."""
    tape, mark = site.tape_class or shop.fitting.tape_class, shop.fitting.reading_nm
    back = site.wall("back")
    ready = _Ready(tape, mark, writer)
    runs = ready.runs(back.readings if back else (), "back wall")
    depths = ready.runs(site.depths, "depth")
    under = ready.runs((Measured(site.height_under_nm),), "height under") if site.height_under_nm else ()
    walkway = shop.fitting.walkway_nm if site.kind != "between walls" else 0
    read = [*(back.readings if back else ()), *site.depths, *([Measured(site.height_under_nm or 0)])]
    sides = {name: ready.side(site, name) for name in SIDES}
    return Space(
        kind=site.kind, runs=runs, depths=depths, under=under[0] if under else None,
        left=sides["left"], right=sides["right"],
        back_held=site.kind != "open" or bool(back and back.obstructions), back_lean=_lean(site, "back"),
        things=tuple(ready.thing(o, w.side, sides.get(w.side, Side()), shop)
                     for w in site.walls for o in w.obstructions),
        allowance_nm=shop.fitting.allowance_nm, airflow_nm=shop.fitting.airflow_nm,
        walkway_nm=walkway if site.walkway_nm is None else site.walkway_nm,
        uncertainty_nm=max(uncertainty_nm(m.value_nm, tape, mark) for m in read), writer=writer)


def cornered(site: Site, wing: str) -> Site:
    """The site for a piece: a corner that nothing says the end of is where the wing of an L is."""
    said = {w.side for w in site.walls} | {c.at for c in site.corners}
    if site.kind != "corner" or wing not in SIDES or said & set(SIDES):
        return site
    return replace(site, corners=(Corner(wing),))


def held_sides(site: Site) -> frozenset[str]:
    """Ends with a wall: by the kind of site, and wherever a side wall or a corner was measured."""
    named = {w.side for w in site.walls} | {c.at for c in site.corners}
    held = named & set(SIDES)
    if site.kind == "between walls":
        held |= set(SIDES)
    elif site.kind == "corner" and not held:
        held = {"left"}
    return frozenset(held)


def _lean(site: Site, name: str) -> float:
    wall = site.wall(name)
    return wall.leaning_nm / wall.plumb_over_nm if wall and wall.plumb_over_nm > 0 else 0.0


@dataclass(frozen=True, slots=True)
class _Ready:
    tape_class: str
    mark_nm: int
    writer: Writer

    def off(self, nm: int) -> int:
        return uncertainty_nm(nm, self.tape_class, self.mark_nm)

    def side(self, site: Site, name: str) -> Side:
        """A wall at an end, where there is one; its run out shortened by the corner's slant."""
        if name not in held_sides(site):
            return Side()
        corner = next((c for c in site.corners if c.at == name), None)
        angle = worst(corner, self.tape_class, self.mark_nm) if corner else None
        bare = (Side(True, lean=_lean(site, name)) if angle is None else
                Side(True, angle.closing, angle.opening, _lean(site, name), True))
        wall = site.wall(name)
        runs = self.runs(wall.readings if wall else (), f"{name} wall")
        return replace(bare, runs=tuple(replace(r, nm=-up(-r.nm / bare.stretched)) for r in runs))

    def runs(self, readings: Sequence[Measured], name: str) -> tuple[Run, ...]:
        return tuple(Run(m.value_nm - self.off(m.value_nm), m.at_height_nm, m.at_depth_nm,
                         self.words(m, name)) for m in readings)

    def words(self, m: Measured, name: str) -> str:
        """``back wall, 44 in at 36 in high``."""
        places = ((m.at_height_nm, "high"), (m.at_depth_nm, "out"), (m.at_along_nm, "along"))
        where = " and ".join(f"{self.writer.length(nm)} {word}" for nm, word in places if nm is not None)
        return f"{name}, {self.writer.length(m.value_nm)}" + (f" at {where}" if where else "")

    def thing(self, o: Obstruction, wall: str, side: Side, shop: Shop) -> Thing:
        """A thing at its worst; on a side wall off square it is turned with that wall."""
        rule = shop.keep_clear.get(o.kind) or shop.keep_clear.get("other") or _unknown(o.kind)
        off = self.off(max(o.from_nm, o.to_nm))
        label = rule.label if o.kind in shop.keep_clear else o.kind
        start, end = min(o.from_nm, o.to_nm) - off, max(o.from_nm, o.to_nm) + off
        out = o.projection_nm + self.off(o.projection_nm) if o.projection_nm else 0
        room = Taken(start - rule.sides_nm, end + rule.sides_nm, out + rule.front_nm)
        return Thing(wall, label, Taken(start, end, out).turned(side),
                     max(0, o.bottom_nm - self.off(o.bottom_nm)) if o.bottom_nm else 0, rule,
                     FOREVER_NM if o.top_nm is None else o.top_nm + self.off(o.top_nm), room.turned(side))


def _unknown(kind: str) -> KeepClear:
    return KeepClear(kind, kind, 0, 0, 0, 0, True, str(Level.CAUTION),
                     "Say what it is, and look whether it must stay reachable.", "", "")


def interpolated(runs: Sequence[Run], height_nm: int, depth_nm: int) -> tuple[Run, ...]:
    """The readings that bind a piece reaching up to ``height_nm`` and out to ``depth_nm``.

    A reading beyond the piece does not bind by itself; where the next one beyond is shorter than the one
    within reach, the run at the piece's edge is taken on the straight line between. With none in reach
    all bind.
    """
    near = [r for r in runs if (r.height_nm or 0) <= height_nm and (r.depth_nm or 0) <= depth_nm]
    if not near:
        return tuple(runs)
    beyond = [r for r in runs if r not in near]
    between = [_between(near, r, height_nm, depth_nm) for r in beyond
               if not any(_shields(o, r, height_nm, depth_nm) for o in beyond)]
    return (*near, *(b for b in between if b is not None))


def shortest(runs: Sequence[Run], read: Sequence[Run]) -> Run | None:
    """The least of the runs that bind; where no far upper corner was ``read``, that corner counts too.

    The walls are taken as planes: there what is lost upwards and what is lost outwards from the foot add up.
    """
    if not runs:
        return None
    least = min(runs, key=lambda r: r.nm)
    foot = min(runs, key=lambda r: ((r.height_nm or 0) + (r.depth_nm or 0), r.nm))
    tight = [r for r in runs if r.nm < foot.nm]
    for upper in tight:
        for outer in tight:
            high, deep = upper.height_nm or 0, outer.depth_nm or 0
            nm = upper.nm + outer.nm - foot.nm
            if nm < least.nm and high > (outer.height_nm or 0) and deep > (upper.depth_nm or 0) and not any(
                    (r.height_nm or 0) >= high and (r.depth_nm or 0) >= deep for r in read):
                least = Run(nm, high, deep, f"{upper.words} and {outer.words}")
    return least


def _shields(nearer: Run, run: Run, height_nm: int, depth_nm: int) -> bool:
    """Whether ``nearer`` lies on the way to ``run``, so that the run at the piece's edge is between it."""
    apart = False
    for limit, a, b in ((height_nm, nearer.height_nm or 0, run.height_nm or 0),
                        (depth_nm, nearer.depth_nm or 0, run.depth_nm or 0)):
        if (a > limit) != (b > limit) or a > b or (b <= limit and a != b):
            return False
        apart |= a != b
    return apart


def _between(near: Sequence[Run], beyond: Run, height_nm: int, depth_nm: int) -> Run | None:
    """The run at the piece's edge on the way from the reading within reach to the one beyond it."""
    over_height = (beyond.height_nm or 0) > height_nm
    over_depth = (beyond.depth_nm or 0) > depth_nm
    like = [r for r in near if (over_height or (r.height_nm or 0) == (beyond.height_nm or 0))
            and (over_depth or (r.depth_nm or 0) == (beyond.depth_nm or 0))] or list(near)
    within = max(like, key=lambda r: ((r.height_nm or 0) + (r.depth_nm or 0), -r.nm))
    if within.nm <= beyond.nm:
        return None
    shares = [(limit - (a or 0)) / ((b or 0) - (a or 0)) for is_over, limit, a, b in (
        (over_height, height_nm, within.height_nm, beyond.height_nm),
        (over_depth, depth_nm, within.depth_nm, beyond.depth_nm)) if is_over]
    nm = within.nm - up((within.nm - beyond.nm) * min(shares))
    return Run(nm, min(height_nm, beyond.height_nm or 0) or within.height_nm,
               min(depth_nm, beyond.depth_nm or 0) or within.depth_nm,
               f"between {within.words} and {beyond.words}")
