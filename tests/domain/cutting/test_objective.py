"""Cuts that cost and offcuts that earn, beside the boards."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator
from dataclasses import fields, replace

import pytest

from cutting_checker import faults_of
from cutting_instances import FOOT, INCH, any_group, furniture
from yardwright.domain.cutting import plan
from yardwright.domain.cutting.model import CutRules, NeededPart, StockLine
from yardwright.domain.errors import BadJob, Refused

WIDE = round(5.5 * INCH)


def test_a_board_crosscut_twice_is_charged_for_the_trim_and_the_cuts() -> None:
    rules = CutRules(INCH // 8, INCH // 8, INCH // 4, crosscut_cost=50.0, setup_cost=10.0)
    made = plan([NeededPart("A", 40 * INCH, WIDE, 2)], [StockLine("8 ft", 8 * FOOT, WIDE, 900)], rules)
    # the end trimmed, two parts cut off at one setting of the stop
    assert made.cost == 900 + 3 * 50 + 10
    assert made.status == "optimal"


def test_rips_are_charged_by_their_length() -> None:
    rules = CutRules(INCH // 8, INCH // 8, rip_cost_per_m=100.0)
    made = plan(
        [NeededPart("A", 1_000_000_000, 2 * INCH, 2)], [StockLine("8 ft", 8 * FOOT, WIDE, 900)], rules
    )
    assert made.cost == 900 + 200


def test_a_kept_offcut_earns_its_length_and_only_when_it_is_long_enough() -> None:
    stock = [StockLine("8 ft", 8 * FOOT, WIDE, 900)]
    parts = [NeededPart("A", 8 * FOOT - 1_000_000_000, WIDE, 1)]
    kept = CutRules(0, 0, least_offcut_nm=500_000_000, offcut_credit_per_m=60.0)
    assert plan(parts, stock, kept).cost == 900 - 60
    assert plan(parts, stock, replace(kept, least_offcut_nm=1_100_000_000)).cost == 900


def test_a_credit_can_make_the_longer_board_the_cheaper_one() -> None:
    stock = [StockLine("8 ft", 8 * FOOT, WIDE, 900), StockLine("16 ft", 16 * FOOT, WIDE, 1000)]
    parts = [NeededPart("A", 90 * INCH, WIDE, 1)]
    credited = CutRules(0, 0, least_offcut_nm=12 * INCH, offcut_credit_per_m=100.0)
    assert [p.code for p in plan(parts, stock, CutRules(0, 0)).purchases] == ["8 ft"]
    assert [p.code for p in plan(parts, stock, credited).purchases] == ["16 ft"]


def test_a_credit_above_the_boards_price_is_refused() -> None:
    with pytest.raises(BadJob, match="would earn more than the whole board costs"):
        plan(
            [NeededPart("A", INCH, WIDE, 1)],
            [StockLine("8 ft", 8 * FOOT, WIDE, 100)],
            CutRules(0, 0, offcut_credit_per_m=1000.0),
        )


@pytest.mark.parametrize("seed", range(1, 13))
def test_the_bound_holds_and_the_plan_is_as_drawn(seed: int) -> None:
    group = furniture(seed)
    rules = replace(
        group.rules, crosscut_cost=25.0, rip_cost_per_m=60.0, setup_cost=40.0, offcut_credit_per_m=50.0
    )
    made = plan(group.parts, group.stock, rules)
    assert faults_of(made, group.parts, group.stock, rules) == []
    boards_only = plan(group.parts, group.stock, group.rules)
    assert made.boards_cost >= boards_only.boards_cost
    assert made.lower_bound <= made.cost


def strips_or_boards(count: int, rules: CutRules) -> float:
    """The cheapest of all ways for strips of 1 m, two across a board and two along: by counting."""
    best = float("inf")
    for whole in range(count // 2 + 1):  # segments of two strips; the others hold one
        segments = whole + count - 2 * whole
        boards = -(-segments // 2)
        rips = segments + whole  # the second strip's far edge is ripped too
        cuts = segments + boards  # and each board's end trimmed
        cost = 900 * boards + cuts * rules.crosscut_cost + rips * rules.rip_cost_per_m + 2 * rules.setup_cost
        best = min(best, cost)
    return best


@pytest.mark.parametrize("count", range(1, 9))
def test_strips_cost_what_counting_by_hand_gives_and_no_less_than_the_bound(count: int) -> None:
    rules = CutRules(
        INCH // 8, INCH // 8, INCH // 4, crosscut_cost=50.0, rip_cost_per_m=70.0, setup_cost=90.0
    )
    made = plan(
        [NeededPart("A", 1_000_000_000, 2 * INCH, count)], [StockLine("8 ft", 8 * FOOT, WIDE, 900)], rules
    )
    assert made.cost == strips_or_boards(count, rules)
    assert made.lower_bound <= made.cost


def divided(parts: list[int]) -> Iterator[list[tuple[int, ...]]]:
    """Every way to share parts out into heaps."""
    if not parts:
        yield []
        return
    for number in range(len(parts)):
        for others in itertools.combinations(parts[1:], number):
            for more in divided([p for p in parts[1:] if p not in others]):
                yield [(parts[0], *others), *more]


def least_in_full(lengths: list[int], boards: list[tuple[int, int]], rules: CutRules) -> float:
    """Boards, every crosscut and set-up, less the credit: the least of all ways, by counting (recomputed)."""
    kerf, trim, best = rules.crosscut_kerf_nm, rules.end_trim_nm, float("inf")
    for heaps in divided(list(range(len(lengths)))):
        needed = [sum(lengths[i] for i in heap) + (len(heap) - 1) * kerf for heap in heaps]
        held = [[b for b in boards if b[0] - 2 * trim >= need] for need in needed]
        for chosen in itertools.product(*held):
            ends = [long == need and not trim for (long, _), need in zip(chosen, needed, strict=True)]
            cuts = len(lengths) - sum(ends) + len(chosen) * (trim > 0)
            cost = sum(price for _, price in chosen) + cuts * rules.crosscut_cost
            for (long, _), need in zip(chosen, needed, strict=True):
                left = long - 2 * trim - need - kerf
                cost -= left / 1e9 * rules.offcut_credit_per_m if left >= rules.least_offcut_nm > 0 else 0
            lasts = [{lengths[i] for i in h} if e else {0} for h, e in zip(heaps, ends, strict=True)]
            stops = min(len(_stops(heaps, lengths, last)) for last in itertools.product(*lasts))
            best = min(best, cost + stops * rules.setup_cost)
    return best


def _stops(heaps: list[tuple[int, ...]], lengths: list[int], lasts: tuple[int, ...]) -> set[int]:
    stops: set[int] = set()
    for heap, last in zip(heaps, lasts, strict=True):
        cut = [lengths[i] for i in heap]
        if last:
            cut.remove(last)
        stops |= set(cut)
    return stops


@pytest.mark.parametrize("seed", range(60))
def test_the_whole_objective_is_within_a_twentieth_of_counting_every_way(seed: int) -> None:
    """And no bound is above it, no claim of the least false: exact on all but a few in a hundred."""
    rng = random.Random(seed)
    cell = 20_000_000
    sizes = [rng.randint(8, 50) * cell for _ in range(rng.randint(2, 4))]
    lengths = [rng.choice(sizes) for _ in range(rng.randint(3, 6))]
    boards = [(n * cell, int(n * rng.uniform(9, 12))) for n in rng.sample((60, 70, 80, 90, 100), 3)]
    boards = boards[: rng.randint(1, 3)]
    rules = CutRules(
        rng.choice((0, 2_000_000)), 0, rng.choice((0, cell)), least_offcut_nm=rng.choice((0, 15 * cell)),
        crosscut_cost=rng.choice((0.0, 20.0)), setup_cost=rng.choice((0.0, 30.0)),
        offcut_credit_per_m=rng.choice((0.0, 100.0, 300.0)),
    )
    parts = [NeededPart(f"P{n}", n, 10, lengths.count(n)) for n in sorted(set(lengths))]
    made = plan(parts, [StockLine(f"B{n}", n, 10, price) for n, price in boards], rules)
    truth = round(least_in_full(lengths, boards, rules))
    assert made.lower_bound - 1 <= truth <= made.cost + 1
    assert made.cost <= 1.05 * truth
    assert made.status != "optimal" or made.cost <= truth + 1


@pytest.mark.parametrize("seed", range(12))
def test_groups_of_every_rule_are_cut_or_refused_where_cuts_cost(seed: int) -> None:
    group, cell = any_group(seed), 10_000_000
    scaled = {f.name: getattr(group.rules, f.name) * cell for f in fields(CutRules)
              if f.name.endswith("_nm") and f.name not in ("longest_carry_nm", "overlap_nm")}
    rules = CutRules(**scaled, crosscut_cost=50.0, rip_cost_per_m=100.0, setup_cost=200.0,
                     offcut_credit_per_m=100.0)
    parts = [replace(p, length_nm=p.length_nm * cell, width_nm=p.width_nm * cell) for p in group.parts]
    stock = [
        replace(s, length_nm=s.length_nm * cell, width_nm=s.width_nm * cell, price=3 * s.price,
                blocked=tuple((a * cell, b * cell) for a, b in s.blocked))
        for s in group.stock
    ]
    try:
        made = plan(parts, stock, rules, "quick")
    except Refused as refusal:
        assert refusal.faults
    else:
        assert faults_of(made, parts, stock, rules) == []
