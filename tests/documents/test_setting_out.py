"""Setting out: the places printed are where the solids of the piece are."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest

from builders import demo_shop
from documents.dimensions import in_mm
from documents.pieces import TEMPLATES, parts_of, piece_at, random_piece
from small_templates import trestle
from yardwright.documents.sheet.setting_out import placed
from yardwright.domain.errors import Refused
from yardwright.domain.measure import Writer
from yardwright.domain.parts import cut_list
from yardwright.domain.piece import build
from yardwright.domain.piece.model import Piece
from yardwright.domain.template import read_template

ROUNDED = {"in": 0.81, "mm": 0.51}
Span = tuple[float, float]


def spans(words: str, units: str) -> list[Span]:
    """The places said, those between an even first and last one put back."""
    plain = words.replace("\u00a0", " ")
    told = [re.split(" to ", s) for s in re.split("; | … ", plain.partition(", ")[0])]
    found = [(in_mm(f"{a} {units}"), in_mm(b)) for a, b in told]
    if "evenly" not in plain:
        return found
    (a, b), (c, d) = found
    count = int(plain.partition(", ")[2].split()[0])
    return [(a + (c - a) * k / (count - 1), b + (d - b) * k / (count - 1)) for k in range(count)]


def box(piece: Piece, key: str) -> list[Span]:
    """Along, back and up from the left front corner on the ground, by the solid's own box."""
    low, high = piece.member(key).solid.box
    start = (piece.closed.low[0], piece.closed.low[1], 0.0)
    return [(low[k] - start[k], high[k] - start[k]) for k in range(3)]


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("name", TEMPLATES)
def test_every_part_is_placed_where_its_solids_are(name: str, seed: int) -> None:
    try:
        piece, units = random_piece(name, seed)
    except Refused:
        pytest.skip("this lot cannot be built")
    for part in parts_of(piece):
        said = [spans(words, units) for words in placed(piece, part, Writer(units))]
        boxes = [box(piece, key) for key in part.keys]
        for k in range(3):
            off = [min(max(abs(a - c), abs(b - d)) for c, d in said[k]) for a, b in (one[k] for one in boxes)]
            assert max(off) < ROUNDED[units] + 0.6, (part.name, k, said[k])
            assert all(any(abs(a - one[k][0]) < ROUNDED[units] + 0.6 for one in boxes) for a, _ in said[k])


def test_places_in_two_directions_are_said_in_one_order() -> None:
    piece = piece_at("lounge-chair", {}, {}, "in")
    boards = next(p for p in parts_of(piece) if p.name == "Seat board" and p.count == 3)
    _, back, up = (spans(words, "in") for words in placed(piece, boards, Writer("in")))
    assert len(back) == len(up) == 3
    # The seat falls towards the back, so what lies further back lies lower.
    assert all(a[0] < b[0] for a, b in pairwise(back)) and all(a[0] > b[0] for a, b in pairwise(up))


def test_the_bench_sets_out_as_its_template_has_it() -> None:
    # 44 in long, seat at 17 in of 1 in boards on 25 mm feet; legs of 1 in boards: worked by hand.
    piece = piece_at("storage-bench", {}, {}, "in")
    parts = {p.name: p for p in parts_of(piece)}
    said = placed(piece, parts["Front leg narrow strip"], Writer("in"))
    assert [s.replace("\u00a0", " ") for s in said][::2] == ["0 to 1 in; 43 to 44 in", "1 to 16 in"]


def test_many_uneven_places_are_cut_short_and_say_so() -> None:
    members = [{"name": "Post", "board": "post", "wide": "right", "thick": "back",
                "repeat": [{"index": "k", "count": "20"}],
                "from": ["k*k*5*inch", "0*inch", "0*inch"], "to": ["k*k*5*inch", "0*inch", "6*inch"]}]
    data = trestle(members=members, joints=[], groups={}, hardware=[], checks=[])
    made = build(read_template(data), {}, {}, demo_shop(), "in")
    (part,) = cut_list(((made, 1),), demo_shop())
    along, _, _ = placed(made, part, Writer("in"))
    assert along.count(" to ") + along.count("\u00a0to\u00a0") == 12 and along.endswith("and 8 more")
