"""Tip-over: an empty piece stands a push at its top, and a person on its edge does not tip it.

Push: W·a >= 1.5·F·h about each side of the outline of its feet (stance.py), F = 25 lbf at height h, a the
level distance from the centre of gravity to that side.
Edge: W·a >= 250 lbf·o for a seat reaching o past its feet.
Below a factor of 1 it falls (stop; a low piece: caution), below 1.5 it is easily tipped (caution), unless it
is fixed: then its anchors take the rest and are judged for it (anchorage.py).
A chair (words kind = "chair") is moved about and light: empty the push is a note, sat on it is judged by
lean back (EN 1022 tests seats loaded; memory). A planter (words kind = "planter") is judged filled with dry
mix when it is tall; empty it gives a note or, tall, a caution.
On ground that falls, where no leg makes that up, the weight acts nearer to the lower side
(slope.py); else level. Stiff feet. Units N, mm.
Source: common practice (structure.toml); feet are the members that reach the ground.
Limits of validity: nobody rocks it, feet do not sink in.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece import balanced
from ..piece.model import AskedCheck
from .anchorage import outcome, resting
from .held_up import by_weight
from .rule import Case, Rule
from .slope import nearest
from .stance import Side, Stance, Unheld, stance_of
from .touches import corners
from .words import GRAVITY

BY_FIXING = "Stands a push by its fixing alone"
_SERIOUS = (Level.STOP, Level.CAUTION)


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """The push, and the person on the edge where ``seat`` is true; nothing where weight does not hold it."""
    if not by_weight(case):
        return ()
    if asked.rule.words.get("kind") == "planter":
        return _planter(asked, case)
    on = stance_of(case.piece, case.standing_mm)
    sits = bool(asked.values.get("seat", False))
    return (*_push(asked, case, on), *(_edge(asked, case, on) if sits else ()))


def _planter(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    words, high = case.words, float(asked.values["push_height"])
    empty = _holds(case, high, 0.0)
    soil = case.limit("soil.dry_density") * 1e-9 * float(asked.values.get("soil_volume") or 0.0)
    filled, factor = _holds(case, high, soil), case.limit("structure.tip_factor")
    tall = high >= case.limit("structure.tall_piece")
    if min(empty, filled) >= factor:
        level = Level.OK
    elif tall and filled < factor:
        level = Level.STOP if filled < 1.0 else Level.CAUTION
    else:
        level = Level.CAUTION if tall else Level.NOTE
    title = {Level.OK: "Stands a push", Level.NOTE: "Light until it is filled",
             Level.CAUTION: "Tips while empty" if filled >= factor else "Can be tipped",
             Level.STOP: "Falls over easily"}[level]
    mend = ("" if level is Level.OK else "Fill it as soon as it stands; keep children from it until then."
            if filled >= factor or not tall else "Fix it to a wall or the ground, or make it deeper.")
    held = resting(case, next(unheld(asked, case))) if level in _SERIOUS else None
    level, title, more, mend = outcome(held, level, title, BY_FIXING, mend)
    return (Finding(
        asked.rule.rule, level, title,
        f"Pushed with {words.force(case.limit('structure.tip_force'))} at {words.length(high)} it holds "
        f"{empty:.1f} times that empty ({words.mass(case.piece.mass_kg)}) and {filled:.1f} times filled with "
        f"dry mix ({words.mass(case.piece.mass_kg + soil)}).{more}",
        f"factor {empty:.2f} empty, {filled:.2f} filled",
        f"factor {factor:g}", case.source("structure.tip_force", "structure.tip_factor", "soil.dry_density"),
        mend,
        f"W·a over F·h = {words.force(case.limit('structure.tip_force'))} × {words.length(high)}; filled "
        f"with {words.mass(soil)} of dry mix"),)


def _holds(case: Case, high_mm: float, soil_kg: float) -> float:
    """How many times the push it holds, soil lying about the middle."""
    box = case.piece.closed
    middle = ((box.low[0] + box.high[0]) / 2, (box.low[1] + box.high[1]) / 2, (box.low[2] + box.high[2]) / 2)
    mass, centre = balanced([(case.piece.mass_kg, case.piece.centre), (soil_kg, middle)])
    _, arm, _ = nearest(case, stance_of(case.piece, case.standing_mm), centre)
    return mass * GRAVITY * arm / (case.limit("structure.tip_force") * high_mm)


def unheld(asked: AskedCheck, case: Case) -> Iterator[Unheld]:
    """What is left to anchors when the empty piece is pushed at its top, and by a person on its edge."""
    on = stance_of(case.piece, case.standing_mm)
    high, weight = float(asked.values["push_height"]), case.piece.mass_kg * GRAVITY
    side, arm, _ = nearest(case, on)
    need = case.limit("structure.tip_factor") * case.limit("structure.tip_force") * high
    yield Unheld("a push at its top", need - weight * arm, high, side.out)
    if bool(asked.values.get("seat", False)):
        side, over, arm = _past(asked, case, on)
        need = case.limit("structure.edge_factor") * case.limit("structure.edge_sitter") * over
        yield Unheld("a person on its edge", need - weight * arm, high, side.out)


def warned(case: Case) -> bool:
    """Whether a push asks more than the weight holds: then the tip over check warns of the anchors."""
    return any(load.moment_nmm > 0.0 for c in case.piece.checks if c.rule.rule == RULE.name
               for load in unheld(c, case))


def _push(asked: AskedCheck, case: Case, on: Stance) -> Iterator[Finding]:
    words, high = case.words, float(asked.values["push_height"])
    weight = case.piece.mass_kg * GRAVITY
    side, arm, fallen = nearest(case, on)
    force, factor = case.limit("structure.tip_force"), case.limit("structure.tip_factor")
    holds = weight * arm / (force * high)
    need = factor * force * high
    falls = holds < 1.0 and high >= case.limit("structure.tall_piece")
    chair = asked.rule.words.get("kind") == "chair"
    level, title, more, mend = Level.OK, "Stands a push", "", ""
    if holds < factor:
        level, title, more, mend = outcome(
            resting(case, next(unheld(asked, case))),
            Level.NOTE if chair else Level.STOP if falls else Level.CAUTION,
            "Light while nobody sits on it" if chair else "Falls over easily" if falls else "Can be tipped",
            BY_FIXING, "Fix it to a wall or the ground, or spread the feet by "
            f"{words.length(need / weight - arm)}, or make it heavier"
            + (f": {words.mass(need / arm / GRAVITY)}." if arm > 0 else "."))
    detail = (f"Empty it weighs {words.mass(case.piece.mass_kg)}, acting {words.length(arm)} from the foot "
              f"line; pushed {side.way} with {words.force(force)} at {words.length(high)} it holds "
              f"{holds:.1f} times that.{more}")
    yield Finding(
        asked.rule.rule, level, title, detail,
        f"{words.turning(weight * arm)} (factor {holds:.2f})", f"{words.turning(need)} (factor {factor:g})",
        case.source("structure.tip_force", "structure.tip_factor"),
        mend,
        f"W·a = {words.force(weight)} × {words.length(arm)} against {factor:g}·F·h = {factor:g} × "
        f"{words.force(force)} × {words.length(high)}{fallen}")


def _past(asked: AskedCheck, case: Case, on: Stance) -> tuple[Side, float, float]:
    """(the side where the seat is easiest to tip by, how far it reaches past it, the weight's arm)."""
    x, y, _ = case.piece.centre
    places = [c for k in asked.members for c in corners(case.member(k))] or [
        c for m in case.piece.members for c in corners(m)]
    side = max(on.sides, key=lambda s: s.past(places) / max(s.inside(x, y), 1.0))
    return side, side.past(places), side.inside(x, y)


def _edge(asked: AskedCheck, case: Case, on: Stance) -> Iterator[Finding]:
    words, weight = case.words, case.piece.mass_kg * GRAVITY
    sitter, factor = case.limit("structure.edge_sitter"), case.limit("structure.edge_factor")
    side, over, arm = _past(asked, case, on)
    level, title, more, mend = Level.OK, "A person on the edge does not tip it", "", ""
    if weight * arm < factor * sitter * over:
        level, title, more, mend = outcome(
            resting(case, [*unheld(asked, case)][-1]), Level.STOP, "A person on the edge tips it",
            "Only its fixing holds a person on the edge",
            f"Let it reach no more than {words.length(weight * arm / factor / sitter)} past the feet.")
    yield Finding(
        asked.rule.rule, level, title,
        f"At the {side.name} it reaches {words.length(over)} past the feet.{more}",
        words.turning(weight * arm), words.turning(factor * sitter * over),
        case.source("structure.edge_sitter"),
        mend,
        f"W·a = {words.force(weight)} × {words.length(arm)} against {factor:g} × {words.force(sitter)} × "
        f"{words.length(over)}")


RULE = Rule("tip over", check, needs={"push_height": "length"},
            may={"anchored": "truth", "seat": "truth", "soil_volume": "volume"},
            words={"kind": ("bench", "chair", "planter")})
