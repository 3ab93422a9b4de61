"""Looking at faces from a side: turning world mm into picture mm and a depth, keeping what looks back.

A face is a flat polygon in the world, its corners counter-clockwise seen from outside. Only faces that
look at the viewer can be seen or hide anything, since members are closed solids.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from .model import Point

Vector = tuple[float, float, float]
Ring = Sequence[Vector]

# A face turned from the line of sight by less than this (cosine) is seen on edge: it hides nothing.
_EDGE_ON = 1e-4
# Faces of one member that meet at less than about 20° are one curved surface: no line between them.
_SMOOTH_COSINE = 0.94


@dataclass(frozen=True, slots=True)
class View:
    """Unit vectors of the picture in the world: to the right, up, and towards the viewer."""

    name: str
    right: Vector
    up: Vector
    towards: Vector

    def flat(self, p: Vector) -> Point:
        """Where a point of the world stands in the picture."""
        r, u = self.right, self.up
        return (p[0] * r[0] + p[1] * r[1] + p[2] * r[2], p[0] * u[0] + p[1] * u[1] + p[2] * u[2])

    def depth(self, p: Vector) -> float:
        """Distance away from the viewer: larger is farther."""
        t = self.towards
        return -(p[0] * t[0] + p[1] * t[1] + p[2] * t[2])


_H, _S, _T = 1 / sqrt(2), 1 / sqrt(6), 1 / sqrt(3)
VIEWS = {
    "front": View("front", (1, 0, 0), (0, 0, 1), (0, -1, 0)),
    "side": View("side", (0, 1, 0), (0, 0, 1), (1, 0, 0)),
    "plan": View("plan", (1, 0, 0), (0, 1, 0), (0, 0, 1)),
    "isometric": View("isometric", (_H, _H, 0), (-_S, _S, 2 * _S), (_T, -_T, _T)),
}


@dataclass(frozen=True, slots=True)
class Face:
    """A face as seen: its outline in the picture and its depth, ``a * x + b * y + c`` at any point of it."""

    points: tuple[Point, ...]
    depths: tuple[float, ...]
    plane: tuple[float, float, float]
    convex: bool
    tone: float                  # 1 white; tops are lightest, sides darkest
    member: int


@dataclass(frozen=True, slots=True)
class Edge:
    """A line of a face that is drawn where nothing hides it."""

    start: Point
    end: Point
    start_depth: float
    end_depth: float
    member: int


def project(members: Sequence[Sequence[Ring]], view: View) -> tuple[list[Face], list[Edge]]:
    """The faces that look at the viewer, and their edges, each once."""
    faces: list[Face] = []
    edges: list[Edge] = []
    for number, rings in enumerate(members):
        normals = [normal_of(ring) for ring in rings]
        seen = [_dot(n, view.towards) > _EDGE_ON for n in normals]
        smooth = _smooth_edges(rings, normals, seen)
        drawn: set[tuple[Vector, Vector]] = set()
        for ring, normal, visible in zip(rings, normals, seen, strict=True):
            if not visible:
                continue
            face = _face(ring, normal, view, number)
            faces.append(face)
            edges += _edges(ring, face, smooth, drawn)
    return faces, edges


def _face(ring: Ring, normal: Vector, view: View, number: int) -> Face:
    points = tuple(view.flat(p) for p in ring)
    depths = tuple(view.depth(p) for p in ring)
    facing = _dot(normal, view.towards)
    a, b = _dot(normal, view.right) / facing, _dot(normal, view.up) / facing
    # n·p is constant on the plane; solved for the depth along the line of sight.
    c = sum(d - a * x - b * y for d, (x, y) in zip(depths, points, strict=True)) / len(points)
    return Face(points, depths, (a, b, c), _is_convex(points), _tone(normal), number)


def _tone(normal: Vector) -> float:
    """Light from above and somewhat from the front; rounded, so that like faces are of one tone."""
    return round(max(0.72, min(1.0, 0.84 + 0.16 * normal[2] + 0.09 * max(0.0, -normal[1]))), 2)


def _edges(ring: Ring, face: Face, smooth: set[tuple[Vector, Vector]],
           drawn: set[tuple[Vector, Vector]]) -> list[Edge]:
    """The face's edges that are to be drawn and that no earlier face of the member has given."""
    found = []
    count = len(ring)
    for i in range(count):
        j = (i + 1) % count
        key = _key(ring[i], ring[j])
        if key in smooth or key in drawn:
            continue
        drawn.add(key)
        found.append(Edge(face.points[i], face.points[j], face.depths[i], face.depths[j], face.member))
    return found


def _smooth_edges(rings: Sequence[Ring], normals: list[Vector],
                  seen: list[bool]) -> set[tuple[Vector, Vector]]:
    """Edges that are no line in the picture: between flats of one curved face, or a bridge to a hole."""
    sides: dict[tuple[Vector, Vector], list[int]] = {}
    for number, ring in enumerate(rings):
        for i, p in enumerate(ring):
            sides.setdefault(_key(p, ring[(i + 1) % len(ring)]), []).append(number)
    smooth = set()
    for key, numbers in sides.items():
        if len(numbers) == 2:
            one, other = numbers
            if one == other or (seen[one] and seen[other]
                                and _dot(normals[one], normals[other]) > _SMOOTH_COSINE):
                smooth.add(key)
    return smooth


def _key(p: Vector, q: Vector) -> tuple[Vector, Vector]:
    """The same for an edge walked either way, to a hundredth of a millimetre."""
    a = (round(p[0], 2) + 0.0, round(p[1], 2) + 0.0, round(p[2], 2) + 0.0)
    b = (round(q[0], 2) + 0.0, round(q[1], 2) + 0.0, round(q[2], 2) + 0.0)
    return (a, b) if a <= b else (b, a)


def normal_of(ring: Ring) -> Vector:
    """Unit normal of a flat polygon of any shape (Newell's sum)."""
    x = y = z = 0.0
    for i, p in enumerate(ring):
        q = ring[(i + 1) % len(ring)]
        x += (p[1] - q[1]) * (p[2] + q[2])
        y += (p[2] - q[2]) * (p[0] + q[0])
        z += (p[0] - q[0]) * (p[1] + q[1])
    size = sqrt(x * x + y * y + z * z)
    return (x / size, y / size, z / size) if size > 1e-12 else (0.0, 0.0, 0.0)


def _dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _is_convex(points: tuple[Point, ...]) -> bool:
    count = len(points)
    for i in range(count):
        (ax, ay), (bx, by), (cx, cy) = points[i], points[(i + 1) % count], points[(i + 2) % count]
        if (bx - ax) * (cy - by) - (by - ay) * (cx - bx) < -1e-6:
            return False
    return True
