"""Board feet: the demonstration lists price boards near a rate by the board foot, checked against Pint."""

import pytest

import builders as b
from yardwright.files.units import registry

NOMINAL = {"1": 1.0, "5/4": 1.25, "6/4": 1.5, "2": 2.0, "4": 4.0, "6": 6.0}


def board_feet(section, feet):
    """PS 20 (from memory): nominal thickness x nominal width x length / 12, under 1 in counting as 1 in."""
    thick, wide = section.split("x")
    return max(1.0, NOMINAL[thick]) * float(wide) * feet / 12


# Recomputed, exact.
@pytest.mark.parametrize(("section", "feet", "want"), [
    ("2x4", 8, 5.333), ("2x6", 8, 8.000), ("1x4", 6, 2.000), ("1x2", 8, 1.333), ("5/4x6", 12, 7.500),
    ("4x4", 8, 10.667), ("6x6", 10, 30.000), ("2x12", 16, 32.000), ("2x2", 6, 2.000)])
def test_worked_board_feet(section, feet, want):
    assert board_feet(section, feet) == pytest.approx(want, abs=5e-4)
    pint = registry()
    thick, wide = section.split("x")
    volume = pint.Quantity(NOMINAL[thick] * float(wide), "inch**2") * pint.Quantity(feet, "foot")
    assert volume.to("board_foot").magnitude == pytest.approx(want, abs=5e-4)


def test_a_board_foot_in_cubic_metres():
    # 144 in3 = 0.002 359 737 m3; from memory, recomputed.
    foot = registry().Quantity(1, "board_foot")
    assert foot.to("meter**3").magnitude == pytest.approx(0.002359737, rel=1e-6)


@pytest.mark.parametrize(("timber", "low", "high"), [
    ("western-red-cedar", 4.0, 6.5), ("southern-pine-uc3b", 1.5, 2.6), ("white-oak", 8.5, 13.0)])
def test_demonstration_prices_stay_near_one_rate_a_board_foot(timber, low, high):
    # Invented prices, for demonstration: this only keeps a slip of the decimal point out of the list.
    boards = [line for line in b.bare_shop().market.boards if line.timber == timber]
    assert boards
    for line in boards:
        rate = line.price.minor / 100 / board_feet(line.section.id, line.length_nm / b.FOOT)
        assert low <= rate <= high, line.code
