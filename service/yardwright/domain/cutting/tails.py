"""The last boards of a large job: the fractional plan followed board by board, several ways, the end exactly.

Rounding loses little while many boards are left and nearly everything on the last few. So the last boards
are tried over and over: each try takes one board after another from the fractional plan of what is left,
by a draw of a fixed seed, is dropped as soon as its fractional cost is no better than the best known, and
ends with an exact plan of the last board or two.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from .columns import generate
from .effort import Effort
from .exact import solve_small
from .fill import Chosen, cost, fill
from .patterns import Pattern
from .pool import Array, Pool, join, pool_of
from .pricing import Pricer
from .problem import Problem
from .relaxed import Master, Relaxed
from .smaller import smaller

_ROUNDS = 40  # of pricing before the first try
_AGAIN = 2  # and after each board
_MORE = 3  # patterns of each stock line that hold this or that piece, besides its best
_AMONG = 4  # boards a draw chooses from
_EXACT = 1.5  # dearest boards' worth that is left to the exact end
_END = Effort(rows=20_000, regions=40, covers=500, columns=0, cover=60, nodes=0, mends=0)


@dataclass(slots=True)
class _State:
    """What is still needed, the boards used, and the plan so far."""

    left: Array
    used: Array
    plan: Chosen
    spent: int = 0

    def take(self, problem: Problem, pattern: Pattern, times: int) -> None:
        self.plan.append((pattern, times))
        self.left = np.maximum(self.left - np.array(pattern.supply) * times, 0)
        self.used[pattern.board] += times
        self.spent += problem.boards[pattern.board].price * times


def last_boards(problem: Problem, tries: int, start: Sequence[Pattern] = ()) -> Chosen | None:
    """The cheapest plan of several tries; None where the boards are not enough by any of them.

    ``start``: patterns already made for these parts.
    """
    by_hand = fill(problem)
    if by_hand is None or not tries:
        return by_hand
    best, price = by_hand, cost(problem, by_hand)[0]
    pricer = Pricer(problem)
    made = generate(problem, pricer, [*(p for p, _ in by_hand), *start], _ROUNDS, 100.0 * (price + 1))
    if made is None:
        return best
    pool = made.pool
    for number in range(tries):
        if price <= made.bound + 1e-6:
            break
        found, pool = _one_try(problem, pool, made.relaxed, price, random.Random(number) if number else None)
        if found is not None and cost(problem, found)[0] < price:
            best, price = found, cost(problem, found)[0]
    return best


def _one_try(
    problem: Problem, pool: Pool, relaxed: Relaxed, below: int, draw: random.Random | None
) -> tuple[Chosen | None, Pool]:
    """A plan for less than ``below``, or None; and the table with the patterns found on the way."""
    state = _State(
        np.array([n.count for n in problem.needs]), np.zeros(len(problem.boards), dtype=np.int64), []
    )
    worth, few = relaxed.worth, _EXACT * max(b.price for b in problem.boards)
    master = Master(pool, 1e9)
    while float(state.left @ worth) >= few:
        picked = _pick(pool, relaxed, state.left, draw)
        if picked is None:
            break
        state.take(problem, pool.pattern(picked[0]), picked[1])
        if not state.left.any():
            break
        master.need(state.left, state.used)
        again = master.solve()
        for _ in range(_AGAIN):
            fresh = [] if again is None else paying(problem, again.worth, state.left, state.used)
            if not fresh:
                break
            pool = join([pool, pool_of(problem, fresh)])
            master.grow(pool)
            again = master.solve()
        if again is None or state.spent + again.cost >= below:
            return None, pool
        relaxed = again
    return _ended(problem, state, below), pool


def _pick(pool: Pool, relaxed: Relaxed, left: Array, draw: random.Random | None) -> tuple[int, int] | None:
    """The next board: one that gives nothing beyond the need, the most wanted or one drawn by its share."""
    order = np.argsort(-relaxed.counts, kind="stable")
    order = order[relaxed.counts[order] > 1e-6]
    supply = pool.supply[relaxed.chosen[order]]
    fits = (supply <= left).all(axis=1) & (supply > 0).any(axis=1)
    if not fits.any():
        some = np.flatnonzero(np.minimum(supply, left).any(axis=1))
        return (int(relaxed.chosen[order[some[0]]]), 1) if len(some) else None
    among = order[fits][:_AMONG]
    share = relaxed.counts[among]
    at = 0 if draw is None else draw.choices(range(len(among)), [float(s) for s in share])[0]
    j = int(relaxed.chosen[among[at]])
    gives = pool.supply[j]
    most = int((left[gives > 0] // gives[gives > 0]).min())
    return j, max(1, min(most, int(share[at] + 1e-6)))


def _ended(problem: Problem, state: _State, below: int) -> Chosen | None:
    """The last few boards exactly where that is small enough, else by hand."""
    if not state.left.any():
        return state.plan
    part = smaller(problem, [int(x) for x in state.left], [int(x) for x in state.used])
    by_hand = fill(part.problem)
    if by_hand is None:
        return None
    price = min(cost(part.problem, by_hand)[0], below - state.spent)
    better = solve_small(part.problem, _END, price, price - 1)
    return state.plan + [(part.lift(pattern), times) for pattern, times in better or by_hand]


def paying(problem: Problem, worth: Array, left: Array, used: Array) -> list[Pattern]:
    """Patterns for what is left that would pay, by what parts are worth now."""
    part = smaller(problem, [int(x) for x in left], [int(x) for x in used])
    priced = Pricer(part.problem).price(worth[left > 0])
    return [
        part.lift(pattern)
        for line, found in priced.items()
        if found.value > problem.boards[line].price * (1 + 1e-6) + 1e-6
        for pattern in (found.pattern, *found.more[:_MORE])
    ]
