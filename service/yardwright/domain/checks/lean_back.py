"""Lean back: someone who sits against the back, and someone who throws himself back, does not tip the piece.

Moments about the sides of the feet's outline behind the back, whichever way it looks, EN 1022 idea (memory):
a light sitter's 600 N on the seat 175 mm before the back, and a push F = 0.2857·(1000 - H) N, 80 N at least,
straight back on the back at H mm above the ground, 300 mm above the seat or at the back's top where that is
lower. Then a heavy sitter whose weight has come to lie on the back at that height, with the same push. Below
a factor of 1 it tips: a stop; below 1.5, thrown back below 1.25, a caution.
Members: the boards of the back, level or upright. Level ground, stiff feet. Units N, mm.
Limits of validity: rocking on the rear feet on purpose is not judged. Source: EN 1022 idea (memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Member, Vector
from .anchorage import outcome, resting
from .back_load import backward
from .held_up import by_weight
from .rule import Case, Rule
from .stance import Unheld, stance_of
from .tip_over import warned
from .touches import corners, dot
from .words import GRAVITY

_FACES = 0.5                 # cosine: the boards of a back look mostly level
_AHEAD = 0.38                # cosine: sides this much square to the lean are tipped over
_END_MM = 150.0              # nobody sits nearer to a back's end

Level2 = tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Lean:
    """One way that people lean: the back's boards, the level direction, and what holds the piece."""

    held: float
    tips: float
    needed: float                # the factor that is asked for
    sitter: str
    behind_mm: float             # the feet, behind where back and seat meet
    high_mm: float
    push_n: float
    way: Level2

    @property
    def factor(self) -> float:
        """What holds over what tips."""
        return self.held / self.tips


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """The worst of every back, sitter and place on it; nothing where the template makes no back."""
    if not by_weight(case):
        return ()
    found = [lean for way, boards in _backs(asked, case).items() for lean in _leans(asked, case, way, boards)]
    if not found:
        return ()
    return (_told(asked, case, min(found, key=lambda lean: lean.factor / lean.needed)),)


def unheld(asked: AskedCheck, case: Case) -> Iterator[Unheld]:
    """What is left to anchors under the sitters that lean on each back."""
    for way, boards in _backs(asked, case).items():
        for lean in _leans(asked, case, way, boards):
            yield _left(lean)


def _left(lean: _Lean) -> Unheld:
    return Unheld(f"a person {lean.sitter}", lean.needed * lean.tips - lean.held, lean.high_mm, lean.way)


def _backs(asked: AskedCheck, case: Case) -> dict[Level2, list[Member]]:
    """The boards of each back by the level way that people lean on them."""
    ways: dict[Level2, list[Member]] = {}
    for board in (case.member(k) for k in asked.members):
        x, y, _ = backward(case, board)
        level = hypot(x, y)
        if level > _FACES:
            ways.setdefault((round(x / level, 3) + 0.0, round(y / level, 3) + 0.0), []).append(board)
    return ways


def _leans(asked: AskedCheck, case: Case, way: Level2, boards: list[Member]) -> Iterator[_Lean]:
    seat, (x, y, _) = float(asked.values["seat_height"]), case.piece.centre
    places = [c for b in boards for c in corners(b)]
    high = min(seat + case.limit("structure.lean_above"), max(c[2] for c in places))
    push = max(case.limit("structure.lean_push_least"),
               case.limit("structure.lean_push_slope") * (1000.0 - high))
    weight, light = case.piece.mass_kg * GRAVITY, case.limit("structure.lean_sitter")
    heavy, before = case.limit("structure.edge_sitter"), case.limit("structure.lean_before")
    meets, leans = _face(case, boards, way, seat), _face(case, boards, way, high)
    for side in stance_of(case.piece, case.standing_mm).sides:
        ahead = side.out[0] * way[0] + side.out[1] * way[1]
        if ahead < _AHEAD:
            continue
        for at in _across(places, way):
            own, tips = weight * side.inside(x, y), push * high * ahead
            behind = side.inside(*_point(way, at, meets))
            sits = own + light * side.inside(*_point(way, at, meets - before))
            thrown = own + heavy * side.inside(*_point(way, at, leans))
            yield _Lean(sits, tips, case.limit("structure.tip_factor"), "sitting against the back", behind,
                        high, push, way)
            yield _Lean(thrown, tips, case.limit("structure.lean_thrown_factor"), "thrown back against it",
                        behind, high, push, way)


def _across(places: list[Vector], way: Level2) -> tuple[float, ...]:
    """Where somebody sits along the back: its middle and near its ends."""
    along = [c[1] * way[0] - c[0] * way[1] for c in places]
    low, high = min(along), max(along)
    end = min(_END_MM, (high - low) / 2)
    return low + end, (low + high) / 2, high - end


def _point(way: Level2, across: float, ahead: float) -> Level2:
    return way[0] * ahead - way[1] * across, way[1] * ahead + way[0] * across


def _told(asked: AskedCheck, case: Case, lean: _Lean) -> Finding:
    words, needed = case.words, lean.needed
    out = (needed * lean.tips - lean.held) / case.limit("structure.lean_sitter")
    level, title, more, mend = Level.OK, "A sitter leaning back does not tip it", "", ""
    if lean.factor < needed:
        tips = lean.factor < 1.0
        level, title, more, mend = outcome(
            resting(case, _left(lean), Level.NOTE if warned(case) else Level.CAUTION),
            Level.STOP if tips else Level.CAUTION,
            f"A sitter leaning back {'tips' if tips else 'nearly tips'} it",
            "Only its fixing holds a sitter leaning back",
            f"Set the rear feet {words.length(max(out, 1.0))} further back, or stand the back steeper.")
    return Finding(
        asked.rule.rule, level, title,
        f"A person {lean.sitter}, pushing back with {words.force(lean.push_n)} {words.length(lean.high_mm)} "
        f"above the ground; the rear feet stand {words.length(lean.behind_mm)} behind where back and seat "
        f"meet.{more}",
        f"{words.turning(lean.held)} (factor {lean.factor:.1f})",
        f"{words.turning(needed * lean.tips)} (factor {needed:g})",
        case.source("structure.lean_push_slope", "structure.lean_sitter", "structure.edge_sitter",
                    "structure.tip_factor", "structure.lean_thrown_factor"),
        mend, "about the rear feet: what sitter and piece weigh, times how far before them, "
        f"{words.turning(lean.held)}, over the push {words.force(lean.push_n)} × "
        f"{words.length(lean.high_mm)} = {lean.factor:.2f}; {needed:g} wanted")


def _face(case: Case, boards: list[Member], way: Level2, z: float) -> float:
    """Where the back's front face is at a height, along the lean: the foremost of the boards' faces, each
    drawn on."""
    found = []
    for board in boards:
        normal = backward(case, board)
        near = min(dot(c, normal) for c in corners(board))
        found.append((near - normal[2] * z) / (normal[0] * way[0] + normal[1] * way[1]))
    return max(found)


RULE = Rule("lean back", check, needs={"seat_height": "length"}, may={"anchored": "truth"}, members=True)
