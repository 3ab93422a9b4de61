"""Slender uprights against Euler's column (any handbook; memory) and NDS 3.7 numbers worked by hand."""

from __future__ import annotations

import math

import pytest

from handmade import CEDAR, INCH, PINE, asked, box, case, limits, piece
from yardwright.domain.checks import seat_load
from yardwright.domain.checks.uprights import allowed_load
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
