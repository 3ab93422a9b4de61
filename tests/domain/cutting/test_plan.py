"""The cutting plan as a shop sees it: what to buy, what is refused, and why."""

from __future__ import annotations

import subprocess
import sys

import pytest

from cutting_checker import faults_of
from cutting_instances import FOOT, INCH, any_group, furniture, merged, times
from yardwright.domain.cutting import plan
from yardwright.domain.cutting.model import CutRules, NeededPart, StockLine
from yardwright.domain.errors import BadJob, NoStock, Refused, TooMuch

KERF = INCH // 8
RULES = CutRules(KERF, KERF)
WIDE = round(5.5 * INCH)


def board(feet: int, price: int, **more: object) -> StockLine:
    return StockLine(f"{feet} ft", feet * FOOT, WIDE, price, **more)  # type: ignore[arg-type]


def part(mark: str, length_in: float, count: int, width_in: float = 5.5, **more: object) -> NeededPart:
    return NeededPart(mark, round(length_in * INCH), round(width_in * INCH), count, **more)  # type: ignore[arg-type]


def test_one_part_takes_the_cheapest_board_that_holds_it() -> None:
    made = plan([part("A", 100, 1)], [board(8, 900), board(10, 1500), board(12, 1400)], RULES)
    assert [(p.code, p.count) for p in made.purchases] == [("12 ft", 1)]
    assert made.status == "optimal"
    assert made.cost == made.lower_bound == 1400


def test_several_lengths_are_bought_together_when_that_is_cheaper() -> None:
    parts = [part("A", 90, 1), part("B", 110, 1)]
    made = plan(parts, [board(8, 800), board(10, 1000), board(16, 3000)], RULES)
    assert sorted((p.code, p.count) for p in made.purchases) == [("10 ft", 1), ("8 ft", 1)]


def test_of_equal_costs_the_shorter_purchase_is_taken() -> None:
    made = plan([part("A", 90, 1)], [board(10, 1000), board(8, 1000)], RULES)
    assert [p.code for p in made.purchases] == ["8 ft"]


def test_ripped_strips_share_a_segment() -> None:
    made = plan([part("A", 90, 2, 2.625)], [board(8, 1000)], RULES)
    assert [(p.code, p.count) for p in made.purchases] == [("8 ft", 1)]
    assert plan([part("A", 90, 2, 2.75)], [board(8, 1000)], RULES).boards_cost == 2000


def test_a_short_part_is_ripped_from_a_segment_that_is_safe_to_rip() -> None:
    rules = CutRules(KERF, KERF, least_rip_length_nm=12 * INCH)
    parts = [part("A", 4, 1, 2.0)]
    stock = [StockLine("short", 11 * INCH, WIDE, 100), StockLine("long", 12 * INCH, WIDE, 500)]
    made = plan(parts, stock, rules)
    assert [p.code for p in made.purchases] == ["long"]
    assert faults_of(made, parts, stock, rules) == []


def test_pieces_on_hand_are_used_first_and_no_more_than_there_are() -> None:
    rack = StockLine("rack", 5 * FOOT, WIDE, 0, "board", 2, True)
    made = plan([part("A", 50, 3)], [board(8, 900), rack], RULES)
    assert {p.code: p.count for p in made.purchases} == {"rack": 2, "8 ft": 1}
    assert made.cost == 900


def test_a_blocked_zone_keeps_parts_off_it() -> None:
    rack = StockLine("knotty", 96 * INCH, WIDE, 0, "board", 1, True, ((40 * INCH, 44 * INCH),))
    parts = [part("A", 50, 2)]
    stock = [rack, board(8, 900)]
    made = plan(parts, stock, RULES)
    assert faults_of(made, parts, stock, RULES) == []
    assert made.cost == 900


def test_end_trims_are_kept_at_both_ends() -> None:
    rules = CutRules(KERF, KERF, end_trim_nm=INCH // 2)
    assert plan([part("A", 95, 1)], [board(8, 900), board(10, 1200)], rules).cost == 900
    assert plan([part("A", 95.0625, 1)], [board(8, 900), board(10, 1200)], rules).cost == 1200


def test_glued_edges_are_cut_away_from_factory_edges() -> None:
    rules = CutRules(KERF, KERF, edge_trim_nm=INCH // 4)
    parts = [part("A", 90, 1, 5.0, trim_edges=True)]
    assert faults_of(plan(parts, [board(8, 900)], rules), parts, [board(8, 900)], rules) == []
    with pytest.raises(NoStock, match="once its edges are trimmed"):
        plan([part("A", 90, 1, 5.25, trim_edges=True)], [board(8, 900)], rules)


def test_matched_strips_come_from_one_board() -> None:
    parts = [part("W", 40, 4, 3.0625, matched="leg", sets=4), part("N", 40, 4, 2.3125, matched="leg", sets=4)]
    made = plan(parts, [board(8, 900)], RULES)
    assert made.cost == 1800
    assert faults_of(made, parts, [board(8, 900)], RULES) == []


def test_a_part_kept_to_one_width_is_not_ripped_from_another() -> None:
    wider = StockLine("wide", 8 * FOOT, round(7.25 * INCH), 100)
    free = plan([part("A", 90, 1)], [board(8, 900), wider], RULES)
    kept = plan([part("A", 90, 1, from_width_nm=WIDE)], [board(8, 900), wider], RULES)
    assert (free.cost, kept.cost) == (100, 900)


def test_a_shop_that_rips_from_no_wider_board_says_so() -> None:
    stock = [StockLine("wide", 8 * FOOT, round(7.25 * INCH), 100), board(8, 900)]
    made = plan([part("A", 90, 1, 3.0)], stock, CutRules(KERF, KERF, rip_from_wider=False))
    assert made.cost == 900


def test_too_long_a_part_is_named_with_the_limit_and_what_would_do() -> None:
    with pytest.raises(NoStock) as refusal:
        plan([part("A", 20, 1), part("B", 200, 1)], [board(8, 900), board(16, 2000)], RULES)
    (fault,) = refusal.value.faults
    assert fault.pointer == "/parts/1/length"
    assert "part B is 200 in long" in fault.detail
    assert "16 ft" in fault.detail
    assert "at most 192 in" in fault.detail
    assert "at least 200 in" in fault.detail


def test_the_longest_carry_is_named_when_it_is_what_stops_a_part() -> None:
    rules = CutRules(KERF, KERF, longest_carry_nm=10 * FOOT)
    with pytest.raises(NoStock, match="carries no more than 120 in"):
        plan([part("B", 150, 1)], [board(8, 900), board(16, 2000)], rules)


def test_too_wide_and_too_narrow_parts_are_named() -> None:
    with pytest.raises(NoStock, match="part A is 6 in wide; the widest stock gives 5 1/2 in"):
        plan([part("A", 20, 1, 6.0)], [board(8, 900)], RULES)
    with pytest.raises(NoStock, match="no strip narrower than 3/4 in"):
        plan([part("A", 20, 1, 0.5)], [board(8, 900)], CutRules(KERF, KERF, least_strip_nm=3 * INCH // 4))


def test_counted_stock_that_runs_out_is_refused() -> None:
    with pytest.raises(NoStock, match="not enough"):
        plan([part("A", 90, 3)], [board(8, 900, count=2)], RULES)


@pytest.mark.parametrize("zone", [(10, 5), (-1, 5), (90 * INCH, 97 * INCH)])
def test_an_impossible_blocked_zone_is_refused_where_it_stands(zone: tuple[int, int]) -> None:
    with pytest.raises(BadJob) as refusal:
        plan([part("A", 20, 1)], [board(8, 900, blocked=((0, 1), zone))], RULES)
    assert refusal.value.faults[0].pointer == "/stock/0/blocked/1"


@pytest.mark.parametrize(
    ("needed", "pointer"),
    [
        (NeededPart("A", 0, WIDE, 1), "/parts/0/length"),
        (NeededPart("A", INCH, -1, 1), "/parts/0/width"),
        (NeededPart("A", INCH, WIDE, 0), "/parts/0/count"),
    ],
)
def test_sizes_that_cannot_be_meant_are_refused(needed: NeededPart, pointer: str) -> None:
    with pytest.raises(BadJob) as refusal:
        plan([needed], [board(8, 900)], RULES)
    assert refusal.value.faults[0].pointer == pointer


def test_one_plan_cuts_one_kind_of_stock() -> None:
    with pytest.raises(BadJob, match="one kind of stock"):
        plan([part("A", 20, 1)], [board(8, 900), StockLine("S", FOOT, FOOT, 1, "sheet")], RULES)


def test_more_parts_than_one_request_may_ask_for_are_refused() -> None:
    with pytest.raises(TooMuch, match="20000 parts"):
        plan([part("A", 20, 20_001)], [board(8, 900)], RULES)


def test_ten_thousand_parts_get_a_plan_with_its_gap() -> None:
    group = times(furniture(7), 1)
    parts = tuple(
        NeededPart(p.mark, p.length_nm, p.width_nm, 10_000 // len(group.parts)) for p in group.parts
    )
    made = plan(parts, group.stock, group.rules, "quick")
    assert sum(len(layout.parts) for layout in made.layouts) == sum(p.count for p in parts)
    assert made.lower_bound <= made.cost <= made.lower_bound * 1.01


def test_an_effort_that_does_not_exist_is_refused() -> None:
    with pytest.raises(BadJob, match="quick, normal, thorough"):
        plan([part("A", 20, 1)], [board(8, 900)], RULES, "heroic")


def test_nothing_asked_costs_nothing() -> None:
    made = plan([], [board(8, 900)], RULES)
    assert (made.cost, made.status, made.layouts) == (0, "optimal", ())


@pytest.mark.parametrize("seed", range(1, 31))
def test_furniture_groups_are_cut_as_drawn_and_proven(seed: int) -> None:
    group = furniture(seed)
    made = plan(group.parts, group.stock, group.rules)
    assert faults_of(made, group.parts, group.stock, group.rules) == []
    assert made.status == "optimal"


@pytest.mark.parametrize("seed", range(150))
def test_any_group_is_cut_as_drawn_or_refused(seed: int) -> None:
    group = any_group(seed)
    try:
        made = plan(group.parts, group.stock, group.rules)
    except Refused as refusal:
        assert all(fault.detail for fault in refusal.faults)
    else:
        assert faults_of(made, group.parts, group.stock, group.rules) == []


def test_a_large_job_is_cut_as_drawn_within_its_stated_gap() -> None:
    group = merged(8)
    made = plan(group.parts, group.stock, group.rules)
    assert faults_of(made, group.parts, group.stock, group.rules) == []
    assert made.lower_bound <= made.cost <= made.lower_bound * 1.02


def test_more_effort_never_costs_more() -> None:
    for seed in (11, 24, 35):
        group = furniture(seed)
        costs = [plan(group.parts, group.stock, group.rules, e).cost for e in ("quick", "normal", "thorough")]
        assert costs == sorted(costs, reverse=True)


def test_the_same_question_has_the_same_answer_in_another_process() -> None:
    group = furniture(24)
    code = (
        "from cutting_instances import furniture; from yardwright.domain.cutting import plan; "
        "g = furniture(24); print(plan(g.parts, g.stock, g.rules))"
    )
    other = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=_here()
    ).stdout
    assert other.strip() == str(plan(group.parts, group.stock, group.rules))


def test_the_solver_keeps_its_banner_to_itself(capfd: pytest.CaptureFixture[str]) -> None:
    group = furniture(11)
    plan(group.parts, group.stock, group.rules)
    assert capfd.readouterr().out == ""


def _here() -> dict[str, str]:
    import os

    return {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), "PYTHONHASHSEED": "77"}


def test_too_many_different_sizes_are_refused_with_what_would_do() -> None:
    parts = [part(f"P{n}", 10 + n / 16, 1) for n in range(301)]
    with pytest.raises(TooMuch, match="301 different sizes in one cutting plan; at most 300"):
        plan(parts, [board(8, 900)], RULES)


def test_ten_thousand_parts_of_two_hundred_sizes_get_a_plan_with_its_gap() -> None:
    parts = [part(f"P{n}", 10 + n / 4, 50) for n in range(200)]
    stock = [board(8, 900), board(12, 1400)]
    made = plan(parts, stock, RULES, "quick")
    assert faults_of(made, parts, stock, RULES) == []
    assert made.lower_bound <= made.cost <= made.lower_bound * 1.1


def test_a_matched_set_too_large_for_any_board_is_named() -> None:
    parts = [part("W", 90, 1, 3.0, matched="leg", sets=1), part("N", 90, 1, 3.0, matched="leg", sets=1)]
    with pytest.raises(NoStock, match="no single board gives a whole matched set of N, W"):
        plan(parts, [board(8, 900)], RULES)
