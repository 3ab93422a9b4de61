"""Lean back: someone who sits against the back, and someone who throws himself back, does not tip the piece.

Moments about the rear foot line, EN 1022 idea (memory): a light sitter's 600 N on the seat 175 mm before the
back, and a push F = 0.2857·(1000 - H) N, 80 N at least, straight back on the back at H mm above the ground,
300 mm above the seat or at the back's top where that is lower. Then a heavy sitter whose weight has come to
lie on the back at that height, with the same push. Below a factor of 1 it tips: a stop, below 1.5 a caution.
Members: the boards of the back, level or upright. Level ground, stiff feet. Units N, mm.
Limits of validity: backs that face the front; rocking on the rear feet on purpose is not judged.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Member
from .back_load import backward
from .rule import Case, Rule
from .tip_over import feet_of, is_fixed
from .touches import corners, dot
from .words import GRAVITY

_FACES = 0.5                 # cosine: a back's board looks mostly forward


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """The worse of the two sitters; nothing where the template makes no back."""
    boards = [case.member(k) for k in asked.members]
    boards = [b for b in boards if backward(b)[1] > _FACES]
    if not boards:
        return ()
    seat, words = float(asked.values["seat_height"]), case.words
    high = min(seat + case.limit("structure.lean_above"), max(c[2] for b in boards for c in corners(b)))
    push = max(case.limit("structure.lean_push_least"),
               case.limit("structure.lean_push_slope") * (1000.0 - high))
    rear = feet_of(case.piece, case.standing_mm).back
    own, meets = case.piece.mass_kg * GRAVITY * (rear - case.piece.centre[1]), _face_y(boards, seat)
    light = case.limit("structure.lean_sitter") * (
        rear - meets + case.limit("structure.lean_before"))
    heavy = case.limit("structure.edge_sitter") * (rear - _face_y(boards, high))
    held, sitter = min((own + light, "sitting against the back"), (own + heavy, "thrown back against it"))
    factor, needed = held / (push * high), case.limit("structure.tip_factor")
    fixed = is_fixed(asked, case.piece)
    good = factor >= needed or fixed
    level = Level.OK if good else Level.STOP if factor < 1.0 else Level.CAUTION
    out = (needed * push * high - held) / case.limit("structure.lean_sitter")
    return (Finding(
        asked.rule.rule, level,
        {Level.OK: "A sitter leaning back does not tip it", Level.CAUTION: "A sitter leaning back nearly "
         "tips it"}.get(level, "A sitter leaning back tips it"),
        f"A person {sitter}, pushing back with {words.force(push)} {words.length(high)} above "
        f"the ground; the rear feet stand {words.length(rear - meets)} behind where back and seat meet."
        + (" The piece is fixed." if fixed and factor < needed else ""),
        f"{words.turning(held)} (factor {factor:.1f})", f"{words.turning(needed * push * high)} "
        f"(factor {needed:g})", case.source("structure.lean_push_slope", "structure.lean_sitter",
                                            "structure.edge_sitter", "structure.tip_factor"),
        "" if good else f"Set the rear feet {words.length(max(out, 1.0))} further back, or stand the back "
        "steeper.", "moments about the rear feet"),)


def _face_y(boards: list[Member], z: float) -> float:
    """Where the back's front face is at a height: the foremost of the boards' faces, each drawn on."""
    found = []
    for board in boards:
        normal = backward(board)
        near = min(dot(c, normal) for c in corners(board))
        found.append((near - normal[2] * z) / normal[1])
    return max(found)


RULE = Rule("lean back", check, needs={"seat_height": "length"}, may={"anchored": "truth"}, members=True)
