"""The proof: purchases near the bound first gives what all purchases at once give."""

from __future__ import annotations

import numpy as np
import pytest

from cutting_checker import faults_of
from cutting_instances import furniture
from yardwright.domain.cutting import exact, plan
from yardwright.domain.cutting.bounds import Sums
from yardwright.domain.cutting.effort import EFFORT
from yardwright.domain.cutting.model import CutRules, NeededPart, StockLine
from yardwright.domain.cutting.problem import read_problem
from yardwright.domain.cutting.purchases import listed


@pytest.mark.parametrize("seed", [1, 2, 16, 35, 108, 143])
def test_near_purchases_first_find_the_same_cheapest_boards(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    group = furniture(seed)
    near = plan(group.parts, group.stock, group.rules)
    monkeypatch.setattr(exact, "_NEAR", ())
    at_once = plan(group.parts, group.stock, group.rules)
    assert (near.status, near.cost, near.lower_bound) == ("optimal", at_once.cost, at_once.lower_bound)
    length = [sum(layout.length_nm for layout in made.layouts) for made in (near, at_once)]
    assert length[0] == length[1]


@pytest.mark.parametrize("seed", range(1, 9))
def test_purchases_listed_from_a_floor_are_the_dearer_ones_of_all(seed: int) -> None:
    group = furniture(seed)
    problem = read_problem(group.parts, group.stock, group.rules)
    dearest = 10 * max(board.price for board in problem.boards)
    table = exact.table_of(problem, EFFORT["normal"], dearest)
    assert table is not None
    below = int(table.bound * 1.1), 0
    every = listed(table.pool, table.root.worth, table.bound, below)
    assert every is not None
    price = np.array([board.price for board in problem.boards])
    assert len(every)
    assert (np.diff(every @ price) >= 0).all()
    floor = int(every[len(every) // 2] @ price)
    some = listed(table.pool, table.root.worth, table.bound, below, floor)
    assert some is not None
    assert some.tolist() == [row.tolist() for row in every if row @ price >= floor]
    assert Sums(problem.boards, dearest).reach(table.bound) <= plan(*_asked(seed)).cost


def _asked(seed: int) -> tuple:
    group = furniture(seed)
    return group.parts, group.stock, group.rules


@pytest.mark.parametrize("blocked", [(), ((142, 143),)])
def test_rows_that_together_give_more_than_is_needed_are_not_left_out(blocked: tuple) -> None:
    """Two rows 20 + 8 wide and one of three 8s give five 8s, one more than wanted, on the cheapest board."""
    parts = (NeededPart("wide", 41, 20, 2), NeededPart("narrow", 37, 8, 4))
    stock = (
        StockLine("20 x 144", 144, 20, 2666, "board", 2),
        StockLine("20 x 60", 60, 20, 1098),
        StockLine("30 x 144", 144, 30, 3523, "board", 2, False, blocked),
    )
    rules = CutRules(1, 2, edge_trim_nm=1, least_strip_nm=3, least_offcut_nm=10)
    made = plan(parts, stock, rules)
    assert (made.status, made.cost) == ("optimal", 3523)
    assert faults_of(made, parts, stock, rules) == []


def test_counted_boards_that_are_all_needed_are_found_when_filling_by_hand_fails() -> None:
    """Two 36s on one board, three 19s and the narrow part on the other: longest first does not come to it."""
    parts = (
        NeededPart("P0", 19, 4, 1),
        NeededPart("P1", 36, 20, 2),
        NeededPart("P2", 19, 20, 3),
    )
    stock = (StockLine("20 x 80", 80, 20, 1914, "board", 2),)
    rules = CutRules(2, 1, edge_trim_nm=1)
    made = plan(parts, stock, rules)
    assert (made.status, made.cost) == ("optimal", 3828)
    assert faults_of(made, parts, stock, rules) == []
