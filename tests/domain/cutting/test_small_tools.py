"""The planner's small parts: counts in one number, lengths filled with pieces, sums that can be paid."""

from __future__ import annotations

import itertools
import random

import pytest

from cutting_checker import faults_of
from cutting_instances import any_group, furniture
from yardwright.domain.cutting import plan
from yardwright.domain.cutting.bounds import Sums, area_bound
from yardwright.domain.cutting.counts import packing
from yardwright.domain.cutting.knapsack import fill_cells
from yardwright.domain.cutting.problem import Board, read_problem


def test_packed_counts_add_compare_and_overflow_as_counts_do() -> None:
    rng = random.Random(5)
    pack = packing((1, 3, 4, 10))
    for _ in range(300):
        a, b = ([rng.randint(0, m) for m in pack.most] for _ in range(2))
        packed_a, packed_b = (sum(n << s for n, s in zip(c, pack.shifts, strict=True)) for c in (a, b))
        assert pack.unpack(packed_a) == tuple(a)
        assert pack.fits(packed_a + packed_b) == all(
            x + y <= m for x, y, m in zip(a, b, pack.most, strict=True)
        )
        assert pack.within(packed_a, packed_b) == all(x <= y for x, y in zip(a, b, strict=True))


@pytest.mark.parametrize("seed", range(20))
def test_filling_a_length_finds_what_trying_everything_finds(seed: int) -> None:
    rng = random.Random(seed)
    pieces = [(rng.randint(2, 9), rng.uniform(0.5, 5), rng.randint(1, 4)) for _ in range(3)]
    filled = fill_cells(25, pieces)
    for cells in (0, 7, 13, 25):
        tried = max(
            sum(n * p[1] for n, p in zip(ns, pieces, strict=True))
            for ns in itertools.product(*(range(p[2] + 1) for p in pieces))
            if sum(n * p[0] for n, p in zip(ns, pieces, strict=True)) <= cells
        )
        assert filled.best[cells] == pytest.approx(tried)
        chosen = filled.pieces(cells)
        assert sum(n * pieces[p][1] for p, n in chosen.items()) == pytest.approx(tried)
        assert sum(n * pieces[p][0] for p, n in chosen.items()) <= cells


def test_a_bound_is_rounded_up_to_a_sum_that_can_be_paid() -> None:
    boards = [Board(f"{p}", 1, 1, p, count, ((0, 1),), False) for p, count in ((600, None), (1000, 1))]
    sums = Sums(boards, 5000)
    assert [sums.reach(bound) for bound in (0, 1, 601, 1000.0000001, 1201, 1801)] == [
        0,
        600,
        1000,
        1000,
        1600,
        2200,
    ]
    assert sums.reach(1600) == 1600


@pytest.mark.parametrize("seed", range(40))
def test_the_area_bound_is_never_above_a_plan(seed: int) -> None:
    group = furniture(seed)
    made = plan(group.parts, group.stock, group.rules)
    assert area_bound(read_problem(group.parts, group.stock, group.rules)) <= made.cost


def test_the_checker_sees_a_part_moved_a_part_missing_and_a_false_claim() -> None:
    from dataclasses import replace

    group = next(g for g in map(any_group, range(5, 50)) if all(p.width_nm == 20 for p in g.parts))
    made = plan(group.parts, group.stock, group.rules)
    assert faults_of(made, group.parts, group.stock, group.rules) == []
    first = made.layouts[0]
    moved = replace(first.parts[0], x_nm=first.parts[0].x_nm + first.length_nm)
    for broken in (
        replace(made, layouts=(replace(first, parts=(moved, *first.parts[1:])), *made.layouts[1:])),
        replace(made, layouts=(replace(first, parts=first.parts[1:]), *made.layouts[1:])),
        replace(made, layouts=made.layouts[1:]),
        replace(made, lower_bound=made.cost + 1),
        replace(made, boards_cost=made.boards_cost - 1),
    ):
        assert faults_of(broken, group.parts, group.stock, group.rules) != []
