"""Hinge side of a lid: the gap there is too narrow for a finger, or wide enough to let it go.

1/2 in (12 mm) or more, or 0.2 in (5 mm) or less, over the whole swing (ASTM F963; memory). A lid whose
template gives no gap: *not checked*. mm. Source: data/limits/people.toml.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .entrapment import outside
from .rule import Case


def fingers(asked: AskedCheck, case: Case) -> Finding:
    """What is said of ``hinge_gap``, or that nobody gave it."""
    words = case.words
    narrow, wide = case.limit("people.finger_gap.most_narrow"), case.limit("people.finger_gap.least_wide")
    limit = f"{words.length(narrow)} at most, or {words.length(wide)} at least"
    source = case.source("people.finger_gap.most_narrow")
    if "hinge_gap" not in asked.values:
        return Finding(asked.rule.rule, Level.NOT_CHECKED, "Hinge side: not checked",
                       "The template does not say how wide the gap at the hinge is, which fingers go into.",
                       "", limit, source, "Give hinge_gap in the check.")
    gap = float(asked.values["hinge_gap"])
    good = gap <= narrow or gap >= wide
    return Finding(asked.rule.rule, Level.OK if good else Level.CAUTION,
                   "Hinge side: no finger trap" if good else "Hinge side: fingers can be trapped",
                   f"The gap at the hinge is {words.length(gap)}.", words.length(gap), limit, source,
                   "" if good else f"Make the gap {words.length(narrow)} or less.",
                   outside(case, gap, narrow, wide))
