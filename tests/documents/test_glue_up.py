"""The cross-section of strips glued to one blank: sizes, places and hands are those of the solids."""

from __future__ import annotations

from collections import Counter

import pytest

from builders import demo_shop
from documents.apart import apart
from documents.dimensions import measured
from documents.pieces import parts_of, piece_at, random_piece
from small_templates import trestle
from yardwright.documents.drawing.glue_up import glue_up_drawings
from yardwright.documents.drawing.model import Drawing, Line, Text
from yardwright.domain.errors import Refused
from yardwright.domain.measure import Writer
from yardwright.domain.parts import cut_list
from yardwright.domain.piece import build
from yardwright.domain.piece.model import Piece
from yardwright.domain.template import read_template


def drawings(piece: Piece, units: str) -> tuple[Drawing, ...]:
    return glue_up_drawings(piece, parts_of(piece), Writer(units))


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("seed", range(4))
def test_every_strip_and_the_whole_are_measured_as_the_solids_are(seed: int, units: str) -> None:
    try:
        piece, _ = random_piece("storage-bench", seed)
    except Refused:
        pytest.skip("this lot cannot be built")
    found = drawings(piece, units)
    assert len(found) == len({m.glue_up for m in piece.members if m.glue_up}) == 2
    for drawing in found:
        apart(drawing)
        strips = [m for m in piece.members if m.glue_up and m.glue_up in drawing.title and m.glue_up_no == 1]
        wide, narrow = sorted(strips, key=lambda m: -m.width_mm)
        said = Counter(m.text for m in measured(drawing))
        # An L: the wide strip lies flat, the narrow one stands on it, so the whole is the wide strip one way
        # and a thickness more than the narrow strip the other way.
        wanted = (wide.width_mm, narrow.width_mm, narrow.thickness_mm, wide.thickness_mm,
                  wide.thickness_mm + narrow.width_mm)
        assert said == Counter(Writer(units).mm(v) for v in wanted)
        assert all(abs(m.said_mm - m.drawn_mm) < 0.81 for m in measured(drawing))


def test_its_strips_carry_their_marks_and_the_joint_is_named() -> None:
    piece = piece_at("storage-bench", {}, {}, "in")
    for drawing in drawings(piece, "in"):
        said = {s.text for s in drawing.shapes if isinstance(s, Text)}
        marks = {p.mark for p in parts_of(piece) if p.made_of and p.made_of in drawing.title}
        assert marks | {"glued"} <= said and all(mark in drawing.title for mark in marks)
        smallest = min(s.height_mm for s in drawing.shapes if isinstance(s, Text))
        assert smallest / drawing.bounds.width * 360 >= 10


def test_strips_touch_along_a_side_and_share_no_room() -> None:
    for drawing in drawings(piece_at("storage-bench", {}, {}, "in"), "in"):
        one, other = (list(s.points) for s in drawing.shapes
                      if isinstance(s, Line) and s.style == "outline")
        gaps = [max(min(p[k] for p in one), min(p[k] for p in other))
                - min(max(p[k] for p in one), max(p[k] for p in other)) for k in (0, 1)]
        assert max(gaps) == pytest.approx(0.0, abs=0.01)


def test_legs_with_sloping_ends_come_in_hands_and_square_ones_do_not() -> None:
    raked = drawings(piece_at("storage-bench", {}, {"back": "straight"}, "in"), "in")
    assert [d.notes for d in raked] == [("2 to make",), ("2 to make: 1 as drawn, 1 the other hand",)]
    plain = drawings(piece_at("storage-bench", {}, {"back": "none"}, "in"), "in")
    assert [d.notes for d in plain] == [("2 to make",), ("2 to make",)]


def test_pieces_without_glue_ups_have_no_such_drawing() -> None:
    assert drawings(piece_at("picnic-table", {}, {}, "in"), "in") == ()


def test_boards_glued_edge_to_edge_lie_side_by_side() -> None:
    names = ("Front board", "Back board")
    boards = [{"name": name, "board": "top", "wide": "back", "thick": "up",
               "from": ["0*inch", f"{n}*5.5*inch", "0*inch"], "to": ["40*inch", f"{n}*5.5*inch", "0*inch"]}
              for n, name in enumerate(names)]
    data = trestle(members=boards, joints=[], groups={}, hardware=[], checks=[],
                   glue_ups=[{"name": "Top", "kind": "edge", "members": list(names)}])
    made = build(read_template(data), {}, {}, demo_shop(), "in")
    (drawing,) = glue_up_drawings(made, cut_list(((made, 1),), demo_shop()), Writer("in"))
    apart(drawing)
    assert Counter(m.text for m in measured(drawing)) == Counter({"5 1/2 in": 2, "11 in": 1, "3/4 in": 1})
    assert drawing.notes == ("1 to make",)


def test_boards_glued_across_each_other_have_no_cross_section() -> None:
    boards = [{"name": "Lower board", "board": "top", "wide": "back", "thick": "up",
               "from": ["0*inch", "0*inch", "0*inch"], "to": ["40*inch", "0*inch", "0*inch"]},
              {"name": "Upper board", "board": "top", "wide": "right", "thick": "up",
               "from": ["0*inch", "0*inch", "0.75*inch"], "to": ["0*inch", "20*inch", "0.75*inch"]}]
    data = trestle(members=boards, joints=[], groups={}, hardware=[], checks=[],
                   glue_ups=[{"name": "Cross", "kind": "face", "members": ["Lower board", "Upper board"]}])
    made = build(read_template(data), {}, {}, demo_shop(), "in")
    assert glue_up_drawings(made, cut_list(((made, 1),), demo_shop()), Writer("in")) == ()
