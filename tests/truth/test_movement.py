"""Wood movement against the Wood Handbook (FPL-GTR-190) ch. 13 and worked rows."""

from __future__ import annotations

import pytest

from handmade import INCH, UNNAMED, timber
from yardwright.domain.checks import Unknown
from yardwright.domain.checks.movement import width_change


def test_the_handbook_white_fir_flooring_grows_1_7_mm() -> None:
    """232 mm white fir, 8 -> 11 %: +1.7 mm, 233.7 mm; Wood Handbook ch. 13 example (result seen)."""
    fir = timber("white-fir", tangential_movement=0.00245)
    grown = width_change(232, fir, 8, 11)
    assert round(grown, 1) == 1.7
    assert round(232 + grown, 1) == 233.7


@pytest.mark.parametrize(("name", "width", "first", "last", "movement", "shrinkage", "change"), [
    ("white oak, 8 in flat", 8.0, 7, 12, 0.00365, 10.5, 0.146),
    ("cedar 5 1/2 in", 5.5, 12, 8, 0.00234, 5.0, -0.0515),
    ("loblolly 139.7 mm", 139.7, 14, 6, 0.00259, 7.4, -2.89),
    ("loblolly 5 1/2 in, eq. 13-3", 5.5, 19, 12, 0.00259, 7.4, -0.0976),
    ("cedar 5 1/2 in, eq. 13-3", 5.5, 19, 12, 0.00234, 5.0, -0.0654),
    ("white oak 140 mm, eq. 13-3", 140.0, 8, 16, 0.00365, 10.5, 4.25),
])
def test_worked_rows_of_the_movement_table(name: str, width: float, first: float, last: float,
                                           movement: float, shrinkage: float, change: float) -> None:
    """Rows recomputed by hand from Wood Handbook eq. 13-2 and 13-3 with table coefficients."""
    wood = timber("wood", tangential_movement=movement, tangential_shrinkage_pct=shrinkage)
    assert width_change(width, wood, first, last) == pytest.approx(change, rel=5e-3), name


def test_seven_cedar_slats_grow_5_8_mm_in_all() -> None:
    """Seat of seven 3 1/2 in slats, +4 % moisture: 0.229 in (5.8 mm), recomputed."""
    cedar = timber("cedar", tangential_movement=0.00234)
    assert 7 * width_change(3.5 * INCH, cedar, 8, 12) == pytest.approx(5.8, abs=0.05)


def test_from_saturated_to_ovendry_the_whole_shrinkage_comes_out() -> None:
    """The limit of eq. 13-3: 30 -> 0 % gives back -S %."""
    cedar = timber("cedar", tangential_shrinkage_pct=5.0)
    assert width_change(100, cedar, 30, 0) == pytest.approx(-5.0)
    assert width_change(100, cedar, 60, 0) == pytest.approx(-5.0)


def test_a_timber_without_movement_is_unknown() -> None:
    with pytest.raises(Unknown):
        width_change(100, UNNAMED, 8, 12)
