"""True places drawn by lot, and what a tape would read there: walls that lean and slant, things at heights.

The back wall stands on y = 0 from x = 0; out into the yard is +y. All in mm; ``slant`` is how far a side wall
closes in for each mm out, as an angle, ``lean`` how far a wall comes in for each mm up.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from dataclasses import dataclass

from shapely.geometry import Polygon, box

from yardwright.domain.fit import uncertainty_nm
from yardwright.domain.measure import MM
from yardwright.domain.site import Corner, Measured, Obstruction, Site, Wall

FAR = 9000.0
HELD = {"between walls": ("left", "right"), "corner left": ("left",), "corner right": ("right",),
        "against a wall": ()}


@dataclass(frozen=True)
class OnWall:
    """A box on a wall."""

    wall: str
    start: float
    end: float
    out: float
    bottom: float | None
    top: float | None

    def at(self, z: float) -> bool:
        return (self.bottom or 0.0) <= z <= (math.inf if self.top is None else self.top)


@dataclass(frozen=True)
class Yard:
    kind: str
    held: tuple[str, ...]
    run: float
    free_out: float
    slant: dict[str, float]
    lean: dict[str, float]
    things: tuple[OnWall, ...]
    under: float | None

    def edge(self, side: str, y: float, z: float) -> float:
        """Where a side wall is along x, ``y`` out and ``z`` up; far away where there is none."""
        if side not in self.held:
            return -FAR if side == "left" else FAR
        into = math.tan(self.slant[side]) * y + self.lean[side] * z / math.cos(self.slant[side])
        return into if side == "left" else self.run - into

    def width(self, y: float, z: float) -> float:
        left, right = (self.edge(s, y, z) if s in self.held else at for s, at in (
            ("left", 0.0), ("right", self.run)))
        return right - left

    def free(self, z: float) -> Polygon:
        """The air between the walls at a height."""
        back = self.lean["back"] * z
        return Polygon([(self.edge("left", back, z), back), (self.edge("right", back, z), back),
                        (self.edge("right", FAR / 2, z), FAR / 2), (self.edge("left", FAR / 2, z), FAR / 2)])

    def body(self, thing: OnWall, z: float) -> Polygon:
        """A thing in plan at a height, standing off its wall wherever that is there."""
        if thing.wall == "back":
            back = self.lean["back"] * z
            return box(thing.start, back, thing.end, back + thing.out)
        slant, foot = self.slant[thing.wall], self.lean[thing.wall] * z / math.cos(self.slant[thing.wall])
        sin, cos = math.sin(slant), math.cos(slant)
        places = [(foot + s * sin + o * cos, s * cos - o * sin) for s, o in (
            (thing.start, 0), (thing.end, 0), (thing.end, thing.out), (thing.start, thing.out))]
        return Polygon([(x if thing.wall == "left" else self.run - x, y) for x, y in places])


def yard(chance: random.Random) -> Yard:
    kind = chance.choice(("between walls", *HELD))
    held, run = HELD[kind], chance.uniform(900, 3200)
    return Yard(kind.split()[0] if kind.startswith("corner") else kind, held, run, chance.uniform(900, 3000),
                {s: math.radians(chance.choice((0, chance.uniform(-6, 6)))) for s in ("left", "right")},
                {s: chance.choice((0, 0, chance.uniform(-.03, .03))) for s in ("back", "left", "right")},
                tuple(t for wall in ("back", *held) for t in _things(wall, run, chance)),
                chance.choice((None, chance.uniform(600, 2200))))


def _things(wall: str, run: float, chance: random.Random) -> Iterator[OnWall]:
    for _ in range(chance.choice((0, 0, 1, 2))):
        start = chance.uniform(0, run if wall == "back" else 2000)
        bottom = chance.choice((0.0, None, chance.uniform(0, 1200)))
        top = chance.choice((None, (bottom or 0.0) + chance.uniform(20, 900)))
        yield OnWall(wall, start, start + chance.uniform(20, 400), chance.uniform(10, 300), bottom, top)


def measured(true: Yard, kind_of_thing: str, mark_nm: int, chance: random.Random) -> Site:
    """The yard as a tape of class II and an angle finder would read it, each as far off as it may be."""
    def read(mm: float) -> int:
        off = uncertainty_nm(round(mm * MM), "II", mark_nm)
        return round(mm * MM) + round(chance.uniform(-0.98, 0.98) * off)

    def run() -> Measured:
        z, y = (chance.choice((0.0, 0.0, chance.uniform(0, most))) for most in (2000, 900))
        return Measured(read(true.width(y, z)), round(z * MM), round(y * MM))

    def wall(side: str) -> Wall:
        readings = tuple(run() for _ in range(chance.randint(1, 3))) if side == "back" else (
            Measured(read(chance.uniform(900, 2600))),)
        things = tuple(Obstruction(kind_of_thing, *(round(v * MM) for v in (t.start, t.end, t.out)),
                                   *(None if v is None else round(v * MM) for v in (t.bottom, t.top)))
                       for t in true.things if t.wall == side)
        lean = true.lean[side]
        return Wall(side, readings, round(abs(lean) * 1000 * MM), 1000 * MM, things,
                    "away" if lean < 0 else "in")

    corners = tuple(Corner(s, 90 - math.degrees(true.slant[s]) + chance.uniform(-.25, .25))
                    for s in true.held)
    return Site(true.kind, tuple(wall(s) for s in ("back", *true.held)), corners,
                (Measured(read(true.free_out)),), None if true.under is None else read(true.under))
