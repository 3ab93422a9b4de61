"""Ground contact: wood that stands on the ground, just above it or against soil must last there.

On soil, grass, gravel or mulch: treated to UC4A or higher, or a resistant heartwood. On paving or a deck:
feet 1/2 in off on pads, end grain sealed. AWPA UC3B is not for ground contact (seen); UC4A also where less
than 6 in above the ground with poor air flow (seen). On paving, 2 in (IRC R317.1). Boards of a planter
against its wet soil are as in the ground unless a liner parts them, and posts that stand in it are so on any
surface. A timber that is neither treated nor at least moderately resistant is a caution anywhere outdoors.
Always runs. mm.
Limits of validity: heartwood as its data say; sapwood never lasts. Sources: AWPA U1, IRC R317.1 (seen), Wood
Handbook Table 14-1 (memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..market import Timber
from ..piece.model import AskedCheck, Member
from ..template.stands import IN_GROUND
from .held_up import is_hung
from .rule import Case, Rule
from .surface import kind_of
from .touches import UP, ground, reach

SOURCE = "AWPA U1 use categories, 2016 ground-contact rule (seen); IRC R317.1 (seen)"
DURABILITY = "Wood Handbook Table 14-1, EN 350 (memory)"
SOIL_CHECKS = ("soil sides", "soil floor")
LINER = "liner"


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding for what touches the ground, one for what touches soil, one for wood that rots outdoors."""
    low = case.standing_mm
    standing = [m for m in case.piece.members
                if m.material == "board" and reach(m, UP)[0] <= low and not is_hung(case)]
    dug = [m for m in standing if reach(m, UP)[0] < 0.0 and case.piece.template.stands == IN_GROUND]
    told = _dug_in(asked, case, dug) if dug else _standing(asked, case, standing) if standing else ()
    return (*told, *_against_soil(asked, case), *_outdoors(asked, case))


def _dug_in(asked: AskedCheck, case: Case, posts: list[Member]) -> Iterator[Finding]:
    """Posts in the ground, whatever lies on top of it."""
    timber, names = case.timber(posts[0]), ", ".join(sorted({m.name for m in posts}))
    lasts = all(lasts_in_ground(case.timber(m)) for m in posts)
    yield Finding(
        asked.rule.rule, Level.NOTE if lasts else Level.CAUTION,
        "Posts in the ground: heartwood or treated through" if lasts else "Posts in the ground will rot",
        f"{names} of {timber.name} stand in the ground; sapwood and fresh cuts rot there first.",
        timber.treated or timber.durability, "treated to UC4A or resistant heartwood", SOURCE,
        "Brush cut ends with preservative; let concrete shed water from the post." if lasts else
        "Choose a timber treated for ground contact (UC4A), a resistant heartwood, or stand the posts in "
        "metal shoes above it.", f"{len(posts)} posts reach below the ground; {said_of(timber)}")


def _standing(asked: AskedCheck, case: Case, standing: list[Member]) -> Iterator[Finding]:
    surface, words = case.site.ground.surface, case.words
    kind = kind_of(surface)
    pads = words.length(case.limit("ground.feet_off"))
    above = case.limit("ground.clear_of_soil") + ground(case.piece)
    weak = sorted({m.name for m in case.piece.members if m.material == "board"
                   and reach(m, UP)[0] < above and not lasts_in_ground(case.timber(m))})
    if kind in ("soft", "unknown") and weak:
        clear = words.length(case.limit("ground.clear_of_soil"))
        soft = kind == "soft"
        yield Finding(
            asked.rule.rule, Level.CAUTION if soft else Level.NOT_CHECKED,
            "Feet on the soil will rot" if soft else "Ground contact: not checked",
            f"{', '.join(weak)} of {case.timber(standing[0]).name} stand on the {surface} or within "
            f"{clear} of it." + ("" if soft else f" What '{surface}' does to wood is not known here."),
            case.timber(standing[0]).treated or case.timber(standing[0]).durability,
            "treated to UC4A or resistant heartwood", SOURCE,
            "Set it on paving slabs, choose a timber treated for ground contact (UC4A), or a resistant "
            "heartwood.", f"{len(weak)} kinds of boards begin under {words.length(above)} from the ground; "
            f"{said_of(case.timber(standing[0]))}")
        return
    where = f"on the {surface}" if surface else "wherever it stands (what on was not said)"
    clear = words.length(case.limit("ground.clear_of_paving"))
    yield Finding(asked.rule.rule, Level.NOTE, f"Keep the feet {pads} off wet ground",
                  f"Set the feet {where} on plastic or stone pads and seal their end grain; other boards "
                  f"last longer {clear} clear of paving.", "", pads,
                  case.source("ground.feet_off", "ground.clear_of_paving"),
                  working=f"{len(standing)} members reach the ground; {said_of(case.timber(standing[0]))}")


def _against_soil(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    keys = {k for c in case.piece.checks if c.rule.rule in SOIL_CHECKS for k in c.members}
    weak = sorted({m.name for m in case.piece.members
                   if m.key in keys and m.material == "board" and not lasts_in_ground(case.timber(m))})
    if not weak:
        return
    liners = {roll.code for roll in case.shop.market.rolls if roll.material == LINER}
    lined = any(m.material == "roll" and m.section in liners for m in case.piece.members)
    timber = case.timber(next(m for m in case.piece.members if m.key in keys))
    yield Finding(
        asked.rule.rule, Level.NOTE if lined else Level.CAUTION,
        "Only its liner keeps the soil off the boards" if lined else "Boards against wet soil will rot",
        f"{', '.join(weak)} of {timber.name}: wood against wet soil is as good as in the ground.",
        timber.treated or timber.durability, "treated to UC4A or resistant heartwood, or lined", SOURCE,
        "Keep the liner whole to the soil's surface." if lined else
        "Line it, choose a timber treated for ground contact (UC4A), or a resistant heartwood.",
        f"{said_of(timber)}; a liner in the piece: {'yes' if lined else 'no'}", customer=not lined)


def _outdoors(asked: AskedCheck, case: Case) -> Iterator[Finding]:
    for timber in {case.timber(m).id: case.timber(m) for m in case.piece.members
                   if m.material == "board"}.values():
        if timber.treated or _moderate(timber):
            continue
        said = bool(timber.durability.strip())
        yield Finding(
            asked.rule.rule, Level.CAUTION if said else Level.NOT_CHECKED,
            f"{timber.name} does not last outdoors" if said else "How long the wood lasts: not checked",
            f"{timber.name} is untreated and {timber.durability}." if said else
            f"Nothing says how durable {timber.name} is, nor that it is treated.",
            timber.durability, "at least moderately resistant heartwood, or treated (UC3B)", DURABILITY,
            "Choose a durable heartwood or a treated timber.", said_of(timber))


def said_of(timber: Timber) -> str:
    """What the timber's data says of how it lasts."""
    return (f"{timber.name}: treated {timber.treated or 'not at all'}, heartwood "
            f"{timber.durability or 'of unknown durability'}")


def _moderate(timber: Timber) -> bool:
    """At least moderately resistant, as its own words say."""
    said = timber.durability.lower()
    if "moderate" in said:
        return True
    return _durable(said)


def _durable(said: str) -> bool:
    poor = any(w in said for w in ("slightly", "non", "not ", "perishable"))
    return not poor and any(w in said for w in ("resistant", "durable", "class 1", "class 2"))


def lasts_in_ground(timber: Timber) -> bool:
    """Treated to UC4A or more (or EN 335 class 4), or resistant heartwood."""
    treated = timber.treated.upper().replace(" ", "")
    if treated:
        return any(mark in treated for mark in ("UC4", "UC5", "CLASS4", "CLASS5"))
    said = timber.durability.lower()
    return "moderate" not in said and _durable(said)


RULE = Rule("ground contact", check)
