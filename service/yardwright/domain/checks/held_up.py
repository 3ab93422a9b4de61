"""What holds a piece up, by its template: the ground under its lowest members, or a wall at its back. mm."""

from __future__ import annotations

from ..piece.model import Member
from ..template.stands import ON_WALL
from .rule import Case
from .touches import UP, dot, reach

_FLAT = 0.7
BACKWARD = (0.0, 1.0, 0.0)


def is_hung(case: Case) -> bool:
    """Whether it hangs on a wall."""
    return case.piece.template.stands == ON_WALL


def rests(case: Case, member: Member) -> bool:
    """Whether a load ends in the member: it stands on the ground, or lies against the wall it hangs on."""
    if is_hung(case):
        back = case.piece.closed.high[1] - case.limit("ground.touching")
        flat = abs(dot(member.frame.thick, UP)) > _FLAT      # its edge at the wall takes no fixing
        return member.group == "fixed" and not flat and reach(member, BACKWARD)[1] >= back
    return reach(member, UP)[0] <= case.standing_mm
