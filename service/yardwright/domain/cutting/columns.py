"""Patterns made as they are needed: the way for jobs too large to list all patterns of.

The linear program over the patterns so far says what parts are worth; pricing finds the best pattern of each
board by these worths, until none would pay. Each round also gives a true lower bound.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from .fill import Chosen
from .patterns import Pattern
from .pool import Array, Pool, join, pool_of
from .pricing import Priced, Pricer
from .problem import Problem
from .relaxed import Master, Relaxed, area_worth

_CLOSE_ENOUGH = 2e-4  # of the cost: further rounds would hardly lift the bound
_ABOVE = 1.15
_FIRST = 60  # patterns of each board in the first round
_STEP = 0.5  # towards the program's worths


@dataclass(frozen=True, slots=True)
class Generated:
    """The patterns made, the program's last answer, and the best bound."""

    pool: Pool
    relaxed: Relaxed
    bound: float
    finished: bool


def generate(
    problem: Problem,
    pricer: Pricer,
    start: Sequence[Pattern],
    rounds: int,
    penalty: float,
    first: Array | None = None,
    close: float = _CLOSE_ENOUGH,
) -> Generated | None:
    """Patterns for the cheapest fractional plan; None when even fractions of boards are not enough.

    Worths jump from round to round; a step part of the way settles sooner. They start from ``first``, or
    a little above the parts' areas.
    """
    seen = {(p.board, p.counts) for p in start}
    held = _by_area(problem) if first is None else first
    priced = pricer.price(held, more=_FIRST)
    bound = lagrange(problem, held, priced)
    pool = pool_of(problem, [*start, *_fresh(problem, priced, seen)])
    master = Master(pool, penalty)
    relaxed = master.solve()
    for _ in range(rounds):
        if relaxed is None:
            return None
        held = held + _STEP * (relaxed.worth - held)
        priced = pricer.price(held)
        bound = max(bound, lagrange(problem, held, priced))
        fresh = _fresh(problem, priced, seen)
        if not fresh and held is not relaxed.worth:
            held = relaxed.worth
            priced = pricer.price(held)
            bound = max(bound, lagrange(problem, held, priced))
            fresh = _fresh(problem, priced, seen)
        if not fresh or bound >= relaxed.cost * (1 - close):
            return Generated(pool, relaxed, bound, True)
        pool = join([pool, pool_of(problem, fresh)])
        master.grow(pool)
        relaxed = master.solve()
    return None if relaxed is None else Generated(pool, relaxed, bound, False)


def _by_area(problem: Problem) -> Array:
    """Parts worth a little more than their area costs, so that the first patterns pay."""
    rates = [
        b.price / (b.width_nm * sum(to - start for start, to in b.clear) * 1e-18)
        for b in problem.boards
        if b.clear and b.price and b.count != 0
    ]
    return _ABOVE * min(rates, default=0.0) * area_worth(problem)


def _fresh(
    problem: Problem, priced: dict[int, Priced], seen: set[tuple[int, tuple[int, ...]]]
) -> list[Pattern]:
    fresh = []
    for line, found in priced.items():
        if found.value <= problem.boards[line].price * (1 + 1e-7) + 1e-7:
            continue
        for pattern in (found.pattern, *found.more):
            if (line, pattern.counts) not in seen and any(pattern.counts):
                seen.add((line, pattern.counts))
                fresh.append(pattern)
    return fresh


def lagrange(problem: Problem, worth: Array, priced: dict[int, Priced]) -> float:
    """A lower bound from any worths: scaled so that no board of any number is worth more than its price."""
    needs = np.array([n.count for n in problem.needs], dtype=float)
    over = 1.0
    for line, found in priced.items():
        board = problem.boards[line]
        if board.count is None:
            if board.price <= 0 < found.value:
                return 0.0
            over = max(over, found.value / board.price)
    bound = float(worth @ needs) / over
    for line, found in priced.items():
        board = problem.boards[line]
        if board.count is not None:
            bound -= board.count * max(0.0, found.value / over - board.price)
    return bound


def floor_of(pool: Pool, relaxed: Relaxed) -> Chosen:
    """The whole boards in a fractional plan."""
    return [
        (pool.pattern(int(j)), int(times + 1e-7))
        for j, times in zip(relaxed.chosen, relaxed.counts, strict=True)
        if int(times + 1e-7)
    ]
