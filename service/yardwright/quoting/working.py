"""The working of each quoted figure: rule, numbers put in, result, source. Costs only for the shop."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..domain import measure
from ..domain.cutting.model import CuttingGroup, StockLineBought
from ..domain.hardware import HardwareLine
from ..domain.job import Job
from ..domain.labour import SITE, Labour
from ..domain.money import Money, total
from ..domain.pricing import Price
from ..domain.quote import QuotedItem, Working
from ..domain.shop import Shop

SHOP_DATA = "the shop's own figures"


def working_of(job: Job, items: Sequence[QuotedItem], stock: Sequence[StockLineBought],
               groups: Sequence[CuttingGroup], goods: Sequence[HardwareLine], hours: Labour, price: Price,
               shop: Shop) -> tuple[Working, ...]:
    """Every figure of the quote with how it arose, in the order of the paper."""
    return (
        *(row for item in items for row in _item(item, job, shop)), *_stock(stock, shop),
        *_cutting(groups, shop), *_goods(goods, shop), *_hours(hours, shop), *_price(price))


def _item(item: QuotedItem, job: Job, shop: Shop) -> Iterator[Working]:
    writer, name = measure.Writer(job.units), item.piece.template.name
    size = " x ".join(writer.length(nm) for nm in item.overall_nm().values())
    asked = ", ".join(f"{key.replace('_', ' ')} {writer.length(nm)}"
                      for key, nm in item.piece.used_nm.items())
    template = f"template {item.piece.template.id}, revision {item.piece.template.revision}"
    yield Working(f"Overall size of {name}", "extent of all placed members, closed, from the ground", asked,
                  size, template, customer=True)
    yield Working(f"Weight of {name}", "volume x density at 12 % moisture over all members, and the hardware",
                  f"{_masses(item)}; hardware {item.mass_kg - item.piece.mass_kg:.2f} kg",
                  f"{item.mass_kg:.1f} kg", _density_source(item, shop), customer=True)
    yield Working(f"Weight of {name} on delivery", "boards x (100 + moisture as sold) / 112; dry is 19 % "
                  "at most", f"{item.piece.mass_kg:.1f} kg at 12 %", f"{item.delivered_kg:.1f} kg",
                  "Wood Handbook (FPL-GTR-190) ch. 4 (memory); PS 20 (seen)", customer=True)
    yield Working(f"Hours for {name}", "minutes of its operations, set-up shared with the other items",
                  f"{item.quantity} off", f"{item.hours:.2f} h", SHOP_DATA)
    yield Working(f"Price of {name}", "its stock, hardware, hours and overhead, then the shop's uplift",
                  f"{item.quantity} off", _said(item.price), SHOP_DATA)


def _masses(item: QuotedItem) -> str:
    by_timber: dict[tuple[str, float], float] = {}
    for member in item.piece.members:
        key = (member.timber or member.section, member.density_kg_m3)
        by_timber[key] = by_timber.get(key, 0.0) + member.volume_mm3 * 1e-9
    return "; ".join(f"{name}: {m3:.4f} m3 x {density:.0f} kg/m3"
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


def _price(price: Price) -> Iterator[Working]:
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
    yield Working("Deposit", "the shop's share of the total", _said(price.total), _said(price.deposit),
                  SHOP_DATA, customer=True)


def _said(amount: Money) -> str:
    return f"{amount.text()} {amount.currency}"
