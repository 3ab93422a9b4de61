"""What stands in the way of making a built piece in this shop, asked before anything is planned or priced.

``check`` asks it at every point; a template that came with a job is asked at its one, so that what must be
refused is refused before the cutting plan, which costs more than all that comes before it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain, islice

from ..domain import cutting, hardware, parts
from ..domain.errors import Fault, Refused
from ..domain.job import OnHand
from ..domain.piece.model import Piece
from ..domain.shop import Shop
from .limits import near

MOST_TOLD = 20           # names that nobody knows: each is looked up among those that are alike


def not_makeable(piece: Piece, shop: Shop, on_hand: Sequence[OnHand] = ()) -> Iterator[Fault]:
    """Goods that are not sold, work without a time standard, parts that no stock gives; pointers into the
    template, "" where it is no single entry."""
    found = list(islice(chain(_goods(piece, shop), _standards(piece, shop)), MOST_TOLD))
    yield from found
    if not any(fault.pointer.endswith("/kind") for fault in found):
        try:
            hardware.count(((piece, 1),), shop)
        except Refused as refused:
            yield from (Fault("", fault.detail) for fault in refused.faults)
    yield from (Fault("", fault.detail)
                for fault in cutting.uncuttable(parts.cut_list(((piece, 1),), shop), shop, on_hand))


def _goods(piece: Piece, shop: Shop) -> Iterator[Fault]:
    sold = {goods.kind for goods in shop.market.goods}
    wheres = {rule.name: rule.where for rule in piece.template.hardware}
    for fitted in piece.hardware:
        if fitted.kind not in sold and fitted.count > 0:
            yield Fault(f"{wheres[fitted.name]}/kind",
                        f"{fitted.name}: the shop sells no {fitted.kind!r}{near(fitted.kind, sold)}")


def _standards(piece: Piece, shop: Shop) -> Iterator[Fault]:
    wheres = {rule.name: rule.where for rule in piece.template.hardware}
    used = [(f"{wheres[fitted.name]}/operation", fitted.name, fitted.operation) for fitted in piece.hardware
            if fitted.operation]
    used += [(f"{done.rule.where}/standard", done.rule.name, done.rule.standard) for done in piece.operations]
    for pointer, name, standard in used:
        if standard not in shop.times:
            yield Fault(pointer, f"{name}: no time standard is called {standard!r}"
                                 f"{near(standard, shop.times)}")
