"""Loads followed down a piece, joint by joint: what each joint place takes of a load on the boards.

Each member is a beam on yielding supports: what it lies on hardly gives, screws slip, and what carries it
gives as its own joints and bending let it; so neighbouring joints share a load. Lying members that lift are
let go. Pushed sideways, uprights hand their load to what ties them. Loads end at the ground, or at a tie
running the way of the push. Units N, mm.
Limits: each support gives by itself (a load beside it does not press it down too); joints stay in their slip
range; an upright that does not reach the ground hands its load to all that hold it, and there it ends.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from ..piece.model import Member, Vector
from .beam import on_springs
from .fixings import KINDS, Fixing, glued_force, one_fastener
from .held_up import rests
from .loaded import bar
from .rule import Case
from .strength import strength
from .supports import DOWN, Footing, carrying, patch
from .touches import UP, Touch, dot

_APART_MM = 5.0
_SAME_MM = 4.0               # loads this near each other are taken as one
_LEAST = 1e-3                # a smaller share of a load is not followed
_UPRIGHT = 0.7
Demands = dict[tuple[str, str, int], float]      # (member, other, place) -> N


@dataclass(frozen=True, slots=True)
class Place:
    """One place where a member hands its load on."""

    other: str
    at_mm: float                 # along the member
    on_mm: float                 # along the other
    touch: Touch
    bears: bool
    fasteners: float             # of the touch, here
    fixing: Fixing | None        # one fastener; None = it lies there, or glue alone
    glue_n: float
    stiffness: float

    @property
    def allowed_n(self) -> float:
        """What the joint may carry here; without limit where the member lies on the other."""
        if self.bears:
            return float("inf")
        return max((self.fixing.allowed_n if self.fixing else 0.0) * self.fasteners, self.glue_n)


@dataclass(slots=True)
class Path:
    """The ways down for one direction of load; finds each member's shares once."""

    case: Case
    on: Footing
    places: dict[str, tuple[Place, ...]] = field(default_factory=dict)
    shares: dict[tuple[str, int], tuple[tuple[float, ...], float]] = field(default_factory=dict)
    units: dict[tuple[str, int], Demands] = field(default_factory=dict)

    def places_of(self, key: str) -> tuple[Place, ...]:
        """Where the member hands its load on; () = it ends there."""
        if key not in self.places:
            self.places[key] = ()                # a ring of members ends where it closes
            self.places[key] = tuple(_places(self, self.case.member(key)))
        return self.places[key]

    def shared(self, key: str, at_mm: float) -> tuple[tuple[float, ...], float]:
        """(share of a unit load that each place takes, how far the member gives under it)."""
        known = (key, round(at_mm / _SAME_MM))
        if known not in self.shares:
            self.shares[known] = _shared(self.case, self.case.member(key), self.places_of(key), at_mm,
                                         self.on.push)
        return self.shares[known]

    def demands(self, loads: Iterable[tuple[str, float, float]]) -> Demands:
        """What every joint place takes of loads (member, mm along it, N) that stand together."""
        taken: Demands = {}
        for key, at, force in loads:
            for place, share in self._unit(key, at).items():
                taken[place] = taken.get(place, 0.0) + force * share
        return taken

    def _unit(self, key: str, at_mm: float) -> Demands:
        """What every joint place takes of a unit load, found once; a ring of members ends where it closes."""
        known = (key, round(at_mm / _SAME_MM))
        if known not in self.units:
            self.units[known] = {}
            taken: Demands = {}
            shares, _ = self.shared(key, at_mm)
            for n, (place, share) in enumerate(zip(self.places_of(key), shares, strict=True)):
                if abs(share) < _LEAST:
                    continue
                taken[key, place.other, n] = taken.get((key, place.other, n), 0.0) + share
                for below, part in self._unit(place.other, place.on_mm).items():
                    taken[below] = taken.get(below, 0.0) + share * part
            self.units[known] = taken
        return self.units[known]


def _places(path: Path, member: Member) -> Iterable[Place]:
    case, push = path.case, path.on.push
    upright = abs(dot(member.frame.along, UP)) > _UPRIGHT
    if upright and push == DOWN:
        if rests(case, member):
            return
        touches = [(t, dot(t.normal, push) > _UPRIGHT) for t in case.touches.get(member.key, ())
                   if t.other not in path.on.loaded and (
                       dot(t.normal, push) > _UPRIGHT or (t.held and path.on.stood.get(t.other, 0) == 0))]
    elif upright:
        touches = [(t, False) for t in case.touches.get(member.key, ())
                   if t.held and abs(dot(case.member(t.other).frame.along, push)) > _UPRIGHT]
    elif push == DOWN and rests(case, member):
        return                                       # it lies on the ground
    elif push != DOWN and abs(dot(member.frame.along, push)) > _UPRIGHT:
        return                                       # a tie ends the load
    else:
        touches = list(carrying(case, member, path.on))
    for touch, bears in touches:
        if case.member(touch.other).material == "roll":
            continue                                 # a lining carries nothing
        yield from _split(path, member, touch, bears)


def _split(path: Path, member: Member, touch: Touch, bears: bool) -> Iterable[Place]:
    case, push = path.case, path.on.push
    other, axis = case.member(touch.other), member.frame.along
    middle = dot(tuple_minus(touch.centre, member.frame.origin), axis)
    fixing, glue = None, 0.0
    if not bears:
        glue = glued_force(case, member, touch)
        if touch.fasteners > 0 and touch.kind in KINDS:
            fixing = one_fastener(case, member, touch, push)
    parts = patch(member, touch, hung=not bears)
    for part in parts:
        off = part.at_mm - middle
        point = tuple_plus(touch.centre, axis, off)
        on_mm = dot(tuple_minus(point, other.frame.origin), other.frame.along)
        local = case.limit("joints.bearing")
        if not bears and glue <= 0.0 and fixing:
            local = max(fixing.stiffness * part.fasteners, 1.0)
        gives = 0.0
        if path.places_of(other.key):
            gives = max(path.shared(other.key, on_mm)[1], 0.0)
        yield Place(other.key, part.at_mm, on_mm, touch, bears, part.fasteners, fixing, glue / len(parts),
                    1 / (1 / local + gives))


def _shared(case: Case, member: Member, places: tuple[Place, ...], at_mm: float,
            push: Vector) -> tuple[tuple[float, ...], float]:
    """Shares by a beam on springs; lying places that lift are let go, round by round."""
    live = list(range(len(places)))
    while True:
        ats = [places[n].at_mm for n in live]
        if not ats:
            return (0.0,) * len(places), 0.0
        if max(ats) - min(ats) < _APART_MM:
            stiff = sum(places[n].stiffness for n in live)
            even = {n: places[n].stiffness / stiff for n in live}
            return tuple(even.get(n, 0.0) for n in range(len(places))), 1 / stiff
        elasticity = strength(case, member, False, False, "people").elasticity
        bending = elasticity * bar(member, (0.0, member.length_mm), push).second_moment_mm4
        found, gives = on_springs(member.length_mm, [(places[n].at_mm, places[n].stiffness) for n in live],
                                  at_mm, bending)
        lifted = [n for n, share in zip(live, found, strict=True)
                  if share < -1e-3 and places[n].bears and places[n].fasteners <= 0]
        rest = [n for n in live if n not in lifted]
        left = [places[n].at_mm for n in rest]
        if not lifted or not left or max(left) - min(left) < _APART_MM:
            taken = dict(zip(live, found, strict=True))
            return tuple(taken.get(n, 0.0) for n in range(len(places))), gives
        live = rest


def tuple_minus(a: Vector, b: Vector) -> Vector:
    """a - b."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def tuple_plus(a: Vector, axis: Vector, by: float) -> Vector:
    """a moved by ``by`` along an axis."""
    return (a[0] + by * axis[0], a[1] + by * axis[1], a[2] + by * axis[2])

