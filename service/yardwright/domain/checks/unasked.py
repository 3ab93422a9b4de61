"""What a template forgot to ask: a piece is never passed as fine because nobody looked.

A lid that moves on a level hinge without a lid check, seats without a seat load, boards of a seat that none
of its seat loads names (the wing of an L), or a piece none of whose boards has a load at all: *not checked*.
A piece 24 in high or more whose template asks for no tip-over is pushed at its top all the same. Always
runs. mm. Source: common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Member, Vector
from ..template.model import CheckRule
from . import tip_over
from .rule import Case, Rule
from .touches import dot, reach

LOADS = ("seat load", "back load", "shelf load", "soil floor", "soil sides", "arm load")
STABLE = ("tip over", "attached seats", "lean back")
LEVEL_AXIS = 0.5
FLAT = 0.9999               # cosine: faces this near to parallel lie in one plane
ALIKE_MM = 3.0               # tops this near to the seat's are of the seat; judgement


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A finding for each thing nobody asked about."""
    rules = {c.rule.rule for c in case.piece.checks}
    return (*_lids(asked, case), *_loads(asked, rules), *_seats(asked, case), *_pushed(case, rules))


def _lids(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    known = {c.rule.words.get("group", "lid") for c in case.piece.checks if c.rule.rule == "lid"}
    for group, (_, axis, _) in case.piece.moving.items():
        if group not in known and abs(axis[2]) < LEVEL_AXIS:
            yield _unchecked(asked, f"{group[0].upper()}{group[1:]}: not checked",
                             f"The {group} turns on a level hinge and the template asks for no lid check: "
                             "its weight, what holds it open, and whether a child can be shut in.",
                             "lid and chest")


def _loads(asked: AskedCheck, rules: set[str]) -> Iterator[Finding]:
    if "seat" in rules and "seat load" not in rules:
        yield _unchecked(asked, "Seat: its load is not checked",
                         "The template has a seat and asks for no seat load.", "seat load")
    elif not rules & set(LOADS):
        yield _unchecked(asked, "Loads: not checked",
                         "The template asks for no load on any of its boards.",
                         "seat load, shelf load or another load")


def _seats(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    """Boards whose upper face lies in the seat's, beside none of the loads asked for."""
    judged = [case.member(key) for c in case.piece.checks if c.rule.rule == "seat load" for key in c.members]
    faces = {(*_up(m), round(reach(m, _up(m))[1])) for m in judged}
    known = {m.key for m in judged}
    left = [m for m in case.piece.members if m.key not in known and m.material == "board"
            and any(dot(_up(m), face[:3]) > FLAT and abs(reach(m, face[:3])[1] - face[3]) < ALIKE_MM
                    for face in faces)]
    for name in dict.fromkeys(m.name for m in left):
        yield _unchecked(asked, f"{name}: its load is not checked",
                         f"{name} lies level with the seat, and no seat load of the template names it.",
                         "a seat load on it")


def _up(member: Member) -> Vector:
    """Square to a board's face, upward."""
    x, y, z = (round(v, 6) for v in member.frame.thick)
    return (x, y, z) if z >= 0 else (-x, -y, -z)


def _pushed(case: Case, rules: set[str]) -> Iterator[Finding]:
    high = case.piece.standing_mm[2]
    if not rules & set(STABLE) and high >= case.limit("structure.tall_piece"):
        yield from tip_over.check(AskedCheck(CheckRule("tip over"), {"push_height": high}, ()), case)


def _unchecked(asked: AskedCheck, title: str, detail: str, wanted: str) -> Finding:
    return Finding(asked.rule.rule, Level.NOT_CHECKED, title, detail, source="the template",
                   mend=f"Ask for {wanted} in the template's checks.", customer=False)


RULE = Rule("unasked", check)
