"""A board in the rack that no part is cut from is said to the shop, with why."""

from __future__ import annotations

from datetime import date

import pytest

from yardwright import quoting
from yardwright.domain.finding import Finding, Level
from yardwright.domain.job import Customer, Delivery, Item, Job, OnHand
from yardwright.domain.measure import INCH
from yardwright.domain.money import Money
from yardwright.domain.quote import Quote
from yardwright.domain.shop import Shop
from yardwright.domain.site import Site


def quoted(shop: Shop, *rack: OnHand) -> Quote:
    bench = Item("storage-bench", {"length": 44 * INCH}, {})
    return quoting.make_quote(Job("T-1", "in", date(2026, 11, 25), Customer(), Site(), (bench,),
                                  delivery=Delivery(), on_hand=rack), shop)


def said(quote: Quote) -> list[Finding]:
    return [finding for finding in quote.findings if finding.rule == "rack"]


@pytest.mark.parametrize(("section", "timber", "inches", "why"), [
    ("4x4", "western-red-cedar", 96, "no part of this job is of that timber and thickness"),
    ("1x6", "southern-pine-uc4a", 96, "no part of this job is of that timber and thickness"),
    ("1x6", "western-red-cedar", 2, "shorter than every part"),
])
def test_a_board_that_fits_no_part_is_told_with_why(demo_shop: Shop, section: str, timber: str, inches: int,
                                                    why: str) -> None:
    quote = quoted(demo_shop, OnHand(section, timber, inches * INCH, 2, None))
    (note,) = said(quote)
    assert note.level is Level.NOTE and not note.customer and why in note.detail and section in note.detail
    assert not any(line.on_hand for line in quote.stock)


def test_a_board_dearer_than_bought_ones_is_left_and_told(demo_shop: Shop) -> None:
    (note,) = said(quoted(demo_shop, OnHand("1x6", "western-red-cedar", 96 * INCH, 1, Money(900_00, "USD"))))
    assert "other boards at no more cost" in note.detail


def test_a_board_that_is_used_is_no_finding_and_each_line_is_told_apart(demo_shop: Shop) -> None:
    good = OnHand("1x6", "western-red-cedar", 96 * INCH, 1, None)
    assert said(quoted(demo_shop)) == [] and said(quoted(demo_shop, good)) == []
    (note,) = said(quoted(demo_shop, good, OnHand("4x4", "western-red-cedar", 96 * INCH, 1, None)))
    assert "4x4" in note.detail
