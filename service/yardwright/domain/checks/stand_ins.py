"""Notes of the piece: what was done instead of the plain thing (a ripped board, a stand-in section).

Source: the template and the shop's stock, as piece/build.py notes them.
Limits of validity: says what was done, judges nothing.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .rule import Case, Rule


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """Each note of the piece as a finding for the shop. Always runs."""
    return tuple(Finding(asked.rule.rule, Level.NOTE, "For the workshop", note,
                         source="the template", customer=False) for note in case.piece.notes)


RULE = Rule("stand-ins", check)
