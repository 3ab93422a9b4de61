"""Boards on the saw: steps that free every part, offcuts that add up, set-ups grouped."""

from __future__ import annotations

import pytest

from cutting_instances import FOOT, INCH, furniture
from yardwright.domain.cutting import plan, set_ups
from yardwright.domain.cutting.model import CutRules, Layout, NeededPart, StockLine

WIDE = round(5.5 * INCH)
KERF = INCH // 8


def edges_cut(layout: Layout) -> None:
    """Every part's right end and far edge lies on a cut or on the board's own edge."""
    cuts = [cut for step in layout.steps for cut in step.cuts]
    for p in layout.parts:
        right, top = p.x_nm + p.length_nm, p.y_nm + p.width_nm
        ended = right == layout.length_nm or any(
            x1 == x2 == right and y1 <= p.y_nm and y2 >= top for x1, y1, x2, y2 in cuts
        )
        ripped = top == layout.width_nm or any(
            y1 == y2 == top and x1 <= p.x_nm and x2 >= right for x1, y1, x2, y2 in cuts
        )
        assert ended
        assert ripped


@pytest.mark.parametrize("seed", range(1, 16))
def test_the_cuts_free_every_part(seed: int) -> None:
    group = furniture(seed)
    for layout in plan(group.parts, group.stock, group.rules).layouts:
        edges_cut(layout)
        assert all(len(step.cuts) == step.times for step in layout.steps)


def test_steps_are_trim_then_crosscuts_then_rips_then_strips() -> None:
    parts = [NeededPart("A", 40 * INCH, WIDE, 1), NeededPart("B", 15 * INCH, 2 * INCH, 4)]
    rules = CutRules(KERF, KERF, INCH // 2)
    (layout,) = plan(parts, [StockLine("8 ft", 8 * FOOT, WIDE, 900)], rules).layouts
    kinds = [step.kind for step in layout.steps]
    assert kinds[:2] == ["trim", "crosscut"]
    assert kinds.index("rip") > kinds.index("crosscut")
    assert layout.steps[1].marks[0] == "A"


def test_a_kept_offcut_is_told_from_waste() -> None:
    rules = CutRules(KERF, KERF, least_offcut_nm=30 * INCH)
    made = plan([NeededPart("A", 60 * INCH, WIDE, 1)], [StockLine("8 ft", 8 * FOOT, WIDE, 900)], rules)
    (offcut,) = made.layouts[0].offcuts
    assert (offcut.length_nm, offcut.kept) == (96 * INCH - 60 * INCH - KERF, True)


def test_one_setting_of_the_stop_serves_all_boards() -> None:
    made = plan(
        [NeededPart("A", 40 * INCH, WIDE, 6)], [StockLine("8 ft", 8 * FOOT, WIDE, 900)], CutRules(KERF, KERF)
    )
    (only,) = set_ups(made)
    assert (only.stage, only.setting_nm, only.times, only.boards) == (
        "crosscut boards",
        40 * INCH,
        6,
        (1, 2, 3),
    )
    assert only.marks == ("A",)


def test_marks_are_dealt_in_the_order_asked() -> None:
    parts = [NeededPart("A1", 40 * INCH, WIDE, 1), NeededPart("B1", 40 * INCH, WIDE, 1)]
    (layout,) = plan(parts, [StockLine("8 ft", 8 * FOOT, WIDE, 900)], CutRules(KERF, KERF)).layouts
    assert [p.mark for p in layout.parts] == ["A1", "B1"]
