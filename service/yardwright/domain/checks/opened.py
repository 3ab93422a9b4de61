"""Open in use: a piece stands with its door or lid fully open, a child at its edge, a lid left up in wind.

Each moving group is turned open by itself, then all together; the centre of gravity moves with them. For
each: the 25 lbf push of tip over, W·a >= F·h, open for a moment, so without the factor (only where it stands
that push shut); a child of 25 kg that hangs at the open edge of a piece 24 in high or more, W·a >= m·g·o, o
how far that edge reaches past the feet; and, where the wind check looks at it, the wind on what rises above
the shut piece besides that on the rest, q·c_f·A at its middle. Falling open is a caution, under the child a
stop (a chair: a caution), unless anchors hold it (anchorage.py). Always runs, for what stands by its weight.
Units N, mm, N·mm. Source: as tip_over.py, climbing.py and wind.py; open without a factor (judgement).
Limits of validity: level ground, one child; a lid that is let fall is not judged.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..finding import Finding, Level
from ..piece import balanced
from ..piece.fixed import is_fixed
from ..piece.model import AskedCheck, Vector
from ..piece.vectors import turned
from .anchorage import outcome, resting
from .held_up import by_weight
from .rule import Case, Rule
from .stance import Level2, Side, Stance, Unheld, stance_of
from .touches import corners
from .wind import EXPOSURES, looked_at, pressure
from .words import GRAVITY

_PAST_MM = 1.0               # an edge no further past the feet is over them
_LEVEL = 0.7                 # cosine: a hinge line this level is a lid's


@dataclass(frozen=True, slots=True)
class _Open:
    """The piece with some groups open: what it is called, its centre, and the corners of what moved."""

    name: str
    groups: tuple[str, ...]
    centre: Vector
    moved: tuple[Vector, ...]


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """The worst push, the worst edge, the worst wind over the ways that it may stand open."""
    if not by_weight(case) or not case.piece.moving:
        return ()
    on, states = stance_of(case.piece, case.standing_mm), list(_states(case))
    return (*_pushed(asked.rule.rule, case, on, states), *_hung_on(asked.rule.rule, case, on, states),
            *_blown(asked.rule.rule, case, on, states))


def _states(case: Case) -> Iterator[_Open]:
    names = tuple(case.piece.moving)
    for groups in (*((n,) for n in names), *((names,) if len(names) > 1 else ())):
        masses, moved = [], []
        for m in case.piece.members:
            if m.group in groups:
                hinge = case.piece.moving[m.group]
                masses.append((m.mass_kg, turned(m.centre, *hinge)))
                moved += [turned(c, *hinge) for c in corners(m)]
            else:
                masses.append((m.mass_kg, m.centre))
        if moved:
            _, centre = balanced(masses)
            yield _Open(" and ".join(groups), groups, centre, tuple(moved))


def unheld(case: Case) -> Iterator[Unheld]:
    """What is left to anchors with a door or lid open."""
    on, states = stance_of(case.piece, case.standing_mm), list(_states(case))
    tall = case.piece.standing_mm[2] >= case.limit("structure.tall_piece")
    windy = looked_at(case) and case.site.exposure.strip().lower() in EXPOSURES
    for state in states:
        for side in on.sides:
            yield _push(case, state, side)
            if tall and side.past(state.moved) > _PAST_MM:
                yield _child(case, state, side)
        yield from (_left_up(case, gust) for gust in (_gusts(case, on, state) if windy else ()))


def _push(case: Case, state: _Open, side: Side) -> Unheld:
    high, arm = case.piece.standing_mm[2], side.inside(*state.centre[:2])
    moment = case.limit("structure.tip_force") * high - case.piece.mass_kg * GRAVITY * arm
    return Unheld(f"a push with its {state.name} open", moment, high, side.out)


def _child(case: Case, state: _Open, side: Side) -> Unheld:
    child, weighs = case.limit("structure.child_mass"), case.piece.mass_kg * side.inside(*state.centre[:2])
    return Unheld(f"a child at its open {state.name}", GRAVITY * (child * side.past(state.moved) - weighs),
                  case.piece.standing_mm[2], side.out)


def _left_up(case: Case, gust: _Gust) -> Unheld:
    weight = case.limit("wind.dead") * case.piece.mass_kg * GRAVITY
    return Unheld(f"wind with its {gust.name} up", gust.turning - weight * gust.arm,
                  (case.piece.closed.high[2] + case.piece.opened.high[2]) / 2, gust.side.out)


def _pushed(rule: str, case: Case, on: Stance, states: list[_Open]) -> Iterator[Finding]:
    words, high, push = case.words, case.piece.standing_mm[2], case.limit("structure.tip_force")
    weight = case.piece.mass_kg * GRAVITY
    holds, state, side = min(((weight * s.inside(*o.centre[:2]) / (push * high), o, s) for o in states
                              for s in on.sides), key=lambda found: found[0])
    shut = weight * on.nearest(*case.piece.centre[:2])[1] / (push * high)
    if holds >= 1.0 or shut < case.limit("structure.tip_factor"):
        return                           # tip over warns of it shut
    arm = side.inside(*state.centre[:2])
    level, title, more, mend = outcome(
        resting(case, _push(case, state, side)), Level.CAUTION, f"Tips with its {state.name} open",
        f"With its {state.name} open only its fixing holds it",
        f"Fix it to a wall or the ground, spread its feet, or let its {state.name} open less far.")
    yield Finding(
        rule, level, title,
        f"Empty, its {state.name} fully open, its weight acts {words.length(arm)} from the foot line; pushed "
        f"{side.way} with {words.force(push)} at {words.length(high)} it holds {holds:.1f} times that.{more}",
        f"factor {holds:.2f}", "factor 1", case.source("structure.tip_force"), mend,
        f"W·a = {words.force(weight)} × {words.length(arm)} against F·h = {words.force(push)} × "
        f"{words.length(high)}; shut {shut:.2f}")


def _hung_on(rule: str, case: Case, on: Stance, states: list[_Open]) -> Iterator[Finding]:
    words, high, weight = case.words, case.piece.standing_mm[2], case.piece.mass_kg * GRAVITY
    child = case.limit("structure.child_mass") * GRAVITY
    found = [(weight * s.inside(*o.centre[:2]) / (child * s.past(o.moved)), o, s)
             for o in states for s in on.sides if s.past(o.moved) > _PAST_MM]
    if not found or high < case.limit("structure.tall_piece"):
        return
    holds, state, side = min(found, key=lambda f: f[0])
    arm, out = side.inside(*state.centre[:2]), side.past(state.moved)
    chair = any(c.rule.words.get("kind") == "chair" for c in case.piece.checks)
    level, title, more, mend = Level.OK, f"A child at its open {state.name} does not pull it over", "", ""
    if holds < 1.0:
        level, title, more, mend = outcome(
            resting(case, _child(case, state, side)), Level.CAUTION if chair else Level.STOP,
            f"A child at its open {state.name} can pull it over",
            f"Only its fixing holds a child at its open {state.name}",
            f"Fix it to a wall or the ground, make its {state.name} narrower, two leaves of it, or let it "
            "open less far.")
    yield Finding(
        rule, level, title,
        f"Fully open its {state.name} reaches {words.length(out)} past the feet at the {side.name}; a child "
        f"of {words.mass(case.limit('structure.child_mass'))} hangs at its edge; empty the piece weighs "
        f"{words.mass(case.piece.mass_kg)}.{more}", f"factor {holds:.2f}", "factor 1",
        case.source("structure.child_mass"), mend,
        f"W·a = {words.force(weight)} × {words.length(arm)} against m·g·o = {words.force(child)} × "
        f"{words.length(out)}")


def _blown(rule: str, case: Case, on: Stance, states: list[_Open]) -> Iterator[Finding]:
    if not looked_at(case) or case.site.exposure.strip().lower() not in EXPOSURES:
        return
    words, weight = case.words, case.limit("wind.dead") * case.piece.mass_kg * GRAVITY
    found = [one for o in states for one in _gusts(case, on, o)]
    over = [g for g in found if g.turning > weight * g.arm]
    shut_tips = any(g.turning - g.more > weight * g.arm for g in found)
    if not over or (shut_tips and not is_fixed(case.piece)):
        return                           # the wind check stops it shut
    gust = max(over, key=lambda g: g.turning - weight * g.arm)
    level, title, more, mend = outcome(
        resting(case, _left_up(case, gust)), Level.CAUTION, f"Wind blows it over with its {gust.name} up",
        f"With its {gust.name} up only its fixing holds it in wind", "")
    yield Finding(
        rule, level, title,
        f"Left up in a {case.site.exposure} wind its {gust.name} adds {words.turning(gust.more)} to "
        f"{words.turning(gust.turning - gust.more)}.{more}", words.turning(gust.turning),
        words.turning(weight * gust.arm), case.source("wind.air", "wind.shape", "wind.dead"),
        f"Keep the {gust.name} shut, or hooked, in wind. {mend}".rstrip(),
        f"F·h = {words.force(gust.force)} × {words.length(gust.more / gust.force)} on what rises above it; "
        f"0.6·W·a = {words.force(weight)} × {words.length(gust.arm)}")


@dataclass(frozen=True, slots=True)
class _Gust:
    name: str
    side: Side
    force: float                 # on what rises above the shut piece
    more: float                  # its moment about the ground
    turning: float               # with that of the wind on the rest
    arm: float


def _gusts(case: Case, on: Stance, state: _Open) -> Iterator[_Gust]:
    load, top = pressure(case) * case.limit("wind.shape"), case.piece.closed.high[2]
    length, depth, high = case.piece.standing_mm
    rise = max(c[2] for c in state.moved) - top
    if rise <= 0.0:
        return
    ways: tuple[tuple[int, float, Level2], ...] = ((0, length, (0.0, 1.0)), (1, depth, (1.0, 0.0)))
    for k, broad, way in ways:
        along = [c[k] for c in state.moved if c[2] > top]
        force = load * (max(along) - min(along)) * rise
        more = force * (high + rise / 2)
        whole = load * broad * high * high / 2 + more
        for side in on.sides:
            if abs(side.out[0] * way[0] + side.out[1] * way[1]) > _LEVEL:
                yield _Gust(state.name, side, force, more, whole, side.inside(*state.centre[:2]))


RULE = Rule("door or lid open", check)
