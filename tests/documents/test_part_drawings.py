"""Part drawings read back: every angle, curve, place and size called out is the one in the lines drawn."""

from __future__ import annotations

from math import atan2, degrees, hypot
from typing import Any

import pytest

from builders import demo_shop
from documents.pieces import parts_of, piece_at
from small_templates import one_member
from yardwright.documents.drawing.arcs import arcs_of
from yardwright.documents.drawing.draw import draw
from yardwright.documents.drawing.features import features
from yardwright.documents.drawing.model import Drawing, Line, Text
from yardwright.documents.drawing.part_axes import as_placed, laid
from yardwright.documents.drawing.part_drawing import part_drawing, worth_drawing
from yardwright.domain.measure import INCH, Writer
from yardwright.domain.parts import Part, cut_list
from yardwright.domain.piece import build
from yardwright.domain.piece.model import Piece


def made(**member: Any) -> tuple[Piece, Part]:
    """A board 40 in long, 5 1/2 in by 3/4 in, with the ends and cuts given."""
    piece = build(one_member(**member), {}, {}, demo_shop(), "in")
    return piece, cut_list(((piece, 1),), demo_shop())[0]


def drawn(**member: Any) -> Drawing:
    piece, part = made(**member)
    return part_drawing(piece, part, Writer("in"))


def words(drawing: Drawing) -> list[str]:
    return [s.text for s in drawing.shapes if isinstance(s, Text)]


def slants(drawing: Drawing) -> set[float]:
    """Degrees off plumb of the body lines that neither stand nor lie."""
    found = set()
    for s in drawing.shapes:
        if isinstance(s, Line) and s.style == "visible":
            (ax, ay), (bx, by) = s.points[0], s.points[-1]
            angle = degrees(atan2(abs(bx - ax), abs(by - ay)))
            if 0.1 < angle < 89.9:
                found.add(round(angle, 1))
    return found


@pytest.mark.parametrize("angle", [8.0, 22.5, 45.0])
@pytest.mark.parametrize(("about", "word"), [("thick", "mitre"), ("wide", "bevel")])
def test_an_angle_called_out_is_the_slant_of_the_line_drawn(angle: float, about: str, word: str) -> None:
    drawing = drawn(ends=["square", {"angle": f"{angle}*deg", "about": about}])
    assert [w for w in words(drawing) if w.startswith(("mitre", "bevel"))] == [f"{word} {angle:g}°"]
    assert slants(drawing) == {angle}


def test_a_compound_end_says_both_settings_of_the_saw() -> None:
    # A post leaning 10 degrees both ways, cut level: mitre atan(tan 10), tilt of the blade by trigonometry
    # in test_shape; here the drawing must say the same as the words of the cut list.
    piece, part = made(to=["10*inch", "6*inch", "30*inch"], wide="right", thick="back",
                       ends=["level", "level"])
    mitre, tilt = (w.rstrip("°,").removeprefix("tilted ") for w in
                   (part.shape[0].split("mitred ")[1].split("°")[0],
                    part.shape[0].split("tilted ")[1].split("°")[0]))
    said = [w for w in words(part_drawing(piece, part, Writer("in"))) if w.startswith("mitre")]
    assert said == [f"mitre {mitre}°, bevel {tilt}°"] * 2


def test_lengths_are_long_point_to_long_point_with_the_short_edge_beside() -> None:
    ends = ["square", {"angle": "45*deg", "about": "thick"}]
    _, part = made(ends=ends)
    said = words(drawn(ends=ends))
    assert Writer("in").length(part.length_nm) in said
    # At 45 degrees the short edge is shorter by the board's width, 5 1/2 in.
    assert Writer("in").mm(part.length_nm / 1e6 - 5.5 * 25.4) in said


def test_a_crest_says_its_rise_and_the_radius_of_the_circle_through_it() -> None:
    drawing = drawn(cuts=[{"kind": "outline", "points": [
        ["0*inch", "0*inch"], ["40*inch", "0*inch"], ["40*inch", "3.5*inch"],
        {"to": ["0*inch", "3.5*inch"], "through": ["20*inch", "5.5*inch"]}]}])
    # r = (c^2/4 + h^2) / 2h = (400 + 4) / 4 = 101 in (geometry of the circle's segment).
    assert "rise 2 in, radius 101 in" in words(drawing)
    assert "3 1/2 in" in words(drawing)


def test_a_pocket_is_placed_from_the_nearer_end_and_edge_with_its_depth() -> None:
    said = words(drawn(cuts=[{"kind": "pocket", "from": ["30*inch", "1*inch", "1/2*inch"],
                              "to": ["32*inch", "3*inch", "1*inch"]}]))
    assert {"10 in", "8 in", "1/4 in deep"} <= set(said)      # 40 - 30, 40 - 32, 3/4 - 1/2
    assert "40 in" in said


def test_holes_are_counted_sized_and_placed() -> None:
    drawing = drawn(cuts=[{"kind": "hole", "at": ["4*inch", "2*inch"], "diameter": "1/2*inch"},
                          {"kind": "hole", "at": ["36*inch", "2*inch"], "diameter": "1/2*inch"}])
    assert {"2 holes 1/2 in", "4 in", "2 in"} <= set(words(drawing))


def test_a_rounded_edge_is_said_where_it_is() -> None:
    drawing = drawn(cuts=[{"kind": "round over", "edges": "top front, bottom front", "radius": "1/4*inch"}])
    assert "round over 1/4 in, both faces" in words(drawing)


def test_an_edge_bevelled_along_shows_its_angle_in_the_view_of_the_end() -> None:
    drawing = drawn(cuts=[{"kind": "plane", "at": ["0*inch", "5*inch", "0*inch"],
                           "normal": ["0", "cos(12*deg)", "sin(12*deg)"]}])
    assert "edge bevel 12°" in words(drawing)
    assert slants(drawing) == {78.0}       # off plumb; the edge it is cut from lies level in that view


def test_a_long_board_is_drawn_short_and_dimensioned_whole() -> None:
    drawing = drawn(ends=["square", {"angle": "10*deg", "about": "thick"}])
    body = [p for s in drawing.shapes if isinstance(s, Line) and s.style == "visible" for p in s.points]
    assert max(p[0] for p in body) - min(p[0] for p in body) < 600
    assert any(w.startswith("40 ") for w in words(drawing))


def test_only_parts_with_work_on_them_are_drawn() -> None:
    assert not worth_drawing(made()[1])
    assert worth_drawing(made(ends=["square", {"angle": "8*deg", "about": "wide"}])[1])


def test_left_and_right_hands_are_drawn_as_mirror_images() -> None:
    piece = piece_at("lounge-chair", {}, {}, "in")
    pair = [p for p in parts_of(piece) if p.hand]
    assert pair
    by_name: dict[str, list[Part]] = {}
    for part in pair:
        by_name.setdefault(part.name, []).append(part)
    for left, right in (v for v in by_name.values() if len(v) == 2):
        one, other = (features(laid(piece.member(p.keys[0]))) for p in (left, right))
        assert {left.hand, right.hand} == {"left", "right"}
        assert sorted(e.mitre_deg for e in one.ends) == sorted(e.mitre_deg for e in other.ends)
        assert one != other


def test_every_angle_on_the_cut_list_of_the_bench_is_in_its_part_drawing() -> None:
    piece = piece_at("storage-bench", {}, {"back": "curved"}, "in")
    for part in (p for p in parts_of(piece) if worth_drawing(p)):
        said = " ".join(words(part_drawing(piece, part, Writer("in"))))
        for text in part.shape:
            if "°" in text:
                angle = text.split("°")[0].split()[-1]
                assert f"{angle}°" in said, part.name


def test_the_rake_called_out_in_the_side_view_is_the_slant_of_the_rear_leg() -> None:
    piece = piece_at("storage-bench", {}, {"back": "straight"}, "in")
    drawing = draw(piece, "side", "in")
    assert "8° off plumb" in words(drawing)
    leaning = [s.points for s in drawing.shapes if isinstance(s, Line) and s.style == "outline"
               and abs(s.points[0][1] - s.points[1][1]) > 500]
    angles = {round(degrees(atan2(abs(b[0] - a[0]), abs(b[1] - a[1]))), 1) for a, b in leaning}
    assert 8.0 in angles


def test_the_crest_called_out_in_the_front_view_has_the_rise_of_the_template() -> None:
    piece = piece_at("storage-bench", {"length": 44 * INCH}, {"back": "curved"}, "in")
    assert any(w.startswith("rise 2 in, radius ") for w in words(draw(piece, "front", "in")))
    assert not any(w.startswith("rise") for w in words(draw(piece, "plan", "in")))


def test_arcs_are_found_in_outlines_and_corners_are_not() -> None:
    square = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]
    assert arcs_of(square) == []
    octagon = [(100.0, 0.0), (70.71, 70.71), (0.0, 100.0), (-70.71, 70.71),
               (-100.0, 0.0), (-70.71, -70.71), (0.0, -100.0), (70.71, -70.71)]
    (whole,) = arcs_of(octagon)
    assert whole.whole and whole.radius_mm == pytest.approx(100, abs=0.1)
    assert whole.centre == pytest.approx((0, 0), abs=1e-6)


def test_places_of_a_part_lead_back_to_the_piece() -> None:
    piece, part = made()
    member = piece.member(part.keys[0])
    way = as_placed(member)
    world = [way.place(*p) for ring in way.rings for p in ring]
    corners = list(member.solid.corners)
    assert all(min(hypot(*(a - b for a, b in zip(w, c, strict=True))) for c in corners) < 1e-6 for w in world)
