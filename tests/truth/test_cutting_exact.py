"""The planner's optimum against two independent exact ways, on random small groups.

Source: none needed, the truth is computed here. OR-tools CP-SAT (a general-purpose solver, test extra) with
explicit boards for all rules; full enumeration over sets of parts for full-width groups (recomputed).
"""

from __future__ import annotations

import functools
import os
import random

import pytest

from cutting_checker import faults_of
from cutting_exact import cheapest
from cutting_instances import Group
from yardwright.domain.cutting import plan
from yardwright.domain.cutting.model import CutRules, NeededPart, StockLine
from yardwright.domain.errors import NoStock

# ``make search-cutting`` asks for more.
GROUPS = int(os.environ.get("CUTTING_EXACT_GROUPS", "200"))


def small(seed: int) -> Group:
    """At most 6 parts from one or two widths, with trims, blocked zones and counted pieces."""
    rng = random.Random(seed)
    widths = rng.choice(((20,), (20,), (12, 20)))
    stock = []
    for width in widths:
        for length in rng.sample((60, 80, 100), rng.randint(1, 2)):
            on_hand = rng.random() < 0.2
            start = rng.randint(0, length - 6)
            stock.append(
                StockLine(
                    f"{width}x{length}",
                    length,
                    width,
                    0 if on_hand else int(length * width * rng.uniform(0.8, 1.2)),
                    "board",
                    1 if on_hand else rng.choice((None, None, 2)),
                    on_hand,
                    ((start, start + rng.randint(1, 6)),) if rng.random() < 0.2 else (),
                )
            )
    parts, left, number = [], rng.randint(2, 6), 0
    while left > 0:
        count = rng.randint(1, min(3, left))
        width = rng.choice((widths[0], rng.randint(4, widths[0]), rng.randint(3, 9)))
        parts.append(
            NeededPart(f"P{number}", rng.randint(8, 50), width, count, trim_edges=rng.random() < 0.2)
        )
        left, number = left - count, number + 1
    rules = CutRules(
        rng.randint(0, 2),
        rng.randint(0, 2),
        rng.choice((0, 1)),
        rng.choice((0, 1)),
        None,
        rng.choice((0, 14)),
        rng.choice((0, 4)),
    )
    return Group(f"small {seed}", tuple(parts), tuple(stock), rules)


@pytest.mark.parametrize("seed", range(GROUPS))
def test_the_optimum_is_the_exact_models(seed: int) -> None:
    group = small(seed)
    try:
        made = plan(group.parts, group.stock, group.rules, "thorough")
    except NoStock:
        assert cheapest(group.parts, group.stock, group.rules) is None
        return
    truth = cheapest(group.parts, group.stock, group.rules)
    assert faults_of(made, group.parts, group.stock, group.rules) == []
    assert truth is not None
    assert made.lower_bound <= truth <= made.cost
    assert made.status == "optimal"
    assert made.cost == truth


def by_enumeration(lengths: tuple[int, ...], boards: tuple[tuple[int, int], ...], kerf: int) -> int:
    """Full-width parts: the cheapest way over every division of the parts into boards."""

    @functools.cache
    def rest(left: int) -> int:
        if not left:
            return 0
        first = left & -left
        best, others = 10**9, left ^ first
        chosen = others
        while True:
            here = chosen | first
            taken = [lengths[i] for i in range(len(lengths)) if here >> i & 1]
            needed = sum(taken) + (len(taken) - 1) * kerf
            price = min((p for length, p in boards if length >= needed), default=None)
            if price is not None:
                best = min(best, price + rest(left ^ here))
            if not chosen:
                return best
            chosen = (chosen - 1) & others

    return rest((1 << len(lengths)) - 1)


@pytest.mark.parametrize("seed", range(60))
def test_full_width_groups_cost_what_full_enumeration_finds(seed: int) -> None:
    rng = random.Random(1000 + seed)
    lengths = tuple(rng.randint(10, 60) for _ in range(rng.randint(3, 8)))
    boards = tuple((length, rng.randint(length, 2 * length)) for length in rng.sample(range(60, 140), 3))
    kerf = rng.randint(0, 2)
    parts = [NeededPart(f"P{i}", length, 10, 1) for i, length in enumerate(lengths)]
    stock = [StockLine(f"B{i}", length, 10, price) for i, (length, price) in enumerate(boards)]
    made = plan(parts, stock, CutRules(kerf, kerf))
    assert made.status == "optimal"
    assert made.cost == by_enumeration(lengths, boards, kerf)
