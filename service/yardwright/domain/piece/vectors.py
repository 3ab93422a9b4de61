"""Small vector arithmetic in mm; plain tuples, because a member has eight corners and no more."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import cos, radians, sin, sqrt

Vector = tuple[float, float, float]

AXES: dict[str, Vector] = {
    "length": (1.0, 0.0, 0.0), "depth": (0.0, 1.0, 0.0), "height": (0.0, 0.0, 1.0),
}


def add(a: Vector, b: Vector) -> Vector:
    """a + b."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def sub(a: Vector, b: Vector) -> Vector:
    """a - b."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def scaled(a: Vector, factor: float) -> Vector:
    """a times a number."""
    return (a[0] * factor, a[1] * factor, a[2] * factor)


def dot(a: Vector, b: Vector) -> float:
    """The scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """The vector product, right-handed."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def size(a: Vector) -> float:
    """Length of a vector."""
    return sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2])


def unit(a: Vector) -> Vector:
    """The same direction at length one; ValueError where it has none."""
    x, y, z = a
    length = sqrt(x * x + y * y + z * z)
    if length < 1e-9:
        raise ValueError("a direction of no length")
    return (x / length, y / length, z / length)


def square_to(a: Vector, axis: Vector) -> Vector:
    """What is left of ``a`` when its share along the unit vector ``axis`` is taken out."""
    return sub(a, scaled(axis, dot(a, axis)))


def turner(about: Vector, axis: Vector, degrees: float) -> Callable[[Vector], Vector]:
    """Turns points about a line through ``about`` along the unit vector ``axis``, right-handed."""
    (ox, oy, oz), (ax, ay, az) = about, axis
    c, s = cos(radians(degrees)), sin(radians(degrees))
    t = 1 - c

    def turn(point: Vector) -> Vector:
        x, y, z = point[0] - ox, point[1] - oy, point[2] - oz
        k = (ax * x + ay * y + az * z) * t
        return (ox + x * c + (ay * z - az * y) * s + ax * k,
                oy + y * c + (az * x - ax * z) * s + ay * k,
                oz + z * c + (ax * y - ay * x) * s + az * k)

    return turn


def turned(point: Vector, about: Vector, axis: Vector, degrees: float) -> Vector:
    """One point turned about a line, right-handed."""
    return turner(about, axis, degrees)(point)


def mirrored(point: Vector, axis: int, at: float) -> Vector:
    """A point mirrored across the plane where coordinate ``axis`` is ``at``."""
    x, y, z = point
    return (2 * at - x, y, z) if axis == 0 else (x, 2 * at - y, z) if axis == 1 else (x, y, 2 * at - z)


def bounds(points: Iterable[Vector]) -> tuple[Vector, Vector]:
    """Lowest and highest of each coordinate."""
    xs, ys, zs = zip(*points, strict=True)
    return (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))


def doubled_area(loop: Sequence[Vector]) -> Vector:
    """Twice the area of a flat loop as a vector along its normal (counter-clockwise from outside)."""
    (ox, oy, oz), (bx, by, bz) = loop[0], loop[1]
    bx, by, bz = bx - ox, by - oy, bz - oz
    x = y = z = 0.0
    for cx, cy, cz in loop[2:]:
        cx, cy, cz = cx - ox, cy - oy, cz - oz
        x += by * cz - bz * cy
        y += bz * cx - bx * cz
        z += bx * cy - by * cx
        bx, by, bz = cx, cy, cz
    return (x, y, z)
