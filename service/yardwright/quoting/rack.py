"""Boards in the rack that no part is cut from: said, so that nobody believes they were put to use."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..domain.cutting.model import StockLineBought
from ..domain.finding import Finding, Level
from ..domain.job import Job, OnHand
from ..domain.measure import Writer
from ..domain.parts import Part
from ..domain.shop import Shop


def unused(job: Job, parts: Sequence[Part], stock: Sequence[StockLineBought], shop: Shop
           ) -> Iterator[Finding]:
    """A note for the workshop on each line of the rack that the cutting plan takes nothing from."""
    taken = {line.stock.code for line in stock if line.on_hand}
    write = Writer(job.units)
    for number, held in enumerate(job.on_hand, 1):
        if held.count and f"on-hand-{number}" not in taken:
            yield Finding(
                "rack", Level.NOTE, "A board in the rack is not used",
                f"No part is cut from the {held.section} {shop.market.timbers[held.timber].name}, "
                f"{write.length(held.length_nm)}, in the rack: {_why(held, parts, shop)}.", customer=False)


def _why(held: OnHand, parts: Sequence[Part], shop: Shop) -> str:
    section = shop.market.sections[held.section]
    alike = [p for p in parts if p.timber == held.timber and p.thickness_nm == section.thickness_nm]
    if not alike:
        return "no part of this job is of that timber and thickness"
    if all(p.rough_length_nm > held.length_nm for p in alike):
        return "it is shorter than every part of that timber and thickness"
    if all(p.width_nm > section.width_nm for p in alike):
        return "it is narrower than every part of that timber and thickness"
    return "the parts it could give come from other boards at no more cost"
