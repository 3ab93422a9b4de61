"""Sheets and rolls against exact answers that share no code with the planner, on random small groups.

Source: none needed, the truth is computed here. Full enumeration of through cuts from the top down; OR-tools
CP-SAT (a general-purpose solver, test extra) with parts anywhere on explicit sheets, which needs no through
cuts and so is never dearer.
"""

from __future__ import annotations

import os
import random

import numpy as np
import pytest

from cutting_checker_sheets import faults_of_sheets
from cutting_exact_sheets import guillotine_cost, packing_cost
from cutting_instances import Group
from yardwright.domain.cutting import plan
from yardwright.domain.cutting.model import CutRules, NeededPart, StockLine
from yardwright.domain.cutting.sheet_bounds import weight_bound, weights
from yardwright.domain.cutting.sheet_job import read_job
from yardwright.domain.errors import NoStock

GROUPS = int(os.environ.get("CUTTING_EXACT_GROUPS", "120"))


def small(seed: int) -> Group:
    """Two to six parts, one to three sheet sizes, some on hand, counted or with a blocked zone."""
    rng = random.Random(seed)
    stock = []
    for number in range(rng.randint(1, 3)):
        long, wide = rng.randint(24, 60), rng.randint(14, 36)
        on_hand = rng.random() < 0.15
        start = rng.randint(0, long - 3)
        stock.append(
            StockLine(
                f"S{number}", long, wide, 0 if on_hand else int(long * wide * rng.uniform(0.8, 1.2)),
                "sheet", 1 if on_hand else rng.choice((None, None, 2)), on_hand,
                ((start, start + rng.randint(1, 3)),) if rng.random() < 0.15 else (),
            )
        )
    parts, left = [], rng.randint(2, 6)
    while left > 0:
        count = rng.randint(1, min(3, left))
        left -= count
        parts.append(
            NeededPart(
                f"P{len(parts)}", rng.randint(6, 30), rng.randint(4, 20), count,
                rng.choice(("along", "either")),
            )
        )
    rules = CutRules(rng.randint(0, 2), rng.randint(0, 2), rng.choice((0, 0, 1)), rng.choice((0, 0, 1)))
    return Group(f"sheets {seed}", tuple(parts), tuple(stock), rules)


@pytest.mark.parametrize("seed", range(GROUPS))
def test_the_sheets_cost_what_enumeration_and_the_exact_model_find(seed: int) -> None:
    group = small(seed)
    asked = group.parts, group.stock, group.rules
    truth = guillotine_cost(*asked)
    try:
        made = plan(*asked)
    except NoStock:
        assert truth is None
        return
    assert faults_of_sheets(made, *asked) == []
    assert (made.status, made.cost) == ("optimal", truth)
    anywhere = packing_cost(*asked)
    assert anywhere is not None
    job = read_job(*asked)
    assert weight_bound(job.kinds, job.offers()) <= anywhere * (1 + 1e-9) <= made.cost * (1 + 1e-9)


@pytest.mark.parametrize("seed", range(40))
def test_extents_that_go_into_a_span_never_weigh_more_than_the_span(seed: int) -> None:
    rng = random.Random(seed)
    span = rng.randint(5, 60)
    thresholds = sorted({rng.randint(1, span // 2) for _ in range(4)})
    extents = []
    while sum(extents) < span:
        extents.append(rng.randint(1, max(1, span // 2 if rng.random() < 0.7 else span)))
    extents[-1] -= sum(extents) - span
    extents = [e for e in extents if e]
    weighed = weights(np.array(extents, dtype=np.int64), span, thresholds)
    assert (weighed.sum(axis=1) <= 1 + 1e-9).all()
