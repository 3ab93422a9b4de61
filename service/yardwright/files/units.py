"""Units at the edge: what a data file or a request may be written in, turned into the engine's own.

The engine has one unit for each kind: mm, mm2, mm3, N, N*mm, N/mm2 (stress and area load alike), N/mm,
N/mm3, kg, kg/m3, deg, min. Shares, bare numbers and kinds not listed stay as written. Pint is the
authority. It takes some 0.4 s to start, so the few factors that are exact by definition (NIST SP 811, from
memory) stand here and the tests hold each of them against Pint; Pint is imported when some other unit
turns up.
"""

from __future__ import annotations

import functools
import re
from typing import Any

ENGINE_UNITS = ("mm", "mm2", "mm3", "N", "N*mm", "N/mm2", "N/mm", "N/mm3", "kg", "kg/m3", "deg", "min")

_INCH = 25.4
_FOOT = 12 * _INCH
_POUND = 0.45359237
_POUND_FORCE = 4.4482216152605
EXACT: dict[str, tuple[float, str]] = {
    "in": (_INCH, "mm"), "ft": (_FOOT, "mm"), "yd": (3 * _FOOT, "mm"), "mi": (5280 * _FOOT, "mm"),
    "cm": (10.0, "mm"), "m": (1e3, "mm"), "km": (1e6, "mm"),
    "in2": (_INCH**2, "mm2"), "ft2": (_FOOT**2, "mm2"), "cm2": (100.0, "mm2"), "m2": (1e6, "mm2"),
    "in3": (_INCH**3, "mm3"), "ft3": (_FOOT**3, "mm3"), "gal": (231 * _INCH**3, "mm3"), "L": (1e6, "mm3"),
    "mL": (1e3, "mm3"), "m3": (1e9, "mm3"),
    "lbf": (_POUND_FORCE, "N"), "kN": (1e3, "N"),
    "lb": (_POUND, "kg"), "oz": (_POUND / 16, "kg"), "g": (0.001, "kg"),
    "psi": (_POUND_FORCE / _INCH**2, "N/mm2"), "ksi": (1e3 * _POUND_FORCE / _INCH**2, "N/mm2"),
    "lbf/in2": (_POUND_FORCE / _INCH**2, "N/mm2"), "lbf/ft2": (_POUND_FORCE / _FOOT**2, "N/mm2"),
    "psf": (_POUND_FORCE / _FOOT**2, "N/mm2"), "MPa": (1.0, "N/mm2"), "GPa": (1e3, "N/mm2"),
    "kPa": (1e-3, "N/mm2"), "kN/m2": (1e-3, "N/mm2"),
    "lbf/ft": (_POUND_FORCE / _FOOT, "N/mm"), "lbf/in": (_POUND_FORCE / _INCH, "N/mm"), "kN/m": (1.0, "N/mm"),
    "lbf/ft3": (_POUND_FORCE / _FOOT**3, "N/mm3"), "kN/m3": (1e-6, "N/mm3"),
    "lb/ft3": (_POUND / (_FOOT / 1e3) ** 3, "kg/m3"),
    "in lbf": (_POUND_FORCE * _INCH, "N*mm"), "N m": (1e3, "N*mm"), "N mm": (1.0, "N*mm"),
    "h": (60.0, "min"), "s": (1 / 60, "min"), "day": (1440.0, "min"),
}
_BASES = frozenset(ENGINE_UNITS)
# Bare numbers and shares.
PLAIN = ("1", "", "%", "percent")


class BadUnit(ValueError):
    """A unit nobody knows, or of another kind than asked."""


@functools.cache
def registry() -> Any:
    """Pint's registry, made once when first needed."""
    import pint

    found: Any = pint.UnitRegistry()
    found.define("pound_per_square_foot = lbf / ft ** 2 = psf")
    return found


def to_engine(value: float, unit: str) -> tuple[float, str]:
    """The value in the engine's unit of its kind, and that unit; other kinds stay as written.

    >>> to_engine(10, "in")
    (254.0, 'mm')
    >>> to_engine(7.4, "%")
    (7.4, '%')
    """
    plain = _plain(unit)
    if plain in EXACT:
        factor, base = EXACT[plain]
        return value * factor, base
    if plain in ENGINE_UNITS:
        return float(value), plain
    return (float(value), unit) if plain in PLAIN else by_pint(value, unit)


def by_pint(value: float, unit: str) -> tuple[float, str]:
    """The same by Pint alone, for any unit it knows. BadUnit where it knows none by that name."""
    quantity = _quantity(value, unit)
    for engine in ENGINE_UNITS:
        if quantity.is_compatible_with(_pint_name(engine)) and (engine != "deg" or _is_angle(unit)):
            return float(quantity.to(_pint_name(engine)).magnitude), engine
    return float(value), unit


def _is_angle(unit: str) -> bool:
    """Pint counts an angle as a bare number; a share is none."""
    return bool(re.search("deg|rad|turn", unit))


def _quantity(value: float, unit: str) -> Any:
    import pint

    try:
        return registry().Quantity(value, _pint_name(unit))
    except (pint.errors.PintError, AttributeError, ValueError, TypeError, SyntaxError) as bad:
        raise BadUnit(f"no unit is called {unit!r}; known are {', '.join((*ENGINE_UNITS, *EXACT))}") from bad


def _plain(unit: str) -> str:
    return unit.strip().replace("^", "")


def _pint_name(unit: str) -> str:
    """``kg/m3`` as Pint writes it: powers with ``**``, a blank between factors as ``*``."""
    starred = re.sub(r"(?<=[A-Za-z])([23])\b", r"**\1", _plain(unit))
    return re.sub(r"(?<=\w)\s+(?=[A-Za-z])", "*", starred)


_QUANTITY = re.compile(r"^\s*(\d+/\d+|[+-]?\d+(?:[.,]\d+)?(?:\s+\d+/\d+)?)\s*(\S.*?)\s*$")


def quantity(text: str, unit: str) -> float:
    """A number with its unit ("8 mi", "2.4 g") in ``unit``; BadUnit where it is neither or of another kind.

    >>> quantity("500 g", "kg")
    0.5
    """
    match = _QUANTITY.match(text)
    if match is None:
        raise BadUnit(f"{text!r} is no number with its unit, like '12 {unit}'")
    number = sum(_part(p) for p in match[1].replace(",", ".").split())
    factor, base = EXACT.get(_plain(match[2]), (1.0, _plain(match[2])))
    wanted_factor, wanted = EXACT.get(unit, (1.0, unit))
    if base == wanted:
        return number * factor / wanted_factor
    if {base, wanted} <= _BASES:
        raise BadUnit(f"{text!r} is not in {unit} nor in a unit of its kind")
    import pint

    try:
        return float(_quantity(number, match[2]).to(_pint_name(unit)).magnitude)
    except pint.errors.PintError as bad:
        raise BadUnit(f"{text!r} is not in {unit} nor in a unit of its kind") from bad


def _part(text: str) -> float:
    over, slash, under = text.partition("/")
    if slash and not float(under):
        raise BadUnit(f"{text!r} divides by zero")
    return float(over) / float(under) if slash else float(over)
