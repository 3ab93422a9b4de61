"""Seat load: every board that people sit on, and what carries it, bears a person's weight.

Two load cases on each board: (1) its share of a sitter, spread over the patch of a seated person and shared
by the boards under it; (2) the whole load on this one board, on a foot's length. Bearers, cleats, ledgers
and panels that carry the boards take the whole load at any place, and half the line load of a full bench
where they run along it. Duration: people count as a ten-year load.
A board on three or more supports suffers 1.15 times what rigid supports would give, since cleats bend under
it (held against whole lids in a frame program). Stood on near its corner a board stays down (rolling.py).
Units N, mm. Limits of validity: boards of one section, supports found in the contacts, joints not judged.
Sources: 2010 ADA 903.6 (250 lbf; seen), ICC 300 (120 lbf/ft; seen), patches (judgement).
"""

from __future__ import annotations

from ..finding import Finding
from ..piece.model import AskedCheck
from .boards import Boards, Carrier, boards_carry
from .rolling import Press, rolls
from .rule import Case, Rule
from .verdict import Loading


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """Findings for the worst board and the worst carrier."""
    return (*boards_carry(asked, case, Boards(_board_cases, _carrier_cases, "deflection", people=True)),
            *rolls(case, asked.rule.rule, [case.member(k) for k in asked.members], _stood_on(case)))


def _stood_on(case: Case) -> Press:
    whole, edge = case.limit("structure.seat_load"), case.limit("structure.foot_edge")
    return Press(whole, edge, edge, f"Somebody's {case.words.force(whole)}",
                 case.source("structure.seat_load", "structure.foot_edge"))


def _board_cases(case: Case, pitch_mm: float, boards: int) -> list[Loading]:
    whole, patch = case.limit("structure.seat_load"), case.limit("structure.seat_patch")
    share = min(1.0, pitch_mm / patch)
    source = case.source("structure.seat_load", "structure.seat_patch")
    return [
        Loading(f"{share:.0%} of a sitter's {case.words.force(whole)} over {case.words.length(patch)}",
                source, whole * share, patch, sharing=boards >= 3 and share < 1.0),
        Loading(f"{case.words.force(whole)} on this one board", source, whole,
                case.limit("structure.foot_patch"), sags=False),
    ]


def _carrier_cases(case: Case, under: Carrier) -> list[Loading]:
    whole = case.limit("structure.seat_load")
    source = case.source("structure.seat_load", "structure.seat_line_load")
    among = f", shared by {under.mates} boards edge to edge" if under.mates > 1 else ""
    cases = [Loading(f"a sitter's {case.words.force(whole)} at any place{among}", source, whole / under.mates,
                     under.pitch_mm, sharing=under.sharing)]
    if under.length_mm > case.limit("structure.people_pitch"):
        cases.append(Loading(f"half a full row of sitters{among}", source,
                             line=case.limit("structure.seat_line_load") / 2 / under.mates))
    return cases


RULE = Rule("seat load", check, members=True)
