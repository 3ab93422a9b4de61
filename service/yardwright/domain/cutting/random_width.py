"""Hardwood of random width, sold by volume: no cutting plan can be promised, so the answer is an estimate.

The boards come as they come. The parts are laid out on boards of the usual width the list names, for the
shop's time; what is bought is the parts' volume divided by the shop's share of such wood that becomes parts.
A yield divides: 48 board feet at a yield of 0.75 are 64; a waste factor of 25 % would make it 60.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ..finding import Finding, Level
from ..market import BoardStock, Figure
from ..money import Money
from .model import CutRules, CuttingPlan, StockLine, StockLineBought


def usual_board(board: BoardStock, rules: CutRules) -> StockLine:
    """The board as laid out: wide enough that a part as wide as usual still has both its edges ripped."""
    wide = board.width_nm + 2 * max(rules.edge_trim_nm, rules.rip_kerf_nm)
    return StockLine(board.code, board.length_nm, wide, board.price.minor, "board", board.count)


def plannable(sold: Sequence[BoardStock]) -> list[BoardStock]:
    """Boards of known width where the yard has any number of one; random widths only where it has not."""
    fixed = [board for board in sold if not board.random_width]
    return fixed if any(board.count is None for board in fixed) else list(sold)


def as_estimate(plan: CuttingPlan, stock: Sequence[object]) -> CuttingPlan:
    """The plan, claiming nothing where it lays out random widths: other boards come than those laid out."""
    random = {b.code for b in stock if isinstance(b, BoardStock) and b.random_width}
    if random.isdisjoint(p.code for p in plan.purchases):
        return plan
    return replace(plan, status="estimate", lower_bound=0, stopped="")


def estimated(board: BoardStock, plan: CuttingPlan, count: int, yields: Figure) -> tuple[Money, str]:
    """What to pay for, and how it was reckoned: never less than the boards laid out.

    ``yields``: the shop's share of such wood that becomes parts.
    """
    laid = [layout for layout in plan.layouts if layout.code == board.code]
    share = sum(p.length_nm * p.width_nm for one in laid for p in one.parts)
    net = board.measure * share / (board.length_nm * board.width_nm)
    gross = max(net / yields.value, board.measure * count)
    rate = board.rate or board.price
    amount = Money(math.ceil(rate.minor * gross - 1e-6), rate.currency)
    how = (
        f"yield {yields.value:g}, {yields.status}: {net:.3g} / {yields.value:g} = {net / yields.value:.3g}"
        if net / yields.value >= board.measure * count
        else f"the {count} boards laid out hold {gross:.3g}, more than {net:.3g} / {yields.value:g}"
    )
    return amount, (
        f"estimate, random width: parts {net:.3g} {board.sold_by}, {how}; "
        f"{gross:.3g} {board.sold_by} at {rate.text()}"
    )


def estimate_findings(bought: Sequence[StockLineBought], yields: Figure) -> tuple[Finding, ...]:
    """A note for each line whose amount is an estimate; the workshop's, not the customer's."""
    return tuple(
        Finding(
            "random-width-estimate",
            Level.NOTE,
            f"The wood of {line.stock.code} is an estimate",
            "It is sold in random widths by volume: the boards that come differ from those laid out. Count "
            "them when they arrive, and lay the parts out anew before the first cut.",
            measured=line.amount.text(),
            source=f"yield {yields.value:g}: {yields.source} ({yields.status})",
            working=line.working,
            customer=False,
        )
        for line in bought
        if isinstance(line.stock, BoardStock) and line.stock.random_width
    )
