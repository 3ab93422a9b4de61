"""What a template forgot to ask: a piece is never passed as fine because nobody looked.

A template that asks for no load on any board, though there are level boards that people sit, stand or lean
on, is a stop: nothing of its own was proven. Else *not checked*: a lid that moves on a level hinge without a
lid check, boards of a seat that none of its seat loads names (the wing of an L), level boards that no load
names. Looks at the checks as the template asks them and at those that the solids call for (as_built.py).
Always runs. mm. Source: the template; heights judgement.
Limits of validity: what level boards and lids call for; other forgotten questions are implied.py's.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .as_built import LOADS, unloaded
from .lid import is_door
from .rule import Case, Rule
from .seats import level_with


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A finding for each thing nobody asked about."""
    return (*_lids(asked, case), *_loads(asked, case), *_seats(asked, case))


def _lids(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    known = {c.rule.words.get("group", "lid") for c in case.piece.checks if c.rule.rule == "lid"}
    for group in case.piece.moving:
        if group not in known and not is_door(case.piece, group):
            yield _unchecked(asked, f"{group[0].upper()}{group[1:]}: not checked",
                             f"The {group} turns on a level hinge and the template asks for no lid check: "
                             "its weight, and what holds it open.", "lid")


def _loads(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    rules = {c.rule.rule for c in case.piece.checks if c not in case.called_for}
    free = unloaded(case)
    names = ", ".join(dict.fromkeys(m.name for m in free))
    if "seat" in rules and "seat load" not in rules:
        yield _unchecked(asked, "Seat: its load is not checked",
                         "The template has a seat and asks for no seat load.", "seat load")
    if rules & set(LOADS):
        if free:
            yield _unchecked(asked, f"{names}: load not checked",
                             f"People may sit, stand or lean on {names}, or put things there, and no load of "
                             "the template names them.", "a seat load or shelf load on them")
    elif free or any(c.rule.rule == "seat load" for c in case.called_for):
        yield Finding(asked.rule.rule, Level.STOP, "Strength of this piece: not checked",
                      "Its template asks for no load on any of its boards, though people may sit, stand or "
                      "lean on it. Only what its solids call for by themselves was looked at.",
                      "no load asked for", "a load for every board that bears one", "the template",
                      "Ask for seat load, shelf load or another load in the template's checks, or have a "
                      "person who knows look at it and answer for it in writing.",
                      f"checks of the template: {', '.join(sorted(rules)) or 'none'}; level boards that none "
                      f"of them loads: {names or 'none'}")
    elif "seat" not in rules:
        yield _unchecked(asked, "Loads: not checked",
                         "The template asks for no load on any of its boards.",
                         "seat load, shelf load or another load")


def _seats(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    """Boards whose upper face lies in the seat's, beside none of the loads asked for."""
    judged = [case.member(key) for c in case.piece.checks if c.rule.rule == "seat load" for key in c.members]
    for name in dict.fromkeys(m.name for m in level_with(case, judged)):
        yield _unchecked(asked, f"{name}: its load is not checked",
                         f"{name} lies level with the seat, and no seat load of the template names it.",
                         "a seat load on it")


def _unchecked(asked: AskedCheck, title: str, detail: str, wanted: str) -> Finding:
    return Finding(asked.rule.rule, Level.NOT_CHECKED, title, detail, source="the template",
                   mend=f"Ask for {wanted} in the template's checks.")


RULE = Rule("unasked", check)
