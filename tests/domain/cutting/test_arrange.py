"""The same purchase arranged: fewer set-ups, one long offcut, equal boards together, nothing lost."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from cutting_checker import faults_of
from cutting_instances import FOOT, INCH, furniture
from yardwright.domain.cutting import plan, set_ups
from yardwright.domain.cutting.arrange import arrange
from yardwright.domain.cutting.model import CutRules, NeededPart, StockLine
from yardwright.domain.cutting.problem import Problem, read_problem
from yardwright.domain.cutting.saw_work import CutBoard, ranked, saw_work
from yardwright.domain.cutting.segments import Segment, Strip

WIDE = round(5.5 * INCH)
KERF = INCH // 8
RULES = CutRules(KERF, KERF)
EIGHT = StockLine("8 ft", 8 * FOOT, WIDE, 900)


def whole(problem: Problem, *sizes: int) -> CutBoard:
    lengths = [problem.sizes[i].length_nm for i in sizes]
    run = tuple(
        Segment(length, 0, (Strip(WIDE, length, (i,), False, 0),), False)
        for i, length in zip(sizes, lengths, strict=True)
    )
    return CutBoard(0, (run,))


def parts_on(boards: list[CutBoard]) -> Counter[int]:
    cut = (segment for one in boards for run in one.runs for segment in run)
    return Counter(i for segment in cut for strip in segment.strips for i in strip.sizes)


def longest(problem: Problem, boards: list[CutBoard]) -> int:
    return max(saw_work(problem, one).longest_nm for one in boards)


def test_free_room_comes_together_at_the_end_of_one_board() -> None:
    parts = [NeededPart("A", 60 * INCH, WIDE, 2), NeededPart("B", 20 * INCH, WIDE, 2)]
    problem = read_problem(parts, [EIGHT], RULES)
    apart = [whole(problem, 0, 1), whole(problem, 0, 1)]
    assert longest(problem, arrange(problem, apart)) == 16 * INCH - 2 * KERF  # two boards of 60 and 20 in
    shorter = [NeededPart("A", 50 * INCH, WIDE, 2), NeededPart("B", 20 * INCH, WIDE, 2)]
    problem = read_problem(shorter, [EIGHT], RULES)
    arranged = arrange(problem, [whole(problem, 0, 1), whole(problem, 0, 1)])
    assert longest(problem, arranged) == 46 * INCH - KERF
    assert parts_on(arranged) == {0: 2, 1: 2}


def test_two_boards_half_used_become_one() -> None:
    problem = read_problem([NeededPart("A", 40 * INCH, WIDE, 2)], [EIGHT], RULES)
    (only,) = arrange(problem, [whole(problem, 0), whole(problem, 0)])
    assert parts_on([only]) == {0: 2}


def test_equal_boards_follow_one_another() -> None:
    parts = [NeededPart("A", 90 * INCH, WIDE, 2), NeededPart("B", 95 * INCH, WIDE, 1)]
    problem = read_problem(parts, [EIGHT], RULES)
    mixed = [whole(problem, 1), whole(problem, 0), whole(problem, 1)]
    assert [one == mixed[0] for one in arrange(problem, mixed)] == [True, True, False]


def test_strips_of_one_length_are_crosscut_on_the_board_before_they_are_ripped() -> None:
    parts = [NeededPart("A", 20 * INCH, 2 * INCH, 4)]
    problem = read_problem(parts, [EIGHT], RULES)
    strip = Strip(2 * INCH, 40 * INCH + KERF, (0, 0), False, 0)
    chained = CutBoard(0, ((Segment(40 * INCH + KERF, 0, (strip, strip), True),),))
    (better,) = arrange(problem, [chained])
    assert [s.length_nm for s in better.runs[0]] == [20 * INCH, 20 * INCH]
    before, after = (ranked(problem, [saw_work(problem, one)]) for one in (chained, better))
    assert (before[1], after[1]) == (3, 2)  # 40 1/8 in, 2 in and 20 in; then 20 in and 2 in
    safe = read_problem(parts, [EIGHT], replace(RULES, least_rip_length_nm=30 * INCH))
    assert arrange(safe, [chained])[0].runs[0][0].length_nm == 40 * INCH + KERF


def test_a_strip_goes_where_there_is_room_and_its_segment_falls_away() -> None:
    parts = [NeededPart("A", 30 * INCH, 2 * INCH, 1), NeededPart("B", 25 * INCH, 2 * INCH, 1)]
    problem = read_problem(parts, [EIGHT], RULES)
    a, b = (Strip(2 * INCH, length * INCH, (i,), False, 0) for i, length in enumerate((30, 25)))
    run = (Segment(30 * INCH, 0, (a,), True), Segment(25 * INCH, 0, (b,), True))
    (only,) = arrange(problem, [CutBoard(0, (run,))])
    assert len(only.runs[0]) == 1
    assert parts_on([only]) == {0: 1, 1: 1}


def test_matched_sets_stay_on_their_boards() -> None:
    parts = [
        NeededPart("A", 50 * INCH, 2 * INCH, 2, matched="top", sets=1),
        NeededPart("B", 60 * INCH, WIDE, 1),
    ]
    made = plan(parts, [EIGHT], RULES)
    boards = [{p.mark for p in layout.parts} for layout in made.layouts]
    assert sum("A" in marks for marks in boards) == 1


@pytest.mark.parametrize("seed", range(40, 56))
def test_the_work_counted_is_the_work_drawn(seed: int) -> None:
    group = furniture(seed)
    made = plan(group.parts, group.stock, group.rules)
    assert faults_of(made, group.parts, group.stock, group.rules) == []
    drawn = [s for s in set_ups(made) if s.stage not in ("trim the ends", "trim edges")]
    lengths, widths = {p.length_nm for p in group.parts}, {line.width_nm for line in group.stock}
    ripped = {p.width_nm for p in group.parts} - widths
    # A plain floor: every part length needs a stop once, every ripped width the fence once.
    assert len(lengths) + len(ripped) <= len(drawn) + 1
    assert len(drawn) <= 1.5 * (len(lengths) + len(ripped))


def test_the_same_plan_comes_out_every_time() -> None:
    group = furniture(77)
    assert plan(group.parts, group.stock, group.rules) == plan(group.parts, group.stock, group.rules)
