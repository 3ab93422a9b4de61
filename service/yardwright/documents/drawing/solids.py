"""From a piece to the faces that a picture shows, with the lid or door shut or open."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin
from typing import TYPE_CHECKING

from .projection import Ring, Vector

if TYPE_CHECKING:
    from yardwright.domain.piece.model import Piece


def solids(piece: Piece, opened: bool = False) -> list[list[Ring]]:
    """The faces of every member in world mm, and the feet; a lid or door turned open when asked."""
    from yardwright.domain.piece.faces import faces  # the solid kernel behind it is slow to load

    found: list[list[Ring]] = []
    for member in piece.members:
        rings: list[Ring] = list(faces(member))
        if opened and member.group in piece.moving:
            rings = [_turned(ring, *piece.moving[member.group]) for ring in rings]
        found.append(rings)
    return found + _feet(piece, found)


_HIGHEST_FOOT_MM = 80.0


def _feet(piece: Piece, members: list[list[Ring]]) -> list[list[Ring]]:
    """Feet that the piece has but no member stands for: a short post from the ground under each leg."""
    low = piece.closed.low[2]
    if not 3.0 < low < _HIGHEST_FOOT_MM or not any("foot" in h.kind for h in piece.hardware):
        return []
    places: list[tuple[float, float, float, float]] = []
    for rings in members:
        under = [p for ring in rings for p in ring if p[2] < low + 12.0]
        if len(under) < 3:
            continue
        box = (min(p[0] for p in under), min(p[1] for p in under),
               max(p[0] for p in under), max(p[1] for p in under))
        if not any(_meet(box, other) for other in places):
            places.append(box)
    return [_post(box, low) for box in places]


def _meet(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    """Whether two footprints touch: the strips of one leg share a foot."""
    return a[0] < b[2] + 1 and b[0] < a[2] + 1 and a[1] < b[3] + 1 and b[1] < a[3] + 1


def _post(box: tuple[float, float, float, float], high: float) -> list[Ring]:
    """The six faces of a foot, as wide as half the leg's smaller side, in the middle under it."""
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    half = min(20.0, 0.4 * min(box[2] - box[0], box[3] - box[1]))
    v = [(x + i * half, y + j * half, k * high) for i in (-1, 1) for j in (-1, 1) for k in (0, 1)]
    return [[v[i] for i in face] for face in
            ((0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3))]


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
