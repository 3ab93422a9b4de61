"""The long search for a plan that cannot be cut, or a claim of optimality that is false.

``make search-cutting`` runs 10 000 random groups; the suite runs a few. A claim is tested by asking again
with the parts in another order and names, with more effort, and on part of the groups by the exact model:
no answer may be cheaper than one that was called optimal, nor below another's bound. Truth computed here.
"""

from __future__ import annotations

import os
import random
from dataclasses import replace

import pytest

from cutting_checker import faults_of
from cutting_exact import cheapest
from cutting_instances import Group, any_group
from yardwright.domain.cutting import plan
from yardwright.domain.cutting.model import CuttingPlan
from yardwright.domain.errors import Refused

GROUPS = int(os.environ.get("CUTTING_SEARCH_GROUPS", "100"))
BATCH = 100


def solved(group: Group, effort: str = "normal") -> CuttingPlan | None:
    try:
        made = plan(group.parts, group.stock, group.rules, effort)
    except Refused:
        return None
    assert faults_of(made, group.parts, group.stock, group.rules) == [], group.name
    return made


def shuffled(group: Group, seed: int) -> Group:
    """The same question in other words: parts and stock in another order, a kind of part split in two."""
    rng = random.Random(seed)
    parts, stock = list(group.parts), list(group.stock)
    rng.shuffle(parts)
    rng.shuffle(stock)
    if parts[0].count > 1 and not parts[0].matched:
        parts[:1] = [replace(parts[0], count=1), replace(parts[0], mark="again", count=parts[0].count - 1)]
    return replace(group, parts=tuple(parts), stock=tuple(stock))


@pytest.mark.parametrize("batch", range(0, GROUPS, BATCH))
def test_no_plan_is_invalid_and_no_claim_of_optimality_false(batch: int) -> None:
    for seed in range(batch, batch + BATCH):
        group = any_group(100_000 + seed)
        first, second = solved(group), solved(shuffled(group, seed))
        assert (first is None) == (second is None), group.name
        if first is None or second is None:
            continue
        assert max(first.lower_bound, second.lower_bound) <= min(first.cost, second.cost), group.name
        few = sum(part.count for part in group.parts) <= 6 and not any(part.matched for part in group.parts)
        if few and seed % 4 == 0:
            truth = cheapest(group.parts, group.stock, group.rules)
            assert truth is not None
            assert max(first.lower_bound, second.lower_bound) <= truth <= first.cost, group.name
            assert first.status != "optimal" or first.cost == truth, group.name
