"""Racking: legs and what joins them keep a piece from folding sideways.

Each row of seats sways 24 lb for each ft of its length along it and 10 across (IBC 1607 / ASCE 7; seen) at
its height, all rows together; other pieces are pushed with 25 lbf at their top. Against it stand the screw
groups where boards and rails cross the legs: each group of n holds a turning moment n·Z·0.35·(its longest
way), and the legs hold F = ΣM / h together; a brace (20° at least off level and upright) holds F = N·cos·r/h,
N what its weaker end's fasteners do, r how far up it reaches from fixing to fixing, h at most. Splayed legs
are no braces: two of them and what joins them still fold. Ends butted on a leg and glue are left out, and the
ground holds no leg upright: on the safe side. Less than the sway is a caution, less than a 2.5th of it
(joints.toml) a stop: brace it, panel it, or let a rail cross the legs. Always runs, for pieces on
legs that stand by their weight. Units
N, mm. Sources: sway (seen), NDS yield modes (memory), group lever (judgement), equilibrium of the legs.
Limits of validity: screw groups slip alike, rails do not bend; glue and end grain hold nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations
from math import radians, sin

from ..finding import Finding, Level
from ..piece.joints import components
from ..piece.model import AskedCheck, Member, Vector
from .fixings import KINDS, one_fastener
from .held_up import by_weight
from .rule import Case, Rule
from .supports import DOWN
from .touches import UP, Touch, dot, reach

WAYS: tuple[tuple[str, Vector], ...] = (("along", (1.0, 0.0, 0.0)), ("across", (0.0, 1.0, 0.0)))
APART_MM = 50.0              # boards of a seat further apart than this are two rows
GROUP_LEVER = 0.35
_LEVEL = 0.3                 # cosine with upright below which a member lies level enough to be a rail
_LEG = 0.7
_SAME_WAY = 0.99


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding for the weaker way; nothing for pieces without legs."""
    standing = case.standing_mm
    if not by_weight(case):
        return ()
    legs = [m for m in case.piece.members if m.material == "board" and abs(dot(m.frame.along, UP)) > _LEG
            and reach(m, UP)[0] <= standing]
    if not legs:
        return ()
    found = [_way(asked, case, legs, *way) for way in WAYS]
    return (min(found, key=lambda f: f[0])[1],)


def _way(asked: AskedCheck, case: Case, legs: list[Member], name: str,
         sway: Vector) -> tuple[float, Finding]:
    words = case.words
    force, high = _demand(case, sway)
    groups, turning, braces = held_sideways(case, legs, sway, high)
    holds = turning / high + sum(braces)
    share = holds / force
    good = share >= 1.0
    folds = share < 1.0 / case.limit("joints.stop_from")
    return share, Finding(
        asked.rule.rule, Level.OK if good else Level.STOP if folds else Level.CAUTION,
        "Stands sideways sway" if good else f"Sways {name}: little keeps its legs upright",
        f"{groups} screw groups where boards or rails cross legs and {len(braces)} braces hold "
        f"{words.force(holds)} {name} at {words.length(high)}.", words.force(holds),
        f"{words.force(force)} of sway",
        case.source("joints.sway_along", "joints.sway_across", "structure.tip_force", "joints.wet"),
        "" if good else "Brace the legs, close a side with boards, or let a rail cross each leg with two "
        "screws or more.",
        f"ΣM/h = {words.turning(turning)} / {words.length(high)}, braces {words.force(sum(braces))}",
        customer=not good)


def held_sideways(case: Case, legs: Sequence[Member], sway: Vector,
                  high_mm: float) -> tuple[int, float, list[float]]:
    """(fastener groups, N·mm that they hold together, N that each brace holds at a height) of one way."""
    moments = [moment for leg in legs for moment in _groups(case, leg, sway)]
    standing = {leg.key for leg in legs}
    braces = [_brace(case, m, sway, high_mm) for m in case.piece.members
              if m.key not in standing and _braces(case, m, sway)]
    return len(moments), sum(moments), braces


def _demand(case: Case, sway: Vector) -> tuple[float, float]:
    """(force N, at what height mm): every full row of seats swaying one way, or a push at the top."""
    seats = [case.member(k) for c in case.piece.checks if c.rule.rule == "seat load" for k in c.members]
    low = case.standing_mm
    if not seats:
        return case.limit("structure.tip_force"), max(case.piece.closed.high[2] - low, 1.0)
    high = max(reach(m, UP)[1] for m in seats) - low
    force = 0.0
    for long_mm, runs in rows(seats):
        limit = "sway_along" if abs(dot(runs, sway)) > _LEG else "sway_across"
        force += case.limit(f"joints.{limit}") * long_mm
    return force, max(high, 1.0)


def rows(seats: Sequence[Member]) -> list[tuple[float, Vector]]:
    """Each row that people sit in: how long, and the way it runs, the longer of its two.

    Boards that run one way side by side are one row: two seats of a table are two, and an L has two.
    """
    known = {m.key: m for m in seats}
    links = [(a.key, b.key) for a, b in combinations(known.values(), 2) if _beside(a, b)]
    return [_row([known[key] for key in keys]) for keys in components(list(known), links)]


def _beside(a: Member, b: Member) -> bool:
    if abs(dot(a.frame.along, b.frame.along)) < _SAME_WAY:
        return False
    apart = [max(reach(a, way)[0], reach(b, way)[0]) - min(reach(a, way)[1], reach(b, way)[1])
             for way in (a.frame.along, a.frame.wide)]
    return apart[0] < 0.0 and apart[1] < APART_MM


def _row(boards: Sequence[Member]) -> tuple[float, Vector]:
    lengths = [(max(reach(m, way)[1] for m in boards) - min(reach(m, way)[0] for m in boards), way)
               for _, way in WAYS]
    return max(lengths, key=lambda found: found[0])


def _groups(case: Case, leg: Member, sway: Vector) -> Iterator[float]:
    """The turning moment of each screw group between a leg and what runs level the way of the sway."""
    for touch in case.touches.get(leg.key, ()):
        other = case.member(touch.other)
        runs = abs(dot(other.frame.along, sway)) > _LEG and abs(dot(other.frame.along, UP)) < _LEVEL
        faces = abs(dot(touch.normal, sway)) < _LEVEL and abs(dot(touch.normal, UP)) < _LEVEL
        if runs and faces and touch.fasteners >= 2 and touch.kind in KINDS:
            each = one_fastener(case, leg, touch, DOWN).allowed_n
            yield touch.fasteners * each * GROUP_LEVER * _longest(touch)


def _longest(touch: Touch) -> float:
    return max(b - a for a, b in zip(touch.low, touch.high, strict=True))


def _braces(case: Case, member: Member, sway: Vector) -> bool:
    along, least = member.frame.along, case.limit("joints.brace_slope")
    sine = sin(radians(least))
    held = {t.other for t in case.touches.get(member.key, ()) if t.fasteners > 0}
    return abs(dot(along, sway)) > sine and abs(dot(along, UP)) > sine and len(held) >= (
        1 if reach(member, UP)[0] <= case.standing_mm else 2)


def _brace(case: Case, member: Member, sway: Vector, high_mm: float) -> float:
    """What a brace holds of a sway so high up: its weakest place, pulled or pressed along itself, by the
    share of the height that it reaches over; a place that can only be pressed does not count."""
    out, back = member.frame.along, minus(member.frame.along)
    places = [(t.fasteners * min(one_fastener(case, member, t, way).allowed_n for way in (out, back)),
               t.centre[2]) for t in case.touches.get(member.key, ()) if t.fasteners > 0 and t.kind in KINDS]
    firm = [(force, at) for force, at in places if force > 0]
    grounded = reach(member, UP)[0] <= case.standing_mm
    if len(firm) < (1 if grounded else 2):
        return 0.0
    heights = [at for _, at in firm] + ([case.standing_mm] if grounded else [])
    rise = (max(heights) - min(heights)) / high_mm
    return min(force for force, _ in firm) * abs(dot(out, sway)) * min(rise, 1.0)


def minus(a: Vector) -> Vector:
    """The other way."""
    return (-a[0], -a[1], -a[2])


RULE = Rule("racking", check)
