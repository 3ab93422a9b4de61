"""Lengths in words: inches with fractions, feet and inches, millimetres."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..errors import BadLength, Fault
from .length import FOOT, INCH, MM, SIXTEENTH, UNITS, from_mm, round_to


def say(nm: int, unit: str) -> str:
    """A length exactly, in the notation of ``unit``; decimals where 64ths do not do."""
    if unit in ("in", "ft") and nm % (INCH // 64) == 0:
        return write(nm, "ft-in" if unit == "ft" else "in", INCH // 64)
    per = "in" if unit == "ft" else unit
    return f"{_decimal(Fraction(nm, UNITS[per]), 6)} {per}"


def write(nm: int, style: str, step_nm: int | None = None) -> str:
    """A length in words. style "in": ``5 1/2 in``; "ft-in": ``3' 8"``; "mm": ``1118 mm``.

    Rounded to the nearest ``step_nm`` (default 1/16 in, 1 mm), half way to the even mark; a step that is
    no 64th of an inch is written as decimals.
    """
    step = step_nm or (MM if style == "mm" else SIXTEENTH)
    sign, size = ("-" if round_to(nm, step) < 0 else ""), abs(round_to(nm, step))
    if style == "mm":
        return f"{sign}{_decimal(Fraction(size, MM), 6)} mm"
    if style == "in":
        return f"{sign}{_inches(size)} in"
    if style == "ft-in":
        feet, rest = divmod(size, FOOT)
        return f"{sign}{feet}' {'0 ' if 0 < rest < INCH else ''}{_inches(rest)}\""
    raise BadLength(Fault("", f"'{style}' is no way to write a length: in, ft-in or mm."))


def _inches(nm: int) -> str:
    whole, rest = divmod(nm, INCH)
    share = Fraction(rest, INCH)
    if 64 % share.denominator:
        return _decimal(Fraction(nm, INCH), 4)
    if not rest:
        return str(whole)
    return f"{whole} {share}" if whole else str(share)


def _decimal(value: Fraction, places: int) -> str:
    scaled = round(value * 10**places)
    whole, rest = divmod(scaled, 10**places)
    return f"{whole}.{rest:0{places}d}".rstrip("0").rstrip(".")


@dataclass(frozen=True, slots=True)
class Writer:
    """Writes lengths in the job's units, for findings and papers."""

    units: str                        # "in" | "mm"

    def length(self, nm: int) -> str:
        """``44 in`` to the nearest 1/16 in, or ``1118 mm`` to the nearest mm."""
        return write(nm, "mm" if self.units == "mm" else "in")

    def mm(self, length_mm: float) -> str:
        """The same from a float of mm, as the geometry works."""
        return self.length(from_mm(length_mm))

    def fine(self, length_mm: float) -> str:
        """A small difference as a rule shows it: to the nearest 1/64 in or 0.1 mm, never down to nothing.

        >>> Writer("in").fine(3.2), Writer("in").fine(0.1), Writer("mm").fine(3.17)
        ('1/8 in', 'less than 1/64 in', '3.2 mm')
        """
        style, mark = ("mm", MM // 10) if self.units == "mm" else ("in", SIXTEENTH // 4)
        nm = from_mm(length_mm)
        lost = nm and not round_to(nm, mark)
        return f"less than {write(mark, style, mark)}" if lost else write(nm, style, mark)
