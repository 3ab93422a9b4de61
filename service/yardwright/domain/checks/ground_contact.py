"""Ground contact: wood that stands on the ground or just above it must last there.

On soil, grass, gravel or mulch: treated to UC4A or higher, or a resistant heartwood. On paving or a deck:
feet 1/2 in off on pads, end grain sealed. AWPA UC3B is not for ground contact (seen); UC4A also where less
than 6 in above the ground with poor air flow (seen). On paving, 2 in (IRC R317.1). Always runs. mm.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..market import Timber
from ..piece.model import AskedCheck
from .rule import Case, Rule
from .touches import UP, ground, reach

SOFT = ("soil", "grass", "lawn", "gravel", "mulch", "earth")
SOURCE = "AWPA U1 use categories, 2016 ground-contact rule (seen); IRC R317.1 (seen)"


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding for what touches the ground."""
    low = case.standing_mm
    standing = [m for m in case.piece.members if m.material == "board" and reach(m, UP)[0] <= low]
    if not standing:
        return ()
    surface, words = case.site.ground.surface, case.words
    pads = words.length(case.limit("ground.feet_off"))
    above = case.limit("ground.clear_of_soil") + ground(case.piece)
    weak = sorted({m.name for m in case.piece.members if m.material == "board"
                   and reach(m, UP)[0] < above and not lasts_in_ground(case.timber(m))})
    if surface in SOFT and weak:
        return (Finding(
            asked.rule.rule, Level.CAUTION, "Feet on the soil will rot",
            f"{', '.join(weak)} of {case.timber(standing[0]).name} stand on the {surface} or within "
            f"{words.length(case.limit('ground.clear_of_soil'))} of it.",
            case.timber(standing[0]).treated or case.timber(standing[0]).durability,
            "treated to UC4A or resistant heartwood", SOURCE,
            "Set it on paving slabs, choose a timber treated for ground contact (UC4A), or a resistant "
            "heartwood."),)
    where = f"on the {surface}" if surface else "wherever it stands"
    clear = words.length(case.limit("ground.clear_of_paving"))
    return (Finding(asked.rule.rule, Level.NOTE, f"Keep the feet {pads} off wet ground",
                    f"Set the feet {where} on plastic or stone pads and seal their end grain; other boards "
                    f"last longer {clear} clear of paving.", "", pads,
                    case.source("ground.feet_off", "ground.clear_of_paving")),)


def lasts_in_ground(timber: Timber) -> bool:
    """Treated to UC4A or more (or EN 335 class 4), or resistant heartwood."""
    treated = timber.treated.upper().replace(" ", "")
    if treated:
        return any(mark in treated for mark in ("UC4", "UC5", "CLASS4", "CLASS5"))
    words = timber.durability.lower()
    return "resistant" in words and not any(w in words for w in ("moderately", "slightly", "non"))


RULE = Rule("ground contact", check)
