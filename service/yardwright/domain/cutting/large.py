"""Jobs of many boards: a fractional plan, rounded down, and the rest cut like a small job.

Then boards that waste most are taken apart, a few at a time, and cut anew, exactly.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from .effort import EFFORT, Effort
from .exact import solve_small
from .fill import Chosen, cost, fill
from .patterns import Pattern
from .pool import Array, Pool, join, pool_of
from .problem import Problem
from .relaxed import Master, Relaxed
from .smaller import smaller
from .tails import last_boards, paying

MANY_SIZES = 140  # beyond these, work is kept to what a page load allows
_TURNS = 15  # roundings after which no new patterns are priced
_END, _TAIL = 5, 8  # dearest boards' worth that is left to the exact end, or to several tries
_TRIES = 1


def from_fractions(
    problem: Problem,
    pool: Pool,
    relaxed: Relaxed,
    known: Chosen | None,
    least: int,
    effort: Effort,
    rounds: int = 0,
) -> Chosen | None:
    """The best whole plan that rounding and mending give; it stops when ``least`` is reached.

    ``rounds`` of pricing for what is left after each rounding: where the table does not hold all patterns.
    """
    plans = [plan for plan in (known, round_off(problem, pool, relaxed, rounds)) if plan is not None]
    if not plans:
        return None
    best = min(plans, key=lambda plan: cost(problem, plan))
    tries = effort.mends if len(problem.sizes) <= MANY_SIZES else 0
    tries = tries // 4 if rounds else tries  # the last boards have been tried several ways already
    return improve(problem, best, relaxed.worth, least, tries)


def round_off(problem: Problem, pool: Pool, relaxed: Relaxed, rounds: int = 0) -> Chosen | None:
    """Whole boards from a fractional plan: floors first, then the fullest fractions, the rest exactly."""
    plan: Chosen = []
    left = np.array([n.count for n in problem.needs])
    used = np.zeros(len(problem.boards), dtype=np.int64)
    worth, last = relaxed.worth, (_TAIL if rounds else _END) * float(pool.price.max())
    master, turns = Master(pool, 1e9), 0
    while left.any():
        taken = _take(pool, relaxed, left, worth)
        if not taken:
            break
        for j, times in taken:
            if rounds and float(left @ worth) < last:
                break
            plan.append((pool.pattern(j), times))
            left = np.maximum(left - pool.supply[j] * times, 0)
            used[pool.board[j]] += times
        if float(left @ worth) < last:
            break
        master.need(left, used)
        again = master.solve()
        turns += 1
        for _ in range(rounds if turns <= _TURNS else 0):
            fresh = [] if again is None else paying(problem, again.worth, left, used)
            if not fresh:
                break
            pool = join([pool, pool_of(problem, fresh)])
            master.grow(pool)
            again = master.solve()
        if again is None:
            break
        relaxed = again
    ending = _tail(problem, pool, left, used) if rounds else _rest(problem, left, used)
    return None if ending is None else plan + ending


def _take(pool: Pool, relaxed: Relaxed, left: Array, worth: Array) -> list[tuple[int, int]]:
    """Every pattern's whole number, and one more of those that are mostly wanted and waste nothing."""
    taken: list[tuple[int, int]] = []
    for at in np.argsort(-relaxed.counts, kind="stable"):
        j, share = int(relaxed.chosen[at]), float(relaxed.counts[at])
        if share < 1e-6:
            break
        gives = pool.supply[j]
        times = int(share + 1e-6)
        if times:
            times = min(times, int((left[gives > 0] // gives[gives > 0]).min()))
        wasted = float(np.maximum(gives - left, 0) @ worth)
        if not times and (not taken or (share > 0.7 and wasted <= 0.0)) and np.minimum(gives, left).any():
            times = 1
        if times:
            taken.append((j, times))
            left = np.maximum(left - gives * times, 0)
            if share < 0.7:
                break
    return taken


def _rest(problem: Problem, left: Array, used: Array) -> Chosen | None:
    """What is still needed, exactly where that is small enough, else by hand."""
    if not left.any():
        return []
    part = smaller(problem, [int(x) for x in left], [int(x) for x in used])
    by_hand = fill(part.problem)
    if by_hand is None:
        return None
    price = cost(part.problem, by_hand)[0]
    better = solve_small(part.problem, EFFORT["quick"], price, price - 1)
    return [(part.lift(pattern), times) for pattern, times in better or by_hand]


def _tail(problem: Problem, pool: Pool, left: Array, used: Array) -> Chosen | None:
    """What is still needed, by the best of several tries from the patterns made for it so far."""
    if not left.any():
        return []
    part = smaller(problem, [int(x) for x in left], [int(x) for x in used])
    within = [part.lower(pool.pattern(int(j))) for j in np.flatnonzero((pool.supply <= left).all(axis=1))]
    found = last_boards(part.problem, _TRIES, [pattern for pattern in within if pattern is not None])
    return None if found is None else [(part.lift(pattern), times) for pattern, times in found]


def improve(
    problem: Problem, plan: Chosen, worth: Array, least: int, tries: int, together: int = 5
) -> Chosen:
    """Boards that waste most by the parts' worth are taken apart with a few others and cut anew, exactly.

    The others are drawn by a fixed rule from a fixed seed; what is found is kept only when it costs less.
    """
    boards = _one_by_one(problem, plan)
    tried = [0] * len(boards)
    price = np.array([b.price for b in problem.boards], dtype=float)
    total = cost(problem, plan)[0]
    draw = random.Random(len(boards))
    for _ in range(tries):
        if total <= least or len(boards) < 2:
            break
        lost = price[[p.board for p in boards]] - np.array([p.supply for p in boards]) @ worth
        first = [int(b) for b in np.lexsort((-lost, tried))[: max(1, together // 2)]]
        others = [b for b in range(len(boards)) if b not in first]
        picked = sorted(first + draw.sample(others, min(together - len(first), len(others))))
        for b in first:
            tried[b] += 1
        before = int(price[[boards[b].board for b in picked]].sum())
        better = _anew(problem, boards, picked, before)
        if better is not None:
            kept = [b for b in range(len(boards)) if b not in picked]
            boards = [boards[b] for b in kept] + better
            tried = [tried[b] for b in kept] + [0] * len(better)
            total = int(price[[p.board for p in boards]].sum())
    return [(pattern, 1) for pattern in boards]


def _one_by_one(problem: Problem, plan: Chosen) -> list[Pattern]:
    """Every board of the plan with only what it is needed for as its supply."""
    return _share_out([n.count for n in problem.needs], plan)


def _share_out(left: Sequence[int], plan: Chosen) -> list[Pattern]:
    boards = []
    for pattern, times in plan:
        for _ in range(times):
            given = tuple(map(min, pattern.supply, left))
            left = [n - g for n, g in zip(left, given, strict=True)]
            if any(given):
                boards.append(replace(pattern, supply=given))
    return boards


def _anew(problem: Problem, boards: list[Pattern], picked: list[int], before: int) -> list[Pattern] | None:
    """These boards' parts from cheaper boards, if there are any."""
    wanted = [sum(column) for column in zip(*(boards[b].supply for b in picked), strict=True)]
    used = [0] * len(problem.boards)
    for b, pattern in enumerate(boards):
        if b not in picked:
            used[pattern.board] += 1
    part = smaller(problem, wanted, used)
    found = solve_small(part.problem, EFFORT["quick"], before, before - 1)
    if found is None:
        return None
    return _share_out(wanted, [(part.lift(pattern), times) for pattern, times in found])
