"""Clashes: two members share room beyond what their joint allows, shut or with the lid or door moving.

Found from the solids (piece.clashes); mm³ and mm. Always runs: such a piece cannot be built.
Source: geometry of the piece.
Limits of validity: as exact as the solids; screws, hinges and stays are no solids.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Clash
from .rule import Case, Rule

SHOWN = 5


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One stop for all clashes, the deepest five named."""
    clashes = sorted(case.piece.clashes, key=lambda c: -c.depth_mm)
    if not clashes:
        return (Finding(asked.rule.rule, Level.OK, "No member runs into another", "Found from the solids.",
                        source="geometry of the piece", customer=False),)
    named = "; ".join(_told(case, c) for c in clashes[:SHOWN])
    more = f"; and {len(clashes) - SHOWN} more" if len(clashes) > SHOWN else ""
    return (Finding(asked.rule.rule, Level.STOP, "Members run into each other", f"{named}{more}.",
                    case.words.fine(clashes[0].depth_mm), "0", "geometry of the piece",
                    "Change the size a little, or mend the template.",
                    f"{len(clashes)} pairs of solids share room", customer=False),)


def _told(case: Case, clash: Clash) -> str:
    opened = f" with the lid at {clash.opened_deg:.0f}°" if clash.opened_deg else ""
    return f"{clash.first} and {clash.second} by {case.words.fine(clash.depth_mm)}{opened}"


RULE = Rule("clashes", check)
