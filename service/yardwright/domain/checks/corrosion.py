"""Corrosion: metal in treated wood and in woods with tannin must be stainless or hot-dip galvanised.

Copper preservatives eat plain and electroplated steel (IRC R317.3, IBC 2304.10.6: ASTM A153 hot-dip,
stainless, silicon bronze or copper; seen); cedar, redwood, oak and robinia stain with iron (common practice).
Looks at the goods the shop sells for the kinds this piece needs. Always runs.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..market import Timber
from ..piece.model import AskedCheck
from .rule import Case, Rule

TANNIN = ("cedar", "redwood", "oak", "robinia", "locust", "teak", "larch", "chestnut")
SAFE = ("stainless", "hot-dip", "hot dip", "bronze", "copper", "a153", "hdg", "brass")
SAFE_WORDS = "stainless or hot-dip galvanised"
NO_METAL = ("glue", "finish", "foot", "pad", "sandpaper", "liner")
GOODS_OF = {"screws": "screw", "lags": "lag screw", "bolts": "bolt", "staples": "staple", "nails": "nail"}
SOURCE = "IRC R317.3, IBC 2304.10.6 (seen); tannin staining: common practice (memory)"


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A caution naming kinds the shop has no safe goods for; else a note on what to use."""
    timbers = {m.timber: case.timber(m) for m in case.piece.members if m.material == "board"}
    why = sorted({_reason(t) for t in timbers.values()} - {""})
    if not why:
        return ()
    kinds = {GOODS_OF[j.rule.fasten] for j in case.piece.joints if j.rule.fasten in GOODS_OF}
    kinds |= {h.kind for h in case.piece.hardware} - set(NO_METAL)
    unsafe = sorted(k for k in kinds if _goods_unsafe(case, k))
    told = f"{' and '.join(why)}: stainless or hot-dip galvanised metal, one kind throughout, no aluminium."
    if unsafe:
        return (Finding(asked.rule.rule, Level.CAUTION, "Metal that will corrode or stain",
                        f"{told} The shop's list has no such {', '.join(unsafe)}.", "plain or unnamed metal",
                        f"{SAFE_WORDS} (ASTM A153)", SOURCE,
                        "Buy these in stainless or hot-dip galvanised."),)
    return (Finding(asked.rule.rule, Level.OK, "Fasteners suit the wood", told,
                    SAFE_WORDS, f"{SAFE_WORDS} (ASTM A153)", SOURCE),)


def _reason(timber: Timber) -> str:
    if timber.treated:
        return f"{timber.name} holds copper"
    stains = any(word in f"{timber.id} {timber.name}".lower() for word in TANNIN)
    return f"{timber.name} has tannin" if stains else ""


def _goods_unsafe(case: Case, kind: str) -> bool:
    """True when the shop sells that kind, but none in a safe metal."""
    sold = [g for g in case.shop.market.goods if g.kind == kind]
    return bool(sold) and not any(any(s in f"{g.material} {g.name}".lower() for s in SAFE) for g in sold)


RULE = Rule("corrosion", check)
