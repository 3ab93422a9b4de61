"""Price: from stock, hardware and hours to lines, tax, total and deposit. Margin is never markup.

    item cost = its share of the boards and packs bought, handling on both, its hours at wage and overhead
    net price = cost / (1 - margin)  or  cost x (1 + markup), rounded up to the minor unit
    lines     = items, extras, delivery, discount, and what rounds the sum up to the shop's multiple
    total     = the lines and the tax that is added; the deposit is a share of it

Lines always add up to the total exactly. Amounts are rounded up while they build the price and by the
shop's rule for tax, discount and deposit.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from ..cutting.model import CuttingGroup, StockLineBought
from ..finding import Finding, Level
from ..hardware import HardwareLine
from ..job import Job
from ..labour import DELIVERY, Labour
from ..money import Money, total
from ..parts import Part
from ..piece.model import Piece
from ..shop import Shop
from .costs import Cost, delivery_cost, item_costs, summed
from .lines import (
    delivery_line,
    discount_lines,
    distance_fee,
    extra_lines,
    included_rate,
    item_line,
    rounding_line,
    sold_for,
)
from .model import CostLine, ItemCost, Price, PriceLine, TaxLine
from .tax import taxes

__all__ = ["CostLine", "ItemCost", "Price", "PriceLine", "TaxLine", "price", "warnings"]


def price(job: Job, pieces: Sequence[tuple[Piece, int]], parts: Sequence[Part],
          stock: Sequence[StockLineBought], groups: Sequence[CuttingGroup], hardware: Sequence[HardwareLine],
          labour: Labour, shop: Shop) -> Price:
    """The price of the whole job. Raises BadJob for a discount or an extra that cannot be."""
    rules = shop.prices
    costs = item_costs(len(pieces), parts, stock, groups, hardware, labour, rules)
    nets = [sold_for(cost.whole, rules) for cost in costs]
    items = [item_line(piece, quantity, net, job, shop)
             for (piece, quantity), net in zip(pieces, nets, strict=True)]
    away = delivery_cost(labour, rules)
    lines = [*items, *extra_lines(job, rules), *delivery_line(job, away.whole, rules)]
    lines += discount_lines(job, lines, rules)
    lines += rounding_line(lines, rules)
    tax = taxes(lines, _material_shares(lines, costs), rules)
    shown_sum = total((line.amount for line in lines), rules.currency)
    net = shown_sum - total((t.amount for t in tax if t.included), rules.currency)
    whole = shown_sum + total((t.amount for t in tax if not t.included), rules.currency)
    spent = _spent(costs, away, job, lines, shop)
    return Price(
        rules.currency, tuple(lines), net, tax, whole, whole.scaled(rules.deposit, rules.rounding),
        tuple(ItemCost(c.stock, c.hardware, c.labour, c.overhead, c.whole, line.amount, c.handling, sold)
              for c, line, sold in zip(costs, items, nets, strict=True)),
        tuple(_build_up(costs, away, labour, lines, net, spent, shop)),
        (net.minor - spent.minor) / net.minor if net.minor else 0.0)


def warnings(price: Price, shop: Shop) -> tuple[Finding, ...]:
    """Caution to the shop alone when the job is sold below its cost or below the margin the shop asks for."""
    cost = price.net.scaled(Decimal(1) - Decimal(str(round(price.margin_share, 9))))
    asked = _asked_margin(shop)
    if price.margin_share < 0:
        return (Finding("below cost", Level.CAUTION, "Sold below cost",
                        "The job costs the shop more than it brings in.",
                        f"{price.net.text()} {price.currency} net", f"{cost.text()} {price.currency} cost",
                        mend="Take back the discount or raise the price.", customer=False),)
    if price.margin_share < asked - 5e-4 and any(line.kind == "discount" for line in price.lines):
        return (Finding("thin margin", Level.NOTE, "Less margin than the shop asks for",
                        "The discount eats into the margin.", f"{price.margin_share:.1%}", f"{asked:.1%}",
                        mend="Take back part of the discount.", customer=False),)
    return ()


def _asked_margin(shop: Shop) -> float:
    rate = float(shop.prices.uplift_rate)
    return rate if shop.prices.uplift == "margin" else rate / (1 + rate)


def _material_shares(lines: Sequence[PriceLine], costs: Sequence[Cost]) -> list[Decimal]:
    """Of each line, the share that is materials: an item's by its cost, a taxed extra whole, delivery none,
    discount and rounding as the items together."""
    shares = [Decimal(c.materials.minor) / c.whole.minor if c.whole.minor else Decimal(0) for c in costs]
    items = [line.amount.minor for line in lines if line.kind == "item"]
    mixed = (sum((a * s for a, s in zip(items, shares, strict=True)), Decimal(0)) / sum(items)
             if sum(items) else Decimal(0))
    by_kind = {"extra": Decimal(1), "delivery": Decimal(0)}
    return shares + [by_kind.get(line.kind, mixed) for line in lines[len(shares):]]


def _spent(costs: Sequence[Cost], away: Cost, job: Job, lines: Sequence[PriceLine], shop: Shop) -> Money:
    """Cost of the job; extras and the distance fee count as spent in full, so they add no margin."""
    rules = shop.prices
    taxed, untaxed = (total((line.amount for line in lines if line.kind == "extra" and line.taxed is taxed),
                            rules.currency) for taxed in (True, False))
    return (summed(costs, rules.currency).whole + away.whole + untaxed + taxed.over(1 + included_rate(rules))
            + distance_fee(job.delivery.distance_km, rules))


def _build_up(costs: Sequence[Cost], away: Cost, labour: Labour, lines: Sequence[PriceLine], net: Money,
              spent: Money, shop: Shop) -> Iterator[CostLine]:
    """The rows behind the price, from boards to net."""
    rules, whole = shop.prices, summed(costs, shop.prices.currency)
    minutes = sum(o.minutes for o in labour.operations if o.standard not in DELIVERY)
    hours = f"{minutes / 60:.2f} h without the hours on the delivery line"
    yield CostLine("Boards, sheets and rolls", whole.stock, "whole boards with spares, by the cutting plan")
    yield CostLine("Hardware and consumables", whole.hardware, "whole packs")
    yield CostLine("Handling of materials", whole.handling, f"{float(rules.material_handling):.1%} on both")
    yield CostLine("Labour", whole.labour, f"{hours}, at {rules.labour_rate.text()} an hour")
    yield CostLine("Overhead", whole.overhead, f"the same hours at {rules.overhead_per_hour.text()}")
    yield CostLine("Cost of the items", whole.whole, "sum of the rows above")
    sold = total((sold_for(cost.whole, rules) for cost in costs), rules.currency)
    yield CostLine(rules.uplift.capitalize(), sold - whole.whole,
                   f"{float(rules.uplift_rate):.1%} of the {'price' if rules.uplift == 'margin' else 'cost'}")
    yield CostLine("Work at the customer's", away.whole, "hours sold on the delivery line")
    for kind in ("extra", "delivery", "discount", "rounding"):
        for line in (line for line in lines if line.kind == kind):
            yield CostLine(line.text, line.amount, f"line of the quote ({kind})")
    yield CostLine("Net", net, "lines without tax")
    yield CostLine("Spent", spent, "cost of items and delivery; extras and distance fee in full")
    yield CostLine("Left", net - spent, "net less spent")
