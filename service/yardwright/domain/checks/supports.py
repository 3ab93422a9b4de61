"""What carries a board: found in the contacts, and followed up from the ground.

A member stands when it reaches the ground or is an upright (of a piece hung on a wall: when it lies against
it); then, round by round, when it lies on or is held by standing members along its length or in two places,
or hangs by fasteners under loaded boards that lie along their whole length on something standing. A member is
carried only by members that stand without it: those of an earlier round, or those found standing as if it
were not there. A batten that hangs under free boards spreads load but carries nothing.

"Down" is the way the load pushes: down for people and soil weight, outward for soil against a side, back
for a back leaned on. Pushed sideways, an upright stands when something running that way ties it.
Lengths in mm along the board from its start. Supports are taken at the middle of their patch (long patches:
every 150 mm at most), which makes spans a little long: on the safe side.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from ..piece.model import Member, Vector
from .held_up import is_hung, rests
from .rule import Case
from .touches import UP, Touch, along, dot

DOWN: Vector = (0.0, 0.0, -1.0)
_FACING = 0.7                # cosine: a contact looking this far down bears
_LONG_PATCH_MM = 100.0       # a longer contact carries all along
_EVERY_MM = 150.0
_LAP_MM = 254.0             # two 6 in boards crossing, one of them raked
_IN_MM = 12.7                # a long patch begins to carry half an inch inside its end
_APART_MM = 25.0             # nearer supports are one
_ALONG_SHARE = 0.6           # lying on something over this share of the length


@dataclass(frozen=True, slots=True)
class Support:
    """One place that holds a member up; ``hung``: by fasteners, not by lying on it."""

    key: str
    at_mm: float
    fasteners: float
    hung: bool


@dataclass(frozen=True, slots=True)
class Footing:
    """Who stands under a load: the loaded boards, the way it pushes, and the round each member stood in."""

    loaded: frozenset[str]
    push: Vector
    stood: Mapping[str, int]
    lying: frozenset[str]            # loaded boards that lie along something standing
    hanging: frozenset[str]          # members that only hang under those


def footing(case: Case, loaded: frozenset[str], push: Vector = DOWN, without: str = "") -> Footing:
    """Stands members up, round by round, until no more stand; as if the member ``without`` were not there."""
    free = {m.key: m for m in case.piece.members
            if m.key not in loaded and m.key != without and m.material != "roll"}
    stood = dict.fromkeys(_on_the_ground(case, free) if push == DOWN else _tied(case, free, push), 0)
    hanging: set[str] = set()
    for number in range(1, len(free) + 1):
        now = Footing(loaded, push, stood, _lying(case, loaded, push, stood), frozenset(hanging))
        held = {k: supports(case, m, now) for k, m in free.items() if k not in stood}
        rising = {k for k, s in held.items() if len(places(x for x in s if x.key not in loaded)) >= 2}
        if not rising:
            rising = {k for k, s in held.items() if len(places(s)) >= 2}
            hanging |= rising
        if not rising:
            return now
        stood = {**stood, **dict.fromkeys(rising, number)}
    return Footing(loaded, push, stood, _lying(case, loaded, push, stood), frozenset(hanging))


def supports(case: Case, member: Member, on: Footing) -> tuple[Support, ...]:
    """The supports of a member in rising order: what it lies on or is held by, if that stood before it."""
    found: list[Support] = []
    for touch, bears in carrying(case, member, on):
        found += patch(member, touch, hung=not bears)
    return tuple(sorted(found, key=lambda s: s.at_mm))


def carrying(case: Case, member: Member, on: Footing) -> Iterator[tuple[Touch, bool]]:
    """The touches that carry a member, and whether it lies on them (else a joint holds it there)."""
    before = on.stood.get(member.key, len(case.piece.members) + 1)
    for touch in case.touches.get(member.key, ()):
        bears = dot(touch.normal, on.push) > _FACING
        if touch.other in on.loaded:
            may_hang = member.key not in on.stood or member.key in on.hanging
            carries = (may_hang and member.key not in on.loaded and touch.held and not bears
                       and touch.other in on.lying)
        else:
            carries = ((bears or touch.held) and on.stood.get(touch.other, before) < before
                       and not (member.key in on.lying and touch.other in on.hanging))
        if carries:
            yield touch, bears


def places(found: Iterable[Support]) -> tuple[float, ...]:
    """Where the supports are, those nearer than an inch taken as one."""
    kept: list[float] = []
    for at in sorted(s.at_mm for s in found):
        if not kept or at - kept[-1] > _APART_MM:
            kept.append(at)
    return tuple(kept)


def lies_along(case: Case, member: Member, on: Footing) -> bool:
    """Whether the member lies on something standing along most of its length."""
    return _lies(case, member, on.push, on.stood, on.stood.get(member.key, len(case.piece.members) + 1))


def _lying(case: Case, loaded: frozenset[str], push: Vector, stood: Mapping[str, int]) -> frozenset[str]:
    last = len(case.piece.members) + 1
    return frozenset(k for k in loaded if _lies(case, case.member(k), push, stood, last))


def _lies(case: Case, member: Member, push: Vector, stood: Mapping[str, int], before: int) -> bool:
    lying = 0.0
    for touch in case.touches.get(member.key, ()):
        if dot(touch.normal, push) > _FACING and stood.get(touch.other, before) < before:
            low, high = along(member, touch)
            if high - low > _LONG_PATCH_MM:
                lying += min(high, member.length_mm) - max(low, 0.0)
    return lying >= _ALONG_SHARE * member.length_mm


def patch(member: Member, touch: Touch, hung: bool) -> list[Support]:
    """A support in the middle of a short patch, several along a long one; a lap's fasteners (up to 10 in) in
    two rows near its ends."""
    low, high = along(member, touch)
    low, high = max(low, 0.0), min(high, member.length_mm)
    if high - low <= _LONG_PATCH_MM:
        return [Support(touch.other, (low + high) / 2, touch.fasteners, hung)]
    inner = high - low - 2 * _IN_MM
    count = max(2, int(inner // _EVERY_MM) + 2)
    if hung and touch.fasteners > 0 and high - low <= _LAP_MM:
        count = 2
    return [Support(touch.other, low + _IN_MM + inner * n / (count - 1), touch.fasteners / count, hung)
            for n in range(count)]


def _on_the_ground(case: Case, free: Mapping[str, Member]) -> list[str]:
    hung = is_hung(case)
    return [k for k, m in free.items()
            if rests(case, m) or (not hung and abs(dot(m.frame.along, UP)) > _FACING)]


def _tied(case: Case, free: Mapping[str, Member], push: Vector) -> set[str]:
    """Uprights that a joint holds to something running the way of the push, themselves or through an upright
    that they are joined to (the other strip of a corner leg)."""
    uprights = [k for k, m in free.items() if abs(dot(m.frame.along, UP)) > _FACING]
    held = {k: [t.other for t in case.touches.get(k, ()) if t.held] for k in uprights}
    tied = {k for k in uprights if any(abs(dot(case.member(o).frame.along, push)) > _FACING for o in held[k])}
    waiting = list(tied)
    while waiting:
        joined = [k for k in held[waiting.pop()] if k in held and k not in tied]
        tied.update(joined)
        waiting += joined
    return tied
