"""Pale tones on a three-quarter view: tops lightest, sides darkest, nearer faces painted over farther.

The order is found pair by pair: where two faces of different tone share room in the picture, their depths
there say which is painted first. Faces that hide each other in a ring have no such order: of each, what
stands free of the others is painted again. Faces that pass through each other, as a liner does, are painted
farthest first; the lines drawn over the tones are exact in any case.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from heapq import heapify, heappop, heappush
from itertools import pairwise

from .model import Point, Polygon
from .projection import Face, Ring, View, project

_LEAST_MM2 = 0.5             # faces that share less of the picture than this do not matter to each other
_IN_FRONT_MM = 0.05

Pieces = list[tuple[Point, ...]]


def shaded(members: Sequence[Sequence[Ring]], view: View) -> tuple[Polygon, ...]:
    """The faces the viewer sees, filled, in painting order."""
    faces, _ = project(members, view)
    pieces = [_convex_pieces(f) for f in faces]
    pairs = _pairs(faces, pieces)
    first, ring, last = _order(faces, pairs)
    free = [Polygon(part, faces[i].tone) for i in ring for part in _free(i, set(ring), pairs, pieces)]
    return (*(Polygon(faces[i].points, faces[i].tone) for i in (*first, *ring)), *free,
            *(Polygon(faces[i].points, faces[i].tone) for i in last))


def _order(faces: list[Face], pairs: list[tuple[int, int]]) -> tuple[list[int], list[int], list[int]]:
    """Farther before nearer: what may come first, then rings, then what must come last."""
    depth = [sum(f.depths) / len(f.depths) for f in faces]
    first = _peeled(len(faces), pairs, [-d for d in depth])
    rest = [(a, b) for a, b in pairs if a not in first and b not in first]
    last = [i for i in _peeled(len(faces), [(b, a) for a, b in rest], depth) if i not in first]
    ring = sorted(set(range(len(faces))) - first.keys() - set(last), key=lambda i: -depth[i])
    return list(first), ring, last[::-1]


def _free(face: int, ring: set[int], pairs: list[tuple[int, int]], pieces: list[Pieces]) -> Pieces:
    """What no face of its ring hides of a face."""
    left = pieces[face]
    for nearer in (b for a, b in pairs if a == face and b in ring):
        for cover in pieces[nearer]:
            left = [part for piece in left for part in _outside(piece, cover)]
    return left


def _outside(piece: tuple[Point, ...], cover: tuple[Point, ...]) -> Iterator[tuple[Point, ...]]:
    """A convex outline less another, side by side, in convex parts."""
    if not _shared(piece, cover):
        yield piece
        return
    left = list(piece)
    px, py = cover[-1]
    for qx, qy in cover:
        sides = [(qx - px) * (y - py) - (qy - py) * (x - px) for x, y in left]
        out = _cut(left, [-side for side in sides]) if min(sides) < 0.0 else []
        if len(out) > 2 and _area(out) >= _LEAST_MM2:
            yield tuple(out)
        left = _cut(left, sides)
        px, py = qx, qy


def _peeled(count: int, pairs: list[tuple[int, int]], rank: list[float]) -> dict[int, None]:
    """Those that can be put in order, each after all it must follow, by rank where free."""
    after: list[list[int]] = [[] for _ in range(count)]
    waits = [0] * count
    for before, behind in pairs:
        after[before].append(behind)
        waits[behind] += 1
    ready = [(rank[i], i) for i in range(count) if not waits[i]]
    heapify(ready)
    order: dict[int, None] = {}
    while ready:
        i = heappop(ready)[1]
        order[i] = None
        for n in after[i]:
            waits[n] -= 1
            if not waits[n]:
                heappush(ready, (rank[n], n))
    return order


def _pairs(faces: list[Face], pieces: list[Pieces]) -> list[tuple[int, int]]:
    """(farther, nearer) for faces of different tone that share room in the picture."""
    boxes = [(min(p[0] for p in f.points), max(p[0] for p in f.points), min(p[1] for p in f.points),
              max(p[1] for p in f.points), f.tone, f.member, i) for i, f in enumerate(faces)]
    boxes.sort()
    found = []
    for k, (_, x1, y0, y1, tone, member, i) in enumerate(boxes):
        for u0, _, v0, v1, other_tone, other_member, j in boxes[k + 1:]:
            if u0 >= x1:
                break
            if v0 < y1 and v1 > y0 and tone != other_tone and member != other_member:
                lead = _lead(faces[i], faces[j], pieces[i], pieces[j])
                if lead:
                    found.append((j, i) if lead > 0 else (i, j))
    return found


def _lead(one: Face, other: Face, one_pieces: Pieces, other_pieces: Pieces) -> int:
    """1 where ``one`` stands in front, -1 where the other does, 0 where neither does or they cross."""
    for a in one_pieces:
        for b in other_pieces:
            offs = [_depth(other, p) - _depth(one, p) for p in _shared(a, b)]
            if offs and max(offs) > _IN_FRONT_MM and min(offs) > -_IN_FRONT_MM:
                return 1
            if offs and min(offs) < -_IN_FRONT_MM and max(offs) < _IN_FRONT_MM:
                return -1
    return 0


def _depth(face: Face, at: Point) -> float:
    a, b, c = face.plane
    return a * at[0] + b * at[1] + c


def _shared(a: tuple[Point, ...], b: tuple[Point, ...]) -> list[Point]:
    """The corners of what two convex outlines share, cut side by side; none for next to nothing."""
    left = list(a)
    px, py = b[-1]
    for qx, qy in b:
        dx, dy = qx - px, qy - py
        sides = [dx * (y - py) - dy * (x - px) for x, y in left]
        if max(sides) <= 1e-9:
            return []
        if min(sides) < 0.0:
            left = _cut(left, sides)
        px, py = qx, qy
    return left if _area(left) >= _LEAST_MM2 else []


def _cut(ring: list[Point], sides: list[float]) -> list[Point]:
    kept: list[Point] = []
    count = len(ring)
    for i in range(count):
        j = (i + 1) % count
        if sides[i] >= 0.0:
            kept.append(ring[i])
        if (sides[i] < 0.0) != (sides[j] < 0.0):
            t = sides[i] / (sides[i] - sides[j])
            kept.append((ring[i][0] + (ring[j][0] - ring[i][0]) * t,
                         ring[i][1] + (ring[j][1] - ring[i][1]) * t))
    return kept


def _area(ring: list[Point]) -> float:
    x0, y0 = ring[0]
    return sum((p[0] - x0) * (q[1] - y0) - (p[1] - y0) * (q[0] - x0) for p, q in pairwise(ring[1:])) / 2


def _convex_pieces(face: Face) -> Pieces:
    """The outline itself when convex, else triangles cut off ear by ear."""
    if face.convex:
        return [face.points]
    ring = list(face.points)
    found: Pieces = []
    while len(ring) > 3:
        for i in range(len(ring)):
            a, b, c = ring[i - 1], ring[i], ring[(i + 1) % len(ring)]
            if _turn(a, b, c) > 1e-9 and not any(_in_triangle(p, a, b, c) for p in ring):
                found.append((a, b, c))
                del ring[i]
                break
        else:
            return found
    return [*found, tuple(ring)]


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _in_triangle(p: Point, a: Point, b: Point, c: Point) -> bool:
    """Strictly inside: corners that touch do not count."""
    return _turn(a, b, p) > 1e-9 and _turn(b, c, p) > 1e-9 and _turn(c, a, p) > 1e-9
