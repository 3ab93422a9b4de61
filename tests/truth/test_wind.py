"""Wind against outside figures: the form of ASCE 7, and cantilevers and beams of any handbook.

ASCE 7 eq. 26.10-1: q = 0.613·K_z·K_zt·K_d·V² (N/m², m/s), in US units 0.00256·V² (lbf/ft², mph): from memory.
115 mph gives the 33.9 lbf/ft² of the usual worked examples (0.00256·115²), from memory. Fixed-end moments: a
cantilever w·L²/2, a beam on two supports w·L²/8, with an overhang w·(L² - a²)²/(8·L²) between: any handbook.
"""

from __future__ import annotations

import pytest

from handmade import box, case, limits, piece
from yardwright.domain.checks.wind import pressure
from yardwright.domain.checks.wind_posts import bent
from yardwright.domain.site import Site

MPH, PSF = 0.44704, 47.880259


def test_the_pressure_has_the_form_of_asce_7() -> None:
    assert limits()["wind.air"].value * (115 * MPH) ** 2 / PSF == pytest.approx(33.9, abs=0.1)
    made = case(piece([box("Screen", (0, 0, 0), (1500, 60, 1800))]), Site(exposure="open"))
    assert pressure(made) * 1e6 == pytest.approx(0.613 * 34**2)


def test_speeds_are_of_allowable_stress_level_for_105_mph() -> None:
    """V·sqrt(0.6·K_z), K_z 0.70, 0.85, 1.03 to 15 ft, exposures B, C, D (ASCE 7 Table 26.10-1, memory)."""
    for exposure, k_z in (("suburban", 0.70), ("open", 0.85), ("coast", 1.03)):
        said = limits()[f"wind.speed.{exposure}"].value
        assert said == pytest.approx(105 * MPH * (0.6 * k_z) ** 0.5, abs=0.6)


@pytest.mark.parametrize(("line", "high", "moment"), [
    (1.0, 1800.0, 1.62e6), (10.0, 100.0, 50_000.0), (0.5, 2000.0, 1e6)])
def test_a_post_held_at_its_foot_is_the_handbook_s_cantilever(line: float, high: float,
                                                             moment: float) -> None:
    assert bent(line, 0.0, high, [0.0]) == pytest.approx(moment)


@pytest.mark.parametrize(("gap", "over"), [(1000.0, 200.0), (1000.0, 600.0), (800.0, 790.0), (500.0, 0.0)])
def test_a_post_held_at_two_heights_is_never_taken_for_less_than_the_handbook_s(gap: float,
                                                                                over: float) -> None:
    between = max(gap**2 - over**2, 0.0) ** 2 / (8 * gap**2)
    assert bent(1.0, 0.0, gap + over, [0.0, gap]) >= max(between, over**2 / 2)
    assert bent(1.0, 0.0, gap + over, [0.0, gap]) <= max(gap**2 / 8, over**2 / 2)
