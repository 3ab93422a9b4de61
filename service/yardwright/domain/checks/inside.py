"""The room that a lid or door shuts: what lies behind it, as far as the members around it. mm, mm³.

From the middle of the opening inward (down, where it lies level) and to each side it goes as far as members
cover two fifths of the section with faces across the way (slats with gaps shut a child in too), or to the
ground; the furthest count, since ledgers and cleats look like walls. Where a side is open the room is none.
Members by the boxes around them, the lid's own thickness counted: on the large side. Source: geometry; the
share is judgement.
"""

from __future__ import annotations

from collections.abc import Sequence

from .footprint import Bounds, bounds
from .rule import Case
from .touches import ground

_COVERED = 0.4               # of a section: what is more open lets a child out
_PLANE_MM = 25.0             # faces this near to each other stand as one
_BEHIND_MM = 10.0            # a stop or seal this far into the opening is no wall

Span = tuple[float, float]


def shut_in_mm3(case: Case, group: str) -> float:
    """The volume behind a moving group, shut; 0 where it is not closed all round."""
    moved = case.piece.group(group)
    others = [bounds([m]) for m in case.piece.members if m.group != group and m.material != "roll"]
    if not moved or not others:
        return 0.0
    lid = bounds(moved)
    k = min(range(3), key=lambda axis: lid[axis + 3] - lid[axis])
    box = case.piece.closed
    inward = 1.0 if k < 2 and (box.low[k] + box.high[k]) / 2 > (lid[k] + lid[k + 3]) / 2 else -1.0
    room: list[Span] = [(lid[axis], lid[axis + 3]) for axis in range(3)]
    start = lid[k + 3] if inward > 0 else lid[k]
    room[k] = (start, start)
    end = _wall(others, room, k, inward, start + inward * _BEHIND_MM, ground(case.piece))
    if end is None:
        return 0.0
    outer = lid[k] if inward > 0 else lid[k + 3]
    room[k] = (min(outer, end), max(outer, end))
    for axis in (a for a in range(3) if a != k):
        middle = (lid[axis] + lid[axis + 3]) / 2
        sides = [_wall(others, room, axis, way, middle, ground(case.piece)) for way in (-1.0, 1.0)]
        if sides[0] is None or sides[1] is None:
            return 0.0
        room[axis] = (sides[0], sides[1])
    return (room[0][1] - room[0][0]) * (room[1][1] - room[1][0]) * (room[2][1] - room[2][0])


def _wall(others: Sequence[Bounds], room: Sequence[Span], k: int, way: float, start: float,
          floor: float) -> float | None:
    """Where along an axis the room ends, from a place on; the ground ends it downward, else None."""
    a, b = (axis for axis in range(3) if axis != k)
    whole = max(1e-9, (room[a][1] - room[a][0]) * (room[b][1] - room[b][0]))
    faces = sorted((way * (o[k] if way > 0 else o[k + 3]), share) for o in others
                   if (share := _shared(o, room, a) * _shared(o, room, b) / whole) > 0.0
                   and way * ((o[k] if way > 0 else o[k + 3]) - start) >= 0.0)
    for at, _ in reversed(faces):
        if sum(share for place, share in faces if at <= place <= at + _PLANE_MM) >= _COVERED:
            return way * at
    return floor if k == 2 and way < 0 else None


def _shared(o: Bounds, room: Sequence[Span], axis: int) -> float:
    low, high = room[axis]
    return max(0.0, min(o[axis + 3], high) - max(o[axis], low))
