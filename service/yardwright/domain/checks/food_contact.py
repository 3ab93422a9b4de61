"""Food contact: what food may lie on.

Preservative-treated wood is not for table tops, counters or cutting boards where its preservative may become
part of food (EPA safe-handling sheet; seen): a caution. A film or oil finish is fit for food only where its
maker says so once cured (practice): a note. Members: the boards that food is set down on.
Limits of validity: preservatives and finishes; resin, tannin and splinters are not judged. Source: EPA sheet
(seen).
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .rule import Case, Rule

SOURCE = "EPA safe-handling sheet (seen); finishes: practice (memory)"


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A caution for treated wood, a note on the finish, else ok."""
    boards = [case.member(k) for k in asked.members if case.member(k).material == "board"]
    if not boards:
        return ()
    used = sorted({f"{case.timber(m).name}: {case.timber(m).treated or 'untreated'}" for m in boards})
    worked = f"{', '.join(dict.fromkeys(m.name for m in boards))} of {'; '.join(used)}"
    treated = sorted({case.timber(m).name for m in boards if case.timber(m).treated})
    if treated:
        return (Finding(
            asked.rule.rule, Level.CAUTION, "Treated wood under food",
            f"{', '.join(treated)}: treated wood is not for surfaces that food lies on.", "treated",
            "untreated", SOURCE, "Choose an untreated durable timber, at least for the top; or set food on "
            "plates and boards only.", worked),)
    chosen = case.piece.choices.get("finish", "none")
    finish = case.shop.market.finishes.get(chosen)
    if chosen == "none":
        return (Finding(asked.rule.rule, Level.OK, "Bare wood under food",
                        "No preservative and no finish.", "untreated", "untreated", SOURCE,
                        working=f"{worked}; finish: none"),)
    return (Finding(
        asked.rule.rule, Level.NOTE, "Food on plates",
        f"{finish.name if finish else chosen}: fit for food only where its maker says so, once it has cured.",
        "finished", "bare, or a finish said to be food-safe", SOURCE,
        working=f"{worked}; finish: {finish.name if finish else chosen}", customer=False),)


RULE = Rule("food contact", check, members=True)
