"""Growing food: preservative-treated wood around edible plants gets its caution.

EPA: no treated wood where the preservative may become part of food. For copper azole and quaternary types
leaching is judged very low; some growers line the bed. Sources: EPA sheet, treaters' FAQ (seen), lining
(memory).
Limits of validity: today's copper types; old railway sleepers and CCA are no timbers of the list.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .rule import Case, Rule

SOURCE = "EPA safe-handling sheet and treaters' FAQ (seen); lining: extension practice (memory)"


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A caution for treated wood where food may grow, else ok; nothing where ``edible`` is false."""
    if not bool(asked.values.get("edible", True)):
        return ()
    timbers = {case.timber(m).name: case.timber(m).treated for m in case.piece.members
               if m.material == "board"}
    treated = sorted(name for name, category in timbers.items() if category)
    worked = "; ".join(f"{name}: {category or 'untreated'}" for name, category in sorted(timbers.items()))
    if not treated:
        return (Finding(asked.rule.rule, Level.OK, "Untreated wood around the soil",
                        "No preservative touches the soil.", "untreated", "untreated, or lined", SOURCE,
                        working=worked),)
    liners = {roll.code for roll in case.shop.market.rolls if roll.material == "liner"}
    lined = any(m.material == "roll" and m.section in liners for m in case.piece.members)
    return (Finding(
        asked.rule.rule, Level.CAUTION, "Treated wood around what may be eaten",
        f"{', '.join(treated)} touches the soil. Treated wood is not for places where its preservative may "
        "become part of food; leaching of today's copper types is judged very low."
        + (" The liner keeps most soil off it." if lined else ""), "treated", "untreated, or lined", SOURCE,
        "For vegetables and herbs choose an untreated durable timber, or line it with heavy plastic and keep "
        f"root crops {case.words.length(50.8)} off the boards.",
        f"{worked}; a liner in the piece: {'yes' if lined else 'no'}"),)


RULE = Rule("growing food", check, may={"edible": "truth"})
