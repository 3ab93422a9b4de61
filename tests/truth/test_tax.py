"""Sales tax and VAT against the published rounding rule and worked sums."""

from decimal import Decimal

import pytest

import builders as b
from yardwright.domain.money import Money, money, total
from yardwright.domain.pricing import PriceLine
from yardwright.domain.pricing.tax import taxes
from yardwright.domain.shop import TaxRule


def lines(*amounts):
    return [PriceLine("item", "", 1, b.usd(a), b.usd(a), True) for a in amounts]


def tax(amounts, rate, by="invoice", included=False):
    rules = b.price_rules(tax=(TaxRule("Tax", rate, included, by, "all"),))
    found, = taxes(lines(*amounts), [Decimal(1)] * len(amounts), rules)
    return found


# SSUTA section 324 (also RI 44-18.1-25, ND 57-39.4-25, KS 79-3676, MA 64I section 5): worked to the third
# decimal, up when that is more than 4, by item or by invoice as the seller chooses; seen. The sums:
# recomputed by hand.
@pytest.mark.parametrize(("amounts", "rate", "by_item", "by_invoice"), [
    (("19.99", "4.50", "12.35"), "0.0725", "2.68", "2.67"),      # 1.45 + 0.33 + 0.90 against 2.6709
    (("10.30", "10.30", "10.30"), "0.0825", "2.55", "2.55"),     # 0.84975 each against 2.54925
])
def test_sales_tax_by_item_and_by_invoice(amounts, rate, by_item, by_invoice):
    assert tax(amounts, rate, "item").amount.text() == by_item
    assert tax(amounts, rate, "invoice").amount.text() == by_invoice


# Third decimal 4 goes down, 5 up, whatever follows: by the same section.
@pytest.mark.parametrize(("amount", "rate", "want"), [
    ("0.49", "0.10", "0.05"), ("0.44", "0.10", "0.04"), ("1.00", "0.0449", "0.04"),
    ("1.00", "0.0450", "0.05"), ("0.05", "0.0725", "0.00"), ("0.07", "0.0725", "0.01")])
def test_the_third_decimal_decides(amount, rate, want):
    assert tax((amount,), rate).amount.text() == want


def test_state_and_local_rates_may_be_summed_first():
    # SSUTA section 324: the seller may compute on the sum of state and local rates; seen.
    both = tax(("10.10",), "0.0725").amount
    assert (both.text(), tax(("10.10",), "0.06").amount.text(), tax(("10.10",), "0.0125").amount.text()) == (
        "0.73", "0.61", "0.13")


def test_vat_is_a_sixth_of_the_gross_at_twenty_per_cent():
    # "Do you have to display prices including VAT?": net = gross / 1.2; seen.
    found = tax(("1200.00",), "0.20", included=True)
    assert (found.base.text(), found.amount.text()) == ("1000.00", "200.00")


def test_vat_by_item_and_by_invoice_may_differ_by_a_cent():
    # 3 x 0.99: each 0.165 -> 0.17 in all 0.51; together 2.97 / 6 = 0.495 -> 0.50. Recomputed by hand.
    amounts = ("0.99",) * 3
    assert tax(amounts, "0.20", "item", included=True).amount.text() == "0.51"
    assert tax(amounts, "0.20", "invoice", included=True).amount.text() == "0.50"


def test_the_rounding_is_decimal_and_not_binary():
    # Recomputed: as a binary float 2.675 lies below itself and 1.005 too; a decimal tie goes up.
    assert money("2.675", "USD").text() == "2.68"
    assert Money(100_50, "USD").scaled("0.01").text() == "1.01"


def test_a_refund_is_taxed_as_the_sale_was():
    goods, back = tax(("12.35",), "0.0725").amount, tax(("-12.35",), "0.0725").amount
    assert total((goods, back), "USD").minor == 0
