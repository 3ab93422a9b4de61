"""Bed reach: the middle of a bed is reached without stepping in.

Width reached from one side 2 ft, from both sides 4 ft (words from = "one side" | "both sides").
Lengths in mm. Source: raised-bed guides (seen).
Limits of validity: grown people who stand; children and wheelchair users reach less.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .rule import Case, Rule

SIDES = {"one side": "people.bed_reach.one_side", "both sides": "people.bed_reach.both_sides"}


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """Ok within reach, else a note."""
    side = asked.rule.words.get("from", "one side")
    width, most, words = float(asked.values["width"]), case.limit(SIDES[side]), case.words
    good = width <= most + 1.0
    return (Finding(
        asked.rule.rule, Level.OK if good else Level.NOTE,
        f"Reached from {side}" if good else f"Too wide to reach from {side}",
        f"The soil is {words.length(width)} wide.", words.length(width), f"{words.length(most)} at most",
        case.source(SIDES[side]), "" if good
        else f"Make it {words.length(most)} wide, or reach it from both sides.",
        f"soil between the boards: {words.held(width, None, most, 1.0)}"),)


RULE = Rule("bed reach", check, needs={"width": "length"}, words={"from": tuple(SIDES)}, solids=False)
