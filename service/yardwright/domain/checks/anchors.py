"""Anchors: what holds a piece that stands only because it is fixed, and whether that is known to hold it.

Where a check is passed, or no more than a caution, because the piece is fixed, its weight leaves a moment
unheld: M = factor·tipping - W·a. Anchors at the height of the push take F = M/h; anchors in the ground take
T = M/B at the far feet, B from foot line to foot line. The greater, shared evenly by the anchors in the
quote, is held against the load that the goods list gives for them (size ``load = 500 N``). A good without a
load: *not checked*. What the anchor goes into is never known here: masonry, post or paving must hold as much.
Always runs, for fixed pieces. Units N, mm, N·mm. Limits of validity: all anchors take alike, straight pull; a
load rated sideways serves no pull. Source: moments (geometry); factors as the checks that ask.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from . import attached_seats, climbing, lean_back, tip_over, wind
from .rule import Case, Rule
from .stance import Unheld, stance_of

ASKED = {"tip over": tip_over.unheld, "lean back": lean_back.unheld, "attached seats": attached_seats.unheld}


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding on the load that asks most of the anchors; nothing where none is needed."""
    if not climbing.fixed_in_place(case.piece):
        return ()
    loads = [(*_pulls(case, load), load) for load in _unheld(case) if load.moment_nmm > 0.0]
    if not loads:
        return ()
    high, low, load = max(loads, key=lambda found: max(found[:2]))
    return (_told(asked, case, high, low, load),)


def _unheld(case: Case) -> Iterator[Unheld]:
    for other in case.piece.checks:
        if other.rule.rule in ASKED:
            yield from ASKED[other.rule.rule](other, case)
    yield from climbing.unheld(case)
    if wind.looked_at(case):
        yield from wind.unheld(case)


def _pulls(case: Case, load: Unheld) -> tuple[float, float]:
    """(N at the height of the push, N upward at the far feet)."""
    on, (x, y, _) = stance_of(case.piece, case.standing_mm), case.piece.centre
    apart = on.room(x, y, load.way) + on.room(x, y, (-load.way[0], -load.way[1]))
    return load.moment_nmm / max(load.high_mm, 1.0), load.moment_nmm / max(apart, 1.0)


def anchors(case: Case) -> tuple[float, float | None]:
    """(how many anchors are quoted, the least load in N that the goods list gives one; None = not all do)."""
    fitted = [h for h in case.piece.hardware if h.kind in tip_over.FIXINGS and h.count > 0]
    kinds = {h.kind for h in fitted}
    rated = [g.size.get("load_n") for g in case.shop.market.goods if g.kind in kinds]
    known = [load for load in rated if load is not None]
    return sum(h.count for h in fitted), min(known) if known and len(known) == len(rated) else None


def _told(asked: AskedCheck, case: Case, high: float, low: float, load: Unheld) -> Finding:
    words, (count, rated) = case.words, anchors(case)
    each = max(high, low) / max(count, 1.0)
    worked = (f"{load.why}: {words.turning(load.moment_nmm)} that its weight does not hold; / "
              f"{words.length(load.high_mm)} up = {words.force(high)}, or from foot to foot "
              f"{words.force(low)}; the greater / {count:g}")
    detail = (f"{count:g} anchors hold it under {load.why}: {words.force(high)} together at "
              f"{words.length(load.high_mm)}, or {words.force(low)} upward at the ground. What they go into, "
              "masonry, post or paving, must hold as much; that is not known here.")
    source = case.source("structure.tip_force", "structure.tip_factor", "structure.child_mass")
    if rated is None:
        return Finding(
            asked.rule.rule, Level.NOT_CHECKED, "What its anchors hold: not checked", detail,
            f"{words.force(each)} on each", "no load given for the anchors of the goods list", source,
            "Ask the maker what an anchor bears and put it in the goods list (load = 500 N); look at what it "
            "goes into, and choose screws or plugs for that.", worked)
    good = each <= rated
    return Finding(
        asked.rule.rule, Level.NOTE if good else Level.STOP,
        "Its anchors hold, where the ground or wall does" if good else "Its anchors are too weak", detail,
        f"{words.force(each)} on each", f"{words.force(rated)} each", f"{source}; load: goods list",
        "Look at what they go into." if good else
        f"Take {max(high, low) / max(rated, 1e-9) + 1:.0f} anchors, or stronger ones.", worked)


RULE = Rule("anchors", check)
