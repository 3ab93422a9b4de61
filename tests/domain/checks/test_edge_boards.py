"""Thin boards on edge: the stability factor by hand and against the exact buckling moment."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from handmade import asked, box, case, piece
from yardwright.domain.checks import shelf_load
from yardwright.domain.checks.edge_boards import EFFECTIVE, stability
from yardwright.domain.finding import Finding, Level
from yardwright.domain.piece.model import Member


def test_the_factor_where_buckling_and_bending_are_alike_is_0_817() -> None:
    """F = 1: 2/1.9 - sqrt((2/1.9)^2 - 1/0.95) = 0.817; NDS 3.3.3.8 (memory), by hand."""
    e_min, unheld, deep, thick = 2000.0, 1000.0, 140.0, 20.0
    alike = 1.2 * e_min * thick**2 / (EFFECTIVE * unheld * deep)
    assert stability(alike, e_min, unheld, deep, thick) == pytest.approx(0.817, abs=5e-4)


def test_stocky_boards_keep_their_strength_and_slender_ones_bear_near_their_buckling_stress() -> None:
    assert stability(5.0, 3000.0, 200.0, 90.0, 45.0) == pytest.approx(1.0, abs=0.01)
    e_min, unheld, deep, thick = 2000.0, 2400.0, 235.0, 12.0
    buckling = 1.2 * e_min * thick**2 / (EFFECTIVE * unheld * deep)
    assert stability(20.0, e_min, unheld, deep, thick) * 20.0 == pytest.approx(buckling, rel=0.06)


@pytest.mark.parametrize(("deep", "thick"), [(140.0, 19.0), (190.0, 38.0), (235.0, 19.0)])
def test_the_buckling_stress_lies_below_that_of_the_exact_moment(deep: float, thick: float) -> None:
    """M = pi/L·sqrt(E·I_y·G·J), G = E/16: an even moment, beam theory (Timoshenko and Gere; memory)."""
    elasticity, long = 8000.0, 1500.0
    torsion = deep * thick**3 / 3 * (1 - 0.63 * thick / deep)
    exact = pi / long * sqrt(elasticity * deep * thick**3 / 12 * elasticity / 16 * torsion)
    ours = 1.2 * elasticity * thick**2 / (EFFECTIVE * long * deep)
    assert 0.65 < ours / (exact / (thick * deep**2 / 6)) < 1.0


def shelf(thick: float, screwed: list[tuple[str, str]], boards: int = 5) -> tuple[Finding, ...]:
    """Boards across two bearers on edge, 1600 long and 140 deep, on posts at their ends."""
    bearers = [box(f"Bearer {n}", (0, y, 400), (1600, thick, 140), thick="y") for n, y in ((1, 0), (2, 500))]
    posts = [box(f"Post {n}{m}", (x, y, 0), (90, thick, 400), along="z", thick="x")
             for n, y in ((1, 0), (2, 500)) for m, x in enumerate((0, 1510))]
    sides = [box(f"Side {m}", (x, thick, 450), (20, 500 - thick, 90), along="y", thick="x")
             for m, x in enumerate((0, 1580))]
    top: list[Member] = [box(f"Board {n}", (n * 350, 0, 540), (140, 500 + thick, 19), along="y")
                         for n in range(boards)]
    made = piece([*bearers, *posts, *sides, *top], screwed=screwed)
    return shelf_load.check(asked("shelf load", [b.key for b in top], {"use": "box"}), case(made))


def test_a_bearer_on_edge_that_nothing_holds_upright_may_roll_over() -> None:
    told = shelf(38.0, [])
    assert any("may roll over" in f.title and f.level is Level.CAUTION for f in told)
    told = shelf(38.0, [("Bearer", "Side")])
    assert not any("roll over" in f.title for f in told)


def test_a_thin_one_held_at_its_ends_only_buckles_and_boards_screwed_to_it_hold_it() -> None:
    thin = shelf(10.0, [("Bearer", "Side")])
    assert any("buckles" in f.title and f.level is Level.STOP for f in thin)
    assert not any("buckles" in f.title for f in shelf(10.0, [("Bearer", "Side"), ("Board", "Bearer")]))
