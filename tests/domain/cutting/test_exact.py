"""The proof: purchases near the bound first gives what all purchases at once give."""

from __future__ import annotations

import numpy as np
import pytest

from cutting_instances import furniture
from yardwright.domain.cutting import exact, plan
from yardwright.domain.cutting.bounds import Sums
from yardwright.domain.cutting.effort import EFFORT
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
