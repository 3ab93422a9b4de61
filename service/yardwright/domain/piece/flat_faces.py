"""Flat faces: from their loops, and merged out of a kernel's triangles. World coordinates, mm."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import atan2, floor, sqrt
from typing import NamedTuple

from .vectors import Vector, bounds, cross, dot, doubled_area, scaled, size, sub

Loop = tuple[Vector, ...]
SAME_MM = 1e-6        # corners nearer than this are one: a strip cut to a point
HAIR_MM = 1e-3        # a corner nearer to a cutting plane than this, but not on it, leaves a sliver
SLIVER_MM = 1e-4      # corners that the kernel leaves nearer than this are one
FLAT = 1e-6           # faces whose normals differ by less are one plane


class Face(NamedTuple):
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


def quad(a: Vector, b: Vector, c: Vector, d: Vector) -> Face | None:
    """The same for four corners of a blank's side, whose area vector is half its diagonals' product."""
    (ax, ay, az), (bx, by, bz), (cx, cy, cz), (dx, dy, dz) = a, b, c, d
    if min(abs(ax - bx) + abs(ay - by) + abs(az - bz), abs(bx - cx) + abs(by - cy) + abs(bz - cz),
           abs(cx - dx) + abs(cy - dy) + abs(cz - dz), abs(dx - ax) + abs(dy - ay) + abs(dz - az)) <= SAME_MM:
        return face((a, b, c, d))
    px, py, pz, qx, qy, qz = cx - ax, cy - ay, cz - az, dx - bx, dy - by, dz - bz
    x, y, z = py * qz - pz * qy, pz * qx - px * qz, px * qy - py * qx
    doubled = sqrt(x * x + y * y + z * z)
    if doubled < 2e-6:
        return None
    x, y, z = x / doubled, y / doubled, z / doubled
    return Face((a, b, c, d), (), (x, y, z), x * ax + y * ay + z * az, doubled / 2,
                (min(ax, bx, cx, dx), min(ay, by, cy, dy), min(az, bz, cz, dz)),
                (max(ax, bx, cx, dx), max(ay, by, cy, dy), max(az, bz, cz, dz)))


def clipped(faces: Sequence[Face], normal: Vector, limit: float) -> list[Face] | None:
    """A convex body's faces cut by a plane, what lies beyond it gone and the cut closed.

    None where a corner lies within a hair of the plane, which would leave slivers: the kernel cuts better.
    """
    far = {p: dot(normal, p) - limit for f in faces for p in f.outline}
    if any(0.0 < abs(over) < HAIR_MM for over in far.values()):
        return None
    if max(far.values()) <= 0 or min(far.values()) >= 0:
        return list(faces) if max(far.values()) <= 0 else []
    kept: list[Face] = []
    rim = {p: None for p, over in far.items() if over == 0}
    for f in faces:
        over = [far[p] for p in f.outline]
        if max(over) <= 0:
            kept.append(f)
        elif min(over) < 0:
            made = face(_within(f.outline, over, rim))
            kept += [made] if made else []
    cap = face(_around(list(rim), normal)) if len(rim) > 2 else None
    return [*kept, cap] if cap else kept


def _within(outline: Loop, over: Sequence[float], rim: dict[Vector, None]) -> list[Vector]:
    """An outline's share on the near side; where it meets the plane is added to ``rim``."""
    found: list[Vector] = []
    for i, (p, far) in enumerate(zip(outline, over, strict=True)):
        q, before = outline[i - 1], over[i - 1]
        if far * before < 0:
            (a, x), (b, y) = ((p, far), (q, before)) if p < q else ((q, before), (p, far))
            t = x / (x - y)      # from the same end for both faces of an edge, so that they meet exactly
            met = (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2]))
            found.append(met)
            rim[met] = None
        if far <= 0:
            found.append(p)
    return found


def _around(points: Sequence[Vector], normal: Vector) -> list[Vector]:
    """Points of a flat convex outline in order, counter-clockwise seen against ``normal``."""
    count = len(points)
    middle = (sum(p[0] for p in points) / count, sum(p[1] for p in points) / count,
              sum(p[2] for p in points) / count)
    u = max((sub(p, middle) for p in points), key=size)
    v = cross(normal, u)
    return sorted(points, key=lambda p: atan2(dot(sub(p, middle), v), dot(sub(p, middle), u)))


def merged_faces(corners: Iterable[Vector], triangles: Iterable[tuple[int, int, int]]) -> list[Face]:
    """A closed mesh's triangles merged to flat faces; corners a hair apart count as one."""
    points: list[Vector] = []
    cells: dict[int, list[int]] = {}
    canonical = [_snapped(points, cells, corner) for corner in corners]
    renamed = [(canonical[a], canonical[b], canonical[c]) for a, b, c in triangles]
    return _merged(points, [t for t in renamed if len(set(t)) == 3])


def _snapped(points: list[Vector], cells: dict[int, list[int]], point: Vector) -> int:
    """The number of a corner; those that the kernel leaves a hair apart are one.

    ``cells`` files the corners by their place along a skew line, where such neighbours lie in one cell or the
    next.
    """
    x, y, z = point
    cell = floor((x + 0.61 * y + 0.37 * z) / (2 * SLIVER_MM))
    for i in (j for k in (cell - 1, cell, cell + 1) for j in cells.get(k, ())):
        p = points[i]
        if abs(p[0] - x) < SLIVER_MM and abs(p[1] - y) < SLIVER_MM and abs(p[2] - z) < SLIVER_MM:
            return i
    points.append(point)
    cells.setdefault(cell, []).append(len(points) - 1)
    return len(points) - 1


def _merged(points: Sequence[Vector], triangles: Sequence[tuple[int, int, int]]) -> list[Face]:
    normals = [doubled_area((points[a], points[b], points[c])) for a, b, c in triangles]
    sizes = [sqrt(x * x + y * y + z * z) for x, y, z in normals]
    owner: dict[tuple[int, int], tuple[int, int]] = {}       # of an edge: its triangle, and the third corner
    for i, (a, b, c) in enumerate(triangles):
        owner[a, b], owner[b, c], owner[c, a] = (i, c), (i, a), (i, b)
    seen: set[int] = set()
    faces = []
    for start in sorted(range(len(triangles)), key=lambda i: -sizes[i]):
        if start in seen or sizes[start] < 1e-6:
            continue
        nx, ny, nz = normal = scaled(normals[start], 1 / sizes[start])
        offset = dot(normal, points[triangles[start][0]])
        seen.add(start)
        patch, queue = [start], [start]
        while queue:
            a, b, c = triangles[queue.pop()]
            for edge in ((b, a), (c, b), (a, c)):
                other, third = owner.get(edge, (start, 0))
                if other in seen:
                    continue
                (mx, my, mz), (x, y, z) = normals[other], points[third]
                if (mx * nx + my * ny + mz * nz >= (1 - FLAT) * sizes[other] - 1e-6
                        and abs(nx * x + ny * y + nz * z - offset) < 1e-4):
                    seen.add(other)
                    patch.append(other)
                    queue.append(other)
        made = _outlined(points, [triangles[i] for i in patch])
        if made is not None:
            faces.append(made)
    return faces


def _outlined(points: Sequence[Vector], patch: Sequence[tuple[int, int, int]]) -> Face | None:
    edges = {edge for a, b, c in patch for edge in ((a, b), (b, c), (c, a))}
    onward: dict[int, list[int]] = {}
    for a, b in sorted(edge for edge in edges if edge[::-1] not in edges):
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
    ax, ay, az = loop[-1]
    for i, p in enumerate(loop):
        px, py, pz = p
        cx, cy, cz = loop[i + 1 - len(loop)]
        ux, uy, uz, vx, vy, vz = px - ax, py - ay, pz - az, cx - px, cy - py, cz - pz
        x, y, z = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
        sides = (ux * ux + uy * uy + uz * uz) * (vx * vx + vy * vy + vz * vz)
        if sqrt(x * x + y * y + z * z) > 1e-6 * max(sqrt(sides), 1e-9):
            kept.append(p)
        ax, ay, az = px, py, pz
    return kept
