"""Gaps between boards that lie side by side, as the solids show them. mm.

Each board and its nearest neighbour across its width: parallel, in one plane, and beside each other over half
of the shorter at least. Room of more than twice the wider board is no gap between boards: there something
else begins, as between the two seats of a table. Gaps that another board fills or closes along their length
count only where all are so.
Blanks are taken by their full width. Source: geometry.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from ..piece.model import Member, Vector
from .touches import dot

Span = tuple[float, float]

_PARALLEL = 0.9999
_BESIDE = 0.5
_TOUCHING_MM = -0.1
_WIDTHS = 2.0
_CLOSE_MM = 1.0
_ALONG = 0.8


def gaps_between(every: Iterable[Member], named: Iterable[Member]) -> tuple[float, float] | None:
    """The least and the greatest gap between the named of all members; None where no two lie side by side."""
    solid = [m for m in every if m.material != "roll"]
    gaps = [found for group in _parallel([m for m in named if m.material == "board"])
            for found in _of_group(group, solid)]
    kept = [gap for gap, filled in gaps if not filled] or [gap for gap, _ in gaps]
    return (min(kept), max(kept)) if kept else None


def _parallel(boards: Sequence[Member]) -> list[list[Member]]:
    """Boards whose length and face lie alike, together."""
    groups: list[list[Member]] = []
    for board in boards:
        frame = board.frame
        like = next((g for g in groups if abs(dot(g[0].frame.along, frame.along)) > _PARALLEL
                     and abs(dot(g[0].frame.thick, frame.thick)) > _PARALLEL), None)
        if like is None:
            groups.append([board])
        else:
            like.append(board)
    return groups


def _of_group(group: Sequence[Member], solid: Sequence[Member]) -> Iterator[tuple[float, bool]]:
    """(gap to the nearest neighbour on the far side, whether something fills it) of each board with one."""
    axes = (group[0].frame.wide, group[0].frame.along, group[0].frame.thick)
    boards = [(m.width_mm, _span(m, axes[0]), _span(m, axes[1]), _span(m, axes[2])) for m in group]
    around: list[tuple[Span, Span, Span]] = []
    for width, wide, along, thick in boards:
        near = [other[0] - wide[1] for breadth, other, far, deep in boards
                if _TOUCHING_MM < other[0] - wide[1] <= _WIDTHS * max(width, breadth)
                and _shared(thick, deep) > 0.0 and _shared(along, far) > _BESIDE]
        if near:
            around = around or [(_span(m, axes[0]), _span(m, axes[1]), _span(m, axes[2])) for m in solid]
            gap = max(0.0, min(near))
            yield gap, any(_fills(wide[1] + gap / 2, along, thick, other) for other in around)


def _fills(middle: float, along: Span, thick: Span, other: tuple[Span, Span, Span]) -> bool:
    """Whether a board along the gap lies in it, or close over or under it."""
    (a, b), far, (c, d) = other
    return (a < middle < b and c <= thick[1] + _CLOSE_MM and d >= thick[0] - _CLOSE_MM
            and b - a < far[1] - far[0] and _shared(along, far) > _ALONG)


def _span(member: Member, axis: Vector) -> Span:
    """From..to of the blank along an axis."""
    frame = member.frame
    at = dot(frame.origin, axis)
    ways = [dot(frame.along, axis) * member.length_mm, dot(frame.wide, axis) * member.width_mm,
            dot(frame.thick, axis) * member.thickness_mm]
    return at + sum(min(0.0, w) for w in ways), at + sum(max(0.0, w) for w in ways)


def _shared(one: Span, other: Span) -> float:
    """How much of the shorter of two both take, 0 to 1."""
    (a, b), (c, d) = one, other
    return max(0.0, min(b, d) - max(a, c)) / max(1e-9, min(b - a, d - c))
