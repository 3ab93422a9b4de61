"""What each item costs: stock and hardware shared by need, hours at the shop's rates."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from ..cutting.model import CuttingGroup, StockLineBought
from ..hardware import HardwareLine
from ..labour import DELIVERY, Labour
from ..money import Money, split, total
from ..parts import Part
from ..shop import PriceRules


@dataclass(frozen=True, slots=True)
class Cost:
    """The cost of one item, or of all work at the customer's."""

    stock: Money
    hardware: Money
    handling: Money
    labour: Money
    overhead: Money

    @property
    def materials(self) -> Money:
        return self.stock + self.hardware + self.handling

    @property
    def whole(self) -> Money:
        return self.materials + self.labour + self.overhead


def item_costs(items: int, parts: Sequence[Part], stock: Sequence[StockLineBought],
               groups: Sequence[CuttingGroup], hardware: Sequence[HardwareLine], labour: Labour,
               rules: PriceRules) -> tuple[Cost, ...]:
    """Every item's cost; boards, packs and hours are shared out whole, so the sums are what is paid."""
    nothing = Money(0, rules.currency)
    boards, goods = [nothing] * items, [nothing] * items
    weights = stock_weights(items, parts, groups)
    everywhere = [sum(weight[k] for weight in weights.values()) for k in range(items)]
    for line in stock:
        _add(boards, split(line.amount, weights.get(line.stock.code, everywhere)))
    for bought in hardware:
        _add(goods, split(bought.goods.price.times(bought.packs), bought.by_item))
    shop_work = [o for o in labour.operations if o.standard not in DELIVERY]
    minutes = [sum(o.by_item[k] for o in shop_work) for k in range(items)]
    return tuple(_cost(*found, rules) for found in zip(boards, goods, minutes, strict=True))


def delivery_cost(labour: Labour, rules: PriceRules) -> Cost:
    """Hours at the customer's and of further people on the way, without the vehicle."""
    nothing = Money(0, rules.currency)
    minutes = sum(o.minutes for o in labour.operations if o.standard in DELIVERY)
    return _cost(nothing, nothing, minutes, rules)


def _cost(stock: Money, hardware: Money, minutes: float, rules: PriceRules) -> Cost:
    hours = Decimal(str(round(minutes / 60, 6)))
    return Cost(stock, hardware, (stock + hardware).scaled(rules.material_handling, "up"),
                rules.labour_rate.scaled(hours, "up"), rules.overhead_per_hour.scaled(hours, "up"))


def _add(sums: list[Money], shares: Sequence[Money]) -> None:
    for k, share in enumerate(shares):
        sums[k] += share


def stock_weights(items: int, parts: Sequence[Part], groups: Sequence[CuttingGroup]
                  ) -> Mapping[str, Sequence[float]]:
    """By stock code, how much of what is bought each item takes: each board by the area of its parts."""
    owner = {part.mark: part.item for part in parts}
    weights: dict[str, list[float]] = defaultdict(lambda: [0.0] * items)
    for layout in (layout for group in groups for layout in group.plan.layouts):
        whole = sum(placed.length_nm * placed.width_nm for placed in layout.parts)
        for placed in layout.parts:
            share = placed.length_nm * placed.width_nm / whole
            weights[layout.code][owner[placed.mark]] += share * layout.price
    return weights


def summed(costs: Sequence[Cost], currency: str) -> Cost:
    """All costs together, kind by kind."""
    return Cost(*(total((getattr(cost, kind) for cost in costs), currency)
                  for kind in ("stock", "hardware", "handling", "labour", "overhead")))
