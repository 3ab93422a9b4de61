"""The linear program over a table of patterns: how cheap fractions of boards would be, and each part's worth.

Rows: one per need, one per stock line (how many boards of it). Only columns that could improve the answer
are put in: all patterns are priced by the duals, and the best of those that would pay are added.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from . import highs
from .pool import Array, Pool
from .problem import Problem

_ADDED = 40
_CLOSE = 1e-7


def area_worth(problem: Problem) -> Array:
    """The area of one of each need, in mm2 x 1e-6, as a worth."""
    one = [s.length_nm * s.width_nm * 1e-18 for s in problem.sizes]
    return np.array(
        [
            min((one[i] for i in need.any_of), default=0.0) + sum(one[i] * each for i, each in need.set_of)
            for need in problem.needs
        ]
    )


@dataclass(frozen=True, slots=True)
class Relaxed:
    """``worth`` is what one of each need costs at the margin; ``boards`` how many of each stock line."""

    cost: float
    worth: Array
    boards: Array
    counts: Array  # of the patterns ``chosen``
    chosen: Array


class Master:
    """The program, kept while limits on the boards move; it prices the whole table at each step."""

    def __init__(self, pool: Pool, penalty: float) -> None:
        self.pool = pool
        needs = [float(n.count) for n in pool.problem.needs]
        self.counted = [b.count for b in pool.problem.boards]
        most = [highs.INFINITE if c is None else float(c) for c in self.counted]
        self.lines = len(most)
        self.needs = len(needs)
        self.program = highs.Program(needs + [0.0] * self.lines, [highs.INFINITE] * self.needs + most)
        # One dear stand-in per need keeps the program solvable where boards are held back.
        stand_in = np.hstack([np.eye(self.needs), np.zeros((self.needs, self.lines))])
        self.program.add(np.full(self.needs, penalty), stand_in)
        self.columns: list[int] = []
        self.inside = np.zeros(len(pool), dtype=bool)
        self._start()

    def _start(self) -> None:
        """For each need the pattern that gives it cheapest, and the best patterns by worth of area."""
        pool = self.pool
        if not len(pool):
            return
        dear = np.maximum(pool.price, 0.01)
        wanted = [int(np.argmax(pool.supply[:, n] / dear)) for n in range(self.needs)]
        area = pool.supply @ area_worth(pool.problem) / dear
        wanted += [int(j) for j in np.argsort(-area, kind="stable")[:_ADDED]]
        self._add(np.array(sorted(set(wanted))))

    def _add(self, at: Array) -> None:
        pool = self.pool
        lines = np.zeros((len(at), self.lines))
        lines[np.arange(len(at)), pool.board[at]] = 1.0
        self.program.add(pool.price[at], np.hstack([pool.supply[at], lines]))
        self.columns += [int(j) for j in at]
        self.inside[at] = True

    def grow(self, pool: Pool) -> None:
        """The same table with patterns added at its end; all of them go into the program."""
        old, self.pool = len(self.pool), pool
        self.inside = np.concatenate([self.inside, np.zeros(len(pool) - old, dtype=bool)])
        self._add(np.arange(old, len(pool)))

    def need(self, left: Array, used: Array) -> None:
        """Only this much is still needed, and these boards are gone."""
        rows = np.arange(self.needs + self.lines)
        most = [
            highs.INFINITE if c is None else float(c - u) for c, u in zip(self.counted, used, strict=True)
        ]
        self.program.limit_rows(
            rows,
            np.concatenate([left, np.zeros(self.lines)]),
            np.concatenate([np.full(self.needs, highs.INFINITE), most]),
        )

    def limit(self, low: Array, high: Array) -> None:
        """How many boards of each stock line, at least and at most."""
        rows = np.arange(self.needs, self.needs + self.lines)
        self.program.limit_rows(rows, low, high)

    def solve(self, give_up_at: float = highs.INFINITE) -> Relaxed | None:
        """The optimum over the whole table; None when it is ``give_up_at`` or more."""
        pool = self.pool
        while True:
            solved = self.program.solve()
            if solved.status != "optimal":
                return None
            worth, fee = np.maximum(solved.duals[: self.needs], 0.0), solved.duals[self.needs :]
            saved = pool.supply @ worth + fee[pool.board] - pool.price
            saved[self.inside] = 0.0
            pays = np.flatnonzero(saved > _CLOSE * (1.0 + pool.price))
            if not len(pays):
                break
            best = pays[np.argsort(-saved[pays], kind="stable")[:_ADDED]]
            self._add(np.sort(best))
        if solved.cost >= give_up_at:
            return None
        counts = solved.counts[self.needs :]
        chosen = np.array(self.columns, dtype=np.int64)
        boards = np.bincount(pool.board[chosen], weights=counts, minlength=self.lines)
        return Relaxed(solved.cost, worth, boards, counts, chosen)


class Enough:
    """Whether boards of a given purchase could be enough, were parts of boards allowed.

    The program buys nothing: it makes up what the purchase cannot give, at the parts' worth. Where it must,
    its duals are worths by which the needs are worth more than the boards can give.
    """

    def __init__(self, pool: Pool, worth: Array) -> None:
        self.pool, self.area = pool, area_worth(pool.problem)
        self.needs = np.array([n.count for n in pool.problem.needs], dtype=float)
        self.lines = len(pool.problem.boards)
        count = len(self.needs)
        self.program = highs.Program(
            np.concatenate([self.needs, np.full(self.lines, -highs.INFINITE)]),
            np.concatenate([np.full(count, highs.INFINITE), np.zeros(self.lines)]),
        )
        dear = self.area / self.area.max() + worth / max(1e-9, float(worth.max()))
        self.program.add(dear, np.hstack([np.eye(count), np.zeros((count, self.lines))]))
        self.inside = np.zeros(len(pool), dtype=bool)
        saved = pool.supply @ worth / np.maximum(pool.price, 0.01)
        self._add(np.sort(np.argsort(-saved, kind="stable")[:_ADDED]))

    def _add(self, at: Array) -> None:
        lines = np.zeros((len(at), self.lines))
        lines[np.arange(len(at)), self.pool.board[at]] = 1.0
        self.program.add(np.zeros(len(at)), np.hstack([self.pool.supply[at], lines]))
        self.inside[at] = True

    def worths_against(self, boards: Array) -> Array | None:
        """Worths by which these boards are too few; None when they could be enough."""
        rows = np.arange(len(self.needs), len(self.needs) + self.lines)
        self.program.limit_rows(rows, np.full(self.lines, -highs.INFINITE), boards.astype(float))
        while True:
            solved = self.program.solve()
            if solved.status != "optimal" or solved.cost < 1e-6:
                return None
            worth = np.maximum(solved.duals[: len(self.needs)], 0.0)
            gives = self.pool.supply @ worth
            best = np.zeros(self.lines)
            np.maximum.at(best, self.pool.board, gives)
            if float(worth @ self.needs) > float(best @ boards) * (1 + 1e-9) + 1e-6:
                return worth
            fee = solved.duals[len(self.needs) :]
            saved = gives + fee[self.pool.board]
            saved[self.inside] = 0.0
            pays = np.flatnonzero(saved > 1e-7)
            if not len(pays):
                return None
            self._add(np.sort(pays[np.argsort(-saved[pays], kind="stable")[:_ADDED]]))


def safe_bound(pool: Pool, worth: Array) -> float:
    """A lower bound from any worths, sound whatever the solver's rounding.

    Every plan costs at least sum(worth x need) when no pattern is worth more than its board; worths are
    scaled down to that for boards of any number, and counted boards that are worth more give it back.
    """
    problem = pool.problem
    needs = np.array([n.count for n in problem.needs], dtype=float)
    unlimited = np.array([b.count is None for b in problem.boards])[pool.board]
    gives = pool.supply @ worth
    free = unlimited & (pool.price <= 0) & (gives > 0)
    if free.any():
        worth = np.where((pool.supply[free] > 0).any(axis=0), 0.0, worth)
        gives = pool.supply @ worth
    paid = unlimited & (pool.price > 0)
    over = float((gives[paid] / pool.price[paid]).max()) if paid.any() else 1.0
    if over > 1.0:
        worth, gives = worth / over, gives / over
    bound = float(worth @ needs)
    for index, board in enumerate(problem.boards):
        if board.count:
            best = gives[pool.board == index]
            if len(best):
                bound -= board.count * max(0.0, float(best.max()) - board.price)
    return bound
