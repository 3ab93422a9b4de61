"""Money: whole minor units of one currency, and the only place where an amount is rounded."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

# ISO 4217 minor units (from memory); a currency that is not listed has two.
MINOR_DIGITS = {
    "JPY": 0, "KRW": 0, "ISK": 0, "CLP": 0, "HUF": 2, "KWD": 3, "BHD": 3, "JOD": 3, "OMR": 3, "TND": 3,
}
ROUNDING = {"half-up": ROUND_HALF_UP, "half-even": ROUND_HALF_EVEN}


def minor_digits(currency: str) -> int:
    """How many decimals the currency has (ISO 4217)."""
    return MINOR_DIGITS.get(currency, 2)


@dataclass(frozen=True, slots=True, order=True)
class Money:
    """An exact amount: ``Money(1999, "USD")`` is 19.99."""

    minor: int
    currency: str

    def __add__(self, other: Money) -> Money:
        self._same(other)
        return Money(self.minor + other.minor, self.currency)

    def __sub__(self, other: Money) -> Money:
        self._same(other)
        return Money(self.minor - other.minor, self.currency)

    def __neg__(self) -> Money:
        return Money(-self.minor, self.currency)

    def times(self, count: int) -> Money:
        """``count`` of them, exactly."""
        return Money(self.minor * count, self.currency)

    def scaled(self, factor: Decimal | float | str, rule: str = "half-up") -> Money:
        """The amount times a factor, rounded to the minor unit by the shop's rule.

        >>> Money(1999, "USD").scaled("0.0725")
        Money(minor=145, currency='USD')
        """
        exact = Decimal(self.minor) * Decimal(str(factor))
        return Money(int(exact.quantize(Decimal(1), ROUNDING[rule])), self.currency)

    def text(self) -> str:
        """Decimal digits alone, as JSON carries them: ``"19.99"``."""
        digits = minor_digits(self.currency)
        return f"{Decimal(self.minor).scaleb(-digits):.{digits}f}"

    def _same(self, other: Money) -> None:
        if self.currency != other.currency:
            raise ValueError(f"{self.currency} and {other.currency} do not add")


def money(amount: Decimal | str | int | float, currency: str, rule: str = "half-up") -> Money:
    """Money from a decimal amount, rounded to the minor unit.

    >>> money("12.345", "USD")
    Money(minor=1235, currency='USD')
    """
    scaled = Decimal(str(amount)).scaleb(minor_digits(currency))
    return Money(int(scaled.quantize(Decimal(1), ROUNDING[rule])), currency)


def total(amounts: Iterable[Money], currency: str) -> Money:
    """The sum, zero where there is none."""
    minor = 0
    for amount in amounts:
        amount._same(Money(0, currency))
        minor += amount.minor
    return Money(minor, currency)
