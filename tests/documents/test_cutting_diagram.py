"""Cutting diagrams: to scale, every part named, every cut numbered, the sequence in words."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from itertools import combinations

from cutting_instances import INCH, furniture
from yardwright.documents import svg
from yardwright.documents.cutting_diagram import cutting_diagram, sequence
from yardwright.documents.cutting_steps import runs, saw_steps
from yardwright.documents.drawing.callouts import crosses_box
from yardwright.documents.drawing.model import Bounds, Drawing, Line, Polygon, Text, text_box
from yardwright.domain.cutting import plan
from yardwright.domain.cutting.model import CutStep, Layout, Placed
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


def test_every_cut_is_drawn_and_every_step_has_its_number_at_its_cuts() -> None:
    for layout in PLAN.layouts:
        shapes = cutting_diagram(layout, Writer("in")).shapes
        words = [s.text for s in shapes if isinstance(s, Text)]
        for number, step in enumerate(saw_steps(layout), 1):
            across = [cut for cut in step.cuts if cut[0] == cut[2]]
            assert words.count(str(number)) >= max(1, len(across))
        cuts = sum(isinstance(s, Line) and s.style == "cut" for s in shapes)
        assert cuts == sum(step.times for step in layout.steps)


def test_equal_settings_of_a_board_are_one_step_after_all_crosscuts() -> None:
    for layout in PLAN.layouts:
        steps = saw_steps(layout)
        assert sum(s.times for s in steps) == sum(s.times for s in layout.steps)
        assert sorted(c for s in steps for c in s.cuts) == sorted(c for s in layout.steps for c in s.cuts)
        settings = [(s.kind, s.piece.split(" ")[0], s.setting_nm) for s in steps]
        assert len(settings) == len(set(settings))
        kinds = [s.kind for s in steps if s.piece == "board" or s.kind == "rip"]
        assert kinds == sorted(kinds, key=["trim", "crosscut", "rip"].index)


def test_a_sheet_laid_out_turned_keeps_the_order_it_was_planned_in() -> None:
    rip = CutStep("rip", 500, 1, "board")
    layout = Layout("S", 2000, 1000, (), (), (rip, CutStep("crosscut", 300, 1, "segment 1"), rip), 0)
    assert saw_steps(layout) == layout.steps


def test_the_numbers_stand_clear_of_the_marks_and_words_of_one_another() -> None:
    for layout in PLAN.layouts:
        drawing = cutting_diagram(layout, Writer("in"))
        boxes = [text_box(s) for s in drawing.shapes if isinstance(s, Text)]
        assert not [pair for pair in combinations(boxes, 2) if pair[0].overlaps(pair[1], 1e-6)]


def test_leaders_to_marks_under_the_board_cross_no_other_words() -> None:
    strips = tuple(Placed(mark, 0, y * INCH, 6 * INCH, wide * INCH) for mark, y, wide in
                   (("A10", 0, 3), ("A12", 3, 1)))
    rips = tuple(CutStep("rip", at * INCH, 1, "segment 1", (), ((0, y * INCH, 6 * INCH, y * INCH),))
                 for at, y in ((3, 3), (1, 4)))
    layout = Layout("B", 96 * INCH, 5 * INCH, strips, (), rips, 0)
    shapes = cutting_diagram(layout, Writer("in")).shapes
    words = [text_box(s) for s in shapes if isinstance(s, Text)]
    led = [s for s in shapes if isinstance(s, Line) and s.style == "leader"]
    assert led and not [1 for s in led for box in words if box.low[1] > 0
                        and crosses_box((s.points[0], s.points[1]), box)]


def test_numbers_in_a_row_are_said_as_a_run() -> None:
    assert runs([3, 1, 2, 5, 7, 8]) == "1 to 3, 5, 7, 8"
    assert runs([4, 4]) == "4"


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
        led = [s.points[1] for s in drawing.shapes if isinstance(s, Line) and s.style == "leader"]
        words = [(s.text, text_box(s)) for s in drawing.shapes if isinstance(s, Text)]
        outside = [(text, box) for text, box in words if not any(holds(room, box) for room in rooms)]
        size = [text for text, box in outside if not any(box.low[0] < x < box.high[0] for x, _ in led)]
        assert len(size) <= 1 and len(outside) <= len(led) + 1  # marks led out, and the stock's own size
        assert all(box.high[1] < 0 for _, box in outside)


def holds(outer: Bounds, inner: Bounds) -> bool:
    return all(outer.low[i] <= inner.low[i] + 1e-6 and inner.high[i] <= outer.high[i] + 1e-6 for i in (0, 1))
