"""Anchors: what those of a fixed piece must hold, and whether that is known to hold.

The load that asks most of one anchor, among the push, a climbing child, people leaning or sitting on one
side and the wind, with doors and lids shut or open, worked out in anchorage.py and held against the load in
the goods list. A good without a load: *not checked*. What the anchor goes into is never known here: masonry,
post or paving must hold as much. Always runs, for fixed pieces. Source: moments (geometry); factors as the
checks that ask.
Limits of validity: a straight pull shared as anchorage.py says; what they go into is not known.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.fixed import count_of, is_fixed
from ..piece.model import AskedCheck
from . import attached_seats, climbing, lean_back, opened, tip_over, wind
from .anchorage import each_n, load_n, load_source, most_asked, pulls
from .held_up import by_weight
from .rule import Case, Rule
from .stance import Unheld

ASKED = {"tip over": tip_over.unheld, "lean back": lean_back.unheld, "attached seats": attached_seats.unheld}


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding on the load that asks most of the anchors; nothing where none is needed."""
    load = most_asked(case, _unheld(case)) if is_fixed(case.piece) and by_weight(case) else None
    return (_told(asked, case, load),) if load else ()


def _unheld(case: Case) -> Iterator[Unheld]:
    for other in case.piece.checks:
        if other.rule.rule in ASKED:
            yield from ASKED[other.rule.rule](other, case)
    yield from climbing.unheld(case)
    if wind.looked_at(case):
        yield from wind.unheld(case)
    yield from opened.unheld(case)


def _told(asked: AskedCheck, case: Case, load: Unheld) -> Finding:
    words, count, rated = case.words, count_of(case.piece), load_n(case)
    each, (high, low) = each_n(case, load), pulls(case, load)
    worked = (f"{load.why}: {words.turning(load.moment_nmm)} that its weight does not hold; / "
              f"{words.length(load.high_mm)} up = {words.force(high)} on {count}, or from foot to foot "
              f"{words.force(low)} on {max(count // 2, 1)} of them; the greater")
    detail = (f"{count} anchors hold it under {load.why}: {words.force(high)} together at "
              f"{words.length(load.high_mm)}, or {words.force(low)} upward at the ground. What they go into, "
              "masonry, post or paving, must hold as much; that is not known here.")
    source = case.source("structure.tip_force", "structure.tip_factor", "structure.child_mass")
    if rated is None:
        return Finding(
            asked.rule.rule, Level.NOT_CHECKED, "What its anchors hold: not checked", detail,
            f"{words.force(each)} on each", "not known: no load is given for them", source,
            f"Take anchors whose maker allows {words.force(each)} each, look at what they go into, and "
            "choose screws or plugs for that.", worked)
    good = each <= rated
    return Finding(
        asked.rule.rule, Level.NOTE if good else Level.STOP,
        "Its anchors hold, where the ground or wall does" if good else "Its anchors are too weak", detail,
        f"{words.force(each)} on each", f"{words.force(rated)} each", f"{source}; {load_source(case)}",
        "Look at what they go into." if good else
        f"Take anchors that may bear {words.force(each)}, or more of them.", worked)


RULE = Rule("anchors", check)
