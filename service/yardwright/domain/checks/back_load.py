"""Back load: boards leaned on bear a sitter's back and hold to rails and posts that are tied.

One patch load of 100 lbf square to the back at any place of each board, its share as boards lie side by side;
rails take three quarters of it, the other rail the rest; posts stand as back_posts.py says.
Units N, mm. Source: EN 581-2 typical 450-560 N on the back (memory).
Limits of validity: a push square to the back; pushes along it and people who climb it are not judged.
"""

from __future__ import annotations

from ..finding import Finding
from ..piece.model import AskedCheck, Member, Vector
from .back_posts import posts_stand
from .boards import Boards, Carrier, boards_carry
from .rule import Case, Rule
from .verdict import Loading

_LEANS = 0.01                # sine: a back's board leans by more than half a degree
_FACES = 0.5                 # cosine: it looks mostly to the front or back


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """Findings for the worst back board and the worst rail."""
    if not asked.members:
        return ()
    ways: dict[Vector, list[str]] = {}
    for key in asked.members:
        way = backward(case, case.member(key))
        ways.setdefault((round(way[0], 3), round(way[1], 3), round(way[2], 3)), []).append(key)
    found: list[Finding] = []
    for keys in ways.values():
        push, boards = backward(case, case.member(keys[0])), [case.member(k) for k in keys]
        found += boards_carry(AskedCheck(asked.rule, asked.values, tuple(keys)), case,
                              Boards(_board, _rail, "back"), push)
        found += posts_stand(case, asked.rule.rule, boards, push)
    return tuple(found)


def backward(case: Case, member: Member) -> Vector:
    """Square to the board's face, away from who leans on it: downward where the board leans back, else toward
    the back, for a board that looks sideways away from the middle of the piece."""
    t, box = member.frame.thick, case.piece.closed
    middle = (box.low[0] + box.high[0]) / 2
    if abs(t[2]) > _LEANS:
        right = t[2] < 0
    elif abs(t[1]) > _FACES:
        right = t[1] > 0
    else:
        right = t[0] * (member.centre[0] - middle) >= 0
    return t if right else (-t[0], -t[1], -t[2])


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
