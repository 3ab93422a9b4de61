"""Climbing: a child hanging from the edge of a tall piece does not pull it over.

25 kg, 4 in outside the outermost edge of each side: W·a >= m·g·(o + 4 in), o how far that edge lies past the
feet. Always runs, for pieces 24 in high and taller. Anchors take what its weight does not (anchorage.py;
under a small pull a note where tip over already warns of them). A planter is judged empty, and there a
caution is the most: full it stands. A chair, moved about and watched, gets no more than a caution either
(F2057 is about furniture that stays; EN 1022 hangs nobody on chairs). Level ground. Units N, mm.
Source: EN 1022 and ASTM F2057 idea (memory), the arm (judgement).
Limits of validity: level ground; a child that rocks or jumps is not judged.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .anchorage import most_asked, outcome, resting
from .held_up import by_weight
from .rule import Case, Rule
from .stance import Unheld, stance_of
from .tip_over import warned
from .touches import corners
from .words import GRAVITY


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding for the worst side of a tall piece; nothing for a low one."""
    words, (x, y, _) = case.words, case.piece.centre
    if case.piece.standing_mm[2] < case.limit("structure.tall_piece") or not by_weight(case):
        return ()
    weight = case.piece.mass_kg * GRAVITY
    child, out = case.limit("structure.child_mass"), case.limit("structure.child_out")
    edges = [c for m in case.piece.members for c in corners(m)]
    holds, side = min(((weight * s.inside(x, y) / (child * GRAVITY * (s.past(edges) + out)), s)
                       for s in stance_of(case.piece, case.standing_mm).sides), key=lambda found: found[0])
    filled = any(c.rule.words.get("kind") == "planter" for c in case.piece.checks)
    chair = any(c.rule.words.get("kind") == "chair" for c in case.piece.checks)
    level, title, more, mend = Level.OK, "A climbing child does not pull it over", "", ""
    if holds < 1.0:
        held = resting(case, most_asked(case, unheld(case)), Level.NOTE if warned(case) else Level.CAUTION)
        level, title, more, mend = outcome(
            held, Level.CAUTION if filled or chair else Level.STOP, "A climbing child can pull it over",
            "Only its fixing holds a climbing child",
            "Let no child climb on its back; take it lower or steeper." if chair else
            "Fix it to a wall or the ground" + (", and fill it as soon as it stands." if filled
                                                else ", or spread its feet."))
    return (Finding(
        asked.rule.rule, level, title,
        f"A child of {words.mass(child)} hanging at the {side.name}; empty it weighs "
        f"{words.mass(case.piece.mass_kg)}.{more}",
        f"factor {holds:.2f}", "factor 1",
        case.source("structure.child_mass", "structure.child_out"),
        mend,
        f"W·a = {words.force(weight)} × {words.length(side.inside(x, y))} against m·g·(o + "
        f"{words.length(out)}) = {words.force(child * GRAVITY)} × {words.length(side.past(edges) + out)}"),)


def unheld(case: Case) -> Iterator[Unheld]:
    """What is left to anchors under the child at each side of a tall piece."""
    (x, y, _), high = case.piece.centre, case.piece.standing_mm[2]
    if high < case.limit("structure.tall_piece"):
        return
    child, out = case.limit("structure.child_mass"), case.limit("structure.child_out")
    edges = [c for m in case.piece.members for c in corners(m)]
    for side in stance_of(case.piece, case.standing_mm).sides:
        yield Unheld("a climbing child", GRAVITY * (child * (side.past(edges) + out)
                                                    - case.piece.mass_kg * side.inside(x, y)), high, side.out)


RULE = Rule("climbing", check)
