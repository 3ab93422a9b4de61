"""Screw and lag screw withdrawal against NDS Tables 12.2B and 12.2A as rounded there, lb per inch."""

from __future__ import annotations

import pytest

from handmade import limits
from yardwright.domain.checks.screws import lag_thread, lag_withdrawal, withdrawal
from yardwright.domain.checks.words import INCH_MM, LBF_N

SHANK_IN = {6: 0.138, 8: 0.164, 10: 0.190, 12: 0.216, 14: 0.242}   # Wood Screw Pilot Hole Sizes 6B; seen


def pounds(gravity: float, gauge: int, thread_in: float = 1.0) -> float:
    factor = limits()["structure.screw_withdrawal"].value
    return withdrawal(gravity, SHANK_IN[gauge] * INCH_MM, thread_in * INCH_MM, factor) / LBF_N


def test_spruce_number_10_is_109_lb_for_each_inch() -> None:
    """G 0.45, 0.190 in: 109 lb/in, 109.65 unrounded ("Wood Screws - Withdrawal Force"; seen)."""
    assert int(pounds(0.45, 10)) == 109
    assert pounds(0.45, 10) == pytest.approx(109.65, abs=0.01)


@pytest.mark.parametrize(("gravity", "row"), [
    (0.55, (119, 141, 164, 186, 209)), (0.50, (98, 117, 135, 154, 172)), (0.36, (51, 61, 70, 80, 89)),
    (0.67, (177, 210, 243, 276, 310))])
def test_rows_of_the_withdrawal_table(gravity: float, row: tuple[int, ...]) -> None:
    """= NDS Table 12.2B rounding (recomputed from eq. 12.2-2, seen)."""
    assert tuple(round(pounds(gravity, gauge)) for gauge in SHANK_IN) == row


def test_a_number_10_with_1_1_2_in_of_thread_in_southern_pine_wet() -> None:
    """163.8 × 1.5 = 246 lb dry, × 0.7 = 172 lb wet (recomputed)."""
    assert round(pounds(0.55, 10, 1.5)) == 246
    assert round(pounds(0.55, 10, 1.5) * limits()["structure.wet_screw"].value) == 172


LAG_IN = (0.25, 0.3125, 0.375, 0.5)


@pytest.mark.parametrize(("gravity", "row"), [
    (0.67, (349, 413, 473, 587)), (0.55, (260, 307, 352, 437)), (0.50, (225, 266, 305, 378)),
    (0.42, (173, 205, 235, 291)), (0.36, (137, 163, 186, 231)), (0.35, (132, 156, 179, 222))])
@pytest.mark.parametrize("column", range(4))
def test_each_cell_of_the_lag_screw_table(gravity: float, row: tuple[int, ...], column: int) -> None:
    """NDS Table 12.2A, lb for each inch of thread; seen (scanned page in a city's permit archive)."""
    factor = limits()["structure.lag_withdrawal"].value
    held = lag_withdrawal(gravity, LAG_IN[column] * INCH_MM, INCH_MM, factor) / LBF_N
    assert round(held) == row[column]


@pytest.mark.parametrize(("shank", "length", "thread"), [
    (0.25, 3.0, 1 + 27 / 32), (0.3125, 3.0, 1 + 13 / 16), (0.375, 4.0, 2 + 9 / 32)])
def test_the_thread_of_a_lag_screw_without_its_tip(shank: float, length: float, thread: float) -> None:
    """NDS Appendix L, T - E; memory."""
    found = lag_thread(shank * INCH_MM, length * INCH_MM, 10 * INCH_MM) / INCH_MM
    assert found == pytest.approx(thread, abs=1 / 32)
