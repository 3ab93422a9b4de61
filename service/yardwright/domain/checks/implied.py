"""Implied: one question asked of a piece calls for another; one that a template leaves out is not checked.

Who sits leans back, who asks of a table sets food on it, a lid shuts a box that a child may be in, earth in
treated wood may grow food, boards side by side drain and swell. Looks at the checks that a template asks for,
never at what they find. Always runs. Source: the template; what calls for what: judgement.
Limits of validity: the words of the template; what its solids call for is as_built.py's.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .lid import is_door
from .rule import Case, Rule

# (one of these is asked for, none of these is, what is then open, what to ask for)
_CALLS: tuple[tuple[tuple[str, ...], tuple[str, ...], str, str], ...] = (
    (("seat load", "attached seats"), ("seat",),
     "Seat: its height, depth and room are not checked", "seat"),
    (("back load",), ("lean back",), "Leaning back: whether it tips is not checked", "lean back"),
    (("armrest",), ("arm load",), "Arms: what they bear is not checked", "arm load"),
    (("seat load", "soil floor"), ("board gaps",),
     "Boards: whether they drain and have room to swell is not checked", "board gaps"),
    (("soil floor", "soil weight"), ("soil sides",),
     "Earth against the sides: not checked", "soil sides"),
    (("table",), ("food contact",), "Table: whether food may lie on it is not checked", "food contact"),
)


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A finding for each question that is called for and not asked."""
    return (*_called(asked, case), *_shut_in(asked, case), *_grown(asked, case))


def _called(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    rules = {c.rule.rule for c in case.piece.checks}
    for given, wanted, title, name in _CALLS:
        if rules.intersection(given) and not rules.intersection(wanted):
            yield _open(asked, title, name, " and ".join(sorted(rules.intersection(given))))


def _shut_in(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    lids = [group for group in case.piece.moving if not is_door(case.piece, group)]
    if lids and not any(c.rule.rule == "chest" for c in case.piece.checks):
        yield _open(asked, "Lid: whether a child can be shut in is not checked", "chest", "a lid")


def _grown(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    rules = {c.rule.rule for c in case.piece.checks}
    treated = any(case.timber(m).treated for m in case.piece.members if m.material == "board")
    if treated and rules.intersection(("soil sides", "soil floor")) and "growing food" not in rules:
        yield _open(asked, "Treated wood and what grows in it: not checked", "growing food",
                    "soil in treated wood")


def _open(asked: AskedCheck, title: str, name: str, because: str) -> Finding:
    return Finding(asked.rule.rule, Level.NOT_CHECKED, title,
                   f"The template has {because} and asks for no {name} check.", source="the template",
                   mend=f"Ask for {name} in the template's checks.")


RULE = Rule("implied", check)
