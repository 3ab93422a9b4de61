"""Boards priced by the board foot, the cubic metre or the metre: what one board of a length holds of it.

A board foot is 144 cubic inches of the nominal size, a thickness under 1 in counting as 1 in (PS 20, from
memory; worked figures in the tests). A section named in mm is sold by its named size, one named in inches by
its nominal size, also by the cubic metre. The factors are exact and are held against Pint by the tests.
"""

from __future__ import annotations

from fractions import Fraction

from ..domain.market import Section
from ..domain.measure import INCH

UNITS = ("piece", "m", "ft", "board foot", "m3")
_FOOT = 12 * INCH
_METRE = 1_000_000_000
_BOARD_FOOT_NM3 = 144 * INCH**3


def held(section: Section, length_nm: int, unit: str, random_width: bool = False) -> Fraction:
    """How many of ``unit`` one board holds; of random width its thickness is nominal, its width as it is.

    ValueError where the section has no nominal inches to reckon board feet from.
    """
    if unit == "piece":
        return Fraction(1)
    if unit in ("m", "ft"):
        return Fraction(length_nm, _METRE if unit == "m" else _FOOT)
    if section.system != "in" and unit == "board foot":
        raise ValueError(f"section {section.id} is named in mm; board feet are of nominal inches")
    thickness, width = _sold_size_nm(section)
    volume = thickness * (section.width_nm if random_width else width) * length_nm
    return volume / (_BOARD_FOOT_NM3 if unit == "board foot" else _METRE**3)


def _sold_size_nm(section: Section) -> tuple[Fraction, Fraction]:
    """The size a section is sold by: "5/4x6" as 1 1/4 by 6 in, "1x6" and thinner as 1 in thick."""
    if section.system != "in":
        return Fraction(section.thickness_nm), Fraction(section.width_nm)
    thick, _, wide = section.id.partition("x")
    try:
        return max(Fraction(thick), Fraction(1)) * INCH, Fraction(wide) * INCH
    except (ValueError, ZeroDivisionError):
        raise ValueError(f"section {section.id} is not named by its nominal size, like 1x6") from None
