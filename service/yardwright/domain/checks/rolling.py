"""Rolling: a board pressed down near its edge or corner stays on what it lies on, and does not twist.

The board is taken as stiff: where the load stands outside the outline of all that it lies on or is fastened
to, it tips over a side of that outline, F·e, and the fasteners hold it down: Σ n·T·a, T one fastener pulled,
a its distance within the side. Over what they may: a caution, from 2.5 times (joints.toml) a stop. An arm
besides twists between its ends: τ = T·(3b + 1.8t)/(b²·t²), T half of F times the distance from its middle
line, against two thirds of the allowed shear: a caution. Units N, mm, N/mm². Limits of validity: dry contact,
glue holds nothing down; loads from above only.
Sources: moments (geometry); torsion of a rectangle, Roark (memory); two thirds: judgement.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from ..finding import Finding, Level
from ..piece.model import Member
from .fixings import KINDS, one_fastener
from .rule import Case
from .stance import Side, Stance, stance_on
from .strength import strength
from .touches import UP, Touch

_BEARS = 0.7                 # cosine: a touch looking this far down bears
_LEAST_MM = 1.0              # a load this little outside is on the edge


@dataclass(frozen=True, slots=True)
class Press:
    """A force from above that may stand as near to a board's long edges and ends as this."""

    force_n: float
    in_mm: float
    end_mm: float
    told: str                    # "a hand pushing up from the arm"
    source: str


@dataclass(frozen=True, slots=True)
class _Roll:
    member: Member
    side: Side
    out_mm: float
    holds_nmm: float

    def share(self, press: Press) -> float:
        """What tips over what holds."""
        return press.force_n * self.out_mm / max(self.holds_nmm, 1e-9)


def rolls(case: Case, rule: str, members: Iterable[Member], press: Press) -> Iterator[Finding]:
    """A finding on the board that rolls most easily; nothing where none is pressed beyond what it lies on."""
    found = [roll for member in members for roll in _rolls(case, member, press)]
    if found:
        yield _told(case, rule, max(found, key=lambda roll: roll.share(press)), press)


def _rolls(case: Case, member: Member, press: Press) -> Iterator[_Roll]:
    on = [t for t in case.touches.get(member.key, ()) if t.held or t.normal[2] < -_BEARS]
    if not on:
        return                                       # not carried: the load check says so
    around = stance_on([(x, y) for t in on for x in (t.low[0], t.high[0]) for y in (t.low[1], t.high[1])])
    for x, y in _corners(member, press):
        side, inside = around.nearest(x, y)
        if inside < -_LEAST_MM:
            yield _Roll(member, side, -inside, _holds(case, member, on, side, around))


def _corners(member: Member, press: Press) -> list[tuple[float, float]]:
    """Where a load may stand at the four corners of the board's upper side, seen from above."""
    level = abs(member.frame.wide[2]) < abs(member.frame.thick[2])
    across = member.width_mm if level else member.thickness_mm
    points = [member.frame.to_world(at, edge if level else 0.0, 0.0 if level else edge)
              for at in _within(member.length_mm, press.end_mm) for edge in _within(across, press.in_mm)]
    return [(p[0], p[1]) for p in points]


def _within(size_mm: float, in_mm: float) -> tuple[float, float]:
    return min(in_mm, size_mm / 2), max(size_mm - in_mm, size_mm / 2)


def _holds(case: Case, member: Member, on: list[Touch], side: Side, around: Stance) -> float:
    lasting = case.limit("structure.duration_people")
    return sum(t.fasteners * one_fastener(case, member, t, UP).allowed_n * lasting
               * max(0.0, side.inside(t.centre[0], t.centre[1]))
               for t in on if t.fasteners > 0 and t.kind in KINDS)


def _told(case: Case, rule: str, roll: _Roll, press: Press) -> Finding:
    words, share, turning = case.words, roll.share(press), press.force_n * roll.out_mm
    level = (Level.OK if share <= 1.0 else Level.CAUTION if share <= case.limit("joints.stop_from")
             else Level.STOP)
    return Finding(
        rule, level, f"{roll.member.name}: " + ("held down at its edge" if share <= 1.0 else
                                                "rolls off what it lies on"),
        f"{press.told} at a corner of {roll.member.key} is {words.length(roll.out_mm)} outside what it lies "
        f"on and is fastened to, at the {roll.side.name}.",
        words.turning(turning), f"{words.turning(roll.holds_nmm)} by its fasteners",
        f"{press.source}; {case.source('joints.wet', 'joints.stop_from')}",
        "" if share <= 1.0 else "Let what carries it reach further out under it, or put more or longer "
        "fasteners on the other side.",
        f"F·e = {words.force(press.force_n)} × {words.length(roll.out_mm)} against Σ n·T·a = "
        f"{words.turning(roll.holds_nmm)} wet", customer=share > 1.0)


def twists(case: Case, rule: str, members: Iterable[Member], press: Press) -> Iterator[Finding]:
    """A finding on the member that a load at its long edge twists most."""
    found = [(stress / allowed, member, turning, stress, allowed)
             for member in members for turning, stress, allowed in [_twisted(case, member, press)]]
    if not found:
        return
    share, member, turning, stress, allowed = max(found, key=lambda f: f[0])
    words, good = case.words, share <= 1.0
    yield Finding(
        rule, Level.OK if good else Level.CAUTION,
        f"{member.name}: " + ("stiff against twisting" if good else "twists under a load at its edge"),
        f"{press.told} at the edge of {member.key} turns it {words.turning(turning)} between its ends.",
        f"shear {words.stress(stress)}", f"shear {words.stress(allowed)}",
        f"{press.source}; torsion of a rectangle, Roark (memory)",
        "" if good else "Take a thicker board, or carry it in the middle too.",
        f"τ = T·(3b + 1.8t)/(b²·t²), b {words.length(max(member.width_mm, member.thickness_mm))}, t "
        f"{words.length(min(member.width_mm, member.thickness_mm))}; allowed 2/3 of shear", customer=not good)


def _twisted(case: Case, member: Member, press: Press) -> tuple[float, float, float]:
    """(torque, shear stress, allowed) in N·mm and N/mm²."""
    wide, thin = sorted((member.width_mm, member.thickness_mm), reverse=True)
    turning = press.force_n * max(0.0, wide / 2 - press.in_mm) / 2
    return (turning, turning * (3 * wide + 1.8 * thin) / (wide * thin) ** 2,
            strength(case, member, True, False, "people").shear * 2 / 3)
