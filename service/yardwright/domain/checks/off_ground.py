"""On the ground: the lowest solid of a piece reaches it, or the feet it is quoted with do.

Else the template has a mistake, or hangs on a wall and does not say so: a stop, since nothing that is said of
how it stands is then true. Always runs. mm. Source: geometry; piece/standing.py says how near is near enough.
Limits of validity: the lowest solid alone; ground that falls is fall.py's.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from ..piece.standing import in_the_air_mm
from .rule import Case, Rule


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A stop for a piece in the air; nothing for one that stands or hangs."""
    gap = in_the_air_mm(case.piece)
    if not gap:
        return ()
    up = case.words.length(gap)
    return (Finding(
        asked.rule.rule, Level.STOP, "It does not reach the ground",
        f"Its lowest board is {up} up, no feet under it are quoted that fill that, and its template does not "
        "say that it hangs on a wall.", up, case.words.length(0.0), "geometry of the piece",
        "Lower its legs to the ground, quote feet under them, or let the template say that it hangs on a "
        "wall.",
        f"the lowest corner of all members: {up} above the ground", customer=False),)


RULE = Rule("on the ground", check)
