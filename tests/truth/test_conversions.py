"""The exact factors of the files layer against Pint, a general units library."""

import pytest

from yardwright.files.units import ENGINE_UNITS, EXACT, by_pint, registry, to_engine

# A bare "psf" and the like are written out for Pint; every other name is Pint's own.
PINT_NAMES = {"in lbf": "inch * pound_force", "N m": "newton * meter", "N mm": "newton * millimeter",
              "psf": "pound_force / foot ** 2", "gal": "US_liquid_gallon", "h": "hour", "s": "second"}


def pint_name(unit):
    for digit in "23":
        unit = unit.replace(f"t{digit}", f"t**{digit}").replace(f"n{digit}", f"n**{digit}")
        unit = unit.replace(f"m{digit}", f"m**{digit}")
    return unit


@pytest.mark.parametrize("unit", EXACT)
def test_every_factor_agrees_with_pint(unit):
    factor, engine = EXACT[unit]
    assert engine in ENGINE_UNITS
    quantity = registry().Quantity(1.0, PINT_NAMES.get(unit) or pint_name(unit))
    assert quantity.to(pint_name(engine)).magnitude == pytest.approx(factor, rel=1e-12)


@pytest.mark.parametrize("unit", sorted(set(EXACT) - {"psf"}))
def test_pints_own_road_gives_the_same(unit):
    value, engine = by_pint(3.5, unit)
    assert (pytest.approx(value, rel=1e-12), engine) == to_engine(3.5, unit)


# Definitions of 1959 and after, 25.4 mm, 0.45359237 kg, 4.4482216152605 N, 231 in3 (NIST SP 811); memory.
@pytest.mark.parametrize(("value", "unit", "want"), [
    (1, "lb", 0.45359237), (1, "lbf", 4.4482216152605), (1, "psi", 0.006894757293168), (1, "mi", 1_609_344),
    (1, "gal", 3_785_411.784), (1, "lb/ft3", 16.018463373960138)])
def test_the_defined_values(value, unit, want):
    assert to_engine(value, unit)[0] == pytest.approx(want, rel=1e-14)


def test_100_square_feet_a_gallon_is_2_45_square_metres_a_litre():
    # Recomputed: 9.290304 m2 / 3.785411784 L.
    coverage = registry().Quantity(100, "foot**2/gallon")
    assert coverage.to("meter**2/liter").magnitude == pytest.approx(2.4542, abs=1e-4)
