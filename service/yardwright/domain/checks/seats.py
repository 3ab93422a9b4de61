"""Where people sit on a piece, as its solids tell: seats are found, whatever the template asks of them.

Boards that a seat load, attached seats or a tip over with a seat names, less those that only carry others
named with them, and boards level with these. Where none is named: level boards that one may sit down on,
10 to 24 in up with nothing close above, 8 in deep together or more, no floor under
earth. Boards side by side are one seat; it has room for whole people along its longer way, one at least. mm.
Source: geometry; heights data/limits/people.toml; the least depth and the room above are judgement.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Sequence
from dataclasses import dataclass

from ..piece.model import Member, Vector
from ..template.stands import IN_GROUND, ON_WALL
from .footprint import Bounds, bounds
from .rule import Case
from .touches import UP, corners, dot, ground, reach

SOIL = ("soil floor", "soil sides", "soil weight")
FLAT = 0.9999                # cosine: faces this near to parallel lie in one plane
ALIKE_MM = 3.0               # tops this near to the seat's are of the seat; judgement
_LEVEL = 0.9                 # cosine with upright: one may sit down on it
_BESIDE_MM = 50.0            # boards nearer than this side by side are one seat; judgement
_DEEP_MM = 203.2             # 8 in: what is narrower is an edge, no seat; judgement
_ABOVE_MM = 300.0            # room that a body needs above; judgement
_RIM_MM = 50.0               # walls rise this far above a floor that earth lies on; judgement
_RISES = 0.7                 # cosine: a contact looking this far up carries what lies on it


@dataclass(frozen=True, slots=True)
class Seat:
    """Boards side by side that people sit on; ``length_mm`` the longer way along them."""

    members: tuple[Member, ...]
    length_mm: float

    def people(self, pitch_mm: float) -> int:
        """Whole people side by side, one at least."""
        return max(1, people_along(self.length_mm, pitch_mm))


def people_along(length_mm: float, pitch_mm: float) -> int:
    """Whole people side by side; what is short by less than a millimetre is long enough."""
    return int((length_mm + 1.0) // pitch_mm)


def sat_on(case: Case) -> tuple[Member, ...]:
    """The boards of every seat."""
    named = named_seats(case)
    return (*named, *level_with(case, named)) if named else found_seats(case)


def seats(case: Case) -> tuple[Seat, ...]:
    """The boards of every seat, those side by side and alike in their run together."""
    made = []
    for group in _rows(sat_on(case)):
        x0, y0, _, x1, y1, _ = bounds(group)
        made.append(Seat(tuple(group), max(x1 - x0, y1 - y0)))
    return tuple(made)


def named_seats(case: Case) -> tuple[Member, ...]:
    """Boards that a check of the template says people sit on."""
    keys = [key for c in case.piece.checks for key in c.members
            if c.rule.rule in ("seat load", "attached seats", "seat")
            or (c.rule.rule == "tip over" and c.values.get("seat"))]
    return tuple(case.member(key) for key in without_carriers(case, tuple(dict.fromkeys(keys))))


def without_carriers(case: Case, keys: Sequence[str]) -> tuple[str, ...]:
    """Of boards named together those that do not carry others of them."""
    named = frozenset(keys)
    return tuple(key for key in keys if not any(
        t.other in named and t.normal[2] > _RISES for t in case.touches.get(key, ())))


def level_with(case: Case, judged: Iterable[Member]) -> Iterator[Member]:
    """Boards whose upper face lies in that of some others, and are none of them."""
    judged = tuple(judged)
    faces = {_face(m) for m in judged}
    known = {m.key for m in judged}
    others = ((m, *_face(m)) for m in case.piece.members if m.key not in known and m.material == "board")
    return (m for m, up, top in others
            if any(abs(top - high) < ALIKE_MM and dot(up, face) > FLAT for face, high in faces))


def _face(member: Member) -> tuple[Vector, float]:
    """The upward direction square to a board's face, and how far along it the face lies, to the mm."""
    up = face_up(member)
    return up, round(reach(member, up)[1])


def found_seats(case: Case, known: Container[str] = ()) -> tuple[Member, ...]:
    """Level boards that one may sit down on, less those known and the floor of a room that earth fills."""
    found = level_tops(case, case.limit("people.seat_height.child_least"),
                       case.limit("people.seat_height.climb"), known)
    filled = any(c.rule.rule in SOIL or c.rule.words.get("kind") == "planter" for c in case.piece.checks)
    walls = [bounds([m]) for m in case.piece.members if m.material == "board"] if filled else []
    return tuple(m for m in found if not (filled and _walled(bounds([m]), walls)))


def _walled(board: Bounds, walls: Sequence[Bounds]) -> bool:
    """Whether boards rise above it on all four sides of its middle."""
    middle = [(board[k] + board[k + 3]) / 2 for k in (0, 1)]
    over = [w for w in walls if w[2] <= board[5] + _RIM_MM < w[5]]
    return all(any(w[1 - k] < middle[1 - k] < w[4 - k] and ((w[k] + w[k + 3]) / 2 - middle[k]) * way > 0
                   for w in over) for k in (0, 1) for way in (-1.0, 1.0))


def level_tops(case: Case, low_mm: float, high_mm: float, known: Container[str] = ()) -> tuple[Member, ...]:
    """Level boards between two heights above the ground with nothing close above, 8 in deep together."""
    # Hung, its heights count from the ground itself, not from its own lowest board.
    floor = 0.0 if case.piece.template.stands == ON_WALL else ground(case.piece)
    solid = [m for m in case.piece.members if m.material != "roll"]
    level = [m for m in solid if m.key not in known and abs(m.frame.thick[2]) > _LEVEL
             and low_mm <= reach(m, UP)[1] - floor <= high_mm]
    boxes = [bounds([m]) for m in solid]
    open_ = [m for m in level if not _covered(bounds([m]), boxes)]
    return tuple(m for group in _rows(open_) if _deep(group) for m in group)


def face_up(member: Member) -> Vector:
    """Square to a board's face, upward."""
    x, y, z = (round(v, 6) for v in member.frame.thick)
    return (x, y, z) if z >= 0 else (-x, -y, -z)


def top_mm(case: Case, members: Iterable[Member]) -> tuple[float, float]:
    """From..to the heights above the ground that the boards' upper faces reach, lowest and highest."""
    floor = 0.0 if case.piece.template.stands == IN_GROUND else min(0.0, case.piece.closed.low[2])
    tops = [z - floor for m in members for z in _upper(m)]
    return min(tops), max(tops)


def _upper(member: Member) -> tuple[float, float]:
    """The lowest and highest corner of the upper half of a board's own thickness."""
    up = face_up(member)
    top = reach(member, up)[1]
    heights = [c[2] for c in corners(member) if dot(c, up) > top - ALIKE_MM]
    return min(heights), max(heights)


def _rows(members: Sequence[Member]) -> Iterator[list[Member]]:
    waiting = [(m, bounds([m])) for m in members]
    while waiting:
        group = [waiting.pop(0)]
        for one in group:                # grows as it is walked, neighbour by neighbour
            beside = [other for other in waiting if _beside(one, other)]
            near = {m.key for m, _ in beside}
            waiting = [other for other in waiting if other[0].key not in near]
            group += beside
        yield [m for m, _ in group]


def _deep(group: Sequence[Member]) -> bool:
    x0, y0, _, x1, y1, _ = bounds(group)
    return min(x1 - x0, y1 - y0) >= _DEEP_MM


def _beside(one: tuple[Member, Bounds], other: tuple[Member, Bounds]) -> bool:
    """Near each other, at one height, and parallel."""
    (m, a), (n, b) = one, other
    return (all(a[k] - _BESIDE_MM < b[k + 3] and b[k] - _BESIDE_MM < a[k + 3] for k in (1, 0, 2))
            and abs(dot(m.frame.along, n.frame.along)) > FLAT)


def _covered(board: Bounds, boxes: Sequence[Bounds]) -> bool:
    """Whether something lies over its middle, nearer than a body needs."""
    x, y = (board[0] + board[3]) / 2, (board[1] + board[4]) / 2
    return any(b[0] < x < b[3] and b[1] < y < b[4] and board[5] - 0.5 <= b[2] < board[5] + _ABOVE_MM
               for b in boxes)
