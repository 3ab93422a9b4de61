"""A plan's sums: purchases by stock line, cost against bound, the share of wood that is used."""

from __future__ import annotations

from collections.abc import Sequence

from .model import CutRules, CuttingPlan, Layout, Purchase
from .objective import extra_cost, is_charged


def tally(laid: Sequence[Layout], bound: int, stopped: str, rules: CutRules) -> CuttingPlan:
    """The plan as the shop reads it. A bound above what was found is the cost itself: it was proven."""
    bought: dict[str, list[int]] = {}
    for layout in laid:
        line = bought.setdefault(layout.code, [0, 0])
        line[0] += 1
        line[1] += layout.price
    boards_cost = sum(layout.price for layout in laid)
    area = sum(layout.length_nm * layout.width_nm for layout in laid)
    used = sum(p.length_nm * p.width_nm for layout in laid for p in layout.parts)
    cost = boards_cost + (round(extra_cost(laid, rules)) if is_charged(rules) else 0)
    bound = min(bound, cost)
    return CuttingPlan(
        status="optimal" if bound == cost else "bounded",
        cost=cost,
        boards_cost=boards_cost,
        lower_bound=bound,
        yield_share=used / area if area else 1.0,
        layouts=tuple(laid),
        purchases=tuple(Purchase(code, n, amount) for code, (n, amount) in bought.items()),
        stopped=stopped if bound != cost else "",
    )
