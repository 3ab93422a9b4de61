"""Money: whole minor units, rounded in one place."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yardwright.domain.money import Money, minor_digits, money, split, total, up_to_multiple

AMOUNTS = st.integers(-10**9, 10**9).map(lambda minor: Money(minor, "USD"))


# Recomputed: half-even and half-up on ties; binary floating point must not leak in (10.005 is below itself).
@pytest.mark.parametrize(("amount", "even", "up"), [
    ("2.345", 234, 235), ("2.355", 236, 236), ("2.365", 236, 237), ("10.005", 1000, 1001)])
def test_ties_by_the_rule_named(amount, even, up):
    assert (money(amount, "USD", "half-even").minor, money(amount, "USD").minor) == (even, up)


# ISO 4217 minor units; from memory.
@pytest.mark.parametrize(("currency", "digits"), [("USD", 2), ("EUR", 2), ("JPY", 0), ("KWD", 3)])
def test_minor_units_of_a_currency(currency, digits):
    assert minor_digits(currency) == digits
    assert money("12", currency).text() == f"12{'.' + digits * '0' if digits else ''}"


def test_two_currencies_do_not_add():
    with pytest.raises(ValueError, match="USD and EUR"):
        _ = Money(1, "USD") + Money(1, "EUR")
    with pytest.raises(ValueError, match="EUR and USD"):
        total([Money(1, "EUR")], "USD")


def test_an_exact_quotient_is_not_rounded_up():
    assert Money(700_00, "USD").over("0.7", "up") == Money(1000_00, "USD")
    assert Money(7, "USD").over(7, "up") == Money(1, "USD")
    assert Money(1000_00, "USD").over("0.75", "up") == Money(1333_34, "USD")


@given(AMOUNTS, st.lists(st.floats(0, 1000), min_size=1, max_size=9))
def test_shares_add_up_to_what_is_shared(amount, weights):
    shares = split(amount, weights)
    assert total(shares, "USD") == amount
    whole = sum(weights)
    if whole > 1e-6:
        for share, weight in zip(shares, weights, strict=True):
            assert abs(share.minor - amount.minor * weight / whole) <= 1 + 1e-6 * abs(amount.minor)


@given(AMOUNTS, st.integers(1, 10**5))
def test_up_to_a_multiple_never_goes_down_nor_a_whole_step_up(amount, step):
    got = up_to_multiple(amount, Money(step, "USD"))
    assert got.minor % step == 0
    assert 0 <= got.minor - amount.minor < step


def test_no_step_changes_nothing():
    assert up_to_multiple(Money(123, "USD"), Money(0, "USD")) == Money(123, "USD")


@given(AMOUNTS, st.decimals(0, 100, places=4))
def test_scaling_is_within_half_a_minor_unit_of_exact(amount, factor):
    assert abs(amount.scaled(factor).minor - Decimal(amount.minor) * factor) <= Decimal("0.5")
