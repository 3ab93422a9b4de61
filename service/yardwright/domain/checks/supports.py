"""What carries a board: found in the contacts, and followed down to the ground.

A loaded board lies on what touches its underside. What it lies on counts as a support only when it stands
itself: it reaches the ground, it is an upright, it is held or lies on standing members along its length or
in two places, or it hangs by fasteners under boards that lie along their whole length on something. A batten
that hangs under free boards spreads load but carries nothing, and is no support.

"Down" is the way the load pushes: down for people and soil weight, outward for soil against a side, back
for a back leaned on. Pushed sideways, an upright stands when something running that way ties it.
Lengths in mm along the board from its start. Supports are taken at the middle of their patch (long patches:
every 150 mm at most), which makes spans a little long: on the safe side.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..piece.model import Member, Vector
from .rule import Case
from .touches import UP, Touch, along, dot, reach

DOWN: Vector = (0.0, 0.0, -1.0)
_FACING = 0.7                # cosine: a contact looking this far down bears
_LONG_PATCH_MM = 100.0       # a longer contact carries all along
_EVERY_MM = 150.0
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
    area_mm2: float = 0.0


def standing_supports(case: Case, member: Member, loaded: frozenset[str],
                      push: Vector = DOWN) -> tuple[Support, ...]:
    """The supports of a member in rising order, only those that stand themselves."""
    return _supports(case, member, loaded, push, frozenset({member.key}))


def places(supports: Iterable[Support]) -> tuple[float, ...]:
    """Where the supports are, those nearer than an inch taken as one."""
    kept: list[float] = []
    for at in sorted(s.at_mm for s in supports):
        if not kept or at - kept[-1] > _APART_MM:
            kept.append(at)
    return tuple(kept)


def lies_along(case: Case, member: Member, loaded: frozenset[str], push: Vector = DOWN) -> bool:
    """Whether the member lies on something standing along most of its length."""
    return _lies_along(case, member, loaded, push, frozenset({member.key}))


def _supports(case: Case, member: Member, loaded: frozenset[str], push: Vector,
              seen: frozenset[str]) -> tuple[Support, ...]:
    found: list[Support] = []
    for touch in case.touches.get(member.key, ()):
        facing = dot(touch.normal, push)
        bears = facing > _FACING
        if not (bears or touch.held) or touch.other in seen:
            continue
        other = case.piece.member(touch.other)
        if touch.other in loaded:
            if member.key in loaded or bears:
                continue
            if not _lies_along(case, other, loaded, push, seen | {member.key}):
                continue
        elif not _stands(case, other, loaded, push, seen | {member.key}):
            continue
        found += _patch(member, touch, hung=not bears)
    return tuple(sorted(found, key=lambda s: s.at_mm))


def _patch(member: Member, touch: Touch, hung: bool) -> list[Support]:
    low, high = along(member, touch)
    low, high = max(low, 0.0), min(high, member.length_mm)
    size = [touch.high[k] - touch.low[k] for k in range(3)]
    area = sorted(size)[1] * sorted(size)[2]
    if high - low <= _LONG_PATCH_MM:
        return [Support(touch.other, (low + high) / 2, touch.fasteners, hung, area)]
    inner = high - low - 2 * _IN_MM
    count = max(2, int(inner // _EVERY_MM) + 2)
    return [Support(touch.other, low + _IN_MM + inner * n / (count - 1), touch.fasteners / count, hung,
                    area / count) for n in range(count)]


def _lies_along(case: Case, member: Member, loaded: frozenset[str], push: Vector,
                seen: frozenset[str]) -> bool:
    lying = 0.0
    for touch in case.touches.get(member.key, ()):
        if dot(touch.normal, push) <= _FACING or touch.other in loaded or touch.other in seen:
            continue
        low, high = along(member, touch)
        if high - low > _LONG_PATCH_MM and _stands(case, case.piece.member(touch.other), loaded, push,
                                                   seen | {member.key}):
            lying += min(high, member.length_mm) - max(low, 0.0)
    return lying >= _ALONG_SHARE * member.length_mm


def _stands(case: Case, member: Member, loaded: frozenset[str], push: Vector, seen: frozenset[str]) -> bool:
    if member.material == "roll":
        return False
    if push == DOWN:
        upright = abs(dot(member.frame.along, push)) > _FACING
        if upright or reach(member, UP)[0] <= case.limit("ground.touching"):
            return True
    elif _is_tied(case, member, push, seen):
        return True
    return len(places(_supports(case, member, loaded, push, seen))) >= 2


def _is_tied(case: Case, member: Member, push: Vector, seen: frozenset[str]) -> bool:
    """An upright pushed sideways is tied when a joint holds it to something that runs the way of the push,
    itself or through an upright that it is joined to (the other strip of a corner leg)."""
    if abs(dot(member.frame.along, UP)) < _FACING:
        return False
    for touch in case.touches.get(member.key, ()):
        if not touch.held or touch.other in seen:
            continue
        other = case.piece.member(touch.other)
        if abs(dot(other.frame.along, push)) > _FACING or _is_tied(case, other, push, seen | {member.key}):
            return True
    return False
