"""The build-up behind a price, for the shop alone: what is spent, what is added, what is left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..job import Job
from ..labour import DELIVERY, Labour
from ..money import Money, total
from ..shop import Shop
from .costs import Cost, summed
from .lines import distance_fee, included_rate, sold_for
from .model import CostLine, PriceLine


def spent_on(costs: Sequence[Cost], away: Cost, job: Job, lines: Sequence[PriceLine], shop: Shop) -> Money:
    """Cost of the job; extras and the distance fee count as spent in full, so they add no margin."""
    rules = shop.prices
    taxed, untaxed = (total((line.amount for line in lines if line.kind == "extra" and line.taxed is taxed),
                            rules.currency) for taxed in (True, False))
    return (summed(costs, rules.currency).whole + away.whole + untaxed + taxed.over(1 + included_rate(rules))
            + distance_fee(job.delivery.distance_km, rules))


def build_up(costs: Sequence[Cost], away: Cost, labour: Labour, lines: Sequence[PriceLine], net: Money,
              spent: Money, shop: Shop) -> Iterator[CostLine]:
    """The rows behind the price, without tax: cost of the items, uplift and the other lines make the net."""
    rules, whole = shop.prices, summed(costs, shop.prices.currency)
    yield from _cost_rows(whole, labour, shop)
    sold = total((sold_for(cost.whole, rules) for cost in costs), rules.currency)
    of = "price" if rules.uplift == "margin" else "cost"
    yield CostLine(rules.uplift.capitalize(), sold - whole.whole,
                   f"{float(rules.uplift_rate):.1%} of the {of}")
    for line in (line for line in lines if line.kind != "item"):
        amount = line.amount.over(1 + included_rate(rules)) if line.taxed else line.amount
        sold += amount
        yield CostLine(line.text, amount, f"line of the quote ({line.kind}), without tax")
    if (net - sold).minor:
        yield CostLine("Cents", net - sold, "whole minor units of each piece and of the tax")
    yield CostLine("Net", net, "cost of the items, uplift and the rows after it")
    yield CostLine("Work at the customer's", away.whole, "cost of the hours on the delivery line")
    yield CostLine("Spent", spent, "cost of items and delivery; extras and distance fee in full")
    yield CostLine("Left", net - spent, "net less spent")


def _cost_rows(whole: Cost, labour: Labour, shop: Shop) -> Iterator[CostLine]:
    rules = shop.prices
    hours = sum(o.minutes for o in labour.operations if o.standard not in DELIVERY) / 60
    yield CostLine("Boards, sheets and rolls", whole.stock, "whole boards with spares, by the cutting plan")
    yield CostLine("Hardware and consumables", whole.hardware, "whole packs")
    yield CostLine("Handling of materials", whole.handling, f"{float(rules.material_handling):.1%} on both")
    yield CostLine("Labour", whole.labour, f"{hours:.2f} h without those on the delivery line, at "
                                           f"{rules.labour_rate.text()} an hour")
    yield CostLine("Overhead", whole.overhead, f"the same hours at {rules.overhead_per_hour.text()}")
    yield CostLine("Cost of the items", whole.whole, "sum of the rows above")
