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
    own, foot_mm = {b.key for b in boards}, soil_foot(case, boards)
    worst: dict[str, tuple[float, Finding]] = {}
    for post in case.piece.members:
        touches = case.touches.get(post.key, ())
        if abs(dot(post.frame.along, UP)) < _UPRIGHT or not any(t.other in own and t.held for t in touches):
            continue
        ties = sorted((t.low[2], t.high[2]) for t in touches
                      if t.held and abs(dot(case.member(t.other).frame.along, push)) > _UPRIGHT)
        if ties:
            share, finding = _judged(case, rule, post, ties, push, (foot_mm, surface_mm), span_mm)
            if share > 1.0 and share > worst.get(post.name, (1.0, finding))[0]:
                worst[post.name] = share, finding
    yield from (finding for _, finding in worst.values())


def soil_foot(case: Case, boards: list[Member]) -> float:
    """How low the soil reaches: the top of the floor that it lies on, else the lowest edge of its boards."""
    floors = [reach(case.member(k), UP)[1] for c in case.piece.checks if c.rule.rule == "soil floor"
              for k in c.members]
    return max(floors, default=min(reach(b, UP)[0] for b in boards))


def moment(ties: list[tuple[float, float]], low: float, high: float, soil: tuple[float, float], fluid: float,
           span: float) -> float:
    """The greatest moment of a post from ``low`` to ``high`` held at ``ties`` (from..to), N·mm; ``soil``: the
    heights of its foot and its surface."""
    foot, surface = soil

    def line(z: float) -> float:
        return fluid * max(0.0, surface - z) * span

    def hung(tie: float, start: float, end: float) -> float:
        """Of the soil from start to end about a tie above or below it."""
        return line(start) * max(0.0, end - start) * abs((start + end) / 2 - tie)

    top, lowest = max(t[1] for t in ties), ties[0][0]
    found = [hung(lowest, max(low, foot), min(lowest, surface)),
             hung(top, max(top, foot), min(high, surface))]
    reached = ties[0][1]
    for _, (start, end) in pairwise(ties):
        if start > max(reached, foot):
            found.append(line(max(reached, foot)) * (start - reached) ** 2 / 8)
        reached = max(reached, end)
    return max(found)


def _judged(case: Case, rule: str, post: Member, ties: list[tuple[float, float]], push: Vector,
            soil_mm: tuple[float, float], span_mm: float) -> tuple[float, Finding]:
    words, (low, high) = case.words, reach(post, UP)
    turning = moment(ties, low, high, soil_mm, case.limit("soil.side_pressure"), span_mm)
    bending = turning / bar(post, (0.0, post.length_mm), push).section_modulus_mm3
    allowed = strength(case, post, False, False, "permanent").bending
    return bending / allowed, Finding(
        rule, Level.STOP, f"{post.name}: too weak for the soil",
        f"{post.key} holds {words.length(span_mm)} of the sides and is tied at {len(ties)} heights.",
        f"bending {words.stress(bending)}", f"bending {words.stress(allowed)}",
        case.source("soil.side_pressure"),
        "Tie it to the post across at its top and at the floor, set posts closer, or take deeper ones.",
        f"soil from {words.length(soil_mm[0])} to {words.length(soil_mm[1])} above the ground; M = "
        f"{words.turning(turning)}")
