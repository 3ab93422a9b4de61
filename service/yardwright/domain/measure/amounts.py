"""Areas, runs, liquids and weights in the job's own units: m2, m, km, m3, L, kg or ft2, ft, mi, ft3, gal, lb.

1 ft = 0.3048 m, 1 gal = 231 in3 and 1 lb = 0.45359237 kg exactly (NIST SP 811, from memory). Counts of
anything else stay as they are.
"""

from __future__ import annotations

FOOT_M = 0.3048
GALLON_L = 231 * 25.4**3 * 1e-6
POUND_KG = 0.45359237
INCH_POUND_N_M = 0.0254 * POUND_KG * 9.80665
_IN_FEET = {"m": (1 / FOOT_M, "ft"), "m2": (1 / FOOT_M**2, "ft2"), "km": (1 / (5280 * FOOT_M / 1000), "mi"),
            "m3": (1 / FOOT_M**3, "ft3"), "L": (1 / GALLON_L, "gal"), "kg": (1 / POUND_KG, "lb"),
            "kg/m3": (FOOT_M**3 / POUND_KG, "lb/ft3"), "N m": (1 / INCH_POUND_N_M, "in lbf")}
_TWICE = ("L", "kg", "km")   # tins and scales are marked so; the shop charges by km


def in_units(unit: str, units: str) -> tuple[float, str]:
    """What a count of ``unit`` is multiplied by in a job of ``units``, and what it is then called.

    >>> in_units("m2", "mm"), in_units("screw", "in")
    ((1.0, 'm2'), (1.0, 'screw'))
    """
    return _IN_FEET.get(unit, (1.0, unit)) if units == "in" else (1.0, unit)


def say_amount(amount: float, unit: str, units: str, digits: int = 4) -> str:
    """``12.5 ft2``, or ``1.16 m2`` in a job of mm; liquids, weights and ways in both.

    >>> say_amount(1.16, "m2", "in"), say_amount(1.0, "L", "in"), say_amount(1.0, "L", "mm")
    ('12.49 ft2', '0.2642 gal (1 L)', '1 L')
    """
    factor, called = in_units(unit, units)
    said = f"{amount * factor:.{digits}g} {called}"
    return f"{said} ({amount:.{digits}g} {unit})" if unit in _TWICE and called != unit else said


def say_coverage(m2_a_litre: float, units: str) -> str:
    """What a liquid covers: ``407 ft2/gal`` or ``10 m2/L``.

    >>> say_coverage(10.0, "in"), say_coverage(10.0, "mm")
    ('407 ft2/gal', '10 m2/L')
    """
    if units != "in":
        return f"{m2_a_litre:.3g} m2/L"
    return f"{m2_a_litre * GALLON_L / FOOT_M**2:.3g} ft2/gal"
