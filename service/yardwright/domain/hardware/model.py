"""Nouns of the hardware list."""

from __future__ import annotations

from dataclasses import dataclass

from ..market import Goods


@dataclass(frozen=True, slots=True)
class Need:
    """What one piece needs of one thing: any of ``goods`` serves; ``amount`` in their unit, before spares."""

    goods: tuple[Goods, ...]
    amount: float
    working: str


@dataclass(frozen=True, slots=True)
class HardwareLine:
    """One bought line. ``need`` in the goods' own unit (each, L, m) before spares; packs are whole."""

    goods: Goods
    need: float
    with_spare: float
    packs: int
    working: str
    by_item: tuple[float, ...]   # need of each item of the job
