"""An L carried round a turn and through a gate, against a search of every position and angle.

The search knows nothing of how the service reasons: at each of many angles the places where the L meets a
wall are Minkowski sums taken with Shapely (a general-purpose planar geometry library), what is left falls
into stretches of free ground, and stretches of neighbouring angles that share ground hang together. An L made
slimmer by more than a point moves from one angle to the next goes wherever the true one does, so what it
cannot do is impossible; one made thicker by as much goes only where the true one does too.
Status: recomputed.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterable, Sequence

import pytest
from shapely import MultiPoint, STRtree, union_all
from shapely.geometry import Polygon, box

from yardwright.domain.fit.model import Envelope
from yardwright.domain.fit.outline import POST_NM, hull, l_outline, narrowest, round_the_post, turns_round
from yardwright.domain.measure import MM

ANGLES = 240
FAR = 4200.0                     # mm; no L tried is longer
WALL = 9000.0
Places = Sequence[tuple[float, float]]


def piece(length: float, depth: float, wing: float, thick: float) -> Envelope:
    long, deep, out, along = (round(v * MM) for v in (length, depth, wing, thick))
    return Envelope(long, deep, 900 * MM, 900 * MM, 0, 0, 0, "right", out, along)


def boxes_of(piece: Envelope, more: float) -> list[list[tuple[float, float]]]:
    """The two legs as rectangles, each side moved out by ``more``."""
    legs = ((piece.length_nm, piece.depth_nm), (piece.wing_depth_nm, piece.wing_length_nm))
    return [[(-more, -more), (x / MM + more, -more), (x / MM + more, y / MM + more), (-more, y / MM + more)]
            for x, y in legs]


def turned(places: Places, angle: float, mirrored: bool) -> list[tuple[float, float]]:
    c, s, sign = math.cos(angle), math.sin(angle), -1 if mirrored else 1
    return [(x * sign * c - y * s, x * sign * s + y * c) for x, y in places]


def free_ground(walls: Iterable[Polygon], legs: Iterable[Places]) -> list[Polygon]:
    """Where the L's own (0, 0) may be: everywhere but in a wall less a leg."""
    taken = union_all([MultiPoint([(wx - x, wy - y) for wx, wy in wall.exterior.coords[:-1] for x, y in leg])
                       .convex_hull for wall in walls for leg in legs])
    left = box(-FAR, -FAR, FAR, FAR).difference(taken)
    return [part for part in getattr(left, "geoms", [left]) if part.area > 0]


def goes(legs: Sequence[Places], walls: Sequence[Polygon], starts: Polygon, ends: Polygon,
         mirrored: bool = False) -> bool:
    """Whether some stretch of free ground hangs together from ``starts`` to ``ends`` over the angles."""
    slices = [free_ground(walls, [turned(leg, 2 * math.pi * n / ANGLES, mirrored) for leg in legs])
              for n in range(ANGLES)]
    ground = [(n, part) for n, parts in enumerate(slices) for part in parts]
    first = [sum(map(len, slices[:n])) for n in range(ANGLES)]
    root = list(range(len(ground)))

    def top(k: int) -> int:
        while root[k] != k:
            k = root[k]
        return k

    for k, (n, part) in enumerate(ground):
        after = (n + 1) % ANGLES
        if slices[after]:
            for j in STRtree(slices[after]).query(part, predicate="intersects"):
                root[top(k)] = top(first[after] + int(j))
    begun = {top(k) for k, (_, part) in enumerate(ground) if part.intersects(starts)}
    return any(top(k) in begun for k, (_, part) in enumerate(ground) if part.intersects(ends))


def slack(piece: Envelope) -> float:
    """A little more than the furthest point moves over half the way from one angle to the next."""
    return slack_of([place for leg in boxes_of(piece, 0.0) for place in leg])


def slack_of(places: Places) -> float:
    return 1.05 * max(math.hypot(x, y) for x, y in places) * math.pi / ANGLES


def search_turn(legs: Sequence[Places], wide: float, onward: float) -> bool:
    walls = [box(-WALL, -WALL, 0, WALL), box(-WALL, -WALL, WALL, 0), box(wide, onward, WALL, WALL)]
    up, right = box(-FAR, FAR - 1, FAR, FAR), box(FAR - 1, -FAR, FAR, FAR)
    return any(goes(legs, walls, up, right, mirrored) for mirrored in (False, True))


def search_gate(piece: Envelope, wide: float, more: float) -> bool:
    thick = POST_NM / MM
    walls = [box(0, -WALL, thick, 0), box(0, wide, thick, WALL)]
    return goes(boxes_of(piece, more), walls, box(-FAR, -FAR, 1 - FAR, FAR), box(FAR - 1, -FAR, FAR, FAR))


def any_l(seed: int) -> tuple[Envelope, random.Random]:
    chance = random.Random(seed)
    thick = chance.uniform(300, 700)
    sizes = (chance.uniform(1.6, 3.6) * thick, thick, chance.uniform(1.4, 3.2) * thick,
             thick * chance.uniform(0.8, 1.2))
    return piece(*sizes), chance


@pytest.mark.parametrize("seed", range(6))
def test_an_l_goes_round_a_turn_just_where_the_search_finds_a_way(seed: int) -> None:
    made, chance = any_l(seed)
    slim = narrowest(l_outline(made) or ()) / MM
    wide, onward = (slim * chance.uniform(1.0, 1.25) for _ in range(2))
    said, room = turns_round([l_outline(made) or ()], wide * MM, onward * MM), slack(made)
    assert not said or search_turn(boxes_of(made, -room), wide, onward), "said to pass where nothing can"
    assert said or not search_turn(boxes_of(made, room), wide, onward), "though something larger can"


def tilted_legs(chance: random.Random) -> list[list[tuple[float, float]]]:
    """Both legs of an L in plan, the whole rolled and pitched: what each box covers of the ground."""
    made, roll, pitch = any_l(chance.randrange(1000))[0], chance.uniform(-0.6, 0.6), chance.uniform(-0.6, 0.6)
    legs = []
    for x, y in ((made.length_nm, made.depth_nm), (made.wing_depth_nm, made.wing_length_nm)):
        corners = [(a, b, c) for a in (0, x / MM) for b in (0, y / MM) for c in (0, 450)]
        rolled = [(a, b * math.cos(roll) - c * math.sin(roll), b * math.sin(roll) + c * math.cos(roll))
                  for a, b, c in corners]
        plan = [(a * math.cos(pitch) + c * math.sin(pitch), b) for a, b, c in rolled]
        legs.append(list(MultiPoint(plan).convex_hull.exterior.coords[:-1]))
    return legs


# The last two go as two legs, and not as the hull around both.
@pytest.mark.parametrize("seed", [200, 201, 205, 206, 214, 216, 319])
def test_a_tilted_l_goes_round_a_turn_as_its_two_legs_do(seed: int) -> None:
    chance = random.Random(seed)
    legs = tilted_legs(chance)
    places = [place for leg in legs for place in leg]
    room, slim = slack_of(places), narrowest(places)
    wide, onward = (slim * chance.uniform(1.0, 1.08) for _ in range(2))
    scaled = [[(x * MM, y * MM) for x, y in leg] for leg in legs]
    said = turns_round(scaled, wide * MM, onward * MM)
    slimmer, thicker = ([list(Polygon(leg).buffer(by, join_style="mitre").exterior.coords[:-1])
                         for leg in legs] for by in (-room, room))
    assert not said or search_turn(slimmer, wide, onward), "said to pass where nothing can"
    assert said or not search_turn(thicker, wide, onward), "said not to pass where something larger can"
    if seed in (216, 319):
        assert said and not turns_round([hull([p for leg in scaled for p in leg])], wide * MM, onward * MM)


@pytest.mark.parametrize("seed", range(6))
def test_an_l_goes_leg_first_through_a_gate_only_where_the_search_finds_a_way(seed: int) -> None:
    made, chance = any_l(100 + seed)
    corner = math.hypot(made.depth_nm, made.wing_depth_nm) / MM
    wide = corner * chance.uniform(0.98, 1.3)
    said, room = round_the_post(made, wide * MM), slack(made)
    assert not said or search_gate(made, wide, -room), "said to pass where nothing can"
    if wide > corner + POST_NM / MM / 2 + 40:
        assert said, "half the wall's thickness past the corner's breadth is enough for legs this long"


def test_an_l_passes_a_gate_that_the_box_around_it_does_not() -> None:
    bench = piece(1830, 560, 1520, 560)
    assert narrowest(l_outline(bench) or ()) / MM > 1500
    assert round_the_post(bench, 920 * MM) and not round_the_post(bench, 790 * MM)
    assert search_gate(bench, 920, 0.0) and not search_gate(bench, 780, -slack(bench))
