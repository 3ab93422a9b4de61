"""Where each member shows best in a picture: the place farthest from everything else that is seen.

The picture is scanned on a grid; in every cell the nearest face wins. Coarse on purpose: it only chooses
where a leader ends, and a member too narrow for the grid is left to another view. Near its edge a place is
looked at exactly, so that no leader ends on a neighbour.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, floor

from .model import Point
from .projection import Face, Ring, View, project

_CELLS = 150                 # along the longer side of the picture
_NOBODY = -1
_SURE = 3                    # so many cells from any other the grid is trusted; nearer, all around is tried
_AROUND = ((0.0, 0.0), (0.2, 0.0), (-0.2, 0.0), (0.0, 0.2), (0.0, -0.2))      # in cells


def best_places(members: Sequence[Sequence[Ring]], view: View) -> dict[int, tuple[Point, float]]:
    """By number of the member: where it is widest in the picture, and how far its edge is from there."""
    faces, _ = project(members, view)
    if not faces:
        return {}
    low = (min(p[0] for f in faces for p in f.points), min(p[1] for f in faces for p in f.points))
    high = (max(p[0] for f in faces for p in f.points), max(p[1] for f in faces for p in f.points))
    cell = max(high[0] - low[0], high[1] - low[1], 1e-6) / _CELLS
    wide, tall = ceil((high[0] - low[0]) / cell) + 1, ceil((high[1] - low[1]) / cell) + 1
    owner = _scanned(faces, low, cell, wide, tall)
    boxed = [(min(p[0] for p in f.points), max(p[0] for p in f.points), min(p[1] for p in f.points),
              max(p[1] for p in f.points), f) for f in faces]
    best: dict[int, tuple[Point, float]] = {}
    for index, far in enumerate(_inside(owner, wide, tall)):
        member = owner[index]
        if member != _NOBODY and (far - 0.5) * cell > best.get(member, ((0, 0), 0.0))[1]:
            row, column = divmod(index, wide)
            at = (low[0] + column * cell, low[1] + row * cell)
            if far >= _SURE or all(_nearest(boxed, (at[0] + dx * cell, at[1] + dy * cell)) == member
                                   for dx, dy in _AROUND):
                best[member] = (at, (far - 0.5) * cell)
    return best


def _nearest(boxed: Sequence[tuple[float, float, float, float, Face]], at: Point) -> int:
    """Whose face is seen at a place, exactly."""
    x, y = at
    found, deep = _NOBODY, float("inf")
    for x0, x1, y0, y1, face in boxed:
        if x0 <= x <= x1 and y0 <= y <= y1:
            a, b, c = face.plane
            if a * x + b * y + c < deep and _holds(face.points, x, y):
                found, deep = face.member, a * x + b * y + c
    return found


def _holds(points: Sequence[Point], x: float, y: float) -> bool:
    """Even-odd rule."""
    odd = False
    for (x0, y0), (x1, y1) in zip(points, (*points[1:], points[0]), strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (x1 - x0) * (y - y0) / (y1 - y0):
            odd = not odd
    return odd


def _scanned(faces: Sequence[Face], low: Point, cell: float, wide: int, tall: int) -> list[int]:
    """Which member is seen in each cell."""
    owner, depth = [_NOBODY] * (wide * tall), [float("inf")] * (wide * tall)
    for face in faces:
        a, b, c = face.plane
        for row, first, last in _spans(face, low, cell, wide, tall):
            y = low[1] + row * cell
            deep = a * (low[0] + first * cell) + b * y + c
            start = row * wide
            for index in range(start + first, start + last + 1):
                if deep < depth[index]:
                    depth[index], owner[index] = deep, face.member
                deep += a * cell
    return owner


def _spans(face: Face, low: Point, cell: float, wide: int, tall: int) -> Iterator[tuple[int, int, int]]:
    """(row, first column, last column) of the cells whose middle lies inside the face; even-odd rule."""
    points = face.points
    rows = (max(0, ceil((min(p[1] for p in points) - low[1]) / cell)),
            min(tall - 1, floor((max(p[1] for p in points) - low[1]) / cell)))
    for row in range(rows[0], rows[1] + 1):
        y = low[1] + row * cell
        meets = sorted(x0 + (x1 - x0) * (y - y0) / (y1 - y0)
                       for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True)
                       if (y0 <= y) != (y1 <= y))
        for left, right in zip(meets[::2], meets[1::2], strict=False):
            first, last = ceil((left - low[0]) / cell), floor((right - low[0]) / cell)
            if first <= last:
                yield row, max(0, first), min(wide - 1, last)


def _inside(owner: Sequence[int], wide: int, tall: int) -> list[int]:
    """How many cells each is from one of another owner or the rim, counted along rows and columns."""
    far = [0] * len(owner)
    for order, steps in ((range(len(owner)), (-1, -wide)), (range(len(owner) - 1, -1, -1), (1, wide))):
        for index in order:
            column, row = index % wide, index // wide
            rim = column in (0, wide - 1) or row in (0, tall - 1)
            near = 1 if rim else 1 + min(far[index + s] if owner[index + s] == owner[index] else 0
                                         for s in steps)
            far[index] = near if steps[0] < 0 else min(far[index], near)
    return far
