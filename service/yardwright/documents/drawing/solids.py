"""From a piece to the faces that a picture shows, with the lid or door shut or open."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin
from typing import TYPE_CHECKING

from .projection import Ring, Vector

if TYPE_CHECKING:
    from yardwright.domain.piece.model import Piece


def solids(piece: Piece, opened: bool = False) -> list[list[Ring]]:
    """The faces of every member in world mm; members of a moving group turned open when asked."""
    from yardwright.domain.piece.faces import faces  # the solid kernel behind it is slow to load

    return [[_turned(ring, *piece.moving[m.group]) for ring in faces(m)]
            if opened and m.group in piece.moving else list(faces(m)) for m in piece.members]


def _turned(ring: Ring, point: Vector, axis: Vector, degrees: float) -> Sequence[Vector]:
    """A ring turned about a line (right-handed about the axis; Rodrigues' formula)."""
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return [_turn(p, point, axis, c, s) for p in ring]


def _turn(p: Vector, point: Vector, k: Vector, c: float, s: float) -> Vector:
    x, y, z = p[0] - point[0], p[1] - point[1], p[2] - point[2]
    along = (k[0] * x + k[1] * y + k[2] * z) * (1 - c)
    return (point[0] + x * c + (k[1] * z - k[2] * y) * s + k[0] * along,
            point[1] + y * c + (k[2] * x - k[0] * z) * s + k[1] * along,
            point[2] + z * c + (k[0] * y - k[1] * x) * s + k[2] * along)
