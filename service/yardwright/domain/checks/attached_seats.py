"""Attached seats: a table whose benches are part of it does not tip when all sit on one side.

One person of 250 lbf for each 24 in of the seat, on the middle of the seat boards of one side; nobody on the
other. W·a >= P·o, o how far the middle of the seat lies outside the feet, a from the feet to the centre of
gravity. Below 1 it tips: a stop, below 1.5 a caution. A person leaning on the end of the top past the feet is
held the same way, factor 1. Members: the seat boards. Level ground, stiff frame. Units N, mm.
Sources: structure notes on picnic tables (common practice), 250 lbf (2010 ADA 903.6; seen).
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .rule import Case, Rule
from .tip_over import Feet, feet_of, is_fixed
from .touches import corners
from .words import GRAVITY


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """The worse side loaded alone; then the worse end of the top."""
    feet = feet_of(case.piece, case.standing_mm)
    return (*_one_side(asked, case, feet), *_end(asked, case, feet))


def _one_side(asked: AskedCheck, case: Case, feet: Feet) -> Iterator[Finding]:
    words, y = case.words, case.piece.centre[1]
    weight, factor = case.piece.mass_kg * GRAVITY, case.limit("structure.tip_factor")
    seats = [case.member(k) for k in asked.members]
    middle = (case.piece.closed.low[1] + case.piece.closed.high[1]) / 2
    sides: list[tuple[float, str, float, float, float]] = []
    for side, edge, arm in (("front", feet.front, y - feet.front), ("back", feet.back, feet.back - y)):
        out = -1.0 if side == "front" else 1.0
        boards = [s for s in seats if (s.centre[1] - middle) * out > 0]
        if not boards:
            continue
        length = max(c[0] for s in boards for c in corners(s)) - min(c[0] for s in boards for c in corners(s))
        people = max(1, int(length // case.limit("structure.people_pitch_good")))
        load = people * case.limit("structure.table_sitter")
        ys = [c[1] for s in boards for c in corners(s)]
        past = ((min(ys) + max(ys)) / 2 - edge) * out
        holds = weight * arm / (load * past) if past > 0 else float("inf")
        sides.append((holds, side, load, past, arm))
    if not sides:
        return
    holds, side, load, past, arm = min(sides)
    good = holds >= factor or is_fixed(asked, case.piece)
    level = Level.OK if good else Level.STOP if holds < 1.0 else Level.CAUTION
    yield Finding(
        asked.rule.rule, level, {Level.OK: "Stands with all on one side",
                                 Level.CAUTION: "Nearly tips with all on one side"}.get(
                                     level, "Tips over with all on one side"),
        f"With {words.force(load)} of people on the {side} seat alone, acting "
        f"{words.length(max(past, 0.0))} {'outside' if past > 0 else 'inside'} the feet; the table weighs "
        f"{words.mass(case.piece.mass_kg)}.",
        words.turning(max(0.0, load * past)),
        f"{words.turning(weight * arm / factor)} with a factor {factor:g}",
        case.source("structure.table_sitter", "structure.tip_factor", "structure.people_pitch_good"),
        "" if good else f"Spread the feet by {words.length(past - weight * arm / factor / load)} on each "
        "side, or anchor it to the ground.", "W·a against 1.5·P·o")


def _end(asked: AskedCheck, case: Case, feet: Feet) -> Iterator[Finding]:
    words, x = case.words, case.piece.centre[0]
    weight, person = case.piece.mass_kg * GRAVITY, case.limit("structure.edge_sitter")
    box = case.piece.closed
    ends = (("left", feet.left - box.low[0], x - feet.left),
            ("right", box.high[0] - feet.right, feet.right - x))
    side, over, arm = max(ends, key=lambda e: e[1] / max(e[2], 1.0))
    over = max(over, 0.0)
    good = weight * arm >= person * over or is_fixed(asked, case.piece)
    yield Finding(
        asked.rule.rule, Level.OK if good else Level.STOP,
        "A person on the end does not tip it" if good else "A person on the end tips it",
        f"The {side} end reaches {words.length(over)} past the feet.", words.turning(person * over),
        words.turning(weight * arm), case.source("structure.edge_sitter"),
        "" if good else f"Let it reach no more than {words.length(weight * arm / person)} past the feet.",
        "W·a against 250 lbf·o")


RULE = Rule("attached seats", check, may={"anchored": "truth"}, members=True)
