"""Boards priced by volume or length: what a piece holds, held against worked figures and Pint."""

from __future__ import annotations

import pytest

import builders as b
from yardwright.domain.errors import BadData
from yardwright.files import prices, sold_by
from yardwright.files.units import registry

MARKET = b.bare_shop().market
HEADER = "code,section,timber,grade,moisture,length,price,count,price_per,width\n"


def board(line: str):
    (one,) = prices.read_boards(HEADER + line, "boards.csv", "USD", MARKET.sections, MARKET.timbers)
    return one


# PS 20 (from memory), recomputed exactly.
@pytest.mark.parametrize(("section", "feet", "want"), [
    ("2x4", 8, 5.333), ("2x6", 8, 8.0), ("1x4", 6, 2.0), ("1x2", 8, 1.333), ("5/4x6", 12, 7.5),
    ("4x4", 8, 10.667), ("6x6", 10, 30.0), ("2x12", 16, 32.0), ("2x2", 6, 2.0)])
def test_board_feet_of_nominal_sizes(section, feet, want):
    if section not in MARKET.sections:
        pytest.skip("not a section of this shop")
    held = sold_by.held(MARKET.sections[section], feet * b.FOOT, "board foot")
    assert float(held) == pytest.approx(want, abs=5e-4)
    # One volume by two units: Pint's own board foot.
    cubic = sold_by.held(MARKET.sections[section], feet * b.FOOT, "m3")
    assert float(cubic) == pytest.approx(registry().Quantity(float(held), "board_foot").to("m**3").magnitude)


def test_a_section_named_in_mm_is_sold_by_its_named_size():
    held = sold_by.held(MARKET.sections["21x95"], 4_000 * b.MM, "m3")
    assert float(held) == pytest.approx(0.021 * 0.095 * 4)


@pytest.mark.parametrize(("rate", "per", "want"), [
    ("1.50", "board foot", "6.00"), ("2.00", "m", "4.88"), ("1.50", "ft", "12.00"),
    ("12.50", "piece", "12.50"), ("12.50", "", "12.50"), ("1000.00", "m3", "9.44")])
def test_the_price_of_one_piece_follows_from_the_rate(rate, per, want):
    # 1x6 of 8 ft: 4 board feet, 2.4384 m, 0.009 438 95 m3 nominal; halves round up.
    assert board(f"A,1x6,redwood,B Grade,dry,8 ft,{rate},,{per},\n").price == b.usd(want)


def test_random_width_is_measured_by_its_usual_width_and_nominal_thickness():
    one = board("A,1x6,white-oak,FAS,dry,8 ft,9.85,,board foot,random\n")
    assert one.random_width
    assert one.measure == pytest.approx(1 * 5.5 * 96 / 144)
    assert one.rate == b.usd("9.85")


@pytest.mark.parametrize(("line", "said"), [
    ("A,1x6,redwood,B,dry,8 ft,9.85,,stone,\n", "price_per 'stone' is not known"),
    ("A,1x6,redwood,B,dry,8 ft,9.85,,piece,random\n", "sold by volume"),
    ("A,1x6,redwood,B,dry,8 ft,9.85,,m3,randm\n", "did you mean 'random'"),
    ("A,21x95,redwood,B,dry,4 m,9.85,,board foot,\n", "nominal inches"),
    ("A,1x2,redwood,B,dry,1 in,0.01,,m3,\n", "would cost nothing")])
def test_what_cannot_be_meant_is_told(line, said):
    with pytest.raises(BadData) as caught:
        board(line)
    assert said in caught.value.faults[0].detail
