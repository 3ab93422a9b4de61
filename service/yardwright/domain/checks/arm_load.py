"""Arm load: an armrest bears a person who pushes up from it and one who leans out over it.

Down: 700 N anywhere along the arm, on a hand's length; arm and what carries it are judged as beams, and the
joints rule follows the load down. Outward: 400 N anywhere; each leg that the arm lies on is judged as a post
held up to the highest member fixed to it below, the whole push at the arm's top, M = F·h: over what the wood
may bear is a stop; the arm's fasteners at each end take the push by the lever: over their load is a caution,
from 2.5 times a stop. Someone who sits down on the arm (250 lbf on its middle line) does not
tip the piece. People's weight gets no short-duration bonus.
Pressed at its edge it neither rolls off what it lies on nor twists (rolling.py).
Limits of validity: a rail across under the arms ties them.
Units N, mm, N/mm². Source: EN 1728 / EN 581-2 idea (memory) through data/limits/structure.toml.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Member, Vector
from .boards import Boards, boards_carry
from .fixings import KINDS, one_fastener
from .loaded import bar
from .rolling import Press, rolls, twists
from .rule import Case, Rule
from .stance import stance_of
from .strength import strength
from .touches import UP, along, dot, reach
from .verdict import Loading
from .words import GRAVITY

_UPRIGHT = 0.7
_NEAR_MM = 100.0             # fasteners this near along the arm take a push together


@dataclass(frozen=True, slots=True)
class _Post:
    """A leg pushed outward by the arm on it."""

    leg: Member
    lever_mm: float
    bending: float
    allowed: float


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """Findings for arm and carriers under the load down, for the worst leg and arm pushed outward."""
    kind = Boards(lambda c, _, __: [_down(c)], lambda c, _: [_down(c)], "deflection")
    down = boards_carry(asked, case, kind)
    posts = [p for k in asked.members for p in _posts(case, case.member(k))]
    fastened = [_fastened(asked, case, case.member(k)) for k in asked.members]
    perched = [_perched(asked, case, case.member(k)) for k in asked.members]
    arms, press = [case.member(k) for k in asked.members], _pressed(case)
    return (*down, *rolls(case, asked.rule.rule, arms, press), *twists(case, asked.rule.rule, arms, press),
            *([_told(asked, case, max(posts, key=lambda p: p.bending / p.allowed))] if posts else ()),
            *([f for f in fastened if f.level is not Level.OK] or fastened[:1]),
            *([f for f in perched if f.level is not Level.OK] or perched[:1]))


def sideways(case: Case, arm: Member) -> Vector:
    """Outward: square to the arm, away from the middle of the piece."""
    box, axis = case.piece.closed, (0 if abs(arm.frame.along[0]) < _UPRIGHT else 1)
    out = 1.0 if arm.centre[axis] >= (box.low[axis] + box.high[axis]) / 2 else -1.0
    return (out, 0.0, 0.0) if axis == 0 else (0.0, out, 0.0)


def _pressed(case: Case) -> Press:
    force = case.limit("structure.arm_down")
    return Press(force, case.limit("structure.arm_edge"), case.limit("structure.arm_end"),
                 f"{case.words.force(force)} of a hand",
                 case.source("structure.arm_down", "structure.arm_edge", "structure.arm_end"))


def _down(case: Case) -> Loading:
    force = case.limit("structure.arm_down")
    return Loading(f"{case.words.force(force)} pushing up from the arm", case.source("structure.arm_down"),
                   force, case.limit("structure.foot_patch"))


def _posts(case: Case, arm: Member) -> Iterator[_Post]:
    beside = {t.other for t in case.touches.get(arm.key, ())}
    out, top = sideways(case, arm), reach(arm, UP)[1]
    for touch in case.touches.get(arm.key, ()):
        leg = case.member(touch.other)
        if touch.normal[2] > -_UPRIGHT or abs(dot(leg.frame.along, UP)) < _UPRIGHT or (
                reach(leg, UP)[0] > case.standing_mm):
            continue
        holds = [t.high[2] for t in case.touches.get(leg.key, ()) if t.held and t.other not in beside
                 and t.other != arm.key]
        lever = top - max(holds, default=reach(leg, UP)[0])
        moment = case.limit("structure.arm_out") * lever
        bending = moment / bar(leg, (0.0, leg.length_mm), out).section_modulus_mm3
        yield _Post(leg, lever, bending, strength(case, leg, False, False, "people").bending)


def _ends(case: Case, arm: Member) -> list[tuple[float, float]]:
    """(place along the arm, what its fasteners there may carry outward), places near each other as one."""
    found: list[tuple[float, float]] = []
    push, lasting = sideways(case, arm), case.limit("structure.duration_people")
    for touch in sorted(case.touches.get(arm.key, ()), key=lambda t: sum(along(arm, t))):
        if touch.kind not in KINDS or touch.fasteners <= 0:
            continue
        at = sum(along(arm, touch)) / 2
        holds = touch.fasteners * one_fastener(case, arm, touch, push).allowed_n * lasting
        if found and at - found[-1][0] < _NEAR_MM:
            found[-1] = (found[-1][0], found[-1][1] + holds)
        else:
            found.append((at, holds))
    return found


def _fastened(asked: AskedCheck, case: Case, arm: Member) -> Finding:
    words, force, ends = case.words, case.limit("structure.arm_out"), _ends(case, arm)
    if len(ends) < 2:
        return Finding(asked.rule.rule, Level.STOP, f"{arm.name}: not fastened at both ends",
                       f"{arm.key} is fastened in {len(ends)} places.", f"{len(ends)}", "2 at least",
                       "geometry of the piece", "Fasten it to a leg or rail near each end.",
                       f"places along {arm.key} with fasteners: "
                       f"{', '.join(words.length(at) for at, _ in ends) or 'none'}", customer=False)
    (first, one), (last, other) = ends[0], ends[-1]
    taken = (force * last / (last - first), one), (force * (arm.length_mm - first) / (last - first), other)
    demand, allowed = max(taken, key=lambda t: t[0] / max(t[1], 1e-9))
    share = demand / max(allowed, 1e-9)
    taking, may = words.forces(demand, allowed)
    level = (Level.OK if share <= 1.0 else Level.CAUTION if share <= case.limit("joints.stop_from")
             else Level.STOP)
    return Finding(
        asked.rule.rule, level, f"{arm.name}: " + ("fastened against a push outward" if share <= 1.0
                                                   else "pushed off its fasteners"),
        f"{words.force(force)} outward at the very end puts {words.force(demand)} on the fasteners there.",
        taking, may,
        case.source("structure.arm_out", "structure.duration_people", "joints.wet", "joints.end_grain"),
        "" if share <= 1.0 else f"Put {share:.1f} times as many fasteners there, or longer ones.",
        f"lever from the other end's fasteners: {words.force(force)} × {demand / force:.2f}; they hold "
        f"{words.force(allowed)} wet")


def _perched(asked: AskedCheck, case: Case, arm: Member) -> Finding:
    """Someone sits down on the arm: 250 lbf on its middle line, a hand's length from its ends."""
    words, sitter = case.words, case.limit("structure.edge_sitter")
    on, (x, y, _) = stance_of(case.piece, case.standing_mm), case.piece.centre
    end = min(case.limit("structure.foot_patch"), arm.length_mm) / 2
    middle = arm.width_mm / 2 if abs(arm.frame.wide[2]) < _UPRIGHT else arm.thickness_mm / 2
    wide = arm.frame.wide if abs(arm.frame.wide[2]) < _UPRIGHT else arm.frame.thick
    places = []
    for at in (end, arm.length_mm / 2, arm.length_mm - end):
        p = arm.frame.to_world(at, 0.0, 0.0)
        places.append((p[0] + wide[0] * middle, p[1] + wide[1] * middle, p[2]))
    weight = case.piece.mass_kg * GRAVITY
    side = max(on.sides, key=lambda s: s.past(places) / max(s.inside(x, y), 1.0))
    over, inside = side.past(places), side.inside(x, y)
    good = weight * inside >= sitter * over
    return Finding(
        asked.rule.rule, Level.OK if good else Level.STOP,
        f"{arm.name}: someone sitting on it " + ("does not tip it" if good else "tips it"),
        f"Sitting on the middle of {arm.key} is {words.length(over)} past the feet at the {side.name}.",
        words.turning(weight * inside), words.turning(sitter * over), case.source("structure.edge_sitter"),
        "" if good else "Set the legs further out, or make the arm narrower.",
        f"W·a = {words.force(weight)} × {words.length(inside)} against {words.force(sitter)} × "
        f"{words.length(over)}")


def _told(asked: AskedCheck, case: Case, post: _Post) -> Finding:
    words, force, good = case.words, case.limit("structure.arm_out"), post.bending <= post.allowed
    most = post.lever_mm * post.allowed / post.bending
    return Finding(
        asked.rule.rule, Level.OK if good else Level.STOP,
        f"{post.leg.name}: " + ("bears a push on the arm" if good else "too weak for a push on the arm"),
        f"Pushed outward with {words.force(force)} at the arm, {words.length(post.lever_mm)} above the "
        "highest member fixed to it.",
        f"bending {words.stress(post.bending)}", f"bending {words.stress(post.allowed)}",
        case.source("structure.arm_out"),
        "" if good else f"Fix a rail to the leg no more than {words.length(most)} below the arm's top, or "
        "take a thicker leg.", f"M = F·h = {words.turning(force * post.lever_mm)}; f_b = M/S")


RULE = Rule("arm load", check, members=True)
