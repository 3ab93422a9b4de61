"""What holds a piece up, by its template: its weight, a wall at its back, or posts in the ground. mm."""

from __future__ import annotations

from ..piece.model import Member
from ..template.stands import IN_GROUND, ON_WALL
from .rule import Case
from .touches import UP, dot, reach

_FLAT = 0.7
BACKWARD = (0.0, 1.0, 0.0)


def is_hung(case: Case) -> bool:
    """Whether it hangs on a wall."""
    return case.piece.template.stands == ON_WALL


def by_weight(case: Case) -> bool:
    """Whether it stands by its weight: neither hung on a wall nor with its posts in the ground."""
    return case.piece.template.stands not in (ON_WALL, IN_GROUND)


def rests(case: Case, member: Member) -> bool:
    """Whether a load ends in the member: it stands on the ground, or lies against the wall it hangs on."""
    if is_hung(case):
        back = case.piece.closed.high[1] - case.limit("ground.touching")
        # The edge of a board that lies flat takes no fixing, nor does an end that butts on the wall.
        flat = abs(dot(member.frame.thick, UP)) > _FLAT or abs(dot(member.frame.along, BACKWARD)) > _FLAT
        return member.group == "fixed" and not flat and reach(member, BACKWARD)[1] >= back
    return reach(member, UP)[0] <= case.standing_mm
