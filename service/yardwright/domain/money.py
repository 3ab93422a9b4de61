"""Money: whole minor units of one currency, and the only place where an amount is rounded."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

# ISO 4217 minor units (from memory); a currency that is not listed has two.
MINOR_DIGITS = {
    "JPY": 0, "KRW": 0, "ISK": 0, "CLP": 0, "HUF": 2, "KWD": 3, "BHD": 3, "JOD": 3, "OMR": 3, "TND": 3,
}
ROUNDING = {"half-up": ROUND_HALF_UP, "half-even": ROUND_HALF_EVEN, "up": ROUND_CEILING}


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

    def over(self, divisor: Decimal | int | str, rule: str = "half-up") -> Money:
        """The amount divided, rounded to the minor unit by the shop's rule; exact where it divides evenly.

        >>> Money(70000, "USD").over("0.7", "up")
        Money(minor=100000, currency='USD')
        """
        exact = Decimal(self.minor) / Decimal(str(divisor))
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


def split(amount: Money, weights: Sequence[float]) -> tuple[Money, ...]:
    """The amount shared by weight in whole minor units that add up to it; what is left over goes to the
    largest remainders, the earlier first. Weights that are all zero share equally.

    >>> [share.minor for share in split(Money(100, "USD"), [1, 1, 1])]
    [34, 33, 33]
    """
    whole = sum(weights)
    exact = [amount.minor * (w / whole if whole else 1 / len(weights)) for w in weights]
    floors = [int(e // 1) for e in exact]
    by_remainder = sorted(range(len(exact)), key=lambda k: (floors[k] - exact[k], k))
    for k in by_remainder[:amount.minor - sum(floors)]:
        floors[k] += 1
    return tuple(Money(minor, amount.currency) for minor in floors)


def up_to_multiple(amount: Money, step: Money) -> Money:
    """The least multiple of ``step`` that is no less than the amount; a step of zero changes nothing.

    >>> up_to_multiple(Money(100_01, "USD"), Money(5_00, "USD"))
    Money(minor=10500, currency='USD')
    """
    amount._same(step)
    return Money(-(-amount.minor // step.minor) * step.minor, amount.currency) if step.minor else amount
