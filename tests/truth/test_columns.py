"""Slender uprights against Euler's column (any handbook; memory) and NDS 3.7 numbers worked by hand."""

from __future__ import annotations

import math

import pytest

from handmade import CEDAR, INCH, PINE, asked, box, case, limits, piece
from yardwright.domain.checks import seat_load
from yardwright.domain.checks.uprights import allowed_load, uprights_stand
from yardwright.domain.checks.words import LBF_N, PSI
from yardwright.domain.finding import Level
from yardwright.domain.market import Timber


def test_a_rectangle_is_eulers_column() -> None:
    """pi²·E·I/l² of a 38 × 89 mm post 900 mm high, bent about its thin way; 0.822 = pi²/12 rounded."""
    euler = math.pi**2 * 7000 * (89 * 38**3 / 12) / 900**2
    assert allowed_load(7000, 900, 38, 89, 1.0) == pytest.approx(euler, rel=1e-3)


def test_the_least_stiffness_is_the_nds_share() -> None:
    """1.03·(1 - 1.645·0.25)/1.66 = 0.365; NDS Appendix D, memory."""
    share = limits()["structure.column_minimum"].value
    assert share == pytest.approx(1.03 * (1 - 1.645 * 0.25) / 1.66, abs=5e-4)


def test_a_36_in_leg_of_3_4_by_1_1_2_in_cedar_by_hand() -> None:
    """l/d = 48; 0.822·0.365·1.0e6 psi·1.125 in²/48² = 146.5 lb (recomputed)."""
    allowed = allowed_load(1.0e6 * PSI, 36 * INCH, 0.75 * INCH, 1.5 * INCH, 0.365)
    assert allowed / LBF_N == pytest.approx(146.5, abs=0.1)


def titles(high_in: float, thick_in: float, kind: Timber = CEDAR) -> dict[str, Level]:
    """A stout board on two legs of this height and thickness, 1 1/2 in wide."""
    top = high_in * INCH
    board = box("Slat", (0, 0, top), (400, 140, 38), kind=PINE, grade="No.1")
    legs = [box(f"Leg {i}", (x, 0, 0), (thick_in * INCH, 1.5 * INCH, top), along="z", thick="x", kind=kind)
            for i, x in enumerate((0, 400 - thick_in * INCH))]
    found = seat_load.check(asked("seat load", ["Slat"]), case(piece([board, *legs])))
    return {f.title: f.level for f in found}


def test_slender_legs_are_stopped_and_stout_ones_not() -> None:
    assert titles(36, 0.75)["Leg: too slender"] is Level.STOP
    assert "Leg: too slender" not in titles(17, 0.75)
    assert "Leg: too slender" not in titles(36, 1.5)


@pytest.mark.parametrize(("length_in", "deep_in", "wide_in", "crush", "e", "want"), [
    (96, 3.5, 3.5, 1350, 1.6e6, 6848), (17, 1.5, 3.5, 520, 1.0e6, 2591), (36, 0.75, 1.5, 520, 1.0e6, 138.0)])
def test_a_column_between_crushing_and_buckling_is_the_nds_one(
        length_in: float, deep_in: float, wide_in: float, crush: float, e: float, want: float) -> None:
    """NDS 3.7.1.5 by hand: a 4x4 of Douglas fir-larch 8 ft high, l/d 27.43, F_cE 638 psi, C_P 0.414 of F_c
    1350 psi; wet cedar, stout C_P 0.949, slender 0.236. Equations memory, numbers recomputed."""
    allowed = allowed_load(e * PSI, length_in * INCH, wide_in * INCH, deep_in * INCH, 0.365, crush * PSI)
    assert allowed / LBF_N == pytest.approx(want, rel=1e-3)


def test_no_column_carries_more_than_euler_or_crushing_alone() -> None:
    for length in (100.0, 500.0, 1500.0):
        joint = allowed_load(7000, length, 38, 89, 0.365, 5.0)
        assert joint <= min(allowed_load(7000, length, 38, 89, 0.365), 5.0 * 38 * 89) + 1e-6


def test_a_full_row_on_few_legs_counts_more_than_one_sitter() -> None:
    """120 lbf/ft over 2.4 m on four 19 x 38 legs 300 high: 1.25·4202 N/4 = 1313 N, over a sitter's 1112."""
    legs = [box(f"Leg {n}", (n * 600, 0, 0), (19, 38, 300), along="z", thick="x") for n in range(4)]
    made = case(piece(legs))
    alone = list(uprights_stand(made, "seat load", legs))
    crowded = list(uprights_stand(made, "seat load", legs, 20_000.0))
    assert alone == [] and [f.level for f in crowded] == [Level.STOP]
