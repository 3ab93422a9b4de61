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


def round_up(bound: float, boards: Sequence[Board]) -> int:
    """The least sum of whole boards' prices that is not below ``bound``: a plan costs no other sum."""
    least = math.ceil(bound - 1e-6 * max(1.0, abs(bound)))
    if least <= 0:
        return 0
    prices = sorted({b.price for b in boards if b.count != 0 and b.price > 0})
    if not prices:
        return least
    unit = math.gcd(*prices)
    least = -(-least // unit) * unit
    top = least + prices[0]
    if top // unit > _MOST_SUM:
        return least
    reach, full = 1, (1 << (top // unit + 1)) - 1
    for price in prices:
        counts = [b.count for b in boards if b.price == price and b.count != 0]
        most = sum(c for c in counts if c is not None) if None not in counts else top // price + 1
        step, power = price // unit, 1
        while most > 0:
            times = min(power, most)
            reach |= (reach << (step * times)) & full
            most -= times
            power *= 2
    reach >>= least // unit
    if not reach:
        return least
    return least + ((reach & -reach).bit_length() - 1) * unit
