"""Gaps between boards that lie side by side, as the solids show them. mm.

Each board and its nearest neighbour across its width: parallel, in one plane, and beside each other over half
of the shorter at least. Room of more than twice the wider board is no gap between boards: there something
else begins, as between the two seats of a table. Gaps that another board fills or closes along their length
count only where all are so.
Blanks are taken by their full width. Source: geometry.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..piece.model import Member, Vector
from .touches import dot

_PARALLEL = 0.9999
_BESIDE = 0.5
_TOUCHING_MM = -0.1
_WIDTHS = 2.0
_CLOSE_MM = 1.0
_ALONG = 0.8


def gaps_between(every: Iterable[Member], named: Iterable[Member]) -> tuple[float, float] | None:
    """The least and the greatest gap between the named of all members; None where no two lie side by side."""
    boards, solid = [m for m in named if m.material == "board"], [m for m in every if m.material != "roll"]
    nearest = [(board, min(_gaps(board, boards), default=None)) for board in boards]
    gaps = [(board, gap) for board, gap in nearest if gap is not None]
    found = [gap for board, gap in gaps if not _filled(board, gap, solid)] or [gap for _, gap in gaps]
    return (min(found), max(found)) if found else None


def _filled(board: Member, gap: float, solid: Iterable[Member]) -> bool:
    """Whether a board along the gap on the far side of this one lies in it, or close over or under it."""
    frame = board.frame
    middle, (low, high) = _span(board, frame.wide)[1] + gap / 2, _span(board, frame.thick)
    for other in solid:
        (a, b), (c, d) = _span(other, frame.wide), _span(other, frame.thick)
        if (a < middle < b and c <= high + _CLOSE_MM and d >= low - _CLOSE_MM
                and _shared(board, other, frame.along) > _ALONG
                and b - a < _span(other, frame.along)[1] - _span(other, frame.along)[0]):
            return True
    return False


def _gaps(board: Member, others: Iterable[Member]) -> Iterator[float]:
    """Rooms on the far side of a board, up to each that lies there."""
    frame = board.frame
    for other in others:
        if other.key == board.key or not all(abs(dot(ours, theirs)) > _PARALLEL for ours, theirs in (
                (frame.along, other.frame.along), (frame.thick, other.frame.thick))):
            continue
        if not (_shared(board, other, frame.thick) > 0.0 and _shared(board, other, frame.along) > _BESIDE):
            continue
        gap = _span(other, frame.wide)[0] - _span(board, frame.wide)[1]
        if _TOUCHING_MM < gap <= _WIDTHS * max(board.width_mm, other.width_mm):
            yield max(0.0, gap)


def _span(member: Member, axis: Vector) -> tuple[float, float]:
    """From..to of the blank along an axis of its neighbour."""
    frame = member.frame
    at = dot(frame.origin, axis)
    ways = [dot(frame.along, axis) * member.length_mm, dot(frame.wide, axis) * member.width_mm,
            dot(frame.thick, axis) * member.thickness_mm]
    return at + sum(min(0.0, w) for w in ways), at + sum(max(0.0, w) for w in ways)


def _shared(one: Member, other: Member, axis: Vector) -> float:
    """How much of the shorter of two both take along an axis, 0 to 1."""
    (a, b), (c, d) = _span(one, axis), _span(other, axis)
    return max(0.0, min(b, d) - max(a, c)) / max(1e-9, min(b - a, d - c))
