"""A leaf carried by its hinge: loaded boards of a moving group that rests on nothing.

Shut, no member of the group lies on the fixed part; so what its boards bear goes through the hinge, and
through what holds the leaf up. With nothing in the quote that could hold it up, a stay, bracket, strap or
chain, it is a stop; else *not checked*: neither hinge nor support is judged here. Runs with every load on
boards. Source: geometry.
"""

from __future__ import annotations

from collections.abc import Sequence

from ..finding import Finding, Level
from ..piece.model import Member
from .rule import Case
from .supports import DOWN
from .touches import dot

HOLDS_UP = ("stay", "bracket", "strap", "chain")
_BEARS = 0.7                 # cosine: a contact looking this far down bears


def hinge_borne(case: Case, member: Member) -> bool:
    """Whether it moves with a group of which nothing lies on the fixed part."""
    if member.group not in case.piece.moving:
        return False
    return not any(dot(t.normal, DOWN) > _BEARS and case.member(t.other).group == "fixed"
                   for m in case.piece.group(member.group) for t in case.touches.get(m.key, ()))


def told_of_hinge(rule: str, case: Case, boards: Sequence[Member]) -> Finding:
    """One finding on the boards of one group."""
    group = boards[0].group
    holding = [h for h in case.piece.hardware if h.kind in HOLDS_UP and h.count > 0]
    names = ", ".join(f"{h.count:g} × {h.name}" for h in holding)
    told = f"The {group} lies on nothing: its hinge carries it, and what holds it up"
    return Finding(
        rule, Level.NOT_CHECKED if holding else Level.STOP,
        f"The {group}, carried by its hinge: not checked" if holding else f"Nothing holds the {group} up",
        f"{told} ({names}); neither is judged here, nor how they are screwed on." if holding else
        f"{told}; the quote holds no stay, bracket, strap or chain that could.",
        f"{len(holding)} kinds of hardware that may hold it up", "1 at least", "geometry of the piece",
        f"Let the {group} lie on fold-out brackets or a rail, or have who makes its hinge and stays say what "
        "they bear." if holding else
        f"Give the {group} stays, folding brackets or a leg, or let it lie on a rail.",
        f"{len(boards)} loaded boards of the {group}; contacts that look down on the fixed part: 0",
        customer=bool(holding))
