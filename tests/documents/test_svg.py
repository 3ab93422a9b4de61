"""Drawings as SVG: well formed, self-contained, escaped, and words that never stand on each other."""

from __future__ import annotations

from itertools import combinations
from xml.etree import ElementTree

import pytest

from documents.sample import bench, box, raked
from yardwright.documents import Drawing, svg
from yardwright.documents.drawing.model import Line, Polygon, Text, text_box, text_width
from yardwright.documents.drawing.shapes import dimension, fitted, hatched, rectangle
from yardwright.documents.drawing.views import Levels, view_of
from yardwright.domain.measure import Writer

SVG = "{http://www.w3.org/2000/svg}"
SEAT = Levels((("seat_height", 430.0), ("arm_height", 620.0)))


def parsed(drawing: Drawing) -> ElementTree.Element:
    return ElementTree.fromstring(svg(drawing))


@pytest.mark.parametrize("view", ["front", "side", "plan", "isometric"])
def test_every_view_parses_and_carries_nothing_from_elsewhere(view: str) -> None:
    text = svg(view_of(bench(), view, Writer("in"), "Storage bench", SEAT))
    tags = {e.tag.removeprefix(SVG) for e in ElementTree.fromstring(text).iter()}
    assert tags <= {"svg", "title", "desc", "rect", "path", "text"}
    assert "style=" not in text and "href" not in text and "url(" not in text


def test_markup_in_words_is_printed_and_not_obeyed() -> None:
    hostile = "</text><script>alert('x')</script> & \"quoted\""
    root = parsed(Drawing(hostile, (Text((0, 0), hostile, 10),), hostile))
    assert root.find(f"{SVG}text").text == hostile  # type: ignore[union-attr]
    assert root.find(f"{SVG}title").text == hostile  # type: ignore[union-attr]
    assert root.find(f".//{SVG}script") is None


def test_characters_that_xml_cannot_carry_are_shown_as_replaced() -> None:
    root = parsed(Drawing("t", (Text((0, 0), "a\x00b\x1bc\ud800d", 10),)))
    assert root.find(f"{SVG}text").text == "a\ufffdb\ufffdc\ufffdd"  # type: ignore[union-attr]


def test_up_in_the_drawing_is_up_on_the_screen() -> None:
    root = parsed(Drawing("t", (Line(((0, 0), (0, 100))),)))
    assert root.find(f"{SVG}path").get("d") == "M0,0 0,-100"  # type: ignore[union-attr]
    assert root.get("viewBox") == "0 -100 0 100"


def test_words_read_on_a_phone() -> None:
    for view in ("front", "side", "plan"):
        drawing = view_of(bench(), view, Writer("in"), "Bench", SEAT)
        heights = [s.height_mm for s in drawing.shapes if isinstance(s, Text)]
        assert heights and min(heights) / drawing.bounds.width * 360 >= 9.5


SIZES = [(1120, 560, 810), (3000, 200, 150), (300, 300, 2000), (250, 1800, 400), (609.6, 406.4, 457.2)]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("view", ["front", "side", "plan"])
@pytest.mark.parametrize("units", ["in", "mm"])
def test_dimension_words_stand_clear_of_each_other_and_of_the_piece(size: tuple[float, float, float],
                                                                   view: str, units: str) -> None:
    levels = Levels((("seat_height", size[2] * 0.5), ("arm_height", size[2] * 0.52)))
    drawing = view_of([box(0, 0, 0, *size)], view, Writer(units), "Bench", levels)
    boxes = [text_box(s) for s in drawing.shapes if isinstance(s, Text)]
    assert len(boxes) >= 2
    assert not [pair for pair in combinations(boxes, 2) if pair[0].overlaps(pair[1])]
    outline = tuple(s for s in drawing.shapes if isinstance(s, Line) and s.style == "outline")
    body = Drawing("", outline).bounds
    assert not [b for b in boxes if b.overlaps(body)]


def test_dimensions_say_the_overall_sizes_in_the_jobs_units() -> None:
    members = [box(0, 0, 0, 44 * 25.4, 22 * 25.4, 17.5 * 25.4)]
    words = {s.text for v in ("front", "side") for s in view_of(members, v, Writer("in"), "B").shapes
             if isinstance(s, Text)}
    assert words == {"44 in", "22 in", "17 1/2 in"}
    metric = {s.text for s in view_of(members, "plan", Writer("mm"), "B").shapes if isinstance(s, Text)}
    assert metric == {"1118 mm", "559 mm"}


def test_a_raked_back_counts_in_the_overall_depth() -> None:
    members = [box(0, 0, 0, 1000, 400, 400), raked(box(0, 400, 400, 1000, 420, 800), -10, 400, 400)]
    said = view_of(members, "side", Writer("mm"), "B").description
    # 400 sin 10° back and 20 cos 10° thick beyond y = 400: 89.2 mm (recomputed by trigonometry).
    assert "depth 489 mm" in said


def test_words_that_do_not_fit_a_short_span_stand_beside_it() -> None:
    shapes = dimension((0, 0), (10, 0), "3/8 in", 12, off_mm=-30)
    (text,) = [s for s in shapes if isinstance(s, Text)]
    assert text_box(text).low[0] >= 10
    near = [s for s in dimension((0, 0), (10, 0), "3/8 in", 12, off_mm=-30, past="near")
            if isinstance(s, Text)]
    assert text_box(near[0]).high[0] <= 0


def test_fitted_words_stay_inside_their_box() -> None:
    high = fitted("A12", 100, 40, most_mm=50)
    assert text_width("A12", high) <= 100 + 1e-9 and high * 1.1 <= 40 + 1e-9
    assert fitted("A very long name indeed", 20, 40, most_mm=50, least_mm=5) == 0.0


def test_hatching_stays_inside_its_shape_and_fills_it() -> None:
    square = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))
    lines = hatched(square, 10)
    assert all(-1e-6 <= v <= 100 + 1e-6 for line in lines for p in line.points for v in p)
    # Strokes 10 mm apart over 100 x 100 mm: their length times the spacing is about the area.
    covered = sum(abs(b[0] - a[0]) * 2 ** 0.5 for a, b in (line.points for line in lines)) * 10
    assert covered == pytest.approx(10_000, rel=0.1)


def test_tones_survive_as_greys() -> None:
    root = parsed(Drawing("t", (rectangle(0, 0, 10, 10, 0.5), Polygon(((0, 0), (1, 0), (1, 1)), 0.0))))
    assert [p.get("fill") for p in root.findall(f"{SVG}path")] == ["#808080", "#000000"]
