"""Rolls: fixed widths bought by length, joints that overlap where a panel is wider."""

from __future__ import annotations

import pytest

from cutting_checker_sheets import faults_of_rolls
from yardwright.domain.cutting import plan
from yardwright.domain.cutting.model import CutRules, NeededPart, StockLine
from yardwright.domain.cutting.rolls import widths
from yardwright.domain.errors import NoStock

MM = 1_000_000
MESH = StockLine("MESH", 500 * MM, 900 * MM, 450, "roll", longest_nm=10_000 * MM)
RULES = CutRules(0, 0, overlap_nm=50 * MM)


def test_a_panel_is_cut_off_by_whole_steps() -> None:
    made = plan([NeededPart("R", 1100 * MM, 600 * MM, 1)], [MESH], RULES)
    assert (made.layouts[0].length_nm, made.cost) == (1500 * MM, 3 * 450)
    assert made.status == "optimal"


def test_two_narrow_panels_lie_side_by_side() -> None:
    made = plan([NeededPart("R", 1000 * MM, 450 * MM, 2)], [MESH], RULES)
    assert made.cost == 2 * 450


def test_a_panel_wider_than_the_roll_is_laid_with_overlap() -> None:
    made = plan([NeededPart("R", 1000 * MM, 1600 * MM, 1)], [MESH], RULES)
    assert sorted(p.width_nm for p in made.layouts[0].parts) == [750 * MM, 900 * MM]
    assert made.cost == 4 * 450


@pytest.mark.parametrize(("panel", "expected"), [(900, (900,)), (901, (900, 51)), (2600, (900, 900, 900))])
def test_the_widths_of_a_panel_cover_it_with_each_overlap(panel: int, expected: tuple[int, ...]) -> None:
    laid = widths(panel, 900, 50)
    assert laid == expected
    assert sum(laid) - 50 * (len(laid) - 1) == panel


def test_a_panel_turns_where_that_spares_a_joint() -> None:
    made = plan([NeededPart("R", 800 * MM, 1500 * MM, 1, "either")], [MESH], RULES)
    assert [(p.length_nm, p.width_nm) for p in made.layouts[0].parts] == [(1500 * MM, 800 * MM)]


def test_the_cheaper_roll_is_taken() -> None:
    wide = StockLine("WIDE", 500 * MM, 1800 * MM, 700, "roll", longest_nm=10_000 * MM)
    made = plan([NeededPart("R", 1000 * MM, 1700 * MM, 1)], [MESH, wide], RULES)
    assert [p.code for p in made.purchases] == ["WIDE"]


def test_a_long_job_is_cut_from_several_lengths() -> None:
    made = plan([NeededPart("R", 4000 * MM, 900 * MM, 5)], [MESH], RULES)
    assert [layout.length_nm for layout in made.layouts] == [8000 * MM, 8000 * MM, 4000 * MM]


def test_a_panel_longer_than_the_roll_is_named() -> None:
    with pytest.raises(NoStock, match=r"part R is .* long; MESH comes in one piece up to"):
        plan([NeededPart("R", 11_000 * MM, 900 * MM, 1)], [MESH], RULES)


def test_panels_of_one_job_may_come_from_different_rolls() -> None:
    narrow = StockLine("NARROW", 500 * MM, 450 * MM, 240, "roll", longest_nm=10_000 * MM)
    parts = [NeededPart("WIDE", 1000 * MM, 900 * MM, 1), NeededPart("SLIM", 1000 * MM, 450 * MM, 1)]
    made = plan(parts, [MESH, narrow], RULES)
    assert {p.code: p.count for p in made.purchases} == {"MESH": 2, "NARROW": 2}
    assert made.status == "optimal"


def test_no_length_is_longer_than_whole_steps_of_the_roll_allow() -> None:
    odd = StockLine("ODD", 500 * MM, 900 * MM, 450, "roll", longest_nm=1200 * MM)  # gives 1000 mm at most
    made = plan([NeededPart("R", 600 * MM, 900 * MM, 2)], [odd], RULES)
    assert [layout.length_nm for layout in made.layouts] == [1000 * MM, 1000 * MM]
    with pytest.raises(NoStock, match="up to 1000 mm"):
        plan([NeededPart("R", 1100 * MM, 900 * MM, 1)], [odd], RULES)


def test_shorter_panels_lie_beside_a_longer_one() -> None:
    parts = [NeededPart("L", 1000 * MM, 500 * MM, 1), NeededPart("S", 500 * MM, 400 * MM, 2)]
    made = plan(parts, [MESH], RULES)
    assert (made.cost, made.status) == (2 * 450, "optimal")
    assert faults_of_rolls(made, parts, [MESH], RULES) == []
