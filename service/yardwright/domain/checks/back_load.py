"""Back load: boards leaned on bear a sitter's back and hold to rails and posts that are tied.

One patch load of 100 lbf square to the back at any place of each board, its share as boards lie side by side;
rails take three quarters of it, the other rail the rest.
Units N, mm. Source: EN 581-2 typical 450-560 N on the back (memory).
"""

from __future__ import annotations

from ..finding import Finding
from ..piece.model import AskedCheck, Member, Vector
from .boards import Boards, Carrier, boards_carry
from .rule import Case, Rule
from .verdict import Loading


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """Findings for the worst back board and the worst rail."""
    if not asked.members:
        return ()
    return boards_carry(asked, case, Boards(_board, _rail, "deflection"),
                        backward(case.member(asked.members[0])))


def backward(member: Member) -> Vector:
    """Square to the board's face, toward the back."""
    t = member.frame.thick
    return t if t[1] >= 0 else (-t[0], -t[1], -t[2])


def _board(case: Case, pitch_mm: float, boards: int) -> list[Loading]:
    whole, patch = case.limit("structure.lean_load"), case.limit("structure.seat_patch")
    share = min(1.0, pitch_mm / patch)
    return [Loading(f"{share:.0%} of a back leaning with {case.words.force(whole)}",
                    case.source("structure.lean_load"), whole * share, patch,
                    sharing=boards >= 3 and share < 1.0)]


def _rail(case: Case, under: Carrier) -> list[Loading]:
    whole, patch = case.limit("structure.lean_load"), case.limit("structure.seat_patch")
    part = case.limit("structure.rail_share")
    return [Loading(f"{part:.0%} of a back leaning with {case.words.force(whole)}",
                    case.source("structure.lean_load", "structure.rail_share"), whole * part / under.mates,
                    patch)]


RULE = Rule("back load", check, members=True)
