"""The way in: the whole piece through gates, passages, stairs and round turns."""

from __future__ import annotations

import math

import pytest

from yardwright.domain.finding import Level
from yardwright.domain.fit.access import passes, way_in
from yardwright.domain.fit.model import Envelope
from yardwright.domain.measure import INCH, Writer
from yardwright.domain.site import Access


def box(length_in: float, depth_in: float, height_in: float) -> Envelope:
    sizes = [round(v * INCH) for v in (length_in, depth_in, height_in)]
    return Envelope(*sizes, sizes[2], 0, 0, 0)


def gap(kind: str, width_in: float, height_in: float | None = None) -> Access:
    return Access(kind, round(width_in * INCH), None if height_in is None else round(height_in * INCH))


@pytest.mark.parametrize(("access", "through"), [
    (gap("gate", 22), True), (gap("gate", 21.9), False), (gap("gate", 38), True),
    (gap("passage", 22, 38), True), (gap("passage", 22, 37.9), False), (gap("passage", 38, 22), True),
    (gap("stairs", 38, 27.5), True), (gap("stairs", 38, 27), False), (gap("stairs", 30, 37), False),
    (gap("stairs", 22, 47.6), True), (gap("stairs", 22, 47.5), False), (gap("stairs", 38, None), True),
])
def test_a_bench_goes_through_with_two_inches_to_spare(access: Access, through: bool) -> None:
    assert passes(box(44, 20, 36), access) is through


def test_a_turn_takes_what_geometry_lets_round_it() -> None:
    wide = 30.0
    longest = 2 * math.sqrt(2) * wide - 2 * 20
    assert passes(box(longest - 0.01, 20, 24), gap("turn", wide + 2))
    assert not passes(box(longest + 0.01, 20, 24), gap("turn", wide + 2))
    assert passes(box(longest + 8, 20, 24), gap("turn", wide + 2, 84)), "on end, where the height allows"
    assert not passes(box(longest + 8, 20, 24), gap("turn", wide + 2)), "not where nobody measured the height"


@pytest.mark.parametrize("across", [0.0, 10.0, 20.0])
def test_the_turn_rule_is_the_least_reach_over_every_angle(across: float) -> None:
    # A box turning in a corner of two passages w wide reaches w/sin + w/cos - a (tan + 1/tan) at each angle
    # (geometry, recomputed); it must pass the tightest.
    wide = 30.0
    angles = [math.radians(d / 10) for d in range(5, 896)]
    reach = min(wide / math.sin(t) + wide / math.cos(t) - across * (math.tan(t) + 1 / math.tan(t))
                for t in angles)
    assert 2 * math.sqrt(2) * wide - 2 * across == pytest.approx(reach, rel=1e-6)


def test_each_narrow_place_gets_a_finding_and_a_caution_says_what_to_do() -> None:
    found = way_in(box(44, 20, 36), (gap("gate", 36), gap("stairs", 20, 84)), Writer("in"))
    assert [f.level for f in found] == [Level.OK, Level.CAUTION]
    assert all(f.rule == "way in" for f in found)
    assert found[1].detail == ("The piece is 20 in x 36 in x 44 in; the stairs is 20 in wide, 84 in high, "
                               "and 2 in more than the piece is wanted. No way of carrying it was found, "
                               "on any of its sides, on end or tilted.")
    assert "in parts" in found[1].mend
