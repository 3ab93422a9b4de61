"""Left and right: a mirrored part has a hand only when it cannot be turned to become its twin."""

from __future__ import annotations

from collections.abc import Iterable

from .model import Frame
from .solid import Solid
from .vectors import Vector, dot, sub

SAME_MM = 0.02


def is_handed(solid: Solid, frame: Frame, sizes: Vector, marks: Iterable[Vector] = ()) -> bool:
    """True when the mirror image of the finished part is another part.

    The corners (and ``marks``: middles of rounded edges, blank coordinates) in the blank's own axes are
    compared with their mirror image under every turn that lays the blank back on itself: half turns
    about its three axes, and quarter turns where width and thickness are equal.
    """
    half = tuple(s / 2 for s in sizes)
    local = [(dot(r, frame.along) - half[0], dot(r, frame.wide) - half[1], dot(r, frame.thick) - half[2])
             for r in (sub(p, frame.origin) for p in solid.corners)]
    local += [(m[0] - half[0], m[1] - half[1], m[2] - half[2]) for m in marks]
    twin = {_key((x, y, -z)) for x, y, z in local}
    turns = [(1, 1, 1, False), (1, -1, -1, False), (-1, 1, -1, False), (-1, -1, 1, False)]
    if abs(sizes[1] - sizes[2]) < SAME_MM:
        turns += [(1, 1, -1, True), (1, -1, 1, True), (-1, 1, 1, True), (-1, -1, -1, True)]
    return not any(all(_near(_key(_turned(p, t)), twin) for p in local) for t in turns)


def _turned(p: Vector, turn: tuple[int, int, int, bool]) -> Vector:
    a, b, c, swap = turn
    x, y, z = p
    if swap:
        y, z = z, y
    return (a * x, b * y, c * z)


def _key(p: Vector) -> tuple[int, int, int]:
    return (round(p[0] / SAME_MM), round(p[1] / SAME_MM), round(p[2] / SAME_MM))


def _near(key: tuple[int, int, int], among: set[tuple[int, int, int]]) -> bool:
    if key in among:
        return True
    x, y, z = key
    return any((x + i, y + j, z + k) in among for i in (-1, 0, 1) for j in (-1, 0, 1) for k in (-1, 0, 1))
