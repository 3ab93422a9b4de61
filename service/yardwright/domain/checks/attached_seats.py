"""Attached seats: a table whose benches are part of it does not tip when all sit on one side.

One person of 250 lbf for each 24 in of the seat, on the middle of the seat boards of one side (front, back or
an end where seats run across it); nobody on the others. W·a >= P·o, o how far the middle of the seat lies
outside the feet, a from the feet to the centre of gravity. Below 1 it tips: a stop, below 1.5 a caution. A
person leaning on the end of the top past the feet is held the same way, factor 1. Members: the seat boards.
Level ground, stiff frame. Units N, mm.
Sources: structure notes on picnic tables (common practice), 250 lbf (2010 ADA 903.6; seen).
Limits of validity: level ground, stiff frame, people sitting still.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .anchorage import most_asked, outcome, resting
from .held_up import by_weight
from .rule import Case, Rule
from .seats import people_along
from .stance import Side, Stance, Unheld, stance_of
from .touches import corners
from .words import GRAVITY

_ACROSS = 0.5                # a seat at one side runs along it


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """The worse side loaded alone; then the worse end of the top."""
    if not by_weight(case):
        return ()
    on = stance_of(case.piece, case.standing_mm)
    return (*_one_side(asked, case, on), *_end(asked, case, on))


def _one_side(asked: AskedCheck, case: Case, on: Stance) -> Iterator[Finding]:
    words, (x, y, _) = case.words, case.piece.centre
    weight, factor = case.piece.mass_kg * GRAVITY, case.limit("structure.tip_factor")
    found: list[tuple[float, str, float, float, float]] = []
    for side, load, at in _loaded(asked, case):
        for line in on.sides:
            past, arm = -line.inside(*at), line.inside(x, y)
            found.append((weight * arm / (load * past) if past > 0 else float("inf"), side, load, past, arm))
    if not found:
        return
    holds, side, load, past, arm = min(found)
    level, title, more, mend = Level.OK, "Stands with all on one side", "", ""
    if holds < factor:
        level, title, more, mend = outcome(
            resting(case, most_asked(case, unheld(asked, case))),
            Level.STOP if holds < 1.0 else Level.CAUTION,
            f"{'Tips over' if holds < 1.0 else 'Nearly tips'} with all on one side",
            "Only its fixing holds it with all on one side",
            f"Spread the feet by {words.length(past - weight * arm / factor / load)} on each side, or anchor "
            "it to the ground.")
    yield Finding(
        asked.rule.rule, level, title,
        f"With {words.force(load)} of people on the {side} seat alone, acting "
        + (f"{words.length(past)} outside" if past > 0 else "inside")
        + f" the feet; the table weighs {words.mass(case.piece.mass_kg)}.{more}",
        words.turning(max(0.0, load * past)),
        f"{words.turning(weight * arm / factor)} with a factor {factor:g}",
        case.source("structure.table_sitter", "structure.tip_factor", "structure.people_pitch_good"),
        mend,
        f"W·a = {words.force(weight)} × {words.length(arm)} against {factor:g}·P·o = {factor:g} × "
        f"{words.force(load)} × {words.length(max(0.0, past))}")


def unheld(asked: AskedCheck, case: Case) -> Iterator[Unheld]:
    """What is left to anchors with people on one side only."""
    (x, y, _), factor = case.piece.centre, case.limit("structure.tip_factor")
    high = max((c[2] for k in asked.members for c in corners(case.member(k))), default=0.0)
    for side, load, at in _loaded(asked, case):
        for line in stance_of(case.piece, case.standing_mm).sides:
            moment = -factor * load * line.inside(*at) - case.piece.mass_kg * GRAVITY * line.inside(x, y)
            yield Unheld(f"people on the {side} seat alone", moment, high, line.out)
    end, over, arm = _past_end(case, stance_of(case.piece, case.standing_mm))
    person = case.limit("structure.edge_sitter")
    yield Unheld("a person on the end", person * over - case.piece.mass_kg * GRAVITY * arm, high, end.out)


def _loaded(asked: AskedCheck, case: Case) -> Iterator[tuple[str, float, tuple[float, float]]]:
    """(side, N of people, where they act) of the seats in front, behind and at either end of the middle."""
    box = case.piece.closed
    seats = [(case.member(k), corners(case.member(k))) for k in asked.members]
    for name, k, out in (("front", 1, -1.0), ("back", 1, 1.0), ("left", 0, -1.0), ("right", 0, 1.0)):
        middle, along = (box.low[k] + box.high[k]) / 2, 1 - k
        beside = [c for s, ends in seats if (s.centre[k] - middle) * out > 0
                  and abs(s.frame.along[k]) < _ACROSS for c in ends]
        if not beside:
            continue
        low, high = (tuple(pick(c[n] for c in beside) for n in (0, 1)) for pick in (min, max))
        pitch = case.limit("structure.people_pitch_good")
        people = max(1, people_along(high[along] - low[along], pitch))
        yield (name, people * case.limit("structure.table_sitter"),
               ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2))


def _past_end(case: Case, on: Stance) -> tuple[Side, float, float]:
    """(the end easiest to tip by, how far the piece reaches past it, the weight's arm)."""
    x, y, _ = case.piece.centre
    places = [c for m in case.piece.members for c in corners(m)]
    ends = [s for s in on.sides if abs(s.out[0]) > abs(s.out[1])]
    side = max(ends, key=lambda s: s.past(places) / max(s.inside(x, y), 1.0))
    return side, side.past(places), side.inside(x, y)


def _end(asked: AskedCheck, case: Case, on: Stance) -> Iterator[Finding]:
    words, weight, person = case.words, case.piece.mass_kg * GRAVITY, case.limit("structure.edge_sitter")
    side, over, arm = _past_end(case, on)
    level, title, more, mend = Level.OK, "A person on the end does not tip it", "", ""
    if weight * arm < person * over:
        level, title, more, mend = outcome(
            resting(case, [*unheld(asked, case)][-1]), Level.STOP, "A person on the end tips it",
            "Only its fixing holds a person on the end",
            f"Let it reach no more than {words.length(weight * arm / person)} past the feet.")
    yield Finding(
        asked.rule.rule, level, title,
        f"The {side.name} reaches {words.length(over)} past the feet.{more}", words.turning(person * over),
        words.turning(weight * arm), case.source("structure.edge_sitter"),
        mend,
        f"W·a = {words.force(weight)} × {words.length(arm)} against {words.force(person)} × "
        f"{words.length(over)}")


RULE = Rule("attached seats", check, may={"anchored": "truth"}, members=True)
