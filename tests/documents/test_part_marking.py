"""Part drawings as a maker marks out by them: long points, short edges, rounded edges, narrowed ends."""

from __future__ import annotations

from math import radians, tan
from typing import Any

import pytest

from builders import demo_shop
from documents.dimensions import in_mm
from documents.pieces import TEMPLATES, parts_of, piece_at
from small_templates import one_member
from yardwright.documents.drawing.features import features
from yardwright.documents.drawing.model import Drawing, Line, Text
from yardwright.documents.drawing.part_axes import Laid, laid
from yardwright.documents.drawing.part_drawing import part_drawing
from yardwright.documents.drawing.roundings import rounded, towards_you
from yardwright.domain.measure import Writer
from yardwright.domain.parts import Part, cut_list
from yardwright.domain.piece import build
from yardwright.domain.piece.model import Piece

INCH_MM = 25.4


def made(**member: Any) -> tuple[Piece, tuple[Part, ...]]:
    """A board 40 in long, 5 1/2 in by 3/4 in, with the ends and cuts given."""
    piece = build(one_member(**member), {}, {}, demo_shop(), "in")
    return piece, cut_list(((piece, 1),), demo_shop())


def drawn(**member: Any) -> Drawing:
    piece, parts = made(**member)
    return part_drawing(piece, parts[0], Writer("in"))


def words(drawing: Drawing) -> list[str]:
    return [s.text for s in drawing.shapes if isinstance(s, Text)]


def lines(drawing: Drawing, style: str) -> list[Line]:
    return [s for s in drawing.shapes if isinstance(s, Line) and s.style == style]


@pytest.mark.parametrize("angle", [8.0, 22.5, 45.0])
def test_the_short_edge_of_a_mitre_is_shorter_by_width_times_tangent_as_printed(angle: float) -> None:
    said = sorted(in_mm(w) for w in words(drawn(ends=["square", {"angle": f"{angle}*deg", "about": "thick"}]))
                  if w[0].isdigit() and in_mm(w) > 500)
    short, whole = said
    assert whole - short == pytest.approx(5.5 * INCH_MM * tan(radians(angle)), abs=0.5 * INCH_MM / 16 + 0.01)


@pytest.mark.parametrize("sign", ["", "-"])
def test_a_board_bevelled_at_both_ends_says_how_long_its_shorter_face_is(sign: str) -> None:
    # 45 degrees through 3/4 in take 3/4 in off an end: parallel ends shorten both faces once, opposed ones
    # the one face twice.
    ends = [{"angle": "45*deg", "about": "wide"}, {"angle": f"{sign}45*deg", "about": "wide"}]
    said = sorted(in_mm(w) for w in words(drawn(ends=ends)) if w[0].isdigit() and in_mm(w) > 500)
    assert len(said) == 2
    assert said[1] - said[0] == pytest.approx((0.75 if sign else 1.5) * INCH_MM, abs=0.01)


def test_a_notch_that_takes_the_long_point_is_placed_from_where_the_point_was() -> None:
    # A notch 2 in high at an end mitred 45 degrees: what is left begins 2 in further in.
    drawing = drawn(ends=[{"angle": "45*deg", "about": "thick"}, "square"],
                    cuts=[{"kind": "pocket", "from": ["-50*inch", "3.5*inch", "0*inch"],
                           "to": ["0*inch", "6*inch", "1*inch"], "text": "notch"}])
    said = [in_mm(w) for w in words(drawing) if w[0].isdigit()]
    lost, solid = ([p[0] for s in lines(drawing, style) for p in s.points] for style in ("centre", "visible"))
    assert max(lost) - min(lost) - (max(solid) - min(solid)) == pytest.approx(2 * INCH_MM)
    assert max(said) == pytest.approx(45.5 * INCH_MM, abs=0.01)      # 40 in and 5 1/2 in of mitre


def test_rails_of_the_table_keep_the_length_of_the_blank_their_notches_are_cut_from() -> None:
    piece = piece_at("picnic-table", {}, {}, "in")
    part = next(p for p in parts_of(piece) if p.name == "Seat rail")
    member = piece.member(part.keys[0])
    assert features(laid(member)).size == (member.length_mm, member.width_mm, member.thickness_mm)
    said = words(part_drawing(piece, part, Writer("in")))
    shoulders = {round(abs((p[0] - member.frame.origin[0]) * member.frame.along[0]
                           + (p[1] - member.frame.origin[1]) * member.frame.along[1]), 1)
                 for p in member.solid.corners}
    notch = sorted(shoulders)[1] if sorted(shoulders)[0] < 0.1 else sorted(shoulders)[0]
    assert notch > 0.0 and Writer("in").length(part.length_nm) in said
    assert any(abs(in_mm(w) - s) < 0.85 for w in said if w[0].isdigit() for s in shoulders if 20 < s < 80)


def test_where_a_rounding_begins_is_drawn_a_radius_in_from_its_edge() -> None:
    drawing = drawn(cuts=[{"kind": "round over", "edges": "top front", "radius": "1/2*inch"}])
    assert {p[1] for s in lines(drawing, "thin") if len(s.points) == 2 for p in s.points} == {0.5 * INCH_MM}
    assert "round over 1/2 in, this face" in words(drawing)


def test_a_board_rounded_on_one_face_lies_with_that_face_up() -> None:
    piece, parts = made(cuts=[{"kind": "round over", "edges": "bottom left, bottom right, bottom back",
                               "radius": "1/4*inch"}])
    assert "round over 1/4 in, this face, 3 edges" in words(part_drawing(piece, parts[0], Writer("in")))


def test_a_rounding_in_words_of_its_own_is_told_without_a_line() -> None:
    for text in ("eased by hand", "round over, radius to suit"):
        drawing = drawn(cuts=[{"kind": "round over", "edges": "top front", "radius": "1/2*inch",
                               "text": text}])
        assert not [s for s in lines(drawing, "thin") if len(s.points) == 2]
        assert any(w.startswith(("eased", "round over")) for w in words(drawing))


def test_ends_so_steep_that_they_meet_leave_no_short_edge_to_measure() -> None:
    # 8 in at the long edge, 45 degrees through 5 1/2 in at both ends: the cuts meet before the other edge.
    drawing = drawn(to=["0.1*inch", "0*inch", "0*inch"], ends=[{"angle": "60*deg", "about": "thick"},
                                                               {"angle": "60*deg", "about": "thick"}])
    assert all(in_mm(w) > 0 for w in words(drawing) if w[0].isdigit())
    assert not [w for w in words(drawing) if w.startswith("-")]


def world(way: Laid, side: str) -> tuple[float, ...]:
    axis, sign = {"lower": (way.up, -1), "upper": (way.up, 1), "left": (way.right, -1),
                  "right": (way.right, 1)}[side]
    return tuple(round(sign * c) + 0.0 for c in axis)


def test_the_mirror_image_of_a_board_rounded_in_front_is_rounded_behind() -> None:
    piece, _ = made(mirror=[{"across": "depth", "at": "20*inch"}],
                    cuts=[{"kind": "round over", "edges": "top front", "radius": "1/4*inch"}])
    one, other = piece.members
    for member, towards in ((one, (0, -1, 0)), (other, (0, 1, 0))):
        way = laid(member, lambda lying, m=member: towards_you(rounded(piece, m, lying)))  # type: ignore[misc]
        (found,) = rounded(piece, member, way)
        assert world(way, found.side) == towards and found.near


def test_an_end_tapered_from_both_edges_says_where_it_begins_and_how_wide_it_is() -> None:
    piece = piece_at("lounge-chair", {}, {}, "in")
    part = next(p for p in parts_of(piece) if p.name == "Back slat")
    member = piece.member(part.keys[0])
    said = [in_mm(w) for w in words(part_drawing(piece, part, Writer("in"))) if w[0].isdigit()]
    f = member.frame
    head = [sum((p[k] - f.origin[k]) * f.wide[k] for k in range(3)) for p in member.solid.corners
            if sum((p[k] - f.origin[k]) * f.along[k] for k in range(3)) > 0.9 * member.length_mm]
    for size in (max(head) - min(head), min(min(head), member.width_mm - max(head))):
        assert any(abs(s - size) < 0.81 for s in said), size


@pytest.mark.parametrize("name", TEMPLATES)
def test_a_hand_is_the_end_it_sits_at_and_the_other_hand_its_mirror_image(name: str) -> None:
    piece = piece_at(name, {}, {}, "in")
    middle = (piece.closed.low[0] + piece.closed.high[0]) / 2
    handed = [p for p in parts_of(piece) if p.hand]
    for part in handed:
        at = [piece.member(key).centre[0] for key in part.keys]
        assert all(x < middle for x in at) if part.hand == "left" else all(x > middle for x in at)
        twin = next(p for p in handed if p.name == part.name and p.hand != part.hand
                    and p.length_nm == part.length_nm)
        one, other = (shape_of(piece, p) for p in (part, twin))
        assert other == frozenset((-u + 0.0, v, w) for u, v, w in one)
        assert other != one and part.count == twin.count
    assert handed or name != "lounge-chair"


def shape_of(piece: Piece, part: Part) -> frozenset[tuple[float, float, float]]:
    """Corners about the middle of the part, in the piece's own directions."""
    member = piece.member(part.keys[0])
    low, high = member.solid.box
    return frozenset((round(x) + 0.0, round(y) + 0.0, round(z) + 0.0) for x, y, z in (
        [p[k] - (low[k] + high[k]) / 2 for k in range(3)] for p in member.solid.corners))
