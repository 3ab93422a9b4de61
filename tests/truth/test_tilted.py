"""Bodies carried at a tilt, against many thousand turns drawn by lot with SciPy (a general-purpose library).

The lot is no search: where none of its turns goes through an opening a little larger, the service must not
have found one either. What the closed rule for boxes lets through, the search of true corners must find too.
Status: recomputed.
"""

from __future__ import annotations

import random

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from yardwright.domain.fit.access import ROOM_NM, carried
from yardwright.domain.fit.tilted import carried_tilted
from yardwright.domain.measure import MM
from yardwright.domain.site import Access

TURNS = Rotation.random(40_000, random_state=7).as_matrix()


def place(wide: float, high: float) -> Access:
    return Access("gate", round(wide * MM) + ROOM_NM, round(high * MM) + ROOM_NM)


def by_lot(corners: np.ndarray, wide: float, high: float) -> bool:
    across, up = (corners @ TURNS[:, k, :].T for k in (0, 2))
    spans = (np.ptp(across, axis=0) <= wide) & (np.ptp(up, axis=0) <= high)
    return bool(spans.any())


def prism(chance: random.Random) -> np.ndarray:
    """A bench-like body: a profile of five corners drawn out along its length."""
    deep, seat, back, lean = (chance.uniform(*r) for r in ((450, 750), (350, 500), (300, 550), (50, 250)))
    profile = [(0, 0), (deep, 0), (deep, seat), (deep - lean, seat + back), (deep - lean - 60, seat + back)]
    length = chance.uniform(600, 1500)
    return np.array([(x, y, z) for x in (0, length) for y, z in profile])


@pytest.mark.parametrize("seed", range(12))
def test_nothing_is_said_to_go_at_a_tilt_that_no_turn_of_many_lets_through(seed: int) -> None:
    chance = random.Random(seed)
    body = prism(chance)
    least = min(np.ptp(body, axis=0))
    wide, high = least * chance.uniform(0.8, 1.15), chance.uniform(700, 2000)
    corners = [(x * MM, y * MM, z * MM) for x, y, z in body.tolist()]
    said = carried_tilted(corners, place(wide, high))
    assert said is None or by_lot(body, wide * 1.04 + 5, high * 1.04 + 5), said
    assert said is not None or not by_lot(body, wide * 0.96, high * 0.96), "a way with room to spare is found"


@pytest.mark.parametrize("seed", range(6))
def test_boxes_that_the_closed_rule_lets_through_are_let_through_by_their_corners(seed: int) -> None:
    chance = random.Random(100 + seed)
    a, b, c = (chance.uniform(300, 1500) for _ in range(3))
    opening = place(chance.uniform(400, 900), chance.uniform(900, 2000))
    corners = [(x * MM, y * MM, z * MM) for x in (0, a) for y in (0, b) for z in (0, c)]
    if carried((round(a * MM), round(b * MM), round(c * MM)), opening) is not None:
        larger = Access("gate", opening.width_nm + 10 * MM, (opening.height_nm or 0) + 10 * MM)
        assert carried_tilted(corners, larger) is not None
