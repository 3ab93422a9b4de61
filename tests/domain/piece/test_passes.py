"""Thin things between two tried angles are met all the same."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest
from shapely.affinity import rotate
from shapely.geometry import box as rectangle

from handmade import box
from yardwright.domain.piece.clashes import clashes_in_motion, stations
from yardwright.domain.piece.model import Member
from yardwright.domain.piece.passes import flat, passes, swept
from yardwright.domain.piece.solid import blank, turned_solid

HINGE = ((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), -90.0)


def board(key: str, low: tuple[float, float, float], size: tuple[float, float, float],
          group: str = "fixed") -> Member:
    corners = [(low[0] + u * size[0], low[1] + v * size[1], low[2] + w * size[2])
               for w in (0, 1) for v in (0, 1) for u in (0, 1)]
    return replace(box(key, low, size, group=group), solid=blank(corners))


def test_a_wire_between_two_tried_angles_is_met() -> None:
    """A lid 600 deep and 4 thick turns up past a 4 mm bar 590 from its hinge at 42.5 degrees: half a degree
    of meeting, where only 40 and 45 are tried."""
    lid = board("Lid", (0, -600, 0), (500, 600, 4), "lid")
    bar = board("Bar", (100, -437, 397), (300, 4, 4))
    assert not any(abs(a + 42.5) < 2 for a in stations(-90.0))
    found = clashes_in_motion((lid, bar), {"lid": HINGE})
    assert [(c.first, c.second) for c in found] == [("Lid", "Bar")]
    assert -44 < found[0].opened_deg < -41


def test_a_bar_out_of_reach_or_beside_the_lid_is_not_met() -> None:
    lid = board("Lid", (0, -600, 0), (500, 600, 4), "lid")
    far, beside = board("Far", (100, -460, 420), (300, 4, 4)), board("Side", (510, -437, 397), (300, 4, 4))
    assert clashes_in_motion((lid, far, beside), {"lid": HINGE}) == ()


@pytest.mark.parametrize("seed", range(40))
def test_small_bars_anywhere_are_met_when_shapely_sweeps_a_lid_into_them(seed: int) -> None:
    """Swept every twentieth of a degree by an independent library (shapely)."""
    rng = Random(seed)
    deep, thick = rng.uniform(200, 700), rng.uniform(3, 40)
    lid = board("Lid", (0, -deep, 0), (500, deep, thick), "lid")
    y, z, size = rng.uniform(-deep * 1.05, 50), rng.uniform(thick + 1, deep * 1.05), rng.uniform(2, 12)
    bar = board("Bar", (100, y, z), (300, size, size))
    shape, still = rectangle(-deep, 0, 0, thick), rectangle(y, z, y + size, z + size)
    shared = [rotate(shape, -step / 20, origin=(0, 0)).intersection(still).area for step in range(1, 1801)]
    found = clashes_in_motion((lid, bar), {"lid": HINGE})
    if max(shared) > 0.5:
        assert found, (deep, thick, y, z, size)
    if max(shared) == 0.0:
        assert not found


def test_nothing_is_tried_twice_where_the_tried_angles_serve() -> None:
    lid = board("Lid", (0, -600, 0), (500, 600, 30), "lid")
    big = board("Big", (0, -500, 100), (500, 200, 300))
    tried = [0.0, *map(abs, stations(-90.0))]
    found = list(passes(flat(lid.solid, HINGE), flat(big.solid, HINGE), HINGE, tried))
    assert all(not any(abs(a + t) < 1e-9 for t in tried) for a in found)


@pytest.mark.parametrize("seed", range(30))
def test_the_room_swept_is_that_of_many_small_turns(seed: int) -> None:
    """Turned by half a degree at a time: never beyond the box, and out to each side of it."""
    rng = Random(seed)
    axis = rng.choice([(1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)])
    low, size = ([rng.uniform(-400, 400) for _ in range(3)] for _ in range(2))
    about, opens = (rng.uniform(-200, 200),) * 3, rng.choice([-1, 1]) * rng.uniform(5, 360)
    long, wide, thick = (abs(s) + 1 for s in size)
    solid = board("Lid", (low[0], low[1], low[2]), (long, wide, thick)).solid
    hinge = (about, axis, opens)
    lowest, highest = swept(solid.box, flat(solid, hinge, exact=True), hinge)
    steps = 1 + int(2 * abs(opens))
    boxes = [turned_solid(solid, about, axis, opens * k / steps).box for k in range(steps + 1)]
    for k in range(3):
        least, most = min(box[0][k] for box in boxes), max(box[1][k] for box in boxes)
        assert least - 0.05 < lowest[k] <= least + 1e-6
        assert most - 1e-6 <= highest[k] < most + 0.05
