"""Allowed stresses against published design values and their factors.

NDS Supplement Tables 4A and 4B with C_M, C_fu, C_r, C_D (from memory, unconfirmed); the products recomputed
by hand. The NDS is to be bought and checked before anybody claims conformity.
"""

from __future__ import annotations

import pytest

from handmade import CEDAR, INCH, PINE, UNNAMED, box, case, limits, piece, shop, timber
from yardwright.domain.checks import Unknown
from yardwright.domain.checks.strength import strength, written_small
from yardwright.domain.checks.words import PSI

TWO_BY_SIX = (48 * INCH, 5.5 * INCH, 1.5 * INCH)


def test_southern_pine_2x6_no_2_laid_flat_is_1150_psi_and_fails_the_250_lbf_beam() -> None:
    """1000 × C_fu 1.15 × C_M 1.0 (F_b·C_F ≤ 1150) × C_D 1.0 = 1150 < 1454.5 psi; NDS 4B, memory."""
    board = box("Slat", (0, 0, 0), TWO_BY_SIX, kind=PINE, grade="No.2")
    found = strength(case(piece([board])), board, flat=True, sharing=False, duration="people")
    assert found.bending / PSI == pytest.approx(1150)
    assert found.bending / PSI < 1454.5
    assert found.shear / PSI == pytest.approx(175 * 0.97)
    assert found.elasticity / PSI == pytest.approx(1.4e6 * 0.9)


def test_a_southern_pine_board_ripped_between_two_published_widths_is_taken_at_the_wider() -> None:
    """4 3/4 in wide: published at 4 in (1100) and 6 in (1000) nominal, so 1000 psi; NDS 4B, memory."""
    board = box("Rail", (0, 0, 0), (1000, 1.5 * INCH, 4.75 * INCH), thick="y", kind=PINE, grade="No.2")
    found = strength(case(piece([board])), board, flat=False, sharing=False, duration="people")
    assert found.bending / PSI == pytest.approx(1000)


def test_three_slats_that_share_are_allowed_1322_psi() -> None:
    """1150 × C_r 1.15 = 1322.5 psi; C_r seen (NDS 4.3.9)."""
    board = box("Slat", (0, 0, 0), TWO_BY_SIX, kind=PINE, grade="No.2")
    found = strength(case(piece([board])), board, flat=True, sharing=True, duration="people")
    assert found.bending / PSI == pytest.approx(1322.5)


def test_cedar_2x6_no_2_on_edge_takes_the_size_factor() -> None:
    """Western cedars 700 × C_F 1.3 = 910 ≤ 1150, so C_M 1.0; permanent load 0.9; NDS 4A, memory."""
    board = box("Rail", (0, 0, 0), (1000, 1.5 * INCH, 5.5 * INCH), thick="y", kind=CEDAR, grade="No.2")
    found = strength(case(piece([board])), board, flat=False, sharing=False, duration="permanent")
    assert found.bending / PSI == pytest.approx(910 * 0.9)


def test_select_structural_douglas_fir_is_cut_for_wet_service_and_incising() -> None:
    """1500 × C_F 1.3 = 1950 > 1150, so C_M 0.85; treated Douglas-fir is incised, C_i 0.8; NDS, memory."""
    fir = timber("douglas-fir-uc4a", treated="UC4A", rupture_mpa=85.0, elasticity_mpa=13400.0)
    board = box("Rail", (0, 0, 0), (1000, 1.5 * INCH, 5.5 * INCH), thick="y", kind=fir,
                grade="Select Structural")
    made = case(piece([board]), at=shop(timbers=[fir]))
    found = strength(made, board, flat=False, sharing=False, duration="people")
    assert found.bending / PSI == pytest.approx(1500 * 1.3 * 0.85 * 0.8)
    assert found.elasticity / PSI == pytest.approx(1.9e6 * 0.9 * 0.95)


@pytest.mark.parametrize(("id_", "rupture_psi", "published_psi"), [
    ("southern-pine", 12800, 1100), ("douglas-fir", 12400, 900 * 1.5),
    ("redwood", 10000, 925 * 1.5), ("western-red-cedar", 7500, 700 * 1.5)])
def test_the_clear_wood_rule_stays_near_or_below_published_no_2_values(
        id_: str, rupture_psi: float, published_psi: float) -> None:
    """Rupture: Wood Handbook Table 5-3b (memory, redwood seen); No.2 2x4: NDS 4A/4B with C_F (memory)."""
    figures = limits()
    rule = (rupture_psi * figures["strength.grade_share.no-2"].value
            / figures["strength.clear_wood.safety"].value)
    assert 0.65 < rule / published_psi < 1.2, id_


def test_thin_boards_use_clear_wood_with_their_grade() -> None:
    """51.7 N/mm² (Wood Handbook, memory) × 0.50 / 4.5 × 0.85: shares are judgement, arithmetic by hand."""
    board = box("Slat", (0, 0, 0), (1000, 140, 19))
    found = strength(case(piece([board])), board, flat=True, sharing=False, duration="people")
    assert found.bending == pytest.approx(51.7 * 0.50 / 4.5 * 0.85)
    assert "clear wood" in found.working


def test_european_c24_is_design_strength_in_service_class_3() -> None:
    """24 × 0.6 / 1.3 = 11.08 N/mm² (EN 338, EN 1995-1-1; memory)."""
    board = box("Rail", (0, 0, 0), (1000, 45, 145), thick="y", grade="C24")
    found = strength(case(piece([board])), board, flat=False, sharing=False, duration="people")
    assert found.bending == pytest.approx(24 * 0.6 / 1.3, rel=1e-3)


def test_a_timber_without_figures_is_unknown() -> None:
    board = box("Slat", (0, 0, 0), (1000, 140, 19), kind=UNNAMED)
    with pytest.raises(Unknown, match="rupture"):
        strength(case(piece([board])), board, flat=True, sharing=False, duration="people")


@pytest.mark.parametrize(("grade", "small"), [("No.2", "no-2"), ("Select Structural", "select-structural"),
                                              ("#1", "no-1"), ("C24", "c24"), ("No. 2 Prime", "no-2-prime")])
def test_grades_are_written_small(grade: str, small: str) -> None:
    assert written_small(grade) == small
