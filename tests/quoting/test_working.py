"""The working of a price holds its numbers: put in again by hand, they give what is quoted."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

import pytest

from yardwright import quoting
from yardwright.domain.job import Customer, Delivery, Item, Job
from yardwright.domain.measure import FOOT, INCH
from yardwright.domain.quote import Quote
from yardwright.domain.shop import Shop
from yardwright.domain.site import Site

CENT = Decimal("0.01")


def quoted(shop: Shop, units: str, km: float) -> Quote:
    bench = Item("storage-bench", {"length": 44 * INCH}, {}, quantity=3)
    return quoting.make_quote(Job("T-1", units, date(2026, 11, 25), Customer(), Site(),
                                  (bench, Item("planter-box", {"length": 4 * FOOT}, {})),
                                  delivery=Delivery(km, install=True)), shop)


@pytest.fixture(scope="module", params=["in", "mm"])
def quote(request: pytest.FixtureRequest, demo_shop: Shop, demo_shop_metric: Shop) -> tuple[Quote, Shop]:
    shop = demo_shop if request.param == "in" else demo_shop_metric
    return quoted(shop, request.param, 60.0), shop


def working(quote: Quote, what: str) -> tuple[str, Decimal]:
    (row,) = (row for row in quote.working if row.what == what)
    return row.numbers, Decimal(row.result.split()[0])


def uplifted(text: str) -> Decimal:
    """``1825.45 / (1 - 0.20)`` or ``... x (1 + 0.25)``, with ``x 1.20`` for the tax inside."""
    found = re.fullmatch(r"([\d.]+) (?:/ \(1 - ([\d.]+)\)|x \(1 \+ ([\d.]+)\))(?: x ([\d.]+))?", text)
    assert found, text
    cost, margin, markup, inside = (Decimal(group or 0) for group in found.groups())
    net = (cost / (1 - margin) * (1 + markup)).quantize(CENT, ROUND_CEILING)
    return (net * (inside or 1)).quantize(CENT, ROUND_CEILING)


def test_the_weight_on_delivery_comes_out_of_its_own_numbers(quote: tuple[Quote, Shop]) -> None:
    """Boards at 12 % × (100 + moisture) / 112 (Wood Handbook ch. 4; memory); a lining weighs what it does."""
    for item in quote[0].items:
        what = f"Weight of {item.piece.template.name} on delivery"
        (row,) = (r for r in quote[0].working if r.what == what)
        total = 0.0
        for part in row.numbers.split("; "):
            kg = float(re.findall(r"([\d.e-]+) kg", part)[-1])
            wet = re.search(r"x \(100 \+ ([\d.]+)\) / 112", part)
            total += kg * (100 + float(wet.group(1))) / 112 if wet else kg
        said = float(re.findall(r"([\d.]+) kg", row.result)[-1])
        assert total == pytest.approx(said, abs=0.02), row.numbers
        assert total == pytest.approx(item.delivered_kg, abs=0.02)


def test_an_items_price_is_its_costs_its_uplift_and_each_piece_rounded_up(quote: tuple[Quote, Shop]) -> None:
    for item in quote[0].items:
        numbers, result = working(quote[0], f"Price of {item.piece.template.name}")
        costs, sold, off = numbers.split("; ")
        parts, whole = costs.split(" = ")
        assert sum(Decimal(part) for part in parts.split(" + ")) == Decimal(whole)
        each = (uplifted(sold) / Decimal(off.split()[0])).quantize(CENT, ROUND_CEILING)
        assert each * item.quantity == result == Decimal(item.price.text())


def test_delivery_is_the_hours_there_and_the_way_beyond_what_is_free(quote: tuple[Quote, Shop]) -> None:
    numbers, result = working(quote[0], "Delivery")
    hours, way = numbers.split("; ")
    rules = quote[1].prices
    away = uplifted(re.sub(r" x 1\.\d+$", "", hours.split(": ")[1]))
    beyond = Decimal(str(60.0 - rules.delivery_free_km))
    fee = max(Decimal(rules.delivery_least.text()), Decimal(rules.delivery_per_km.text()) * beyond)
    assert Decimal(way.split(": ")[1].split()[0]) == fee.quantize(CENT, ROUND_CEILING)
    inside = sum((Decimal(tax.rate) for tax in rules.tax if tax.included), Decimal(1))
    assert result == ((away + fee.quantize(CENT, ROUND_CEILING)) * inside).quantize(CENT, ROUND_CEILING)


def test_the_deposit_says_its_share(quote: tuple[Quote, Shop]) -> None:
    numbers, result = working(quote[0], "Deposit")
    whole, share = (Decimal(part) for part in numbers.split(" x "))
    assert (whole * share).quantize(CENT, ROUND_HALF_UP) == result


def test_a_job_of_inches_is_worked_in_feet_and_gallons(demo_shop: Shop) -> None:
    told = [row.numbers for row in quoted(demo_shop, "in", 30.0).working]
    assert not [text for text in told if re.search(r"\b(m|m2|m3|L/m2|m2/L|N m|kg/m3)\b", text)]
    metric = [row.numbers for row in quoted(replace(demo_shop, units="in"), "mm", 30.0).working]
    assert not [text for text in metric if re.search(r"\b(ft|ft2|gal|lb|mi)\b", text)]
