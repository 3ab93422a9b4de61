"""Amounts in the job's own units, held against Pint."""

from __future__ import annotations

import pint
import pytest

from yardwright.domain.measure import in_units, say_amount, say_coverage

UNITS = pint.UnitRegistry()
PINT = {"m": ("m", "ft"), "m2": ("m**2", "ft**2"), "km": ("km", "mile"),
        "m3": ("m**3", "ft**3"), "kg": ("kg", "lb"),
        "L": ("liter", "US_liquid_gallon"), "kg/m3": ("kg/m**3", "lb/ft**3"), "N m": ("N*m", "inch*lbf")}


@pytest.mark.parametrize("unit", PINT)
def test_a_job_in_inches_counts_in_feet_gallons_and_pounds(unit: str) -> None:
    metric, customary = PINT[unit]
    one = UNITS.Quantity(1, metric).to(customary).magnitude
    assert in_units(unit, "in")[0] == pytest.approx(one, rel=1e-9)
    assert in_units(unit, "mm") == (1.0, unit)


def test_what_is_no_measure_is_counted_as_it_is() -> None:
    assert in_units("screw", "in") == (1.0, "screw") and say_amount(12, "each", "in") == "12 each"


def test_liquids_and_weights_are_said_twice_in_inches_and_once_in_millimetres() -> None:
    assert say_amount(3.785411784, "L", "in") == "1 gal (3.785 L)" and say_amount(0.5, "L", "mm") == "0.5 L"
    assert say_coverage(4.0, "in") == "163 ft2/gal" and say_coverage(4.0, "mm") == "4 m2/L"
