"""Solids: flat-faced bodies in mm, world coordinates. The one place that knows the geometry kernel.

A blank is convex and its faces are known without the kernel; the kernel (manifold3d, Apache-2.0) is
fetched on first use, for shape work and for solids that share room. Volumes and centres come from the
faces by the divergence theorem, so they are exact to rounding; arcs are chords within 0.2 mm.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cached_property
from importlib import import_module
from typing import Any

from ..formula import Budget
from .flat_faces import Face, clipped, merged_faces, quad
from .vectors import AXES, Vector, bounds, dot, doubled_area, mirrored, scaled, sub, turner, unit

CUT_STEPS = 300       # of work, for one cut by the kernel
TOOL_STEPS = 10       # more for each triangle of what it is cut by
PLANE_STEPS = 60      # for a plane cut of a convex solid, which needs no kernel
TRIANGLE_STEPS = 20   # for each triangle merged into faces


def _kernel() -> Any:
    return import_module("manifold3d")


class Solid:
    """A closed body; ``convex`` ones are made from their corners alone."""

    __slots__ = ("__dict__", "convex", "faces")

    def __init__(self, faces: Sequence[Face], convex: bool, kernel: Any = None) -> None:
        self.faces = tuple(faces)
        self.convex = convex
        if kernel is not None:
            self.__dict__["kernel"] = kernel

    @cached_property
    def kernel(self) -> Any:
        """The kernel's own body."""
        return _kernel().Manifold.hull_points(list(self.corners))

    @cached_property
    def corners(self) -> tuple[Vector, ...]:
        """Every corner once."""
        return tuple(dict.fromkeys(p for f in self.faces for loop in f.loops for p in loop))

    @cached_property
    def box(self) -> tuple[Vector, Vector]:
        """Lowest and highest corner of the box around it."""
        return bounds(self.corners)

    @cached_property
    def area_mm2(self) -> float:
        return sum(f.area_mm2 for f in self.faces)

    @cached_property
    def _weighed(self) -> tuple[float, Vector]:
        if not self.faces:
            return 0.0, (0.0, 0.0, 0.0)
        base = ox, oy, oz = self.box[0]
        six = x = y = z = 0.0
        for f in self.faces:
            for loop in f.loops:
                (ax, ay, az), (bx, by, bz) = loop[0], loop[1]
                ax, ay, az, bx, by, bz = ax - ox, ay - oy, az - oz, bx - ox, by - oy, bz - oz
                for cx, cy, cz in loop[2:]:
                    cx, cy, cz = cx - ox, cy - oy, cz - oz
                    part = (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx))
                    six += part
                    x += part * (ax + bx + cx)
                    y += part * (ay + by + cy)
                    z += part * (az + bz + cz)
                    bx, by, bz = cx, cy, cz
        if six <= 0:
            return 0.0, base
        k = 0.25 / six
        return six / 6, (base[0] + x * k, base[1] + y * k, base[2] + z * k)

    @property
    def volume_mm3(self) -> float:
        return self._weighed[0]

    @property
    def centre(self) -> Vector:
        return self._weighed[1]


# Corner (end, wide, thick) as bits; faces counter-clockwise from outside in a right-handed frame.
_QUADS = ((0, 4, 6, 2), (1, 3, 7, 5), (0, 1, 5, 4), (2, 6, 7, 3), (0, 2, 3, 1), (4, 5, 7, 6))


def blank(corners: Sequence[Vector]) -> Solid:
    """A blank from its eight corners: number = end + 2 x wide + 4 x thick, frame right-handed."""
    found = (quad(corners[i], corners[j], corners[k], corners[n]) for i, j, k, n in _QUADS)
    return Solid([f for f in found if f is not None], convex=True)


def of_kernel(body: Any, budget: Budget | None = None) -> Solid:
    """The kernel's body with its triangles merged to flat faces."""
    if budget is not None:
        budget.spend(TRIANGLE_STEPS * int(body.num_tri()))
    mesh = body.to_mesh64()
    corners = [(x, y, z) for x, y, z in mesh.vert_properties[:, :3].tolist()]
    return Solid(merged_faces(corners, mesh.tri_verts.tolist()), convex=False, kernel=body)


def turned_solid(solid: Solid, about: Vector, axis: Vector, degrees: float) -> Solid:
    """The solid turned about a line, right-handed."""
    return _mapped(solid, turner(about, axis, degrees), flip=False)


def mirrored_solid(solid: Solid, axis: int, at: float) -> Solid:
    """The solid mirrored across the plane where coordinate ``axis`` is ``at``."""
    return _mapped(solid, lambda p: mirrored(p, axis, at), flip=True)


def _mapped(solid: Solid, to: Callable[[Vector], Vector], flip: bool) -> Solid:
    memo = {p: to(p) for p in solid.corners}
    faces = []
    for outline, holes, _, _, area, _, _ in solid.faces:
        loops = [tuple([memo[p] for p in loop]) for loop in (outline, *holes)]
        if flip:
            loops = [loop[::-1] for loop in loops]
        first = loops[0]
        x, y, z = normal = unit(doubled_area(first))
        low, high = bounds(first)
        ax, ay, az = first[0]
        faces.append(Face(first, tuple(loops[1:]), normal, x * ax + y * ay + z * az, area, low, high))
    if solid.convex:
        return Solid(faces, convex=True)
    origin = to((0.0, 0.0, 0.0))
    columns = [sub(to(e), origin) for e in AXES.values()]
    matrix = [[columns[0][i], columns[1][i], columns[2][i], origin[i]] for i in range(3)]
    return Solid(faces, convex=False, kernel=solid.kernel.transform(matrix))


def prism(outline: Sequence[tuple[float, float]], height: float, corner: Vector,
          along: Vector, wide: Vector, thick: Vector) -> Any:
    """A flat outline (counter-clockwise in along x wide) raised by ``height``, as the kernel's body."""
    section = _kernel().CrossSection([list(outline)])
    matrix = [[along[i], wide[i], thick[i], corner[i]] for i in range(3)]
    return section.extrude(height).transform(matrix)


def kept_inside(solid: Solid, body: Any, budget: Budget | None = None) -> Solid:
    """What of the solid lies inside the kernel's body."""
    return _cut(solid, lambda kernel: kernel ^ body, int(body.num_tri()), budget)


def taken_out(solid: Solid, body: Any, budget: Budget | None = None) -> Solid:
    """The solid less the kernel's body."""
    return _cut(solid, lambda kernel: kernel - body, int(body.num_tri()), budget)


def cut_off(solid: Solid, at: Vector, normal: Vector, budget: Budget | None = None) -> Solid:
    """The solid less all that lies beyond the plane through ``at``, on the side of ``normal``."""
    outward = unit(normal)
    if solid.convex and solid.faces:
        if budget is not None:
            budget.spend(PLANE_STEPS + 8 * len(solid.corners))
        faces = clipped(solid.faces, outward, dot(outward, at))
        if faces is not None:
            return Solid(faces, convex=True)
    away = scaled(outward, -1.0)
    return _cut(solid, lambda kernel: kernel.trim_by_plane(away, dot(away, at)), 0, budget)


def _cut(solid: Solid, how: Callable[[Any], Any], triangles: int, budget: Budget | None) -> Solid:
    """One cut by a body of so many triangles. Its work is counted before it is done, as if every face met
    every other, which is how a cut made twice costs; and the merging before that is done."""
    if budget is not None:
        budget.spend(CUT_STEPS + triangles * (TOOL_STEPS + len(solid.corners)))
    return of_kernel(how(solid.kernel), budget)


def hull_corners(places: Sequence[Vector]) -> tuple[Vector, ...]:
    """The corners of the convex body around places."""
    found = _kernel().Manifold.hull_points(list(places)).to_mesh64().vert_properties[:, :3]
    return tuple((float(x), float(y), float(z)) for x, y, z in found)


def shared(a: Solid, b: Solid) -> tuple[float, tuple[Vector, ...]]:
    """Volume in mm3 that two solids share, and the corners of the shared body."""
    body = a.kernel ^ b.kernel
    volume = float(body.volume())
    if volume <= 0:
        return 0.0, ()
    corners = body.to_mesh64().vert_properties[:, :3].tolist()
    return volume, tuple((x, y, z) for x, y, z in corners)


def shared_flat(a: Sequence[Sequence[tuple[float, float]]],
                b: Sequence[Sequence[tuple[float, float]]]) -> list[list[tuple[float, float]]]:
    """Loops that two flat shapes share (for outlines that are not convex)."""
    kernel = _kernel()
    rule = kernel.FillRule.EvenOdd
    both = kernel.CrossSection([list(x) for x in a], rule) ^ kernel.CrossSection([list(x) for x in b], rule)
    return [[(float(x), float(y)) for x, y in loop] for loop in both.to_polygons()]


def sections(solid: Solid, origin: Vector, along: Vector, wide: Vector, thick: Vector,
             places: Sequence[float]) -> list[list[list[tuple[float, float]]]]:
    """The loops of the solid's cross-section at places along its own length, in (wide, thick) mm."""
    rows = [[axis[k] for k in range(3)] + [-dot(axis, origin)] for axis in (wide, thick, along)]
    lying = solid.kernel.transform(rows)
    return [[[(float(x), float(y)) for x, y in loop] for loop in lying.slice(place).to_polygons()]
            for place in places]
