"""Posts of a back: uprights that a back hangs on stand as cantilevers above what ties them.

A sitter's 100 lbf over the top foot of the back, three quarters of it on one post, bend it about the
highest member that is fixed to it and runs the way of the push: M = F·h on what is left of the post there,
strips glued to it counted as one with it. Its fixings to those members take the push and the couple: F·(1 +
h/d) on the upper one with another d below it, else the screw group turns (racking.py). Over what the wood
may bear: a stop; over what the fixings may: a caution, from 2.5 times a stop. Runs with every back load.
Units N, mm, N/mm². Limits of validity: friction at the feet is left out, on the safe side. Source: as
back_load.py; judgement.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot

from ..finding import Finding, Level
from ..piece.model import Member, Vector
from ..piece.solid import sections
from .fixings import KINDS, one_fastener
from .loaded import bar
from .notches import left_of
from .rule import Case
from .strength import strength
from .touches import UP, Touch, corners, dot

_UPRIGHT = 0.7
_RUNS = 0.5
_GROUP_LEVER = 0.35          # as racking.py: of a screw group's longest way


@dataclass(frozen=True, slots=True)
class _Post:
    post: Member
    force_n: float
    lever_mm: float
    bending: float
    allowed: float
    on_fixing_n: float
    fixing_n: float


def posts_stand(case: Case, rule: str, boards: list[Member], push: Vector) -> Iterator[Finding]:
    """A finding for the worst post of each name that is too weak or too weakly fixed; else none."""
    worst: dict[str, _Post] = {}
    for post in _posts(case, boards, push):
        known = worst.get(post.post.name)
        if known is None or _share(post) > _share(known):
            worst[post.post.name] = post
    for post in worst.values():
        if post.bending > post.allowed:
            yield _weak(case, rule, post)
        if post.on_fixing_n > post.fixing_n:
            yield _loose(case, rule, post)


def _share(post: _Post) -> float:
    return max(post.bending / post.allowed, post.on_fixing_n / max(post.fixing_n, 1e-9))


def _posts(case: Case, boards: list[Member], push: Vector) -> Iterator[_Post]:
    level = hypot(push[0], push[1])
    way = (push[0] / level, push[1] / level, 0.0)
    own = {b.key for b in boards}
    rails = {t.other for b in boards for t in case.touches.get(b.key, ())
             if t.held and abs(dot(case.member(t.other).frame.along, UP)) < _UPRIGHT} - own
    rails = {k for k in rails if not any(t.held and _runs(case, t, way) for t in case.touches.get(k, ()))}
    top = max(c[2] for b in boards for c in corners(b)) - case.limit("structure.seat_patch") / 2
    force = case.limit("structure.lean_load") * case.limit("structure.rail_share")
    for member in case.piece.members:
        touches = [(k, t) for k in _mates(case, member) for t in case.touches.get(k, ())]
        if member.key in own or abs(dot(member.frame.along, UP)) < _UPRIGHT:
            continue
        loaded = [t.high[2] for _, t in touches if t.other in own | rails]
        high = min(top, max(loaded, default=0.0))
        ties = [(k, t) for k, t in touches if t.held and t.other not in own and t.low[2] < high
                and _runs(case, t, way)]
        if loaded and ties:
            yield _judged(case, member, ties, high, force, way)


def _runs(case: Case, touch: Touch, way: Vector) -> bool:
    return abs(dot(case.member(touch.other).frame.along, way)) > _RUNS


def _judged(case: Case, member: Member, ties: list[tuple[str, Touch]], high: float, force: float,
            way: Vector) -> _Post:
    tie = max(min(t.high[2], high) for _, t in ties)
    moment = force * (high - tie)
    allowed = strength(case, member, False, False, "people").bending
    asked, holds = _fixed(case, member, ties, high, force, way)
    return _Post(member, force, high - tie, moment / max(_modulus(case, member, tie, way), 1e-6), allowed,
                 asked, holds)


def _fixed(case: Case, member: Member, ties: list[tuple[str, Touch]], high: float, force: float,
           way: Vector) -> tuple[float, float]:
    """(force on the fastener that takes most, what it may)."""
    if any(t.glued and not _mate(member, case.member(t.other)) for _, t in ties):
        return 0.0, 1.0                              # glue over a face: judged by the joints rule
    groups = [(t.fasteners, t.centre[2],
               _GROUP_LEVER * max(b - a for a, b in zip(t.low, t.high, strict=True)),
               one_fastener(case, case.member(k), t, way).allowed_n)
              for k, t in ties if t.kind in KINDS and t.fasteners > 0]
    if not groups:
        return force, 0.0
    number = sum(n for n, _, _, _ in groups)
    heel, middle = _heel(case, member, way), sum(n * z for n, z, _, _ in groups) / number
    about, direct = (middle, force / number) if heel is None or heel > middle else (heel, 0.0)
    inertia = sum(n * ((z - about) ** 2 + reach**2) for n, z, reach, _ in groups)
    moment = force * max(0.0, high - about)
    each = ((direct + moment * (abs(z - about) + reach) / inertia, may) for _, z, reach, may in groups)
    return max(each, key=lambda f: f[0] / max(f[1], 1e-9))


def _heel(case: Case, member: Member, way: Vector) -> float | None:
    """The lowest place where the post, turning back, bears forward on something that is backed by a member
    running the way of the push; None where it bears on nothing."""
    found = [t.centre[2] for key in _mates(case, member) for t in case.touches.get(key, ())
             if dot(t.normal, way) < -_UPRIGHT and (_runs(case, t, way) or any(
                 dot(u.normal, way) < -_UPRIGHT and _runs(case, u, way)
                 for u in case.touches.get(t.other, ())))]
    return min(found, default=None)


def _mate(one: Member, other: Member) -> bool:
    return one.key == other.key or bool(one.glue_up and (one.glue_up, one.glue_up_no)
                                        == (other.glue_up, other.glue_up_no))


def _mates(case: Case, member: Member) -> list[str]:
    return [m.key for m in case.piece.members if _mate(member, m)]


def _modulus(case: Case, member: Member, height: float, way: Vector) -> float:
    """Section modulus of the post and of what is glued to it, at a height, bent the way of the push."""
    if member.solid is None:
        return bar(member, (0.0, member.length_mm), way).section_modulus_mm3
    mates, frame = [m for m in case.piece.members if m.solid is not None and _mate(member, m)], member.frame
    at = (height + 1.0 - frame.origin[2]) / frame.along[2]
    loops = [loop for m in mates for loop in sections(m.solid, frame.origin, frame.along, frame.wide,
                                                      frame.thick, [at])[0]]
    deep = 0 if abs(dot(frame.wide, way)) > abs(dot(frame.thick, way)) else 1
    left = left_of(at, loops, deep)
    return left.modulus_mm3 if left else 0.0


def _weak(case: Case, rule: str, p: _Post) -> Finding:
    words = case.words
    return Finding(
        rule, Level.STOP, f"{p.post.name}: too weak for a back leaned on",
        f"{p.post.key} stands {words.length(p.lever_mm)} above the highest member that ties it; "
        f"{words.force(p.force_n)} of a sitter's back bend it there.",
        f"bending {words.stress(p.bending)}", f"bending {words.stress(p.allowed)}",
        case.source("structure.lean_load", "structure.rail_share"),
        f"Tie it {words.length(p.lever_mm * (1 - p.allowed / p.bending))} higher, lower the back, or take a "
        "deeper post.", f"M = F·h = {words.turning(p.force_n * p.lever_mm)}; f_b = M/S")


def _loose(case: Case, rule: str, p: _Post) -> Finding:
    words, share = case.words, p.on_fixing_n / max(p.fixing_n, 1e-9)
    stops = share > case.limit("joints.stop_from")
    return Finding(
        rule, Level.STOP if stops else Level.CAUTION, f"{p.post.name}: too weakly fixed for a back leaned on",
        f"A sitter's back turns {p.post.key} about its highest fixing.",
        f"{words.used(share)} of what it may", "100%",
        case.source("structure.lean_load", "joints.wet", "joints.stop_from"),
        f"Put {share:.1f} times as many fasteners there, or tie it again lower down.",
        f"M·z/Σz²: {words.force(p.on_fixing_n)} on one fastener of {words.force(p.fixing_n)}")
