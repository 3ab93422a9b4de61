"""What holds a piece up, by its template: its weight, a wall at its back, or posts in the ground.

Posts count as held by the ground from the depth of the rule of thumb on, the greater of a third of the height
above the ground and 24 in; dug in less, or not all, a piece is judged as standing by its weight. mm.
Source: common practice, no source (ground.toml).
Limits of validity: firm ground; what it holds is never known here.
"""

from __future__ import annotations

from ..piece.model import Member
from ..template.stands import IN_GROUND, ON_WALL
from .rule import Case
from .touches import UP, dot, reach

_FLAT = 0.7
_UPRIGHT = 0.9               # as wind_posts.py
BACKWARD = (0.0, 1.0, 0.0)


def is_hung(case: Case) -> bool:
    """Whether it hangs on a wall."""
    return case.piece.template.stands == ON_WALL


def by_weight(case: Case) -> bool:
    """Whether it stands by its weight: neither hung on a wall nor with its posts deep in the ground."""
    return not is_hung(case) and not is_dug_in(case)


def is_dug_in(case: Case) -> bool:
    """Whether it stands with posts in the ground, as deep as the rule of thumb asks of each."""
    if case.piece.template.stands != IN_GROUND:
        return False
    return dug_mm(case) >= asked_depth_mm(case)


def dug_mm(case: Case) -> float:
    """How deep the shallowest upright that stands reaches into the ground; 0 where one only stands on it."""
    low = (reach(m, UP)[0] for m in case.piece.members if m.material == "board" and m.group == "fixed"
           and abs(dot(m.frame.along, UP)) > _UPRIGHT)
    return min((max(0.0, -z) for z in low if z <= case.standing_mm), default=0.0)


def asked_depth_mm(case: Case) -> float:
    """The depth that the rule of thumb asks of posts."""
    return max(case.limit("ground.dug_share") * case.piece.standing_mm[2], case.limit("ground.dug_least"))


def rests(case: Case, member: Member) -> bool:
    """Whether a load ends in the member: it stands on the ground, or lies against the wall it hangs on."""
    if is_hung(case):
        back = case.piece.closed.high[1] - case.limit("ground.touching")
        # The edge of a board that lies flat takes no fixing, nor does an end that butts on the wall.
        flat = abs(dot(member.frame.thick, UP)) > _FLAT or abs(dot(member.frame.along, BACKWARD)) > _FLAT
        return member.group == "fixed" and not flat and reach(member, BACKWARD)[1] >= back
    return reach(member, UP)[0] <= case.standing_mm
