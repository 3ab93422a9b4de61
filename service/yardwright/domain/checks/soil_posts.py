"""Posts of a planter: uprights that the sides hang on bend outward between what ties them across.

A post takes the soil's push on half the boards' span at each side, p = 40 lb/ft² for each ft below the
surface; between two ties a height g apart M = w·g²/8 with the push at the gap's foot, past the highest or
below the lowest M = w·o²/2. Over what the wood may bear for good (C_D 0.9): a stop. Ties are members fixed
to the post that run the way of the push. Runs with every soil sides check. Units N, mm, N/mm². Limits of
validity: as soil_sides.py; a glued strip is judged alone, on the safe side. Source: as soil_sides.py.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from ..finding import Finding, Level
from ..piece.model import Member, Vector
from .loaded import bar
from .rule import Case
from .strength import strength
from .touches import UP, dot, reach

_UPRIGHT = 0.7


def posts_hold(case: Case, rule: str, boards: list[Member], push: Vector, surface_mm: float,
               span_mm: float) -> Iterator[Finding]:
    """A stop for the worst post of each name that bends too far; nothing where all hold."""
    own = {b.key for b in boards}
    worst: dict[str, tuple[float, Finding]] = {}
    for post in case.piece.members:
        touches = case.touches.get(post.key, ())
        if abs(dot(post.frame.along, UP)) < _UPRIGHT or not any(t.other in own and t.held for t in touches):
            continue
        ties = sorted((t.low[2], t.high[2]) for t in touches
                      if t.held and abs(dot(case.member(t.other).frame.along, push)) > _UPRIGHT)
        if ties:
            share, finding = _judged(case, rule, post, ties, push, surface_mm, span_mm)
            if share > 1.0 and share > worst.get(post.name, (1.0, finding))[0]:
                worst[post.name] = share, finding
    yield from (finding for _, finding in worst.values())


def moment(ties: list[tuple[float, float]], low: float, high: float, surface: float, fluid: float,
           span: float) -> float:
    """The greatest moment of a post from ``low`` to ``high`` held at ``ties`` (from..to), N·mm."""
    def line(z: float) -> float:
        return fluid * max(0.0, surface - z) * span

    top = max(t[1] for t in ties)
    found = [line(low) * max(0.0, ties[0][0] - low) ** 2 / 2,
             line(top) * max(0.0, min(high, surface) - top) ** 2 / 2]
    reached = ties[0][1]
    for _, (start, end) in pairwise(ties):
        if start > reached:
            found.append(line(reached) * (start - reached) ** 2 / 8)
        reached = max(reached, end)
    return max(found)


def _judged(case: Case, rule: str, post: Member, ties: list[tuple[float, float]], push: Vector,
            surface_mm: float, span_mm: float) -> tuple[float, Finding]:
    words, (low, high) = case.words, reach(post, UP)
    turning = moment(ties, low, high, surface_mm, case.limit("soil.side_pressure"), span_mm)
    bending = turning / bar(post, (0.0, post.length_mm), push).section_modulus_mm3
    allowed = strength(case, post, False, False, "permanent").bending
    return bending / allowed, Finding(
        rule, Level.STOP, f"{post.name}: too weak for the soil",
        f"{post.key} holds {words.length(span_mm)} of the sides and is tied at {len(ties)} heights.",
        f"bending {words.stress(bending)}", f"bending {words.stress(allowed)}",
        case.source("soil.side_pressure"),
        "Tie it to the post across at its top and at the floor, set posts closer, or take deeper ones.",
        f"M = {words.turning(turning)}")
