"""Drop behind: a seat at the edge of a deck or terrace invites a fall over its back.

Where the ground drops 30 in (762 mm) or more within reach behind, a guard 36 in high is required behind fixed
benches in many places (IRC R312.1; memory): without one a stop. A lower drop is a caution, a
measured 0 is level ground; free on a deck, balcony or roof with no drop said: not checked. Always runs. mm.
Limits of validity: the drop as measured; a guard that stands there is not seen. Source:
data/limits/people.toml.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..measure import to_mm
from ..piece.model import AskedCheck
from .rule import Case, Rule
from .surface import kind_of


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A stop or a caution where the site has a drop behind; else nothing."""
    said, words = case.site.ground.drop_behind_nm, case.words
    if said is None:
        open_edge = case.site.kind == "open" and kind_of(case.site.ground.surface) == "raised"
        return (_unsaid(asked, case),) if open_edge else ()
    drop = to_mm(said)
    if drop <= 0.0:
        return ()
    seat = any(c.rule.rule == "seat" for c in case.piece.checks)
    high, guard = case.limit("people.drop_guard"), case.limit("people.guard_height")
    source = case.source("people.drop_guard", "people.guard_height")
    climbed = ("A person on it sits or stands above the edge." if seat
               else "Children climb on it beside the edge.")
    deep = drop >= high
    return (Finding(
        asked.rule.rule, Level.STOP if deep else Level.CAUTION,
        "A drop behind needs a guard" if deep else "A drop behind",
        f"The ground drops {words.length(drop)} behind. {climbed}", words.length(drop),
        f"under {words.length(high)} without a guard", source,
        f"Keep or build a guard at least {words.length(guard)} high above where one can stand, or turn "
        "the piece from the edge; ask the local building office.",
        f"drop as measured on the site: {words.length(drop)} {'≥' if deep else '<'} {words.length(high)}"),)


def _unsaid(asked: AskedCheck, case: Case) -> Finding:
    return Finding(asked.rule.rule, Level.NOT_CHECKED, "Drop behind: not checked",
                   f"It stands free on the {case.site.ground.surface}, whose edge may be behind it; nobody "
                   "said how far the ground drops there.", "", "",
                   case.source("people.drop_guard"),
                   "Measure the drop behind it: 0 where the ground goes on level, or say what wall it stands "
                   "against.")


RULE = Rule("drop behind", check)
