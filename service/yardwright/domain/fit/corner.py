"""How far a corner is off square, and what that takes from a piece standing in it.

A corner of less than 90 degrees closes in: at depth d it takes d x tan(90 - angle) from the run. Three
tape readings give the angle by the law of cosines. Every reading is taken at its worst.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..site import Corner, Diagonal
from .tape import uncertainty_nm

ANGLE_MARK_DEG = 0.5             # smallest mark of an angle finder; judgement
_LEAST_DEG, _MOST_DEG = 30.0, 150.0


@dataclass(frozen=True, slots=True)
class Angle:
    """Between ``least_deg`` and ``most_deg``, as its readings allow."""

    least_deg: float
    most_deg: float

    @property
    def middle_deg(self) -> float:
        """The angle as read."""
        return (self.least_deg + self.most_deg) / 2

    @property
    def closing(self) -> float:
        """What the corner may take from the run for each unit of depth; negative when it opens out."""
        return math.tan(math.radians(90 - self.least_deg))

    @property
    def opening(self) -> float:
        """The same at the other end of what the readings allow."""
        return math.tan(math.radians(90 - self.most_deg))


def diagonal_angle(diagonal: Diagonal, tape_class: str, mark_nm: int) -> Angle:
    """cos A = (along2 + out2 - across2) / (2 along out), with each reading at its worst either way."""
    a, b, c = diagonal.along_nm, diagonal.out_nm, diagonal.across_nm
    off_a, off_b, off_c = (uncertainty_nm(v, tape_class, mark_nm) for v in (a, b, c))
    return Angle(_angle(a + off_a, b + off_b, c - off_c), _angle(a - off_a, b - off_b, c + off_c))


def _angle(along: float, out: float, across: float) -> float:
    along, out = max(along, 1.0), max(out, 1.0)
    cosine = (along * along + out * out - across * across) / (2 * along * out)
    return min(_MOST_DEG, max(_LEAST_DEG, math.degrees(math.acos(min(1.0, max(-1.0, cosine))))))


def angles(corner: Corner, tape_class: str, mark_nm: int) -> tuple[Angle, ...]:
    """One range for the angle read, one for each set of three tape readings."""
    read = () if corner.angle_deg is None else (
        Angle(corner.angle_deg - ANGLE_MARK_DEG / 2, corner.angle_deg + ANGLE_MARK_DEG / 2),)
    return (*read, *(diagonal_angle(d, tape_class, mark_nm) for d in corner.diagonals))


def worst(corner: Corner, tape_class: str, mark_nm: int) -> Angle | None:
    """All the readings of one corner together, None where nothing was read."""
    found = angles(corner, tape_class, mark_nm)
    if not found:
        return None
    return Angle(min(a.least_deg for a in found), max(a.most_deg for a in found))


def possible(diagonal: Diagonal, tape_class: str, mark_nm: int) -> bool:
    """Whether three lengths can be the sides of a triangle, within what the tape may be off."""
    a, b, c = diagonal.along_nm, diagonal.out_nm, diagonal.across_nm
    off = sum(uncertainty_nm(v, tape_class, mark_nm) for v in (a, b, c))
    return c <= a + b + off and c >= abs(a - b) - off
