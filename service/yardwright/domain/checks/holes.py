"""Closed openings of a piece: where members leave a way through that is shut all round, and how wide it is.

Looked for in slabs of the piece, square to each axis and to boards that lean: what reaches into the slab is
drawn as rectangles along the slab's own directions, and what is free but cut off from the outside is an
opening, if a straight way leads to it from one side and it goes on beyond. Its width is the side of the
largest square that goes in. mm. Limits of validity: members that lie askew in a slab count as the box around
them, which makes an opening smaller; V-shaped and half-open ones, and what the ground or a wall would close,
are not seen.
Source: geometry.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..piece.model import Member, Vector
from .touches import apart, corners, dot

_SQUARE = 0.995              # cosine: a direction this near to an axis is that axis
_AXES: tuple[Vector, ...] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
_LEANING = 3                 # directions of leaning boards looked along at most
_LEAST_MM = 1.0              # nearer than this two boards meet

_CELLS = 400_000             # looked at in one piece at most

Span = tuple[float, float]
Extent = tuple[Span, Span, Span]             # along the slab's normal and its two directions


@dataclass(frozen=True, slots=True)
class Opening:
    """A closed opening: how wide a square goes in, how high its lower edge is, and what is around it.

    ``plan``: (x, y) of its middle where it is looked into from above, else None.
    """

    wide_mm: float
    low_mm: float
    beside: tuple[str, ...]
    plan: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Probe:
    """What is looked for: openings between two widths, in slabs so thick, free so deep beyond them."""

    least_mm: float
    most_mm: float
    slab_mm: float
    deep_mm: float


class TooMany(Exception):
    """More members than can be looked through."""


def openings(members: Sequence[Member], probe: Probe) -> Iterator[Opening]:
    """The closed openings of the probe's widths; TooMany for a piece of very many members."""
    cells = 0
    for axes in _views(members):
        extents = [(_span(m, axes[0]), _span(m, axes[1]), _span(m, axes[2])) for m in members]
        seen: set[tuple[int, ...]] = set()
        for at in _planes(extents, probe.slab_mm):
            low, high = at - probe.slab_mm / 2, at + probe.slab_mm / 2
            inside = tuple(n for n, e in enumerate(extents) if e[0][0] < high and e[0][1] > low)
            if len(inside) > 1 and inside not in seen:
                seen.add(inside)
                cells += (2 * len(inside)) ** 2
                if cells > _CELLS:
                    raise TooMany
                yield from _in_slab(members, extents, axes, (low, high), inside, probe)


def _views(members: Sequence[Member]) -> list[tuple[Vector, Vector, Vector]]:
    """(normal, two directions) to look along: the three axes, and square to the faces of leaning boards."""
    x, y, z = _AXES
    found = {x: (x, y, z), y: (y, x, z), z: (z, x, y)}
    for m in members:
        normal = m.frame.thick
        near = any(abs(dot(normal, known)) > _SQUARE for known in found)
        if not near and m.material == "board" and len(found) < 3 + _LEANING:
            found[normal] = (normal, m.frame.along, m.frame.wide)
    return list(found.values())


def _span(member: Member, axis: Vector) -> Span:
    places = [dot(c, axis) for c in corners(member)]
    return min(places), max(places)


def _planes(extents: Sequence[Extent], slab_mm: float) -> list[float]:
    """The middles of what is no longer than two slabs along the normal, half a slab apart at least."""
    middles = sorted((e[0][0] + e[0][1]) / 2 for e in extents if e[0][1] - e[0][0] <= 4 * slab_mm)
    kept: list[float] = []
    for at in middles:
        if not kept or at - kept[-1] > slab_mm / 2:
            kept.append(at)
    return kept


def _in_slab(members: Sequence[Member], extents: Sequence[Extent], axes: tuple[Vector, Vector, Vector],
             slab: Span, inside: Sequence[int], probe: Probe) -> Iterator[Opening]:
    across, up = (apart([e for n in inside for e in extents[n][k]], _LEAST_MM) for k in (1, 2))
    for cells in _closed(*_filled([extents[n] for n in inside], across, up)):
        if min(_size(across, [i for _, i in cells]), _size(up, [j for j, _ in cells])) <= probe.least_mm:
            continue
        left, right, low, high = _largest(cells, across, up)
        wide = min(right - left, high - low)
        if probe.least_mm < wide < probe.most_mm and _through(extents, slab, (left, right), (low, high),
                                                              probe.deep_mm):
            beside = [members[n].name for n in inside if _meets(extents[n], (left, right), (low, high))]
            floor = min(_height(axes, sum(slab) / 2, a, b) for a in (left, right) for b in (low, high))
            plan = ((left + right) / 2, (low + high) / 2) if axes[0] == _AXES[2] else None
            yield Opening(wide, floor, tuple(dict.fromkeys(beside)), plan)


def _filled(extents: Sequence[Extent], across: Sequence[float], up: Sequence[float]) -> tuple[bytearray, int]:
    """Which cells between the lines something fills, row by row with a rim of free ones; a row's length."""
    wide = len(across) + 1
    grid = bytearray(wide * (len(up) + 1))
    for _, (left, right), (low, high) in extents:
        first, last = bisect_left(across, left - _LEAST_MM) + 1, bisect_left(across, right - _LEAST_MM) + 1
        for row in range(bisect_left(up, low - _LEAST_MM) + 1, bisect_left(up, high - _LEAST_MM) + 1):
            grid[row * wide + first:row * wide + last] = b"\1" * (last - first)
    return grid, wide


def _closed(grid: bytearray, wide: int) -> Iterator[set[tuple[int, int]]]:
    """The free cells that hang together and do not reach the rim, as (row, column) counted without it."""
    _flood(grid, wide, 0)
    at = grid.find(0)
    while at >= 0:
        yield {(cell // wide - 1, cell % wide - 1) for cell in _flood(grid, wide, at)}
        at = grid.find(0, at)


def _flood(grid: bytearray, wide: int, start: int) -> list[int]:
    """Fills the free cells that hang together with one, and gives them."""
    grid[start] = 1
    found, size = [start], len(grid)
    for at in found:                             # grows while it is walked
        for beside in (at + 1, at - 1, at + wide, at - wide):
            if 0 <= beside < size and not grid[beside]:
                grid[beside] = 1
                found.append(beside)
    return found


def _size(lines: Sequence[float], cells: Sequence[int]) -> float:
    return lines[max(cells) + 1] - lines[min(cells)]


def _largest(cells: set[tuple[int, int]], across: Sequence[float], up: Sequence[float]
             ) -> tuple[float, float, float, float]:
    """(left, right, low, high) of the free rectangle whose lesser side is greatest."""
    best, size, last = (0.0, 0.0, 0.0, 0.0), -1.0, max(i for _, i in cells) + 1
    for j, i in cells:
        reach, a = last, j
        while (a, i) in cells:
            end = i
            while end < reach and (a, end) in cells:
                end += 1
            reach, a = min(reach, end), a + 1
            lesser = min(across[reach] - across[i], up[a] - up[j])
            if lesser > size:
                best, size = (across[i], across[reach], up[j], up[a]), lesser
    return best


def _through(extents: Sequence[Extent], slab: Span, across: Span, up: Span, deep: float) -> bool:
    """Whether nothing stands before or behind it so near, and nothing at all on one side."""
    there = [e[0] for e in extents if _overlap(e[1], across) and _overlap(e[2], up)]
    before, behind = ([s for s in there if s[0] >= slab[1]], [s for s in there if s[1] <= slab[0]])
    if len(before) + len(behind) < len(there):
        return False
    near = any(s[0] - slab[1] < deep for s in before) or any(slab[0] - s[1] < deep for s in behind)
    return not near and (not before or not behind)


def _overlap(one: Span, other: Span) -> bool:
    return min(one[1], other[1]) - max(one[0], other[0]) > _LEAST_MM


def _meets(extent: Extent, across: Span, up: Span) -> bool:
    return all(one[0] - 2 * _LEAST_MM <= other[1] and one[1] + 2 * _LEAST_MM >= other[0]
               for one, other in ((extent[1], across), (extent[2], up)))


def _height(axes: tuple[Vector, Vector, Vector], at: float, across: float, up: float) -> float:
    return sum(axis[2] * place for axis, place in zip(axes, (at, across, up), strict=True))
