"""The proof: purchases in order of what they must cost at least, until one is enough.

A region of purchases (so many to so many boards of each stock line) is bounded by the linear program; the
cheapest region is opened first. Where the program buys whole boards only, that purchase is decided by
``cover``: enough boards, and nothing cheaper is left, so it is the optimum; or not enough, and the region is
split around it.
"""

from __future__ import annotations

import heapq
from dataclasses import dataclass

import numpy as np

from .bounds import Sums
from .cover import Cover, cover
from .effort import Effort, Steps
from .fill import Chosen
from .pool import Array, Pool, Proof
from .relaxed import Master, Relaxed, area_worth

_WHOLE = 1e-6


@dataclass(slots=True)
class Region:
    """Purchases between two numbers of each stock line, and the program's answer within them."""

    low: Array
    high: Array
    relaxed: Relaxed


def prove(pool: Pool, master: Master, root: Relaxed, known_cost: int, sums: Sums, effort: Effort) -> Proof:
    """The cheapest plan below ``known_cost``, or the proof that there is none, within the effort."""
    search = _Search(pool, master, known_cost, sums, root)
    high = np.array([np.inf if b.count is None else float(b.count) for b in pool.problem.boards])
    search.push(Region(np.zeros(len(high)), high, root))
    regions, steps = effort.regions, Steps(effort.covers)
    while search.heap:
        bound, _, region = heapq.heappop(search.heap)
        if bound >= search.known:
            break
        if not regions:
            return Proof(search.plan, min([bound, *search.open]), False)
        regions -= 1
        search.open_region(bound, region, steps)
    bound = min([search.known, *search.open])
    return Proof(search.plan, bound, bound == search.known)


class _Search:
    def __init__(self, pool: Pool, master: Master, known: int, sums: Sums, root: Relaxed) -> None:
        self.pool, self.master, self.known, self.sums = pool, master, known, sums
        self.heap: list[tuple[int, int, Region]] = []
        self.number = 0
        self.plan: Chosen | None = None
        self.open: list[int] = []  # costs of purchases left undecided
        self.decided = Cover(pool, np.stack([_even(area_worth(pool.problem)), _even(root.worth)]))
        self.prices = np.array([float(b.price) for b in pool.problem.boards])

    def push(self, region: Region) -> None:
        bound = self.sums.reach(region.relaxed.cost)
        if bound < self.known:
            self.number += 1
            heapq.heappush(self.heap, (bound, -self.number, region))

    def open_region(self, bound: int, region: Region, steps: Steps) -> None:
        boards = region.relaxed.boards
        part = np.abs(boards - np.round(boards))
        worst = int(np.argmax(part))
        if part[worst] > _WHOLE:
            self._split(region, worst, np.floor(boards[worst]))
            return
        whole = np.round(boards)
        cost = round(float(whole @ self.prices))
        own = Steps(min(steps.left, 300))
        found = cover(self.decided, whole, own)
        steps.take(min(steps.left, 300 - own.left))
        if found is not None:
            self.known, self.plan = cost, [(self.pool.pattern(j), 1) for j in found]
            return
        if own.out:  # left undecided
            self.open.append(cost)
        self._around(region, whole)

    def _split(self, region: Region, line: int, floor: float) -> None:
        low, high = region.low.copy(), region.high.copy()
        high[line], low[line] = floor, floor + 1
        for bounds in ((region.low, high), (low, region.high)):
            self._bounded(*bounds)

    def _around(self, region: Region, point: Array) -> None:
        """Everything of the region but this one purchase."""
        low, high = region.low.copy(), region.high.copy()
        for line in np.argsort(-(high - low), kind="stable"):
            if low[line] == high[line]:
                continue
            below, above = high.copy(), low.copy()
            below[line], above[line] = point[line] - 1, point[line] + 1
            if below[line] >= low[line]:
                self._bounded(low.copy(), below)
            if above[line] <= high[line]:
                self._bounded(above, high.copy())
            low[line] = high[line] = point[line]

    def _bounded(self, low: Array, high: Array) -> None:
        self.master.limit(low, high)
        relaxed = self.master.solve(give_up_at=float(self.known))
        if relaxed is not None:
            self.push(Region(low, high, relaxed))


def _even(worth: Array) -> Array:
    """Worths scaled so that judgements of different kinds are compared in one measure."""
    most = float(worth.max()) if len(worth) else 0.0
    return worth / most if most > 0 else worth
