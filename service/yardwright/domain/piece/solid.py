"""Solids: flat-faced bodies in mm, world coordinates. The one place that knows the geometry kernel.

A blank is convex and its faces are known without the kernel; the kernel (manifold3d, Apache-2.0) is
fetched on first use, for shape work and for solids that share room. Volumes and centres come from the
faces by the divergence theorem, so they are exact to rounding; arcs are chords within 0.2 mm.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from importlib import import_module
from typing import Any

from .vectors import AXES, Vector, bounds, cross, dot, doubled_area, mirrored, scaled, size, sub, turner, unit

Loop = tuple[Vector, ...]
SAME_MM = 1e-6        # corners nearer than this are one: a strip cut to a point
SLIVER_MM = 1e-4      # corners that the kernel leaves nearer than this are one
FLAT = 1e-6          # faces whose normals differ by less are one plane


def _kernel() -> Any:
    return import_module("manifold3d")


@dataclass(frozen=True, slots=True)
class Face:
    """One flat face: its outer loop counter-clockwise seen from outside, holes clockwise."""

    outline: Loop
    holes: tuple[Loop, ...]
    normal: Vector
    offset: float                # distance of its plane from the origin along the normal
    area_mm2: float
    low: Vector
    high: Vector

    @property
    def loops(self) -> tuple[Loop, ...]:
        return (self.outline, *self.holes)


def face(outline: Sequence[Vector], holes: Iterable[Sequence[Vector]] = ()) -> Face | None:
    """A face from its loops; None where it has no area (a strip cut to a point)."""
    outline = [p for i, p in enumerate(outline) if size(sub(p, outline[i - 1])) > SAME_MM]
    if len(outline) < 3:
        return None
    rest = tuple(tuple(h) for h in holes)
    whole = doubled_area(outline)
    for hole in rest:
        gone = doubled_area(hole)
        whole = (whole[0] + gone[0], whole[1] + gone[1], whole[2] + gone[2])
    area = size(whole) / 2
    if area < 1e-6:
        return None
    normal = scaled(whole, 0.5 / area)
    low, high = bounds(outline)
    return Face(tuple(outline), rest, normal, dot(normal, outline[0]), area, low, high)


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
        base = self.box[0]
        six = x = y = z = 0.0
        for f in self.faces:
            for loop in f.loops:
                a = sub(loop[0], base)
                b = sub(loop[1], base)
                for point in loop[2:]:
                    c = sub(point, base)
                    part = dot(a, cross(b, c))
                    six += part
                    x += part * (a[0] + b[0] + c[0])
                    y += part * (a[1] + b[1] + c[1])
                    z += part * (a[2] + b[2] + c[2])
                    b = c
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
    found = (face([corners[i] for i in quad]) for quad in _QUADS)
    return Solid([f for f in found if f is not None], convex=True)


def of_kernel(body: Any) -> Solid:
    """The kernel's body with its triangles merged to flat faces."""
    mesh = body.to_mesh64()
    points: list[Vector] = []
    canonical = [_snapped(points, (float(x), float(y), float(z))) for x, y, z in mesh.vert_properties[:, :3]]
    triangles = [(canonical[a], canonical[b], canonical[c]) for a, b, c in mesh.tri_verts]
    whole = [t for t in triangles if len(set(t)) == 3]
    return Solid(_merged(points, whole), convex=False, kernel=body)


def _snapped(points: list[Vector], point: Vector) -> int:
    """The number of a corner; those that the kernel leaves a hair apart are one."""
    for i, p in enumerate(points):
        if abs(p[0] - point[0]) < SLIVER_MM and abs(p[1] - point[1]) < SLIVER_MM and (
                abs(p[2] - point[2]) < SLIVER_MM):
            return i
    points.append(point)
    return len(points) - 1


def _merged(points: Sequence[Vector], triangles: Sequence[tuple[int, int, int]]) -> list[Face]:
    normals = [doubled_area([points[i] for i in t]) for t in triangles]
    sizes = [size(n) for n in normals]
    owner = {(t[k], t[(k + 1) % 3]): i for i, t in enumerate(triangles) for k in range(3)}
    seen: set[int] = set()
    faces = []
    for start in sorted(range(len(triangles)), key=lambda i: -sizes[i]):
        if start in seen or sizes[start] < 1e-6:
            continue
        normal = scaled(normals[start], 1 / sizes[start])
        offset = dot(normal, points[triangles[start][0]])
        patch, queue = {start}, [start]
        while queue:
            t = triangles[queue.pop()]
            for k in range(3):
                other = owner.get((t[(k + 1) % 3], t[k]))
                if other is None or other in seen or other in patch:
                    continue
                if all(abs(dot(normal, points[i]) - offset) < 1e-4 for i in triangles[other]) and (
                        dot(normals[other], normal) >= (1 - FLAT) * sizes[other] - 1e-6):
                    patch.add(other)
                    queue.append(other)
        seen |= patch
        made = _outlined(points, [triangles[i] for i in patch])
        if made is not None:
            faces.append(made)
    return faces


def _outlined(points: Sequence[Vector], patch: Sequence[tuple[int, int, int]]) -> Face | None:
    edges = {(t[k], t[(k + 1) % 3]) for t in patch for k in range(3)}
    onward: dict[int, list[int]] = {}
    for a, b in sorted(edges):
        if (b, a) not in edges:
            onward.setdefault(a, []).append(b)
    loops = []
    while onward:
        first = min(onward)
        loop, at = [first], _step(onward, first)
        while at != first:
            loop.append(at)
            at = _step(onward, at)
        straight = _without_straight([points[i] for i in loop])
        if len(straight) >= 3:
            loops.append(straight)
    if not loops:
        return None
    loops.sort(key=lambda loop: -size(doubled_area(loop)))
    return face(loops[0], loops[1:])


def _step(onward: dict[int, list[int]], at: int) -> int:
    out = onward[at]
    following = out.pop()
    if not out:
        del onward[at]
    return following


def _without_straight(loop: list[Vector]) -> list[Vector]:
    kept = []
    for i, p in enumerate(loop):
        before, after = sub(p, loop[i - 1]), sub(loop[(i + 1) % len(loop)], p)
        if size(cross(before, after)) > 1e-6 * max(size(before) * size(after), 1e-9):
            kept.append(p)
    return kept


def turned_solid(solid: Solid, about: Vector, axis: Vector, degrees: float) -> Solid:
    """The solid turned about a line, right-handed."""
    return _mapped(solid, turner(about, axis, degrees), flip=False)


def mirrored_solid(solid: Solid, axis: int, at: float) -> Solid:
    """The solid mirrored across the plane where coordinate ``axis`` is ``at``."""
    return _mapped(solid, lambda p: mirrored(p, axis, at), flip=True)


def _mapped(solid: Solid, to: Callable[[Vector], Vector], flip: bool) -> Solid:
    memo = {p: to(p) for p in solid.corners}
    faces = []
    for f in solid.faces:
        loops = [tuple(memo[p] for p in loop) for loop in f.loops]
        if flip:
            loops = [loop[::-1] for loop in loops]
        normal = unit(doubled_area(loops[0]))
        low, high = bounds(loops[0])
        offset = dot(normal, loops[0][0])
        faces.append(Face(loops[0], tuple(loops[1:]), normal, offset, f.area_mm2, low, high))
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


def kept_inside(solid: Solid, body: Any) -> Solid:
    """What of the solid lies inside the kernel's body."""
    return of_kernel(solid.kernel ^ body)


def taken_out(solid: Solid, body: Any) -> Solid:
    """The solid less the kernel's body."""
    return of_kernel(solid.kernel - body)


def cut_off(solid: Solid, at: Vector, normal: Vector) -> Solid:
    """The solid less all that lies beyond the plane through ``at``, on the side of ``normal``."""
    away = scaled(unit(normal), -1.0)
    return of_kernel(solid.kernel.trim_by_plane(away, dot(away, at)))


def shared(a: Solid, b: Solid) -> tuple[float, tuple[Vector, ...]]:
    """Volume in mm3 that two solids share, and the corners of the shared body."""
    body = a.kernel ^ b.kernel
    volume = float(body.volume())
    if volume <= 0:
        return 0.0, ()
    corners = body.to_mesh64().vert_properties[:, :3]
    return volume, tuple((float(x), float(y), float(z)) for x, y, z in corners)


def shared_flat(a: Sequence[Sequence[tuple[float, float]]],
                b: Sequence[Sequence[tuple[float, float]]]) -> list[list[tuple[float, float]]]:
    """Loops that two flat shapes share (for outlines that are not convex)."""
    kernel = _kernel()
    rule = kernel.FillRule.EvenOdd
    both = kernel.CrossSection([list(x) for x in a], rule) ^ kernel.CrossSection([list(x) for x in b], rule)
    return [[(float(x), float(y)) for x, y in loop] for loop in both.to_polygons()]
