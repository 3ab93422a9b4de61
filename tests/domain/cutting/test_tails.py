"""The last boards of a merged job: tried several ways, the same each time, never below the bound."""

from __future__ import annotations

from cutting_checker import faults_of
from cutting_instances import merged
from yardwright.domain.cutting import plan


def test_several_products_together_are_cut_within_a_hundredth_of_the_bound_and_the_same_each_time() -> None:
    group = merged(10)
    first = plan(group.parts, group.stock, group.rules)
    assert faults_of(first, group.parts, group.stock, group.rules) == []
    assert first.lower_bound <= first.cost <= first.lower_bound * 1.01
    assert plan(group.parts, group.stock, group.rules) == first
