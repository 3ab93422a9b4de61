"""Sheets: straight through cuts in any number of stages, turned only where the grain allows."""

from __future__ import annotations

import random
import time
from dataclasses import replace

import pytest

from cutting_checker_sheets import faults_of_sheets
from yardwright.domain.cutting import plan
from yardwright.domain.cutting.model import CutRules, CuttingPlan, NeededPart, StockLine
from yardwright.domain.errors import BadJob, NoStock

MM = 1_000_000
SHEET = StockLine("PLY", 2440 * MM, 1220 * MM, 4500, "sheet")
RULES = CutRules(3 * MM, 3 * MM)


def part(mark: str, length: int, width: int, count: int, grain: str = "along") -> NeededPart:
    return NeededPart(mark, length * MM, width * MM, count, grain)


def cut(
    parts: list[NeededPart], stock: list[StockLine], rules: CutRules, effort: str = "normal"
) -> CuttingPlan:
    made = plan(parts, stock, rules, effort)
    assert faults_of_sheets(made, parts, stock, rules) == []
    return made


def random_parts(rng: random.Random, kinds: int, most: int) -> list[NeededPart]:
    return [
        part(
            f"P{i}", rng.randint(150, 1200), rng.randint(100, 900), rng.randint(1, most),
            rng.choice(("along", "either")),
        )
        for i in range(kinds)
    ]


def test_four_quarters_come_out_of_one_sheet_less_the_kerf() -> None:
    made = cut([part("Q", 1218, 608, 4)], [SHEET], RULES)
    assert (made.cost, made.status) == (4500, "optimal")
    # 2 x 1219 + 3 and 2 x 609 + 3 are a millimetre too much: one to a sheet
    assert cut([part("Q", 1219, 609, 4)], [SHEET], RULES).cost == 4 * 4500


def test_a_part_is_turned_only_where_its_grain_allows() -> None:
    with pytest.raises(NoStock, match="Letting it turn"):
        plan([part("T", 1000, 2000, 1)], [SHEET], RULES)
    made = cut([part("T", 1000, 2000, 1, "either")], [SHEET], RULES)
    assert made.layouts[0].parts[0].length_nm == 2000 * MM


def test_first_cuts_run_across_one_part_of_a_sheet_and_along_another() -> None:
    # Two tall ones beside three wide ones and a pair: no three stages of one direction hold them all.
    parts = [part("A", 600, 1220, 1), part("B", 1837, 400, 2), part("C", 917, 414, 2)]
    made = cut(parts, [SHEET], RULES)
    assert (len(made.layouts), made.status) == (1, "optimal")


def test_trims_come_off_both_ends_and_both_long_edges() -> None:
    rules = replace(RULES, end_trim_nm=10 * MM, edge_trim_nm=5 * MM)
    made = cut([part("A", 2420, 1210, 1)], [SHEET], rules)
    assert (made.layouts[0].parts[0].x_nm, made.layouts[0].parts[0].y_nm) == (10 * MM, 5 * MM)
    with pytest.raises(NoStock, match="gives 2420 mm x 1210 mm after trims"):
        plan([part("A", 2421, 1210, 1)], [SHEET], rules)
    with pytest.raises(NoStock, match="larger than its own trims"):
        plan([part("A", 10, 10, 1)], [SHEET], replace(RULES, end_trim_nm=1300 * MM))


def test_the_cheapest_mix_of_sizes_is_bought() -> None:
    half = StockLine("HALF", 1220 * MM, 1220 * MM, 2600, "sheet")
    made = cut([part("A", 1200, 1200, 3)], [SHEET, half], RULES)
    assert {p.code: p.count for p in made.purchases} == {"PLY": 1, "HALF": 1}
    assert made.status == "optimal"


def test_of_equal_costs_the_shorter_purchase_is_taken() -> None:
    short = replace(SHEET, code="SHORT", length_nm=2000 * MM)
    assert cut([part("A", 1900, 1200, 1)], [SHEET, short], RULES).purchases[0].code == "SHORT"


def test_pieces_on_hand_come_first_and_no_part_lies_on_a_blocked_zone() -> None:
    rack = StockLine("RACK", 1500 * MM, 1220 * MM, 0, "sheet", 1, True, ((700 * MM, 800 * MM),))
    parts = [part("A", 690, 1200, 4)]
    made = cut(parts, [SHEET, rack], RULES)
    assert {p.code: p.count for p in made.purchases} == {"RACK": 1, "PLY": 1}
    assert made.cost == 4500


def test_counted_sheets_that_run_out_are_refused() -> None:
    with pytest.raises(NoStock, match="not enough"):
        plan([part("A", 1200, 1200, 5)], [replace(SHEET, count=2)], RULES)


@pytest.mark.parametrize("seed", range(30))
def test_random_jobs_are_cut_as_drawn_whatever_their_size(seed: int) -> None:
    rng = random.Random(seed)
    parts = random_parts(rng, rng.randint(1, 9), 4)
    stock = [SHEET, StockLine("SQ", 1525 * MM, 1525 * MM, 3900, "sheet")][: rng.randint(1, 2)]
    if rng.random() < 0.3:
        start = rng.randint(0, 2000)
        stock.append(
            StockLine("RACK", 2440 * MM, 1220 * MM, 0, "sheet", 1, True, ((start * MM, (start + 60) * MM),))
        )
    rules = CutRules(3 * MM, rng.choice((2, 3)) * MM, rng.choice((0, 10)) * MM, rng.choice((0, 6)) * MM,
                     least_offcut_nm=300 * MM)
    cut(parts, stock, rules, "quick")


@pytest.mark.parametrize("seed", range(10))
def test_jobs_of_one_or_two_sheets_are_proven(seed: int) -> None:
    rng = random.Random(seed)
    parts = [replace(p, length_nm=p.length_nm // 2) for p in random_parts(rng, 5, 2)]
    made = cut(parts, [SHEET], RULES)
    assert len(made.layouts) <= 2
    assert made.status == "optimal"


def test_a_large_job_states_its_gap_within_two_seconds() -> None:
    rng = random.Random(3)
    parts = [replace(p, count=50) for p in random_parts(rng, 200, 1)]
    started = time.process_time()
    made = cut(parts, [SHEET], RULES, "quick")
    assert time.process_time() - started < 8  # 2 s on a quiet machine; the checks count, too
    assert made.lower_bound <= made.cost <= 1.25 * made.lower_bound


def test_cuts_are_charged_and_a_credit_never_makes_a_bound_false() -> None:
    rules = replace(RULES, crosscut_cost=40.0, rip_cost_per_m=30.0, offcut_credit_per_m=500.0,
                    least_offcut_nm=300 * MM)
    made = cut([part("A", 1000, 1220, 1)], [SHEET], rules)
    # one crosscut; what is kept is 2440 - 1000 - 3 mm at full width
    assert made.cost == round(4500 + 40 - 1.437 * 500)
    assert made.boards_cost == 4500
    assert made.lower_bound <= made.cost
    with pytest.raises(BadJob, match="would earn more than the whole sheet costs"):
        plan([part("A", 1000, 1220, 1)], [SHEET], replace(rules, offcut_credit_per_m=9000.0))


@pytest.mark.parametrize("seed", range(12))
def test_a_bound_with_prices_of_cuts_is_below_every_plan_found(seed: int) -> None:
    rng = random.Random(seed)
    parts = [replace(p, length_nm=p.length_nm // 2) for p in random_parts(rng, 4, 2)]
    stock = [SHEET, StockLine("SQ", 1525 * MM, 1525 * MM, 3900, "sheet")]
    rules = replace(RULES, crosscut_cost=20.0, rip_cost_per_m=15.0, offcut_credit_per_m=400.0,
                    least_offcut_nm=300 * MM, setup_cost=10.0)
    bounds_and_costs = [
        (p.lower_bound, p.cost) for p in (cut(parts, stock, rules, e) for e in ("quick", "normal"))
    ]
    assert max(b for b, _ in bounds_and_costs) <= min(c for _, c in bounds_and_costs)


def test_the_largest_offcut_is_left_in_one_piece() -> None:
    made = cut([part("A", 600, 400, 3, "either")], [SHEET], replace(RULES, least_offcut_nm=300 * MM))
    largest = max(o.length_nm * o.width_nm for o in made.layouts[0].offcuts)
    assert largest >= (2440 - 606) * 1220 * MM * MM
