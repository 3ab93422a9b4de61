"""What is left to do at the customer's is priced, its working on the quote, where the shop goes there."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from yardwright.domain.finding import Level
from yardwright.domain.job import Customer, Delivery, Item, Job
from yardwright.domain.measure import MM
from yardwright.domain.quote import Quote
from yardwright.domain.shop import Shop
from yardwright.domain.site import Access, Ground, Site
from yardwright.quoting import make_quote

HERE = Delivery(install=True)


def asked(gate_mm: int, delivery: Delivery = HERE, **ground: float) -> Job:
    site = Site(access=(Access("gate", gate_mm * MM, 2000 * MM),), ground=Ground("paving", **ground))
    return Job("", "mm", date(2026, 11, 25), Customer(), site, (Item("lounge-chair", {}, {}),),
               delivery=delivery)


@pytest.fixture(scope="module")
def narrow(demo_shop_metric: Shop) -> Quote:
    """A lounge chair through a gate of 500 mm, on ground that falls 5 % to the front."""
    return make_quote(asked(500, fall_away=0.05), demo_shop_metric)


def line(quote: Quote) -> str:
    return next(entry.text for entry in quote.price.lines if entry.kind == "delivery")


def test_joining_and_scribing_are_on_the_delivery_line_in_words_and_money(narrow: Quote,
                                                                          demo_shop_metric: Shop) -> None:
    wide = make_quote(asked(1000), demo_shop_metric)
    assert "joined from" in line(narrow) and "2 legs scribed to the ground" in line(narrow)
    assert "joined" not in line(wide)
    more = sum(o.minutes for o in narrow.labour.operations) - sum(o.minutes for o in wide.labour.operations)
    rules = demo_shop_metric.prices
    hour = rules.labour_rate.minor + rules.overhead_per_hour.minor
    amounts = [next(entry.amount.minor for entry in q.price.lines if entry.kind == "delivery")
               for q in (narrow, wide)]
    assert more > 30 and amounts[0] - amounts[1] >= more / 60 * hour, "never sold below what the hours cost"


def test_the_customer_sees_the_working_of_the_work_on_site(narrow: Quote) -> None:
    shown = {row.what: row.numbers for row in narrow.working if row.customer}
    assert "min set-up" in shown["Scribe a leg to the ground and cut it on site"]
    assert "fastener x" in shown["Drive a fastener on site"]


def test_a_piece_that_is_collected_is_not_priced_for_work_that_the_shop_does_not_do(
        narrow: Quote, demo_shop_metric: Shop) -> None:
    collected = make_quote(replace(narrow.job, delivery=Delivery()), demo_shop_metric)
    assert not any(entry.kind == "delivery" for entry in collected.price.lines)
    assert any("where delivery or installing is" in f.detail for f in collected.items[0].findings)


def test_legs_to_be_scribed_are_cut_longer_by_the_fall(narrow: Quote, demo_shop_metric: Shop) -> None:
    level = make_quote(replace(narrow.job, site=replace(narrow.job.site, ground=Ground("paving"))),
                       demo_shop_metric)
    before = {p.keys: p for p in level.items[0].parts}
    longer = {p.name: p.rough_length_nm - before[p.keys].rough_length_nm for p in narrow.items[0].parts}
    told = next(f for f in narrow.items[0].findings if f.rule == "fall of the ground")
    assert told.level is Level.NOTE, "it is in the price"
    assert {name for name, more in longer.items() if more} == {"Front leg", "Rear leg"}
    assert {f"{more // MM} mm" for more in longer.values() if more} == {told.measured}
    assert all(p.length_nm == before[p.keys].length_nm for p in narrow.items[0].parts)
    assert any("scribe" in note for p in narrow.items[0].parts for note in p.notes)
