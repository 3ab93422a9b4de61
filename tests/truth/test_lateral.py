"""Fasteners loaded sideways against NDS yield-limit tables, and pulled against the head's formula."""

from __future__ import annotations

import pytest

from yardwright.domain.checks.screws import LAG_ROOT, ROOT, head_pull, lateral, slip_modulus
from yardwright.domain.checks.words import INCH_MM, LBF_N

SHANK_IN = {8: 0.164, 10: 0.190}
ROOT_IN = {8: 0.131, 10: 0.152}      # NDS Appendix L; memory


def pounds(gravity: float, diameter_in: float, side_in: float, main_in: float, **along: bool) -> float:
    sizes = (diameter_in * INCH_MM, side_in * INCH_MM, main_in * INCH_MM)
    return lateral(gravity, gravity, *sizes, **along) / LBF_N


@pytest.mark.parametrize(("side", "gauge", "row"), [
    (0.75, 8, (104, 90, 58)), (1.0, 8, (106, 97, 66)), (1.5, 8, (106, 97, 72)),
    (0.75, 10, (125, 109, 71)), (1.0, 10, (135, 124, 80)), (1.5, 10, (135, 124, 92))])
def test_wood_screws_with_ten_diameters_in(side: float, gauge: int, row: tuple[int, ...]) -> None:
    """NDS 12.3 yield equations (memory), worked separately for G 0.55, 0.50, 0.36; recomputed."""
    found = [round(pounds(g, ROOT_IN[gauge], side, 10 * SHANK_IN[gauge])) for g in (0.55, 0.50, 0.36)]
    assert tuple(found) == row


@pytest.mark.parametrize(("gauge", "root"), sorted(ROOT_IN.items()))
def test_the_root_is_four_fifths_of_the_shank(gauge: int, root: float) -> None:
    """NDS Appendix L; memory."""
    assert SHANK_IN[gauge] * ROOT == pytest.approx(root, abs=0.001)


@pytest.mark.parametrize(("gravity", "bolt", "along", "across"), [
    (0.55, 0.5, 530, 250), (0.50, 0.5, 480, 220), (0.67, 0.5, 650, 330),
    (0.55, 0.625, 660, 280), (0.50, 0.625, 600, 240), (0.55, 0.75, 800, 310), (0.50, 0.75, 720, 270)])
def test_bolts_through_two_pieces_of_1_1_2_in(gravity: float, bolt: float, along: int, across: int) -> None:
    """NDS Table 12A, single shear, both members 1 1/2 in, along and across the grain, to 10 lb; memory."""
    assert pounds(gravity, bolt, 1.5, 1.5, side_along=True, main_along=True) == pytest.approx(along, abs=10)
    assert pounds(gravity, bolt, 1.5, 1.5) == pytest.approx(across, abs=10)


@pytest.mark.parametrize(("gravity", "bolt", "table"), [(0.55, 0.5, 330), (0.50, 0.5, 300), (0.67, 0.5, 420)])
def test_a_bolt_with_one_piece_across(gravity: float, bolt: float, table: int) -> None:
    """NDS Table 12A, side member across the grain; memory."""
    assert pounds(gravity, bolt, 1.5, 1.5, main_along=True) == pytest.approx(table, abs=10)


def test_the_older_rule_gives_the_same_order() -> None:
    """p = 3960·D² for southern pine, 143 lb for #10 ("CHAPTER SIX ... wood screws"; seen)."""
    assert pounds(0.55, ROOT_IN[10], 1.5, 1.9) == pytest.approx(3960 * 0.190**2, rel=0.25)


def test_more_wood_never_holds_less() -> None:
    held = [pounds(0.45, 0.131, side, main) for side in (0.5, 0.75, 1.0, 1.5) for main in (0.5, 1.0, 1.6)]
    for at in range(len(held) - 3):
        assert held[at + 3] >= held[at] - 1e-9


def test_a_head_pulls_through_thin_cedar() -> None:
    """690·pi·D_H·G²·t = 690·3.1416·0.328·0.36²·0.75 = 69.1 lb (NDS 12.2.5, memory; recomputed)."""
    assert head_pull(0.36, 0.164 * INCH_MM, 0.75 * INCH_MM) / LBF_N == pytest.approx(69.1, abs=0.1)


def test_the_slip_of_a_number_8_is_twelve_thousand_pounds_an_inch() -> None:
    """180 000·0.164^1.5 = 11 955 lb/in (NDS 11.3.6, memory; recomputed)."""
    assert slip_modulus(0.164 * INCH_MM) * INCH_MM / LBF_N == pytest.approx(11_955, rel=1e-3)


@pytest.mark.parametrize(("shank", "root", "gravity", "worked"), [
    (0.25, 0.173, 0.50, 153), (0.375, 0.265, 0.50, 201), (0.375, 0.265, 0.55, 211)])
def test_a_lag_screw_along_the_grain(shank: float, root: float, gravity: float, worked: int) -> None:
    """1 1/2 in held, 8 diameters in: mode IV of NDS 12.3.1 by hand, D_r²/R_d·sqrt(2·11 200·G·F_yb/6), R_d
    2.23 below and 3.2 from 1/4 in of root, F_yb 70 000 and 45 000 psi (memory; recomputed)."""
    held = lateral(gravity, gravity, root * INCH_MM, 1.5 * INCH_MM, 8 * shank * INCH_MM, True, True,
                   lag_mm=shank * INCH_MM) / LBF_N
    assert held == pytest.approx(worked, abs=1)


@pytest.mark.parametrize(("shank", "root"), [(0.25, 0.173), (0.3125, 0.227), (0.375, 0.265), (0.5, 0.371)])
def test_the_root_of_a_lag_screw_is_taken_no_thicker_than_it_is(shank: float, root: float) -> None:
    """NDS Appendix L; memory."""
    assert 0.9 * root < shank * LAG_ROOT <= root


def test_a_lag_screw_across_the_grain_holds_less() -> None:
    sizes = (0.265 * INCH_MM, 1.5 * INCH_MM, 3 * INCH_MM)
    along = lateral(0.5, 0.5, *sizes, True, True, lag_mm=0.375 * INCH_MM)
    assert 0.5 < lateral(0.5, 0.5, *sizes, lag_mm=0.375 * INCH_MM) / along < 0.8
