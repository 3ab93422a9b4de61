"""Hinges: every lid and door of the quote turns on a hinge that is bought with it.

A hinge is hardware whose kind ends in "hinge" and whose count is above nought. One that names a group
(words group = "lid") serves that group; the others serve the groups that none names, one each at least. A
group without one is a stop: the price lacks it, and what was found of its swing is of nothing. Always runs.
Source: the template. Limits of validity: whether hinges are long and strong enough is not judged here.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Piece
from .rule import Case, Rule

KIND = "hinge"


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A stop for each group that moves on nothing; nothing where all are hinged."""
    bought = sum(h.count for h in case.piece.hardware if h.kind.endswith(KIND))
    return tuple(Finding(
        asked.rule.rule, Level.STOP, f"Nothing hinges the {group}",
        f"The {group} turns open, and the quote holds no hinge for it.",
        "no hinge" if bought <= 0 else f"{bought:.0f} for others", "1 hinge at least", "the template",
        f"Add a hinge to the template's hardware, with words = {{group = \"{group}\"}} where there are "
        "several lids or doors.", f"hardware whose kind ends in {KIND}: {bought:.0f}; groups that move: "
        f"{', '.join(case.piece.moving)}") for group in unhinged(case.piece))


def unhinged(piece: Piece) -> tuple[str, ...]:
    """The groups with members that no hinge of the quote serves."""
    hinges = [h for h in piece.hardware if h.kind.endswith(KIND) and h.count > 0]
    named = {h.words["group"] for h in hinges if h.words.get("group")}
    left = tuple(g for g in piece.moving if piece.group(g) and g not in named)
    free = sum(h.count for h in hinges if not h.words.get("group"))
    return left[int(free):]


RULE = Rule("hinges", check)
