"""Corrosion: metal outdoors, in treated wood and in woods with tannin must be stainless or hot-dip
galvanised.

Copper preservatives eat plain and electroplated steel (IRC R317.3, IBC 2304.10.6: ASTM A153 hot-dip,
stainless, silicon bronze or copper; seen); cedar, redwood, oak and robinia stain with iron, and plain steel
rusts outdoors in any wood (common practice). Judged are the goods that the quote may buy for each joint and
fitting: where any of those that serve is unsafe, so is the piece. Always runs.
Limits of validity: metals as the goods list names them; salt air, which asks for 316, is not judged. Sources:
IRC R317.3, IBC 2304.10.6 (seen).
"""

from __future__ import annotations

from collections.abc import Iterator

from ..errors import NoStock
from ..finding import Finding, Level
from ..hardware import needs
from ..market import Goods, Timber
from ..piece.model import AskedCheck
from .rule import Case, Rule

TANNIN = ("cedar", "redwood", "oak", "robinia", "locust", "teak", "larch", "chestnut")
SAFE = ("stainless", "hot-dip", "hot dip", "bronze", "copper", "a153", "hdg", "brass")
SAFE_WORDS = "stainless or hot-dip galvanised"
NO_METAL = ("glue", "finish", "foot", "pad", "sandpaper", "liner", "abrasive", "preservative")
NOT_METAL = ("rubber", "plastic", "nylon", "wood", "bamboo", "polyamide", "polyethylene", "acetal")
GOODS_OF = {"screws": "screw", "lags": "lag screw", "bolts": "bolt", "staples": "staple", "nails": "nail"}
SOURCE = "IRC R317.3, IBC 2304.10.6 (seen); tannin staining, rust: common practice (memory)"


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A caution naming the metal that may be bought and does not last; else a note on what to use."""
    timbers = {m.timber: case.timber(m) for m in case.piece.members if m.material == "board"}
    why = sorted({_reason(t) for t in timbers.values()} - {""})
    bought = tuple(_bought(case))
    unsafe = sorted({f"{g.name} ({g.material or 'metal not named'})" for g in bought if not _safe(g)})
    told = f"{' and '.join(why) or 'Outdoors'}: {SAFE_WORDS} metal, one kind throughout, no aluminium."
    if unsafe:
        return (Finding(asked.rule.rule, Level.CAUTION,
                        "Metal that will corrode or stain" if why else "Metal that will rust outdoors",
                        f"{told} The shop's list would serve this piece with {', '.join(unsafe[:4])}.",
                        "plain or unnamed metal", f"{SAFE_WORDS} (ASTM A153)", SOURCE,
                        "Buy these in stainless or hot-dip galvanised.",
                        f"{len(unsafe)} of {len(bought)} goods that may serve"),)
    if not why:
        return ()
    metals = sorted({g.material for g in bought if g.material})
    return (Finding(asked.rule.rule, Level.OK, "Fasteners suit the wood", told,
                    SAFE_WORDS, f"{SAFE_WORDS} (ASTM A153)", SOURCE,
                    working=f"goods that may serve: {', '.join(metals) or 'none of metal'}"),)


def _bought(case: Case) -> Iterator[Goods]:
    """Everything that the quote may buy for the piece; by kind alone where the shop lacks something."""
    try:
        found = {g.code: g for need in needs(case.piece, case.shop) for g in need.goods}
    except (NoStock, KeyError):          # a good without the size it is chosen by
        kinds = {GOODS_OF[j.rule.fasten] for j in case.piece.joints if j.rule.fasten in GOODS_OF}
        kinds |= {h.kind for h in case.piece.hardware}
        found = {g.code: g for g in case.shop.market.goods if g.kind in kinds}
    yield from (g for g in found.values() if g.kind not in NO_METAL)


def _safe(goods: Goods) -> bool:
    said = f"{goods.material} {goods.name}".lower()
    return any(word in said for word in (*SAFE, *NOT_METAL))


def _reason(timber: Timber) -> str:
    if timber.treated:
        return f"{timber.name} holds copper"
    stains = any(word in f"{timber.id} {timber.name}".lower() for word in TANNIN)
    return f"{timber.name} has tannin" if stains else ""


RULE = Rule("corrosion", check)
