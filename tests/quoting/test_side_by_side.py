"""Pieces that each fit alone are never said to fit together."""

from __future__ import annotations

from datetime import date

import pytest

from yardwright import quoting
from yardwright.domain.finding import Level
from yardwright.domain.job import Customer, Delivery, Item, Job
from yardwright.domain.measure import INCH
from yardwright.domain.shop import Shop
from yardwright.domain.site import Measured, Site, Wall


@pytest.mark.parametrize(("kind", "wall_in", "quantity", "levels"), [
    ("between walls", 100, 1, []),
    ("between walls", 100, 2, [Level.NOT_CHECKED]),
    ("corner", 87, 2, [Level.CAUTION]),
    ("open", 87, 2, []),
])
def test_the_lengths_of_all_pieces_are_held_against_the_back_wall(
        demo_shop: Shop, kind: str, wall_in: int, quantity: int, levels: list[Level]) -> None:
    site = Site(kind, walls=(Wall("back", (Measured((wall_in + 9) * INCH), Measured(wall_in * INCH))),))
    bench = Item("storage-bench", {"length": 44 * INCH}, {}, quantity=quantity)
    job = Job("T-1", "in", date(2026, 11, 25), Customer(), site, (bench,), delivery=Delivery())
    found = [f for f in quoting.make_quote(job, demo_shop).findings if f.rule == "side by side"]
    assert [f.level for f in found] == levels
    assert all(f.customer and f.measured == "88 in" and f.limit == f"{wall_in} in" for f in found)
