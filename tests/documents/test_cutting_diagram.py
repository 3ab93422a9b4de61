"""Cutting diagrams: to scale, every part named, every cut numbered, the sequence in words."""

from __future__ import annotations

import xml.etree.ElementTree as ET

from cutting_instances import INCH, furniture
from yardwright.documents import svg
from yardwright.documents.cutting_diagram import cutting_diagram, sequence
from yardwright.documents.drawing.model import Bounds, Drawing, Line, Polygon, Text, text_box
from yardwright.domain.cutting import plan
from yardwright.domain.measure import Writer, to_mm

GROUP = furniture(35)
PLAN = plan(GROUP.parts, GROUP.stock, GROUP.rules)


def test_parts_are_drawn_to_scale_in_both_directions() -> None:
    for layout in PLAN.layouts:
        shapes = cutting_diagram(layout, Writer("in")).shapes
        drawn = {s.points for s in shapes if isinstance(s, Polygon)}
        for p in layout.parts:
            x, y, long, wide = (to_mm(nm) for nm in (p.x_nm, p.y_nm, p.length_nm, p.width_nm))
            assert ((x, y), (x + long, y), (x + long, y + wide), (x, y + wide)) in drawn


def test_every_step_has_its_number_at_every_cut() -> None:
    for layout in PLAN.layouts:
        shapes = cutting_diagram(layout, Writer("in")).shapes
        words = [s.text for s in shapes if isinstance(s, Text)]
        for number, step in enumerate(layout.steps, 1):
            assert words.count(str(number)) >= step.times
        cuts = sum(isinstance(s, Line) and s.style == "cut" for s in shapes)
        assert cuts == sum(step.times for step in layout.steps)


def test_the_picture_says_in_words_what_it_shows() -> None:
    layout = PLAN.layouts[0]
    drawing = cutting_diagram(layout, Writer("in"))
    assert all(part.mark in drawing.description for part in layout.parts)
    root = ET.fromstring(svg(drawing))
    assert root.tag.endswith("svg")


def test_the_sequence_names_each_setting_once() -> None:
    lines = sequence(PLAN, Writer("in"))
    assert len(lines) == len(set(lines))
    cuts = sum(step.times for layout in PLAN.layouts for step in layout.steps)
    said = sum(1 if ", once," in line else int(line.split(" times")[0].split(", ")[-1]) for line in lines)
    assert said == cuts
    assert lines[0].startswith("Trim ends by" if GROUP.rules.end_trim_nm else "Crosscut, stop at")


def test_lengths_are_written_in_the_units_asked_for() -> None:
    layout = PLAN.layouts[0]
    texts = [s.text for s in cutting_diagram(layout, Writer("mm")).shapes if isinstance(s, Text)]
    assert any(text.endswith("mm") for text in texts)
    assert f"{round(to_mm(layout.length_nm))} mm" in " ".join(texts)
    assert layout.length_nm % INCH == 0


def test_words_on_a_board_stay_inside_their_part_and_numbers_in_their_ring() -> None:
    for layout in PLAN.layouts:
        drawing = cutting_diagram(layout, Writer("in"))
        rooms = [Drawing("", (s,)).bounds for s in drawing.shapes if isinstance(s, Polygon)]
        boxes = [text_box(s) for s in drawing.shapes if isinstance(s, Text)]
        outside = [box for box in boxes if not any(holds(room, box) for room in rooms)]
        assert len(outside) == 1  # the stock's own size, under it


def holds(outer: Bounds, inner: Bounds) -> bool:
    return all(outer.low[i] <= inner.low[i] + 1e-6 and inner.high[i] <= outer.high[i] + 1e-6 for i in (0, 1))
