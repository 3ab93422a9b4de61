"""The units a length is counted in, and rounding to a mark."""

from __future__ import annotations

import math
from fractions import Fraction

from ..errors import BadLength, Fault

MM = 1_000_000
INCH = 25_400_000                     # exactly 25.4 mm, the international inch
FOOT = 12 * INCH
SIXTEENTH = INCH // 16
UNITS = {"mm": MM, "cm": 10 * MM, "m": 1000 * MM, "in": INCH, "ft": FOOT}


def to_mm(nm: int) -> float:
    """Floating mm, for geometry only."""
    return nm / MM


def from_mm(length_mm: float) -> int:
    """Whole nm of a floating mm; refuses what is no finite number."""
    if not math.isfinite(length_mm) or abs(length_mm) * MM >= 2**53:
        raise BadLength(Fault("", f"{length_mm} mm is no length."))
    return round(length_mm * MM)


def round_to(nm: int, step_nm: int, how: str = "nearest") -> int:
    """To a multiple of the step. how: "nearest" (half way to the even mark), "down" or "up"."""
    if how == "down":
        return nm // step_nm * step_nm
    if how == "up":
        return -(-nm // step_nm) * step_nm
    return round(Fraction(nm, step_nm)) * step_nm
