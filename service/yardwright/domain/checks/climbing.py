"""Climbing: a child hanging from the edge of a tall piece does not pull it over.

25 kg, 4 in outside the outermost edge of each side: W·a >= m·g·(o + 4 in), o how far that edge lies past the
feet. Always runs, for pieces 24 in high and taller. Fixed pieces hold. A planter is judged empty, and there a
caution is the most: full it stands. Level ground. Units N, mm.
Source: EN 1022 and ASTM F2057 idea (memory), the arm (judgement).
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Piece
from .rule import Case, Rule
from .tip_over import feet_of, is_fixed
from .words import GRAVITY


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding for the worst side of a tall piece; nothing for a low one."""
    box, words = case.piece.closed, case.words
    if case.piece.standing_mm[2] < case.limit("structure.tall_piece"):
        return ()
    feet, (x, y, _) = feet_of(case.piece, case.standing_mm), case.piece.centre
    weight = case.piece.mass_kg * GRAVITY
    child, out = case.limit("structure.child_mass"), case.limit("structure.child_out")
    sides = {"front": (feet.front - box.low[1], y - feet.front),
             "back": (box.high[1] - feet.back, feet.back - y),
             "left end": (feet.left - box.low[0], x - feet.left),
             "right end": (box.high[0] - feet.right, feet.right - x)}
    holds = {side: weight * arm / (child * GRAVITY * (max(0.0, over) + out))
             for side, (over, arm) in sides.items()}
    side = min(holds, key=holds.__getitem__)
    fixed = fixed_in_place(case.piece)
    good = holds[side] >= 1.0 or fixed
    filled = any(c.rule.words.get("kind") == "planter" for c in case.piece.checks)
    level = Level.OK if good else Level.CAUTION if filled else Level.STOP
    return (Finding(
        asked.rule.rule, level,
        "A climbing child does not pull it over" if good else "A climbing child can pull it over",
        f"A child of {words.mass(child)} hanging at the {side}; empty it weighs "
        f"{words.mass(case.piece.mass_kg)}." + (" It is fixed in place." if fixed else ""),
        f"factor {holds[side]:.2f}", "factor 1" + (" or fixed" if fixed else ""),
        case.source("structure.child_mass", "structure.child_out"),
        "" if good else "Fix it to a wall or the ground" + (", and fill it as soon as it stands." if filled
                                                            else ", or spread its feet."),
        "W·a against m·g·(o + 4 in)"),)


def fixed_in_place(piece: Piece) -> bool:
    """Whether any of the piece's checks says that it is fixed and the quote holds what fixes it."""
    return any(is_fixed(asked, piece) for asked in piece.checks)


RULE = Rule("climbing", check)
