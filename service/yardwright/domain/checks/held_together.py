"""Held together: every member hangs by a joint or glue-up on the rest, and every joint's members meet.

A template of the shop's own may have been changed and not tried since: a board that nothing holds falls off
under whoever leans on it, and costs less than one that is held. A stop, also for a joint whose members do not
touch: its fasteners hold nothing. Always runs; nothing is said where all is held. Rule: ``piece/joints.py``.
Source: geometry of the piece and its template's joints.
Limits of validity: that something holds it, never how well: joints.py, back_posts.py.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.joints import loose, untouched
from ..piece.model import AskedCheck
from .rule import Case, Rule

SOURCE = "geometry of the piece and its template's joints"
SHOWN = 5


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One stop for what nothing holds, the customer's to read too; one for joints whose members are apart."""
    found = []
    if apart := loose(case.piece.members, case.piece.joints):
        keys = [key for keys in apart for key in keys]
        found.append(Finding(asked.rule.rule, Level.STOP, "Held by nothing",
                             f"Nothing holds {_listed(keys, ', ')} to the rest of the piece.",
                             f"{len(keys)} of {len(case.piece.members)} parts", "0", SOURCE,
                             "Name them in a joint or glue-up of the template that leads to the rest.",
                             "no contact in any joint or glue-up leads from these to the rest"))
    if told := untouched(case.piece.joints, case.piece.members):
        found.append(Finding(asked.rule.rule, Level.STOP, "Joints that do not meet",
                             f"{_listed(told, '; ')}.", f"{len(told)} parts", "0", SOURCE,
                             "Move them until the faces meet, or take them out of the joint.",
                             "contacts found from the solids", customer=False))
    return tuple(found)


def _listed(told: list[str] | tuple[str, ...], between: str) -> str:
    """The first of them, and how many more."""
    more = f"{between}and {len(told) - SHOWN} more" if len(told) > SHOWN else ""
    return between.join(told[:SHOWN]) + more


RULE = Rule("held together", check)
