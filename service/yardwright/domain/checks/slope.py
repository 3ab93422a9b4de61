"""On ground that falls: how much nearer to the foot line a weight acts.

A piece that stands on the fall leans with it: a weight at height h acts h·fall nearer to the lower side;
along the wall the ground is taken to fall to whichever end is worse. Legs cut to the ground, or levelling
feet that reach, stand it level (fit/ground.py): then nothing is lost. Shims may slip out: with them the fall
counts. mm, falls as rise over run. Source: geometry.
"""

from __future__ import annotations

from ..fit.ground import levelling
from ..piece.model import Vector
from .rule import Case
from .stance import Side, Stance
from .touches import ground


def leaning(case: Case) -> bool:
    """Whether the ground falls under it and no leg makes that up."""
    found = levelling(case.piece, case.site.ground, case.standing_mm, case.limit("ground.shimmed"),
                      case.limit("ground.foot_travel"))
    return found is not None and found.how == "shims"


def lost_mm(case: Case, side: Side, at_mm: float) -> float:
    """How much of the arm of a weight at a height the fall takes on a side; 0 uphill or where it is level."""
    if not leaning(case):
        return 0.0
    falls, high = case.site.ground, at_mm - ground(case.piece)
    return max(0.0, high * (abs(falls.fall_along * side.out[0]) - falls.fall_away * side.out[1]))


def nearest(case: Case, on: Stance, centre: Vector | None = None) -> tuple[Side, float, str]:
    """(the side that the weight is nearest to, its arm there, what the fall takes of it in words); ``centre``
    of gravity: the piece's own unless given."""
    x, y, z = centre or case.piece.centre
    arm, lost, side = min(((s.inside(x, y) - (gone := lost_mm(case, s, z)), gone, s) for s in on.sides),
                          key=lambda found: found[0])
    words = case.words
    told = f"; of that arm the fall of the ground takes {words.fine(lost)}, h·fall" if lost else ""
    return side, arm, told
