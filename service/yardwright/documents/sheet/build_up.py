"""What the price is made of: the build-up, each item's costs, the customer's lines, and every working."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, Spacer

from yardwright.domain.money import Money
from yardwright.domain.pricing import ItemCost, Price
from yardwright.domain.quote import Working

from ..pages.tables import ruled, section
from ..pages.words import (
    BODY,
    FAINT,
    RIGHT,
    RIGHT_SMALL,
    RIGHT_STRONG,
    SMALL,
    STRONG,
    amount,
    para,
    percent,
)

_SUMS = ("Cost of the items", "Net", "Spent", "Left")


def build_up(price: Price, names: Sequence[str], width: float) -> list[Flowable]:
    """Costs, overhead and margin behind the net; then what the customer sees."""
    rows = [[[para(line.name, STRONG if line.name in _SUMS else BODY), para(line.working, FAINT)],
             _money(line.amount, RIGHT_STRONG if line.name in _SUMS else RIGHT)] for line in price.build_up]
    margin = f"Margin {price.margin_share * 100:.1f} % of the net price"
    story: list[Flowable] = [*section("Price build-up"),
                             ruled(("", f"Amount, {price.currency}"), rows, (width - 90, 90), right=(1,)),
                             Spacer(0, 3), para(margin, STRONG), Spacer(0, 8)]
    if price.items:
        story += [_item_costs(price.items, names, width), Spacer(0, 8)]
    return [*story, _lines(price, width)]


def _money(value: Money, style: ParagraphStyle = RIGHT) -> Flowable:
    return para(amount(value.text(), value.currency), style)


def _item_costs(items: Sequence[ItemCost], names: Sequence[str], width: float) -> Flowable:
    def cells(cost: ItemCost) -> list[Flowable]:
        handling = cost.handling or Money(0, cost.cost.currency)
        return [para(amount(v.text(), v.currency), RIGHT_SMALL) for v in
                (cost.stock, cost.hardware, handling, cost.labour, cost.overhead, cost.cost, cost.price)]

    each = 58.0
    return ruled(("Item", "Stock", "Hardware", "Handling", "Labour", "Overhead", "Cost", "Price"),
                 [[para(name, SMALL), *cells(cost)] for name, cost in zip(names, items, strict=True)],
                 (width - 7 * each, *[each] * 7), right=range(1, 8))


def _lines(price: Price, width: float) -> Flowable:
    rows: list[list[Flowable]] = [[para(line.text, BODY), para(line.quantity, RIGHT), _money(line.unit),
                                   _money(line.amount)] for line in price.lines]
    blank = para("")
    rows.append([para("Net", BODY), blank, blank, _money(price.net)])
    rows += [[para(f"{t.name} {percent(t.rate)}" + (", inside the prices" if t.included else ""), BODY),
              blank, _money(t.base), _money(t.amount)] for t in price.tax]
    rows.append([para("Total", STRONG), blank, blank,
                 para(amount(price.total.text(), price.currency), RIGHT_STRONG)])
    rows.append([para("Deposit", BODY), blank, blank, _money(price.deposit)])
    return ruled(("As the customer sees it", "Number", "Each", "Amount"), rows,
                 (width - 220, 50, 80, 90), right=(1, 2, 3))


def workings(found: Sequence[Working], width: float) -> list[Flowable]:
    """How each figure arose: rule, numbers put in, result, source."""
    if not found:
        return []
    rows = [[para(w.what, SMALL), para(w.result, SMALL),
             para("; ".join(t for t in (w.rule, w.numbers, w.source) if t), FAINT)] for w in found]
    return [*section("How the figures arose"),
            ruled(("Figure", "Result", "Rule, numbers, source"), rows,
                  (width * 0.25, width * 0.17, width * 0.58))]
