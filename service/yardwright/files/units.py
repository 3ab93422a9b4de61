"""Units at the edge: what a data file or a request may be written in, turned into the engine's own.

The engine thinks in mm, N, kg, N/mm2, kN/m2, kg/m3, degrees and minutes: figures of these kinds are turned
into them, all others (areas, volumes, shares, forces by length) stay as written. Pint is the authority. It
takes some 0.4 s to start, so the few factors that are exact by definition (NIST SP 811, from memory) stand
here and the tests hold each of them against Pint; Pint is imported when some other unit turns up.
"""

from __future__ import annotations

import functools
import re
from typing import Any

ENGINE_UNITS = ("mm", "N", "kg", "N/mm2", "kN/m2", "kg/m3", "deg", "min")

_INCH = 25.4
_POUND = 0.45359237
_POUND_FORCE = 4.4482216152605
_PSI = _POUND_FORCE / _INCH**2
EXACT: dict[str, tuple[float, str]] = {
    "km": (1e6, "mm"), "mi": (63360 * _INCH, "mm"), "yd": (36 * _INCH, "mm"),
    "in": (_INCH, "mm"), "ft": (12 * _INCH, "mm"), "cm": (10.0, "mm"), "m": (1000.0, "mm"),
    "in2": (_INCH**2, "mm2"), "ft2": ((12 * _INCH) ** 2, "mm2"), "m2": (1e6, "mm2"), "cm2": (100.0, "mm2"),
    "lbf": (_POUND_FORCE, "N"), "kN": (1000.0, "N"),
    "lb": (_POUND, "kg"), "g": (0.001, "kg"), "oz": (_POUND / 16, "kg"),
    "psi": (_PSI, "N/mm2"), "MPa": (1.0, "N/mm2"), "GPa": (1000.0, "N/mm2"), "ksi": (1000 * _PSI, "N/mm2"),
    "psf": (_PSI * 1000 / 144, "kN/m2"), "lbf/ft2": (_PSI * 1000 / 144, "kN/m2"), "kPa": (1.0, "kN/m2"),
    "lb/ft3": (_POUND / (12 * _INCH / 1000) ** 3, "kg/m3"),
    "h": (60.0, "min"), "s": (1 / 60, "min"),
    "gal": (231 * _INCH**3 / 1e6, "L"), "mL": (0.001, "L"), "ft3": ((12 * _INCH) ** 3 / 1e6, "L"),
    "in lbf": (_POUND_FORCE * _INCH, "N mm"), "N m": (1000.0, "N mm"), "mm2": (1.0, "mm2"),
    "L": (1.0, "L"), "N mm": (1.0, "N mm"),
    "lbf/ft": (_POUND_FORCE / (12 * _INCH), "N/mm"), "lbf/ft3": (_PSI * 1e6 / (144 * 12 * _INCH), "kN/m3"),
}
_BASES = frozenset(base for _, base in EXACT.values()) | frozenset(ENGINE_UNITS)
# Bare numbers and shares.
PLAIN = ("1", "", "%", "percent")


class BadUnit(ValueError):
    """A unit nobody knows, or of another kind than asked."""


@functools.cache
def registry() -> Any:
    """Pint's registry, made once when first needed."""
    import pint

    found: Any = pint.UnitRegistry()
    found.define("psf = lbf / ft ** 2")
    return found


def to_engine(value: float, unit: str) -> tuple[float, str]:
    """The value in the engine's unit of its kind, and that unit; other kinds stay as written.

    >>> to_engine(10, "in")
    (254.0, 'mm')
    >>> to_engine(2, "in^2")
    (2.0, 'in^2')
    """
    plain = _plain(unit)
    if plain in ENGINE_UNITS:
        return float(value), plain
    if plain in EXACT:
        factor, base = EXACT[plain]
        return (value * factor, base) if base in ENGINE_UNITS else (float(value), unit)
    return (float(value), unit) if plain in PLAIN else by_pint(value, unit)


def by_pint(value: float, unit: str) -> tuple[float, str]:
    """The same by Pint alone, for any unit it knows. BadUnit where it knows none by that name."""
    quantity = _quantity(value, unit)
    for engine in ENGINE_UNITS:
        if quantity.is_compatible_with(_pint_name(engine)) and _same_kind(_plain(unit), engine):
            return float(quantity.to(_pint_name(engine)).magnitude), engine
    return float(value), unit


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


def _same_kind(unit: str, engine: str) -> bool:
    """Stress and area load share a dimension: loads are those by the foot, yard or metre. An angle in
    degrees is a bare number to Pint."""
    if engine in ("N/mm2", "kN/m2"):
        return (engine == "kN/m2") == bool(re.search(r"/\s*(ft|m|yd)2$|psf$|[kh]?Pa$|bar$", unit)
                                           and unit not in ("MPa", "GPa"))
    return engine != "deg" or bool(re.search("deg|rad|turn", unit))


_QUANTITY = re.compile(r"^\s*([+-]?\d+(?:[.,]\d+)?(?:\s+\d+/\d+)?|\d+/\d+)\s*(\S.*?)\s*$")


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
    if {base, wanted} <= _BASES and {base, wanted} != {"N/mm2", "kN/m2"}:
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
