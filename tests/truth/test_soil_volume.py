"""Soil a bed takes, against garden guides: inside length x width x depth, in cubic feet, yards and litres."""

from __future__ import annotations

import pytest

from builders import demo_shop, demo_shop_metric
from handmade import INCH, asked, box, case, piece
from yardwright.domain.checks import soil_weight
from yardwright.domain.checks.touches import corners
from yardwright.domain.checks.words import Words
from yardwright.domain.formula import evaluate
from yardwright.domain.measure import Writer
from yardwright.domain.piece.build import build
from yardwright.domain.shop import Shop

FOOT_MM = 12 * INCH
FOOT3, YARD3, LITRE = FOOT_MM**3, (3 * FOOT_MM) ** 3, 1e6


def filled(length_mm: float, depth_mm: float, soil_mm: float) -> float:
    """mm³ of soil that the planter's own formula gives for a bed of these inside sizes."""
    formula = dict(demo_shop().templates["planter-box"].values)["soil_volume"]
    inside = {"length": length_mm, "depth": depth_mm, "in_x": 0.0, "in_y": 0.0, "soil_top": soil_mm,
              "floor_top": 0.0}
    return float(evaluate(formula, inside))


def test_two_beds_of_8_by_4_ft_18_in_deep_take_96_cubic_feet() -> None:
    """96 ft³ = 3.556 yd³, printed 3.56 (garden Q&A page; seen, recomputed)."""
    volume = 2 * filled(8 * FOOT_MM, 4 * FOOT_MM, 18 * INCH)
    assert volume / FOOT3 == pytest.approx(96)
    assert volume / YARD3 == pytest.approx(3.556, abs=5e-4)
    assert Words(Writer("in")).volume(volume) == "96.0 ft³"


def test_a_bed_of_4_by_2_ft_18_in_deep_takes_12_cubic_feet_and_8_bags() -> None:
    """12 ft³ = 0.444 yd³, 8 bags of 1.5 ft³ (recomputed)."""
    volume = filled(4 * FOOT_MM, 2 * FOOT_MM, 18 * INCH)
    assert volume / FOOT3 == pytest.approx(12)
    assert volume / YARD3 == pytest.approx(0.444, abs=5e-4)
    assert volume / FOOT3 / 1.5 == pytest.approx(8)


def test_1200_by_400_by_400_mm_take_192_litres() -> None:
    """192 L (recomputed)."""
    volume = filled(1200, 400, 400)
    assert volume / LITRE == pytest.approx(192)
    assert Words(Writer("mm")).volume(volume) == "192 L"


def test_twelve_cubic_feet_of_light_mix_weigh_720_lb_wet() -> None:
    """12 ft³ at 60 lb/ft³ wet = 720 lb (recomputed)."""
    made = case(piece([box("Side", (0, 0, 0), (4 * FOOT_MM, 20, 18 * INCH), thick="y")]))
    light = asked("soil weight", words={"soil": "light"}, soil_volume=12 * FOOT3)
    assert "12.0 ft³ × 60 lb/ft³ = 720 lb" in soil_weight.check(light, made)[0].working


@pytest.mark.parametrize(("shop", "units"), [(demo_shop(), "in"), (demo_shop_metric(), "mm")])
def test_a_built_planter_takes_what_its_boards_hold_above_its_floor(shop: Shop, units: str) -> None:
    """The room measured off the placed boards, filled to an inch below the rim (geometry)."""
    made = build(shop.templates["planter-box"], {}, {}, shop, units)
    boards = {n: [corners(m) for m in made.members if m.name.startswith(n)]
              for n in ("Long side board", "End board", "Floor board")}
    ends = boards["End board"]
    long_y = sorted(c[1] for board in boards["Long side board"] for c in board)
    end_x = sorted(c[0] for board in ends for c in board)
    middle_y, middle_x = (long_y[0] + long_y[-1]) / 2, (end_x[0] + end_x[-1]) / 2
    wide = min(y for y in long_y if y > middle_y) - max(y for y in long_y if y < middle_y)
    long = min(x for x in end_x if x > middle_x) - max(x for x in end_x if x < middle_x)
    floor = max(c[2] for board in boards["Floor board"] for c in board)
    top = made.values["soil_top"]
    assert made.values["soil_volume"] == pytest.approx(long * wide * (top - floor), rel=1e-9)
