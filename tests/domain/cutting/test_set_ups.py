"""Set-ups in words that fit the stock, in an order the saw can follow."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from cutting_instances import FOOT, INCH, any_group
from cutting_saw import faults_at_the_saw
from yardwright.documents.cutting_diagram import cutting_diagram, sequence
from yardwright.documents.drawing.model import Line, Text
from yardwright.domain.cutting import plan, set_ups
from yardwright.domain.cutting.model import CutRules, CuttingPlan, Layout, NeededPart, StockLine
from yardwright.domain.cutting.set_ups import _staged
from yardwright.domain.errors import Refused
from yardwright.domain.measure import Writer

SHEET = StockLine("PLY", 8 * FOOT, 4 * FOOT, 5000, "sheet")
ROLL = StockLine("MESH", FOOT, 3 * FOOT, 300, "roll", longest_nm=50 * FOOT)
RULES = CutRules(INCH // 8, INCH // 8, INCH // 4, INCH // 4, least_offcut_nm=12 * INCH)


def panels(seed: int) -> list[NeededPart]:
    rng = random.Random(seed)
    return [
        NeededPart(f"P{n}", long * INCH, rng.randint(6, 30) * INCH, rng.randint(1, 4), "either")
        for n, long in enumerate(rng.randint(10, 40) for _ in range(4))
    ]


def made(line: StockLine, seed: int) -> CuttingPlan:
    return plan(panels(seed), [line], RULES, "quick")


def test_sheets_and_lengths_are_called_by_their_names() -> None:
    sheet, roll = ("\n".join(sequence(made(line, 1), Writer("in"))) for line in (SHEET, ROLL))
    assert "board" not in sheet + roll
    assert "sheet 1" in sheet and "Trim ends by 1/4 in" in sheet and "Trim edges by 1/4 in" in sheet
    assert "length 1" in roll and "across" in roll and "fence" not in roll


def by_set_up(layout: Layout, of: str) -> Layout:
    """The layout's steps in the order of the set-ups."""
    staged = sorted(_staged(layout, of), key=lambda one: (one[0], one[1], -one[2].setting_nm))
    return replace(layout, steps=tuple(step for _, _, step in staged))


@pytest.mark.parametrize("seed", range(15))
def test_a_saw_that_goes_by_set_ups_gets_every_part_too(seed: int) -> None:
    for line in (SHEET, ROLL):
        done = made(line, seed)
        cuts = sum(step.times for layout in done.layouts for step in layout.steps)
        assert sum(one.times for one in set_ups(done)) == cuts
        for layout in done.layouts:
            assert faults_at_the_saw(by_set_up(layout, set_ups(done)[0].of), RULES) == []
    group = any_group(seed)
    try:
        done = plan(group.parts, group.stock, group.rules)
    except Refused:
        return
    for layout in done.layouts:
        assert faults_at_the_saw(by_set_up(layout, "board"), group.rules) == []


@pytest.mark.parametrize("line", [SHEET, ROLL])
def test_every_cut_is_drawn_where_it_runs_and_has_its_number(line: StockLine) -> None:
    for layout in made(line, 3).layouts:
        shapes = cutting_diagram(layout, Writer("in")).shapes
        drawn = sum(isinstance(s, Line) and s.style == "cut" for s in shapes)
        assert drawn == sum(step.times for step in layout.steps)
        words = [s.text for s in shapes if isinstance(s, Text)]
        assert all(any(part.mark in word for word in words) for part in layout.parts)
