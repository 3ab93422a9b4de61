"""The working of each quoted figure: rule, numbers put in, result, source. Costs only for the shop."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..domain import hardware, measure
from ..domain.cutting.model import CuttingGroup, StockLineBought
from ..domain.hardware import HardwareLine
from ..domain.job import Job
from ..domain.labour import DELIVERY, SITE, Labour
from ..domain.money import Money, total
from ..domain.pricing import Price
from ..domain.pricing.costs import delivery_cost
from ..domain.pricing.lines import distance_fee, included_rate
from ..domain.quote import QuotedItem, Working
from ..domain.shop import Shop

SHOP_DATA = "the shop's own figures"


def working_of(job: Job, items: Sequence[QuotedItem], stock: Sequence[StockLineBought],
               groups: Sequence[CuttingGroup], goods: Sequence[HardwareLine], hours: Labour, price: Price,
               shop: Shop) -> tuple[Working, ...]:
    """Every figure of the quote with how it arose, in the order of the paper."""
    return (
        *(row for item in items for row in _item(item, job, shop)), *_stock(stock, shop),
        *_cutting(groups, shop), *_goods(goods, shop), *_hours(hours, shop),
        *_item_prices(items, price, shop), *_delivery(job, price, hours, shop), *_price(price, shop))


def _item(item: QuotedItem, job: Job, shop: Shop) -> Iterator[Working]:
    writer, name = measure.Writer(job.units), item.piece.template.name
    size = " x ".join(writer.length(nm) for nm in item.overall_nm().values())
    asked = ", ".join(f"{key.replace('_', ' ')} {writer.length(nm)}"
                      for key, nm in item.piece.used_nm.items())
    template = f"template {item.piece.template.id}, revision {item.piece.template.revision}"
    yield Working(f"Overall size of {name}", "extent of all placed members, closed, from the ground", asked,
                  size, template, customer=True)
    yield Working(f"Weight of {name}", "volume x density at 12 % moisture over all members, and the hardware",
                  f"{_masses(item, job.units)}; hardware "
                  f"{measure.say_amount(item.mass_kg - item.piece.mass_kg, 'kg', job.units, 3)}",
                  measure.say_amount(item.mass_kg, "kg", job.units), _density_source(item, shop),
                  customer=True)
    yield Working(f"Weight of {name} on delivery", "boards x (100 + moisture as sold) / 112, dry is 19 % "
                  "at most; all else as it is", _delivered(item, job.units, shop),
                  measure.say_amount(item.delivered_kg, "kg", job.units),
                  "Wood Handbook (FPL-GTR-190) ch. 4 (memory); PS 20 (seen)", customer=True)
    yield Working(f"Hours for {name}", "minutes of its operations, set-up shared with the other items",
                  f"{item.quantity} off", f"{item.hours:.2f} h", SHOP_DATA)


def _delivered(item: QuotedItem, units: str, shop: Shop) -> str:
    boards = hardware.boards_kg(item.piece, shop)
    said = [f"{timber}: {measure.say_amount(kg, 'kg', units, 5)} at 12 % x (100 + {pct:g}) / 112"
            for (timber, pct), kg in boards.items()]
    for name, kg in (("linings and sheets", item.piece.mass_kg - sum(boards.values())),
                     ("hardware", item.mass_kg - item.piece.mass_kg)):
        said += [f"{name} {measure.say_amount(kg, 'kg', units, 3)}"] if kg > 1e-6 else []
    return "; ".join(said)


def _masses(item: QuotedItem, units: str) -> str:
    by_timber: dict[tuple[str, float], float] = {}
    for member in item.piece.members:
        key = (member.timber or member.section, member.density_kg_m3)
        by_timber[key] = by_timber.get(key, 0.0) + member.volume_mm3 * 1e-9
    say = measure.say_amount
    return "; ".join(f"{name}: {say(m3, 'm3', units)} x {say(density, 'kg/m3', units)}"
                     for (name, density), m3 in by_timber.items())


def _density_source(item: QuotedItem, shop: Shop) -> str:
    timbers = {member.timber for member in item.piece.members} & set(shop.market.timbers)
    figures = [shop.market.timbers[timber].figures.get("density_kg_m3") for timber in sorted(timbers)]
    return "; ".join(dict.fromkeys(f"{figure.source} ({figure.status})" for figure in figures if figure))


def _stock(stock: Sequence[StockLineBought], shop: Shop) -> Iterator[Working]:
    for line in stock:
        yield Working(f"Stock {line.stock.code}", "the cutting plan's boards, spares for defects, list price",
                      line.working, f"{line.count} for {_said(line.amount)}",
                      f"price list of {shop.market.as_of}")


def _cutting(groups: Sequence[CuttingGroup], shop: Shop) -> Iterator[Working]:
    for group in groups:
        plan = group.plan
        cost, bound = (Money(minor, shop.prices.currency) for minor in (plan.cost, plan.lower_bound))
        known = ("boards of random width laid out as if all had the usual one" if plan.status == "estimate"
                 else f"no plan costs less than {_said(bound)}")
        weighed = ("" if shop.prices.cut_prices is None or plan.cost == plan.boards_cost else
                   f", cuts and kept offcuts at the shop's worth (in no price): {_said(cost)}")
        boards = Money(plan.boards_cost, shop.prices.currency)
        yield Working(f"Cutting {group.name}", "cheapest boards that hold every part, kerfs and trims",
                      f"{len(plan.layouts)} layouts, {plan.yield_share:.0%} used, {known}{weighed}",
                      _said(boards), f"cutting plan, {plan.status}")


def _goods(goods: Sequence[HardwareLine], shop: Shop) -> Iterator[Working]:
    for line in goods:
        yield Working(line.goods.name, "need of joints, surfaces, fittings, the shop's spare, whole packs",
                      line.working, f"{line.packs} for {_said(line.goods.price.times(line.packs))}",
                      f"price list of {shop.market.as_of}")


def _hours(hours: Labour, shop: Shop) -> Iterator[Working]:
    for operation in hours.operations:
        standard = shop.times.get(operation.standard)
        source = f"{standard.source} ({standard.status})" if standard else ""
        yield Working(operation.name, "set-up once, then count x time each, with the allowance",
                      operation.working, f"{operation.minutes:.1f} min", source,
                      customer=operation.standard in SITE)
    yield Working("Hours in all", "sum of the operations", hours.working, f"{hours.hours:.2f} h", SHOP_DATA,
                  customer=True)


def _item_prices(items: Sequence[QuotedItem], price: Price, shop: Shop) -> Iterator[Working]:
    for item, cost in zip(items, price.items, strict=True):
        kinds = (cost.stock, cost.hardware, cost.handling, cost.labour, cost.overhead)
        spent = " + ".join(amount.text() for amount in kinds if amount is not None)
        yield Working(f"Price of {item.piece.template.name}",
                      "its stock, hardware, handling, labour and overhead, then the uplift; cents up a piece",
                      f"{spent} = {cost.cost.text()}; {_sold(cost.cost, shop)}; {item.quantity} off",
                      _said(item.price), SHOP_DATA)


def _sold(cost: Money, shop: Shop) -> str:
    """How a cost becomes what the customer pays: the uplift, and the tax where shown prices hold it."""
    rules = shop.prices
    sum_ = f"/ (1 - {rules.uplift_rate})" if rules.uplift == "margin" else f"x (1 + {rules.uplift_rate})"
    inside = included_rate(rules)
    return f"{cost.text()} {sum_}" + (f" x {1 + inside}" if inside else "")


def _delivery(job: Job, price: Price, hours: Labour, shop: Shop) -> Iterator[Working]:
    """The delivery line from the hours at the customer's and the fee for the distance beyond what is free."""
    line = next((line for line in price.lines if line.kind == "delivery"), None)
    if line is None:
        return
    rules, away = shop.prices, delivery_cost(hours, shop.prices)
    minutes = sum(o.minutes for o in hours.operations if o.standard in DELIVERY)
    fee = distance_fee(job.delivery.distance_km, rules)
    beyond = max(0.0, job.delivery.distance_km - rules.delivery_free_km)
    way = measure.say_amount(beyond, "km", job.units)
    least, inside = f", least {rules.delivery_least.text()}" if beyond else "", included_rate(rules)
    yield Working("Delivery", "hours there at wage and overhead, then the uplift; km beyond what is free, no "
                  "less than the least fee",
                  f"{minutes / 60:.2f} h: {_sold(away.whole, shop)}; {way} x "
                  f"{rules.delivery_per_km.text()} a km{least}: {fee.text()}"
                  + (f" x {1 + inside}" if inside else ""), _said(line.amount), SHOP_DATA)


def _price(price: Price, shop: Shop) -> Iterator[Working]:
    for row in price.build_up:
        yield Working(row.name, "build-up of the price", row.working, _said(row.amount), SHOP_DATA)
    lines = total((line.amount for line in price.lines), price.currency)
    yield Working("Lines", "sum of the lines", " + ".join(line.amount.text() for line in price.lines),
                  _said(lines), SHOP_DATA, customer=True)
    for tax in price.tax:
        rule = "tax inside the amount: base x rate" if tax.included else "base x rate, rounded once"
        yield Working(tax.name, rule, f"{tax.base.text()} x {tax.rate}", _said(tax.amount), SHOP_DATA,
                      customer=True)
    yield Working("Total", "lines and the tax that is not inside them", f"net {price.net.text()}",
                  _said(price.total), SHOP_DATA, customer=True)
    yield Working("Deposit", "the shop's share of the total", f"{price.total.text()} x {shop.prices.deposit}",
                  _said(price.deposit), SHOP_DATA, customer=True)


def _said(amount: Money) -> str:
    return f"{amount.text()} {amount.currency}"
