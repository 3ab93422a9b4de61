"""Armrest: high enough for the elbow, low enough for the shoulder, wide enough to be used.

Height above the seat where one sits (a sloped seat: at its middle), 7-9 1/2 in for adults (Bodyspace type
data; memory); 2 in wide at least. A poor armrest is a note, never more: nobody falls by it. Lengths in mm.
Source: data/limits/table.toml.
Limits of validity: level arms of one height; an arm that slopes is taken at the height the template gives.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .rule import Case, Rule
from .table import bounded

USERS = ("adult", "older", "child", "accessible")


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A finding for the height, and one for the width where the template gives it."""
    users = str(asked.values.get("users") or asked.rule.words.get("users", "adult"))
    kind = "child_" if users == "child" else ""
    return (
        *bounded(asked, case, "height", "Armrest height", f"table.armrest.{kind}least",
                 f"table.armrest.{kind}most", "Raise or lower the armrest.", Level.NOTE),
        *bounded(asked, case, "width", "Armrest width", "table.armrest.wide_least", "",
                 "Make the armrest wider.", Level.NOTE))


RULE = Rule("armrest", check, needs={"height": "length"}, may={"width": "length", "users": "text"},
            words={"users": USERS}, solids=False)
