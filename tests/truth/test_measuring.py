"""Lengths and measuring against what stands outside the project: Pint, the inch, published tape tables."""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from yardwright.domain import formula, measure

PINT = pint.UnitRegistry(non_int_type=Fraction)


def in_nm(amount: Fraction, unit: str) -> Fraction:
    """Pint's own conversion, in exact fractions."""
    return Fraction(PINT.Quantity(amount, unit).to("nanometer").magnitude)


@given(st.integers(0, 9999), st.integers(0, 63))
def test_inches_agree_with_pint_to_the_nanometre(whole: int, sixtyfourths: int) -> None:
    if whole <= 3900:
        amount = whole + Fraction(sixtyfourths, 64)
        assert measure.read(f"{whole} {sixtyfourths}/64 in", None).nm == in_nm(amount, "inch")


@given(st.integers(0, 300), st.integers(0, 11), st.integers(0, 15))
def test_feet_and_inches_agree_with_pint(feet: int, inches: int, sixteenths: int) -> None:
    said = measure.read(f"{feet}' {inches} {sixteenths}/16\"", None).nm
    assert said == in_nm(Fraction(feet), "foot") + in_nm(inches + Fraction(sixteenths, 16), "inch")


@pytest.mark.parametrize("unit", ["mm", "cm", "m", "in", "ft"])
@given(hundredths=st.integers(0, 9000))
def test_decimals_of_every_unit_agree_with_pint(unit: str, hundredths: int) -> None:
    spelt = {"in": "inch", "ft": "foot"}.get(unit, unit)
    said = measure.read(f"{hundredths // 100}.{hundredths % 100:02d} {unit}", None).nm
    assert said == in_nm(Fraction(hundredths, 100), spelt)


def test_the_inch_is_exactly_25_4_mm() -> None:
    # International yard and pound agreement 1959: 1 in = 25.4 mm exactly; memory.
    assert Fraction(measure.INCH, measure.MM) == Fraction(254, 10)


@pytest.mark.parametrize(("written", "inches", "length_mm"), [
    # Trade notations and their metric values; recomputed with 1 in = 25.4 mm.
    ("5' 3 1/2\"", 63.5, 1612.9), ("5.29 ft", 63.48, 1612.392), ("1,61 m", 63.386, 1610.0),
    ("161 cm", 63.386, 1610.0), ("5' 13\"", 73, 1854.2), ("3/4 in", 0.75, 19.05),
])
def test_trade_notations_mean_what_the_trade_means(written: str, inches: float, length_mm: float) -> None:
    nm = measure.read(written, None).nm
    assert nm == round(length_mm * measure.MM)
    assert nm / measure.INCH == pytest.approx(inches, abs=5e-4)


@pytest.mark.parametrize(("length_mm", "written"), [
    # Nearest sixteenth; recomputed: 1610 mm is 63.386 in, 0.011 in under 5' 3 3/8".
    (1610, "5' 3 3/8\""), (1612.9, "5' 3 1/2\""), (1000, "3' 3 3/8\""), (2440, "8' 0 1/16\""),
    (305, "1' 0\""), (914.4, "3' 0\""),
])
def test_metric_lengths_are_written_to_the_nearest_sixteenth(length_mm: float, written: str) -> None:
    assert measure.write(measure.from_mm(length_mm), "ft-in") == written


def test_half_way_between_two_marks_reads_as_the_even_mark() -> None:
    # NIST Handbook 44 section 10.3, odd-and-even rule; seen.
    sixteenth = measure.SIXTEENTH
    assert measure.round_to(sixteenth * 5 // 2, sixteenth) == 2 * sixteenth
    assert measure.round_to(sixteenth * 7 // 2, sixteenth) == 4 * sixteenth


@pytest.mark.parametrize(("board_in", "face_in"), [(5.625, 3.125), (5.5, 3.0)])
def test_an_l_leg_ripped_at_3_1_8_measures_as_makers_find(board_in: float, face_in: float) -> None:
    # Common practice, no source: 3 1/8 on both faces from a board reading 5 5/8, 3 1/8 by 3 from 5 1/2
    # (kerf 1/8, 3/4 stock).
    leg = formula.l_leg(board_in, 0.75, 0.125, 3.125)
    assert (leg.wide, leg.face) == (3.125, face_in)


@pytest.mark.parametrize(("span", "slat", "least", "count", "gap"), [
    # n = floor((W + g)/(s + g)), gap = (W - n s)/(n - 1); recomputed.
    (20.0, 3.5, 0.25, 5, 0.625), (510.0, 89.0, 8.0, 5, 16.25),
])
def test_slats_across_a_width(span: float, slat: float, least: float, count: int, gap: float) -> None:
    found = formula.spread(span, slat, least, 10 * gap)
    assert (found.count, found.gap, found.width) == (count, gap, slat)
