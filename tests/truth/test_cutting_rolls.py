"""Rolls against full enumeration, on random small groups. Source: none needed, the truth is computed here."""

from __future__ import annotations

import os
import random

import pytest

from cutting_checker_sheets import faults_of_rolls
from cutting_exact_sheets import roll_cost
from cutting_instances import Group
from yardwright.domain.cutting import plan
from yardwright.domain.cutting.model import CutRules, NeededPart, StockLine
from yardwright.domain.errors import NoStock

GROUPS = int(os.environ.get("CUTTING_EXACT_GROUPS", "120"))


def small(seed: int) -> Group:
    """One to five panels, one or two rolls; kerfs and end trims now and then."""
    rng = random.Random(seed)
    stock = []
    for number in range(rng.randint(1, 2)):
        step = rng.choice((1, 5, 12, 40))
        wide = rng.randint(12, 30)
        stock.append(
            StockLine(
                f"R{number}", step, wide, max(1, int(step * wide * rng.uniform(0.8, 1.2))), "roll",
                longest_nm=max(step, rng.choice((40, 61, 120))),
            )
        )
    parts: list[NeededPart] = []
    left = rng.randint(1, 5)
    while left > 0:
        count = rng.randint(1, min(3, left)) if parts else 1
        left -= count
        parts.append(
            NeededPart(
                f"P{len(parts)}", rng.randint(4, 30), rng.randint(4, 12 if parts else 40), count,
                rng.choice(("along", "either")),
            )
        )
    kerf = rng.choice((0, 0, 1))
    rules = CutRules(kerf, kerf, rng.choice((0, 0, 1)), overlap_nm=rng.randint(1, 4))
    return Group(f"rolls {seed}", tuple(parts), tuple(stock), rules)


@pytest.mark.parametrize("seed", range(GROUPS))
def test_the_lengths_cost_what_enumeration_finds(seed: int) -> None:
    group = small(seed)
    asked = group.parts, group.stock, group.rules
    truth = roll_cost(*asked)
    try:
        made = plan(*asked)
    except NoStock:
        assert truth is None
        return
    assert faults_of_rolls(made, *asked) == []
    assert truth is not None
    assert made.lower_bound <= truth <= made.cost
    assert (made.status, made.cost) == ("optimal", truth)
