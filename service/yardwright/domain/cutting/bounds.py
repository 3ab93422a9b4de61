"""Lower bounds: what no plan can cost less than."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .problem import Board, Problem

_MOST_SUM = 4_000_000


def area_bound(problem: Problem) -> float:
    """Parts' area at the cheapest area there is, each part with one kerf, each clear length with one more.

    Valid because parts a kerf apart, each grown by a kerf on two sides, still do not overlap within a
    board grown by a kerf on the same two sides.
    """
    rip, cross = problem.rules.rip_kerf_nm, problem.rules.crosscut_kerf_nm
    wanted = sum(s.most * (s.length_nm + cross) * (s.width_nm + rip) for s in problem.sizes)
    offers = []
    for board in problem.boards:
        area = sum(to - start + cross for start, to in board.clear) * (board.width_nm + rip)
        if area and board.count != 0:
            offers.append((board.price / area, area, board))
    total = 0.0
    for per_area, area, board in sorted(offers, key=lambda o: o[0]):
        taken = wanted if board.count is None else min(wanted, area * board.count)
        total += per_area * taken
        wanted -= taken
        if wanted <= 0:
            return total
    return math.inf


class Sums:
    """Which costs whole boards can add up to: a plan costs one of them and no other sum."""

    def __init__(self, boards: Sequence[Board], most: int) -> None:
        self.boards = [b for b in boards if b.count != 0 and b.price > 0]
        self.unit = math.gcd(*(b.price for b in self.boards)) if self.boards else 1
        self.reachable: int | None = None
        top = most // self.unit + 1
        if self.boards and top <= _MOST_SUM:
            self.reachable = self._all(top)

    def _all(self, top: int) -> int:
        """Bit k is set when k units can be paid."""
        reach, full = 1, (1 << (top + 1)) - 1
        for board in self.boards:
            step, power = board.price // self.unit, 1
            left = top // step if board.count is None else board.count
            while left > 0:
                times = min(power, left)
                reach |= (reach << (step * times)) & full
                left -= times
                power *= 2
        return reach

    def reach(self, bound: float) -> int:
        """The least possible cost that is not below ``bound`` (give or take the solver's rounding)."""
        least = math.ceil(bound - 1e-6 * max(1.0, abs(bound)))
        if least <= 0:
            return 0
        units = -(-least // self.unit)
        if self.reachable is None:
            return units * self.unit
        above = self.reachable >> units
        if not above:
            return units * self.unit
        return (units + (above & -above).bit_length() - 1) * self.unit
