"""Nouns of the price."""

from __future__ import annotations

from dataclasses import dataclass

from ..money import Money


@dataclass(frozen=True, slots=True)
class PriceLine:
    """One line as the customer sees it. kind: "item" | "extra" | "delivery" | "discount" | "rounding"."""

    kind: str
    text: str
    quantity: int
    unit: Money
    amount: Money
    taxed: bool


@dataclass(frozen=True, slots=True)
class TaxLine:
    name: str
    rate: str
    base: Money
    amount: Money
    included: bool


@dataclass(frozen=True, slots=True)
class CostLine:
    """One row of the build-up behind the price, shop scope only."""

    name: str
    amount: Money
    working: str


@dataclass(frozen=True, slots=True)
class ItemCost:
    """What one item of the job costs and is sold for, all its quantity together.

    cost = stock + hardware + handling + labour + overhead. ``price`` is what its line shows (with the tax
    inside where the shop shows it so), ``net`` the same without tax, before discount and rounding.
    """

    stock: Money
    hardware: Money
    labour: Money
    overhead: Money
    cost: Money
    price: Money
    handling: Money | None = None
    net: Money | None = None


@dataclass(frozen=True, slots=True)
class Price:
    currency: str
    lines: tuple[PriceLine, ...]
    net: Money                   # before tax that is added; with VAT included: the net inside the gross
    tax: tuple[TaxLine, ...]
    total: Money
    deposit: Money
    items: tuple[ItemCost, ...]
    build_up: tuple[CostLine, ...]
    margin_share: float          # (price - cost) / price, net
