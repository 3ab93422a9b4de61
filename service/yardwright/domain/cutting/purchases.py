"""Purchases in order of what they cost: each ruled out by what parts are worth, or decided.

All ways to buy boards for less than the best known plan are listed, cheapest first, then shortest. One is
ruled out with many others when parts are worth more, by some worths, than its boards can give; the linear
program over its boards finds such worths. One that stands is decided by ``cover``. The first that is enough
is the optimum, since everything cheaper has been ruled out.
"""

from __future__ import annotations

import numpy as np

from .cover import Cover, cover, cover_whole, usable
from .effort import Effort, Steps
from .pool import Array, Pool, Proof
from .problem import Problem
from .relaxed import Enough

MOST_ROWS = 60_000
_FEW = 300  # patterns that a small whole-number program decides in a few milliseconds


def listed(
    pool: Pool, worth: Array, bound: float, below: tuple[int, int], floor: float = 0.0
) -> Array | None:
    """Every purchase with a cost not under ``bound`` and (cost, length) under ``below``; None when too many.

    A board whose price is above the worth of its best pattern wastes the difference; a purchase wastes no
    more than what separates its cost from the bound, so dear boards take few places. ``floor``: those that
    cost less have been listed before.
    """
    boards = pool.problem.boards
    price = np.array([b.price for b in boards], dtype=np.int64)
    wasted = price - best_of(pool, pool.supply @ worth)
    spare = below[0] - bound + 1e-6 * (1 + abs(bound))
    least = max(floor, bound - 1e-6 * (1 + abs(bound)))
    lines = [k for k in np.argsort(-price, kind="stable") if wasted[k] <= spare and _cut_from(pool, k)]
    rows: Array = np.zeros((1, len(boards)), dtype=np.int64)
    for k in lines:
        rows = _with_line(
            rows, int(k), boards[k].count, price, wasted, below[0], spare, least if k == lines[-1] else 0.0
        )
        if rows is None or len(rows) > MOST_ROWS:
            return None
    cost = rows @ price
    length = rows @ bought_length(pool)
    stands = (cost >= least) & ((cost < below[0]) | ((cost == below[0]) & (length < below[1])))
    rows, cost, length = rows[stands], cost[stands], length[stands]
    return rows[np.lexsort((length, cost))]


def bought_length(pool: Pool) -> Array:
    """By stock line: its length where it is bought; what lies in the shop is bought already."""
    return np.array([0 if b.on_hand else b.length_nm for b in pool.problem.boards], dtype=np.int64)


def shorter_exists(problem: Problem, known: tuple[int, int]) -> bool:
    """Whether other boards cost the same as a plan, with less length and area enough for the parts."""
    boards = [b for b in problem.boards if b.count != 0 and b.price > 0]
    if len({b.price for b in boards}) < 2 and len({b.length_nm for b in boards}) < 2:
        return False
    price = np.array([b.price for b in boards], dtype=np.int64)
    rows: Array | None = np.zeros((1, len(boards)), dtype=np.int64)
    for k in np.argsort(-price, kind="stable"):
        rows = (
            None
            if rows is None
            else _with_line(rows, int(k), boards[k].count, price, np.zeros(len(boards)), known[0] + 1, 0.0)
        )
    if rows is None:
        return False
    length = rows @ np.array([0 if b.on_hand else b.length_nm for b in boards], dtype=np.int64)
    area = rows @ np.array([b.length_nm * b.width_nm * 1e-18 for b in boards])
    needed = sum(s.length_nm * s.width_nm * 1e-18 * s.most for s in problem.sizes)
    return bool(((rows @ price == known[0]) & (length < known[1]) & (area >= needed)).any())


def best_of(pool: Pool, value: Array) -> Array:
    """By stock line: the largest of its patterns' values; 0 for a line nothing is cut from."""
    best = np.zeros(len(pool.problem.boards))
    np.maximum.at(best, pool.board, value)
    return best


def _cut_from(pool: Pool, line: int) -> bool:
    return bool((pool.board == line).any())


def _with_line(
    rows: Array,
    line: int,
    count: int | None,
    price: Array,
    wasted: Array,
    below: int,
    spare: float,
    least: float = 0.0,
) -> Array | None:
    """Each row with none, one, two... of this line, as far as money and waste allow.

    ``least``: what a row must cost with this line, where it is the last.
    """
    most, fewest = np.full(len(rows), 10**6 if count is None else count), np.zeros(len(rows), dtype=np.int64)
    if price[line] > 0:
        spent = rows @ price
        most = np.minimum(most, (below - spent) // price[line])
        fewest = np.maximum(0, np.ceil((least - spent) / price[line]).astype(np.int64))
    if wasted[line] > 1e-9:
        most = np.minimum(
            most, ((spare - rows @ np.maximum(wasted, 0.0)) / wasted[line] + 1e-9).astype(np.int64)
        )
    most = np.maximum(most, fewest - 1 if least else 0)
    each = most - fewest + 1
    if int(each.sum()) > MOST_ROWS or int(most.max()) >= 10**6:
        return None
    again = np.repeat(rows, each, axis=0)
    starts = np.repeat(np.cumsum(each) - each, each)
    again[:, line] = np.arange(len(again)) - starts + np.repeat(fewest, each)
    return again


def decide(pool: Pool, rows: Array, worth: Array, known: int, effort: Effort, steps: Steps) -> Proof:
    """The first purchase of ``rows`` that is enough, cut; ``bound`` is the first that stayed undecided."""
    if not len(rows):
        return Proof(None, known, True)
    boards = pool.problem.boards
    needs = np.array([n.count for n in pool.problem.needs], dtype=float)
    price = np.array([b.price for b in boards], dtype=np.int64)
    enough = Enough(pool, worth)
    judge = Cover(pool, np.stack([enough.area, worth]))
    stands = np.ones(len(rows), dtype=bool)
    for worths, gives in zip(judge.worths, judge.gives, strict=True):
        stands &= rows @ gives >= (worths @ needs) - 1e-7 * (1 + worths @ needs)
    undecided: int | None = None
    by_clock = False
    for at in range(len(rows)):
        if not stands[at]:
            continue
        cost = int(rows[at] @ price)
        if not steps.take(5):
            return Proof(None, cost if undecided is None else undecided, False)
        ruled_out_by = enough.worths_against(rows[at])
        if ruled_out_by is not None:
            gives = judge.add(ruled_out_by)
            wanted = float(judge.worths[-1] @ needs)
            stands[at:] &= rows[at:] @ gives >= wanted - 1e-7 * (1 + wanted)
            stands[at] = False
            continue
        stopped, found = _decide_one(judge, rows[at], effort, steps)
        by_clock = by_clock or stopped == "clock"
        if found is not None:
            plan = [(pool.pattern(j), 1) for j in found]
            return Proof(plan, cost if undecided is None else undecided, undecided is None, _end(by_clock))
        if stopped:
            undecided = cost if undecided is None else undecided
        else:
            stands[at:] &= (rows[at:] > rows[at]).any(axis=1)
    return Proof(None, known if undecided is None else undecided, undecided is None, _end(by_clock))


def _end(by_clock: bool) -> str:
    return "clock" if by_clock else "steps"


def _decide_one(judge: Cover, boards: Array, effort: Effort, steps: Steps) -> tuple[str, list[int] | None]:
    """By a few steps of hand, a small program where few patterns are left, then more steps.

    Answers ("" where it is decided, else what stopped it; the patterns where the boards are enough).
    """
    needs = np.array([n.count for n in judge.pool.problem.needs], dtype=np.int64)
    few = len(usable(judge, boards, needs, np.arange(len(judge.pool)))) <= _FEW
    stopped = "steps"
    deep = 3 * int(boards.sum())  # a plan of many boards takes as many steps when all goes well
    for limit, program in ((effort.cover + deep, few), (8 * effort.cover + deep, not few)):
        own = Steps(min(steps.left, limit))
        before = own.left
        found = cover(judge, boards, own)
        steps.take(before - own.left)
        if found is not None or not own.out:
            return "", found
        if program and effort.nodes:
            stopped, found = cover_whole(judge, boards, effort.nodes)
            if not stopped:
                return "", found
    return stopped, None
