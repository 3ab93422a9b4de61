"""Anchorage: what the anchors of a fixed piece (piece/fixed.py) must hold of what its weight does not.

Fixed proves nothing yet. The moment M that the weight leaves asks T = M/B upward of the anchors at the far
feet, half of them, B from foot line to foot line, and F = M/h of them all at the height h of the push; the
greater counts. It is held against the load that the goods list
gives for one (size ``load = 500 N``, as its maker allows it: no factor is added). No load given: a caution,
and from 100 lbf on one anchor a stop, as is too small a load. Never ok.
What the anchor goes into is never known here. Units N, mm, N·mm. Limits of validity: a straight pull, half of
the anchors on either side. Source: moments (geometry); 100 lbf (judgement, structure.toml).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..finding import Level
from ..piece.fixed import anchors_of, count_of, is_fixed
from .rule import Case
from .stance import Unheld, stance_of


@dataclass(frozen=True, slots=True)
class Hold:
    """What one anchor must hold, what it may (None: nobody says), and what that comes to."""

    level: Level
    each_n: float
    load_n: float | None
    said: str                    # a sentence for a finding's detail
    mend: str

    @property
    def holds(self) -> bool:
        """Whether it may stand by its anchors, proven or not."""
        return self.level is not Level.STOP


def load_n(case: Case) -> float | None:
    """The least load in N that the goods list gives for an anchor that may be bought; None: not for all."""
    given = [g.size.get("load_n") for h in anchors_of(case.piece) for g in case.shop.market.goods
             if g.kind == h.kind and h.words.get("code", g.code) == g.code]
    known = [load for load in given if load is not None]
    return min(known) if known and len(known) == len(given) else None


def load_source(case: Case) -> str:
    """Who says what the anchors may bear."""
    said = {g.load_from for h in anchors_of(case.piece) for g in case.shop.market.goods
            if g.kind == h.kind and "load_n" in g.size}
    return f"load: {', '.join(sorted(s or 'goods list' for s in said))}" if said else ""


def pulls(case: Case, load: Unheld) -> tuple[float, float]:
    """(N of all anchors at the height of the push, N upward at the far feet)."""
    on, (x, y, _) = stance_of(case.piece, case.standing_mm), case.piece.centre
    apart = on.room(x, y, load.way) + on.room(x, y, (-load.way[0], -load.way[1]))
    return load.moment_nmm / max(load.high_mm, 1.0), load.moment_nmm / max(apart, 1.0)


def each_n(case: Case, load: Unheld) -> float:
    """What one anchor takes: all share the pull high up, half of them that at the feet."""
    high, low = pulls(case, load)
    count = count_of(case.piece)
    return max(high / max(count, 1), low / max(count // 2, 1))


def resting(case: Case, load: Unheld | None, lightly: Level = Level.CAUTION) -> Hold | None:
    """What the anchors make of a load that the weight does not hold; None where nothing is fixed.

    ``lightly``: what an unknown anchor under a small pull comes to.
    """
    if load is None or load.moment_nmm <= 0.0 or not is_fixed(case.piece):
        return None
    return judged(case, each_n(case, load), lightly)


def outcome(held: Hold | None, level: Level, title: str, by_fixing: str,
            mend: str) -> tuple[Level, str, str, str]:
    """(level, title, what to add to the detail, mend) of what the weight does not hold: as given where
    nothing is fixed, else as its anchors are judged."""
    if held is None:
        return level, title, "", mend
    return held.level, by_fixing if held.holds else title, f" {held.said}", held.mend


def judged(case: Case, each: float, lightly: Level = Level.CAUTION) -> Hold:
    """One anchor under a pull of so many N."""
    words, given, most = case.words, load_n(case), case.limit("structure.anchor_unknown")
    must = f"Only its fixing holds it: {words.force(each)} on each of its {count_of(case.piece)} anchors"
    if given is None:
        return Hold(lightly if each <= most else Level.STOP, each, None,
                    f"{must}, and no load is given for them.",
                    f"Take anchors whose maker allows {words.force(each)} each, and look at what they go "
                    "into.")
    if each > given:
        return Hold(Level.STOP, each, given, f"{must}, which may bear {words.force(given)}.",
                    f"Take anchors that may bear {words.force(each)}, or more of them.")
    return Hold(Level.OK, each, given, f"{must}, which may bear {words.force(given)}; what they go into must "
                                       "bear as much.", "")


def most_asked(case: Case, loads: Iterator[Unheld]) -> Unheld | None:
    """The load that asks most of one anchor; None where the weight holds all of them."""
    return max((load for load in loads if load.moment_nmm > 0.0), key=lambda load: each_n(case, load),
               default=None)
