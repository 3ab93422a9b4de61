"""Entrapment: gaps that shear or close on fingers, and openings that take a child's body and hold its head.

``moving_gap``: between parts that move against each other, kept out of 8-25 mm. ``opening``: the narrow way
of a fixed opening a child can get into, kept out of 89-230 mm (3.5-9 in) where children use the piece, a note
to the shop for others. Sources: EN 581-1, EN 1176, ASTM F1487 (memory). Lengths in mm.
Limits of validity: the gaps that a template gives; those of the solids are found by openings.py.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .rule import Case, Rule

USERS = ("adult", "older", "child", "accessible")


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A finding for each of the two that the template gives."""
    child = "child" in (str(asked.values.get("users") or ""), asked.rule.words.get("users", ""))
    found = []
    if "moving_gap" in asked.values:
        found.append(_judged(asked, case, "moving_gap", "finger", Level.CAUTION,
                             "Moving parts: no finger trap", "Moving parts: fingers can be trapped"))
    if "opening" in asked.values:
        found.append(_judged(asked, case, "opening", "head", Level.STOP if child else Level.NOTE,
                             "Openings: no head trap", "Openings: a child's head can be trapped"))
    return tuple(found)


def _judged(asked: AskedCheck, case: Case, value: str, name: str, level: Level, good: str,
            bad: str) -> Finding:
    gap, words = float(asked.values[value]), case.words
    low, high = case.limit(f"table.{name}.low"), case.limit(f"table.{name}.high")
    fine = gap <= low or gap >= high
    return Finding(asked.rule.rule, Level.OK if fine else level, good if fine else bad,
                   f"It is {words.length(gap)} wide.", words.length(gap),
                   f"{words.length(low)} at most, or {words.length(high)} at least",
                   case.source(f"table.{name}.low"),
                   "" if fine else f"Make it {words.length(low)} or less, or {words.length(high)} or more.",
                   outside(case, gap, low, high), customer=fine or level is not Level.NOTE)


def outside(case: Case, gap: float, low: float, high: float) -> str:
    """A gap against the range that it is kept out of, as a line of working."""
    length = case.words.length
    if gap <= low:
        return f"{length(gap)} ≤ {length(low)}"
    if gap >= high:
        return f"{length(gap)} ≥ {length(high)}"
    return f"{length(low)} < {length(gap)} < {length(high)}"


RULE = Rule("entrapment", check, may={"moving_gap": "length", "opening": "length", "users": "text"},
            words={"users": USERS}, solids=False)
