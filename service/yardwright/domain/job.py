"""A job: what is asked, for one site and one customer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date as Day
from typing import Any

from .money import Money
from .site import Site


@dataclass(frozen=True, slots=True)
class Customer:
    name: str = ""
    address: str = ""
    phone: str = ""
    email: str = ""


@dataclass(frozen=True, slots=True)
class Item:
    """One template with dimensions (nm; missing = default), choices (missing = default) and a quantity."""

    template: str
    dimensions: Mapping[str, int]
    choices: Mapping[str, str]
    quantity: int = 1
    inline: Mapping[str, Any] | None = None     # an inline template, shop scope only


@dataclass(frozen=True, slots=True)
class Extra:
    text: str
    amount: Money
    taxed: bool = True


@dataclass(frozen=True, slots=True)
class Delivery:
    distance_km: float = 0.0
    install: bool = False
    crew: int = 1


@dataclass(frozen=True, slots=True)
class Discount:
    """Exactly one of the two: a share of the net ("0.05") or an amount."""

    share: str = ""
    amount: Money | None = None
    reason: str = ""


@dataclass(frozen=True, slots=True)
class OnHand:
    """A piece the shop already has."""

    section: str
    timber: str
    length_nm: int
    count: int
    price: Money | None          # None = at the shop's share of the same length bought
    blocked: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Override:
    """A ``stop`` finding the shop answers for in writing; prints with its reason."""

    what: str
    to: str
    reason: str


@dataclass(frozen=True, slots=True)
class Job:
    reference: str
    units: str                   # "in" | "mm": what the paper shows
    date: Day
    customer: Customer
    site: Site
    items: tuple[Item, ...]
    extras: tuple[Extra, ...] = ()
    delivery: Delivery = Delivery()
    discount: Discount | None = None
    wanted_by: Day | None = None
    on_hand: tuple[OnHand, ...] = ()
    overrides: tuple[Override, ...] = ()
    notes: str = ""
    mends: bool | None = field(default=None, repr=False)
    # changes that take a stop or caution away: None looks for one of each, True for several, False for none
