"""Price: from stock, hardware and hours to lines, tax, total and deposit. Margin is never markup.

    item cost = its share of the boards and packs bought, handling on both, its hours at wage and overhead
    net price = cost / (1 - margin)  or  cost x (1 + markup), rounded up to the minor unit
    lines     = items, extras, delivery, discount, and what rounds the sum up to the shop's multiple
    total     = the lines and the tax that is added; the deposit is a share of it

Lines always add up to the total exactly. Amounts are rounded up while they build the price and by the
shop's rule for tax, discount and deposit.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from ..cutting.model import CuttingGroup, StockLineBought
from ..finding import Finding, Level
from ..fit import SiteWork
from ..hardware import HardwareLine
from ..job import Job
from ..labour import Labour
from ..money import total
from ..parts import Part
from ..piece.model import Piece
from ..shop import Shop
from .build_up import build_up, spent_on
from .costs import Cost, delivery_cost, item_costs
from .lines import (
    delivery_line,
    discount_lines,
    extra_lines,
    item_line,
    rounding_line,
    setting_words,
    sold_for,
)
from .model import CostLine, ItemCost, Price, PriceLine, TaxLine
from .tax import taxes

__all__ = ["CostLine", "ItemCost", "Price", "PriceLine", "TaxLine", "price", "warnings"]


def price(job: Job, pieces: Sequence[tuple[Piece, int]], parts: Sequence[Part],
          stock: Sequence[StockLineBought], groups: Sequence[CuttingGroup], hardware: Sequence[HardwareLine],
          labour: Labour, shop: Shop, on_site: Sequence[SiteWork] = ()) -> Price:
    """The price of the whole job. Raises BadJob for a discount or an extra that cannot be.

    ``on_site`` is what a piece of each item takes at the customer's: the delivery line says it in words.
    """
    rules = shop.prices
    costs = item_costs(len(pieces), parts, stock, groups, hardware, labour, rules)
    nets = [sold_for(cost.whole, rules) for cost in costs]
    items = [item_line(piece, quantity, net, job, shop)
             for (piece, quantity), net in zip(pieces, nets, strict=True)]
    away = delivery_cost(labour, rules)
    done = [*(setting_words([p for p, _ in pieces]) if job.delivery.install else ()), *_said(on_site)]
    lines = [*items, *extra_lines(job, rules), *delivery_line(job, away.whole, done, rules)]
    lines += discount_lines(job, lines, rules)
    lines += rounding_line(lines, rules)
    tax = taxes(lines, _material_shares(lines, costs), rules)
    shown_sum = total((line.amount for line in lines), rules.currency)
    net = shown_sum - total((t.amount for t in tax if t.included), rules.currency)
    whole = shown_sum + total((t.amount for t in tax if not t.included), rules.currency)
    spent = spent_on(costs, away, job, lines, shop)
    return Price(
        rules.currency, tuple(lines), net, tax, whole, whole.scaled(rules.deposit, rules.rounding),
        tuple(ItemCost(c.stock, c.hardware, c.labour, c.overhead, c.whole, line.amount, c.handling, sold)
              for c, line, sold in zip(costs, items, nets, strict=True)),
        tuple(build_up(costs, away, labour, lines, net, spent, shop)),
        (net.minor - spent.minor) / net.minor if net.minor else 0.0)


def warnings(price: Price, shop: Shop) -> tuple[Finding, ...]:
    """Caution to the shop alone when the job is sold below its cost or below the margin the shop asks for."""
    cost = price.net.scaled(Decimal(1) - Decimal(str(round(price.margin_share, 9))))
    asked = _asked_margin(shop)
    if price.margin_share < 0:
        return (Finding("below cost", Level.CAUTION, "Sold below cost",
                        "The job costs the shop more than it brings in.",
                        f"{price.net.text()} {price.currency} net", f"{cost.text()} {price.currency} cost",
                        "the shop's prices and rates", "Take back the discount or raise the price.",
                        f"{price.net.text()} − {cost.text()}", customer=False),)
    if price.margin_share < asked - 5e-4 and any(line.kind == "discount" for line in price.lines):
        return (Finding("thin margin", Level.NOTE, "Less margin than the shop asks for",
                        "The discount eats into the margin.", f"{price.margin_share:.1%}", f"{asked:.1%}",
                        "the shop's margin", "Take back part of the discount.",
                        f"({price.net.text()} net − {cost.text()} cost) / net = {price.margin_share:.1%}",
                        customer=False),)
    return ()


def _said(on_site: Sequence[SiteWork]) -> list[str]:
    """The work at the customer's in words, each once."""
    return list(dict.fromkeys(words for work in on_site for words in work.words))


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
