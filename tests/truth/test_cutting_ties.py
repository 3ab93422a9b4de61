"""Ties, against counting every way on small groups. Source: none needed, the truth is computed here.

Of equal costs the least length is bought, then the fewest settings of the stop, then the longest offcut.
"""

from __future__ import annotations

import itertools
import os
import random
from collections.abc import Iterator, Sequence

import pytest

from cutting_exact import cheapest
from cutting_instances import any_group
from yardwright.domain.cutting import plan, set_ups
from yardwright.domain.cutting.model import CutRules, CuttingPlan, NeededPart, StockLine
from yardwright.domain.errors import Refused

GROUPS = int(os.environ.get("CUTTING_EXACT_GROUPS", "120"))
Key = tuple[int, int, int, int]


def divisions(parts: list[int]) -> Iterator[list[tuple[int, ...]]]:
    """Every way to share parts out into heaps."""
    if not parts:
        yield []
        return
    first, rest = parts[0], parts[1:]
    for number in range(len(rest) + 1):
        for others in itertools.combinations(rest, number):
            for more in divisions([r for r in rest if r not in others]):
                yield [(first, *others), *more]


def best_of_all(lengths: Sequence[int], boards: Sequence[tuple[int, int]], kerf: int, trim: int) -> Key:
    """(cost, length bought, settings of the stop, longest offcut negated) of the best way."""
    best: Key | None = None
    for heaps in divisions(list(range(len(lengths)))):
        needed = [sum(lengths[i] for i in heap) + (len(heap) - 1) * kerf for heap in heaps]
        held = [[b for b in boards if b[0] - 2 * trim >= need] for need in needed]
        for chosen in itertools.product(*held):
            cost, bought = sum(price for _, price in chosen), sum(long for long, _ in chosen)
            if best is not None and (cost, bought) > best[:2]:
                continue
            left = max(long - 2 * trim - need - kerf for (long, _), need in zip(chosen, needed, strict=True))
            full = [long == need and not trim for (long, _), need in zip(chosen, needed, strict=True)]
            for lasts in itertools.product(
                *({lengths[i] for i in heap} if end else {0} for heap, end in zip(heaps, full, strict=True))
            ):
                stops: set[int] = set()
                for heap, last in zip(heaps, lasts, strict=True):
                    cut = [lengths[i] for i in heap]
                    if last:
                        cut.remove(last)
                    stops |= set(cut)
                key = (cost, bought, len(stops), -max(left, 0))
                best = key if best is None else min(best, key)
    assert best is not None
    return best


def key_of(made: CuttingPlan, width: int) -> Key:
    """The same four of a plan, from what is drawn."""
    stops = {one.setting_nm for one in set_ups(made) if one.kind == "crosscut"}
    ends = [o.length_nm for layout in made.layouts for o in layout.offcuts if o.width_nm == width]
    return made.cost, sum(layout.length_nm for layout in made.layouts), len(stops), -max(ends, default=0)


@pytest.mark.parametrize("seed", range(GROUPS))
def test_ties_go_to_less_length_then_fewer_set_ups_then_the_longer_offcut(seed: int) -> None:
    rng = random.Random(seed)
    sizes = [rng.randint(8, 50) for _ in range(rng.randint(2, 4))]
    lengths = [rng.choice(sizes) for _ in range(rng.randint(3, 6))]
    # prices by length, some a tenth dearer: many purchases cost the same
    boards = [(n, n // 10 * rng.choice((10, 10, 11))) for n in rng.sample((60, 70, 80, 90, 100), 3)]
    boards = boards[: rng.randint(1, 3)]
    kerf, trim = rng.choice((0, 1)), rng.choice((0, 1))
    parts = [NeededPart(f"P{n}", n, 10, lengths.count(n)) for n in sorted(set(lengths))]
    stock = [StockLine(f"B{n}", n, 10, price) for n, price in boards]
    made = plan(parts, stock, CutRules(kerf, kerf, trim))
    assert key_of(made, 10) == best_of_all(lengths, boards, kerf, trim)


@pytest.mark.parametrize("seed", range(0, 400, 10))
def test_without_prices_of_cuts_the_cost_is_the_boards_and_no_bound_is_above_the_optimum(seed: int) -> None:
    group = any_group(seed)
    few = sum(part.count for part in group.parts) <= 6 and not any(part.matched for part in group.parts)
    try:
        made = plan(group.parts, group.stock, group.rules)
    except Refused:
        return
    assert made.cost == made.boards_cost == sum(layout.price for layout in made.layouts)
    if few:
        truth = cheapest(group.parts, group.stock, group.rules)
        assert truth is not None
        assert made.lower_bound <= truth <= made.cost
