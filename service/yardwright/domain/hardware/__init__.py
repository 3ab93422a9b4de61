"""Hardware and consumables: what joints, hinges, surfaces and cut ends need, in whole packs.

    count(pieces, shop)   one line for each thing bought, all items of the job together

Needs of one piece come from ``joints`` (screws, bolts, staples, nails, glue), ``bought`` (hinges, stays,
feet...) and ``coats`` (finish, cut-end preservative, sanding discs); ``packs`` finds the cheapest whole
packs. Mesh, liner and fabric are roll parts of the cut list, not hardware.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from itertools import chain
from math import ceil

from ..errors import Refused
from ..market import Goods
from ..measure import say_amount
from ..piece.model import Piece
from ..shop import Shop
from . import bought, coats, joints
from .model import HardwareLine, Need
from .packs import cover
from .weights import boards_kg, delivered_kg, fitted_kg

__all__ = ["HardwareLine", "Need", "boards_kg", "count", "delivered_kg", "fitted_kg", "needs"]


@dataclass(slots=True)
class _Sum:
    """The same goods needed by several joints and items."""

    goods: tuple[Goods, ...]
    by_item: list[float]
    workings: dict[str, None] = field(default_factory=dict)


def needs(piece: Piece, shop: Shop) -> Iterator[Need]:
    """What one piece needs, joint by joint. Raises NoStock naming what the shop lacks."""
    return chain(joints.needs(piece, shop), bought.needs(piece, shop), coats.needs(piece, shop))


def count(pieces: Sequence[tuple[Piece, int]], shop: Shop) -> tuple[HardwareLine, ...]:
    """Every bought line of the job: need by item, spare by the shop's share, cheapest whole packs.

    Needs that the same goods serve are added before packs are counted, so two benches never buy more
    packs than twice one bench. A need covered by packs of two sizes makes two lines that share it.
    """
    sums: dict[tuple[str, ...], _Sum] = {}
    for item, (piece, quantity) in enumerate(pieces):
        for need in _of_item(piece, item, shop):
            key = tuple(sorted(g.code for g in need.goods))
            entry = sums.setdefault(key, _Sum(need.goods, [0.0] * len(pieces)))
            entry.by_item[item] += need.amount * quantity
            times = f" x {quantity}" if quantity > 1 else ""
            entry.workings[f"{need.working}{times}"] = None
    lines = chain.from_iterable(_lines(entry, shop) for entry in sums.values())
    return tuple(sorted(lines, key=lambda line: (line.goods.kind, line.goods.code)))


def _of_item(piece: Piece, item: int, shop: Shop) -> tuple[Need, ...]:
    try:
        return tuple(needs(piece, shop))
    except Refused as refused:
        raise refused.under(f"/items/{item}") from None


def _lines(entry: _Sum, shop: Shop) -> Iterator[HardwareLine]:
    needed = sum(entry.by_item)
    if needed <= 0:
        return
    kind, unit = entry.goods[0].kind, entry.goods[0].unit
    spare = shop.prices.waste.get(kind, "0")
    wanted = needed * float(1 + Decimal(spare))
    if unit == "each":
        wanted = float(ceil(wanted - 1e-9))
    bought_packs = cover(entry.goods, wanted)
    whole = sum(goods.per_pack * packs for goods, packs in bought_packs)
    for goods, packs in bought_packs:
        share = goods.per_pack * packs / whole
        yield HardwareLine(goods, needed * share, wanted * share, packs,
                           _working(entry, wanted, spare, unit, shop.units),
                           tuple(amount * share for amount in entry.by_item))


def _working(entry: _Sum, wanted: float, spare: str, unit: str, units: str) -> str:
    def shown(amount: float) -> str:
        return f"{amount:.4g}" if unit == "each" else say_amount(amount, unit, units)

    more = f", with {float(spare) * 100:g} % spare" if Decimal(spare) else ""
    needed = sum(entry.by_item)
    taken = f"{more} {shown(wanted)}" if more or (unit == "each" and wanted > needed + 1e-9) else ""
    rounded = "" if more or not taken else ", taken as"
    return f"{'; '.join(entry.workings)}; in all {shown(needed)}{rounded}{taken}"
