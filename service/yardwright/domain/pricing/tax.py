"""Tax on the lines: added or inside, by item or by invoice, on all or on materials only.

United States (seen: SSUTA section 324): worked out to the third decimal and rounded half up, on each item or
on the invoice, as the seller chooses. VAT is inside the prices consumers are shown: at 20 % a sixth of them.
Which of it applies is the shop's to know; rates and rules stand in its shop.toml.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from ..money import Money, total
from ..shop import PriceRules, TaxRule
from .lines import included_rate
from .model import PriceLine, TaxLine


def taxes(lines: Sequence[PriceLine], material_share: Sequence[Decimal], rules: PriceRules
          ) -> tuple[TaxLine, ...]:
    """One line for each tax rule. ``material_share``: of each price line, the share that is materials."""
    inside = included_rate(rules)
    return tuple(_tax(rule, lines, material_share, inside, rules) for rule in rules.tax)


def _tax(rule: TaxRule, lines: Sequence[PriceLine], material_share: Sequence[Decimal], inside: Decimal,
         rules: PriceRules) -> TaxLine:
    """Inside: gross x rate / (1 + all rates inside); added: base x rate."""
    shares = material_share if rule.on == "materials" else [Decimal(1)] * len(lines)
    bases = [line.amount.minor * share if line.taxed else Decimal(0)
             for line, share in zip(lines, shares, strict=True)]
    factor = Decimal(rule.rate) / (1 + inside) if rule.included else Decimal(rule.rate)
    whole = sum(bases, Decimal(0))
    amount = (total((_round(base, factor, rules) for base in bases), rules.currency) if rule.by == "item"
              else _round(whole, factor, rules))
    gross = _round(whole, Decimal(1), rules)
    net = _round(whole, 1 / (1 + inside), rules) if rule.included else gross
    if rule.included and inside == Decimal(rule.rate):
        net = gross - amount
    return TaxLine(rule.name, rule.rate, net, amount, rule.included)


def _round(minor: Decimal, factor: Decimal, rules: PriceRules) -> Money:
    sign = -1 if minor < 0 else 1
    rounded = Money(1, rules.currency).scaled(abs(minor) * factor, rules.rounding)
    return rounded.times(sign)
