"""One-dimensional test families by their published recipes.

Sources, from memory: uniform and triplets, E. Falkenauer, "A hybrid grouping genetic algorithm for bin
packing", Journal of Heuristics 2 (1996); P. Schwerin and G. Waescher, "The bin-packing problem: a problem
generator and some numerical experiments", International Transactions in Operational Research 4 (1997).
The triplets' optimum is items / 3 by construction; for the others the area bound is recomputed here.
"""

from __future__ import annotations

import pytest

from cutting_checker import faults_of
from cutting_instances import Group, schwerin_waescher, triplets, uniform
from yardwright.domain.cutting import plan
from yardwright.domain.cutting.model import CuttingPlan


def solved(group: Group) -> CuttingPlan:
    made = plan(group.parts, group.stock, group.rules)
    assert faults_of(made, group.parts, group.stock, group.rules) == []
    return made


def area_bound(group: Group) -> int:
    total = sum(p.length_nm * p.count for p in group.parts)
    return -(-total // group.stock[0].length_nm)


@pytest.mark.parametrize("seed", range(1, 5))
def test_triplets_need_exactly_a_third_of_their_items(seed: int) -> None:
    made = solved(triplets(seed, 60))
    assert made.lower_bound == 20
    assert made.cost == 20


@pytest.mark.parametrize(("items", "seed"), [(60, 2), (60, 5), (120, 3), (120, 4)])
def test_uniform_groups_are_proven(items: int, seed: int) -> None:
    group = uniform(seed, items)
    made = solved(group)
    assert made.status == "optimal"
    assert made.cost >= area_bound(group)


@pytest.mark.parametrize("seed", range(1, 4))
def test_schwerin_waescher_groups_are_within_one_board(seed: int) -> None:
    group = schwerin_waescher(seed)
    made = solved(group)
    assert area_bound(group) <= made.lower_bound <= made.cost <= made.lower_bound + 1
