"""Posts in the wind: uprights that the boards of a screen hang on bend, and what ties them must not let go.

A post takes w = q·c_f·(half the way to its neighbours on either side, to the piece's end beside the last) all
its height H. Ties are members fixed to it that run the way of the wind: feet, braces, rails, panels. Tied at
the ground alone it stands as a cantilever, M = w·H²/2, and its feet's fastener groups hold that together:
n·Z·0.35·(a group's longest way), as in racking.py; the foot bends with it. Tied higher up too, M = w·o²/2
past the highest tie and w·g²/8 over a gap g between two; of two ties the higher takes R = w·H·(H/2 - z1)/
(z2 - z1), the highest of more 1.25 of what is past it and half the gap below it (continuous beams).
Tied at one place above the ground: the greater of the two overhangs. Wind counts ten minutes (C_D 1.6), for
fasteners too. Posts in the ground stand as cantilevers from its face. Units N, mm, N/mm².
Limits of validity: sound posts of one section; a tie's own way to the ground is not followed; strips glued to
a post are left out (on the safe side). Source: statics (any handbook); NDS (memory) through strength.py.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..piece.model import Member, Vector
from .fixings import KINDS, glued_force, one_fastener
from .loaded import bar
from .rule import Case
from .strength import strength
from .supports import DOWN
from .touches import UP, Touch, apart, dot, reach

UPRIGHT = 0.9
GROUP_LEVER = 0.35           # as racking.py: of a fastener group's longest way
CONTINUOUS = 1.25            # of the even share: inner supports of two spans take 10/8 (any beam handbook)
_RUNS = 0.3                  # cosine: a tie runs at least so much the way of the wind
_SAME_MM = 60.0              # ties whose middles lie nearer are at one height
_SIDE_BY_SIDE_MM = 50.0      # posts nearer than this along the face stand one behind the other


@dataclass(frozen=True, slots=True)
class Stood:
    """A post as the wind uses it: bending, and its fixing; each asked and allowed, in N/mm², N or N·mm."""

    post: Member
    line: float                  # N/mm
    moment_nmm: float
    bending: float
    allowed: float
    fixing: float | None         # share used of what ties it; 0 where the ground holds it, None: not known
    foot: Member | None          # a foot that bends with it, and how far it is used
    foot_used: float
    told: str                    # how it stands
    clamped: bool                # held at one height alone, or by the ground

    @property
    def used(self) -> float:
        """The share used of its weakest part."""
        return max(self.bending / self.allowed, self.fixing or 0.0, self.foot_used)


@dataclass(frozen=True, slots=True)
class _Tie:
    touch: Touch
    other: Member
    at_mm: float
    grounded: bool


def posts_of(case: Case) -> list[Member]:
    """Uprights of the fixed part that reach the ground."""
    return [m for m in case.piece.members if m.material == "board" and m.group == "fixed"
            and abs(dot(m.frame.along, UP)) > UPRIGHT and reach(m, UP)[0] <= case.standing_mm]


def lines(case: Case, posts: Sequence[Member], across: Vector, load: float) -> dict[str, float]:
    """Post key -> N/mm that it takes of a load in N/mm², by its place along the face."""
    ends = [reach(m, across) for m in case.piece.members]
    low, high = min(e[0] for e in ends), max(e[1] for e in ends)
    at: list[float] = []
    for x in sorted(dot(p.centre, across) for p in posts):
        if not at or x - at[-1] > _SIDE_BY_SIDE_MM:
            at.append(x)
    edges = [low, *((a + b) / 2 for a, b in pairwise(at)), high]
    found = {}
    for post in posts:
        n = min(range(len(at)), key=lambda k: abs(at[k] - dot(post.centre, across)))
        found[post.key] = load * (edges[n + 1] - edges[n])
    return found


def stood(case: Case, post: Member, line: float, way: Vector, in_ground: bool) -> Stood | None:
    """The post under the wind; None where nothing holds it upright that way."""
    low, high = (0.0 if in_ground else reach(post, UP)[0]), reach(post, UP)[1]
    ties = [] if in_ground else sorted(_ties(case, post, way), key=lambda t: t.at_mm)
    if not ties and not in_ground:
        return None
    heights = apart([low if t.grounded else t.at_mm for t in ties], _SAME_MM) or [low]
    wood = strength(case, post, flat=False, sharing=False, duration="wind")
    moment = bent(line, low, high, heights)
    net = line * abs((high - heights[0]) ** 2 - (heights[0] - low) ** 2) / 2
    feet = [t.other for t in ties if t.grounded] if len(heights) == 1 else []
    if in_ground:
        asked, may = 0.0, 1.0
    elif len(heights) == 1:
        asked, may = net, _turned(case, post, ties, way)
    else:
        asked = pulled(line, low, high, heights)
        may = _held(case, post, [t for t in ties if t.at_mm > heights[-1] - _SAME_MM], way)
    how = ("stands in the ground" if in_ground else "is tied at the ground alone" if heights == [low]
           else f"is tied at {', '.join(case.words.length(z) for z in heights)}")
    told = f"{post.key} {how} and takes {case.words.force(line * (high - low))}"
    modulus = bar(post, (0.0, post.length_mm), way).section_modulus_mm3
    return Stood(post, line, moment, moment / modulus, wood.bending, asked / may if may > 0.0 else None,
                 feet[0] if feet else None, _foot(case, feet, net), told, len(heights) == 1)


def bent(line: float, low: float, high: float, heights: Sequence[float]) -> float:
    """The greatest moment in N·mm of an evenly loaded post held at these heights."""
    found = [line * (high - heights[-1]) ** 2 / 2, line * (heights[0] - low) ** 2 / 2]
    return max(found + [line * (b - a) ** 2 / 8 for a, b in pairwise(heights)])


def pulled(line: float, low: float, high: float, heights: Sequence[float]) -> float:
    """What the highest of two ties or more takes, N."""
    if len(heights) == 2:
        return line * (high - low) * ((low + high) / 2 - heights[0]) / (heights[1] - heights[0])
    return CONTINUOUS * line * (high - heights[-1] + (heights[-1] - heights[-2]) / 2)


def _ties(case: Case, post: Member, way: Vector) -> Iterator[_Tie]:
    for touch in case.touches.get(post.key, ()):
        other = case.member(touch.other)
        if not touch.held or other.material == "roll" or other.group != "fixed":
            continue
        panel = other.material == "sheet" and abs(dot(other.frame.thick, way)) < _RUNS
        if panel or abs(dot(other.frame.along, way)) > _RUNS:
            grounded = reach(other, UP)[0] <= case.standing_mm and not panel and abs(
                dot(other.frame.along, UP)) < _RUNS
            for at in (touch.low[2], touch.high[2]) if panel else (touch.centre[2],):
                yield _Tie(touch, other, at, grounded)


def _turned(case: Case, post: Member, ties: Sequence[_Tie], way: Vector) -> float:
    """The moment that the fastener groups of one height hold together."""
    lasting, total = case.limit("structure.duration_wind"), 0.0
    for tie in ties:
        touch = tie.touch
        faces = abs(dot(touch.normal, way)) < _RUNS and abs(dot(touch.normal, UP)) < _RUNS
        longest = max(b - a for a, b in zip(touch.low, touch.high, strict=True))
        if faces and touch.fasteners >= 2 and touch.kind in KINDS:
            each = one_fastener(case, post, touch, DOWN).allowed_n
            total += touch.fasteners * each * lasting * GROUP_LEVER * longest
        elif faces and touch.glued:
            total += glued_force(case, post, touch) * lasting * GROUP_LEVER * longest
    return total


def _held(case: Case, post: Member, ties: Sequence[_Tie], way: Vector) -> float:
    """The force along the wind that the ties of one height hold, whichever way it blows."""
    lasting, total = case.limit("structure.duration_wind"), 0.0
    for tie in ties:
        runs = abs(dot(tie.other.frame.along, way)) if tie.other.material == "board" else 1.0
        if tie.touch.fasteners > 0 and tie.touch.kind in KINDS:
            back = (-way[0], -way[1], -way[2])
            each = min(one_fastener(case, post, tie.touch, to).allowed_n for to in (way, back))
            total += tie.touch.fasteners * each * lasting * runs
        elif tie.touch.glued:
            total += glued_force(case, post, tie.touch) * lasting * runs
    return total


def _foot(case: Case, feet: Sequence[Member], moment: float) -> float:
    """How far the feet of a post are bent, sharing its moment evenly."""
    if not feet:
        return 0.0
    wood = strength(case, feet[0], flat=False, sharing=False, duration="wind")
    modulus = bar(feet[0], (0.0, feet[0].length_mm), DOWN).section_modulus_mm3
    return moment / len(feet) / modulus / wood.bending
