"""What a piece weighs on the day it is lifted: its wood as wet as it is sold, and its hardware.

The heavy case, for carrying and delivery: wood sold wet or green at its own moisture, dry wood at the most
that dry means (19 %, PS 20, seen); of goods that would serve, the heavier. Finish, glue and goods whose
weight nobody gave are left out. Kilograms.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..errors import NoStock
from ..market import Market
from ..piece import density_at
from ..piece.model import Member, Piece
from ..shop import Shop
from .bought import needs as bought_needs
from .joints import needs as joint_needs
from .model import Need

DRY_PCT = 19.0


def hardware_kg(piece: Piece, shop: Shop) -> float:
    """Screws, hinges and the rest in one piece, where the shop's list says what they weigh."""
    return sum(n.amount * max((g.mass_kg for g in n.goods if g.unit == "each"), default=0.0)
               for n in (*_sold(joint_needs(piece, shop)), *_sold(bought_needs(piece, shop))))


def _sold(needs: Iterator[Need]) -> tuple[Need, ...]:
    """None where the shop lacks one: the quote is refused for that, not for its weight."""
    try:
        return tuple(needs)
    except NoStock:
        return ()


def fitted_kg(piece: Piece, shop: Shop) -> float:
    """One piece as it stands after a season: wood at 12 % and its hardware."""
    return piece.mass_kg + hardware_kg(piece, shop)


def delivered_kg(piece: Piece, shop: Shop) -> float:
    """One piece on the day: its wood with the water it comes with, all else of it, and its hardware."""
    boards = boards_kg(piece, shop)
    rest = piece.mass_kg - sum(boards.values())
    moist = sum(density_at(kg, pct) for (_, pct), kg in boards.items())
    return moist + rest + hardware_kg(piece, shop)


def boards_kg(piece: Piece, shop: Shop) -> Mapping[tuple[str, float], float]:
    """(timber, moisture in % it is sold at) -> kg at 12 %, over the boards of one piece."""
    sold = _moistures(shop.market)
    found: dict[tuple[str, float], float] = {}
    for member in piece.members:
        if member.material == "board":
            key = (member.timber, _moisture(member, sold, shop.market))
            found[key] = found.get(key, 0.0) + member.mass_kg
    return found


def _moistures(market: Market) -> Mapping[tuple[str, str], bool]:
    """Whether a section is sold wet or green in a timber."""
    found: dict[tuple[str, str], bool] = {}
    for board in market.boards:
        key = (board.section.id, board.timber)
        found[key] = found.get(key, False) or board.moisture != "dry"
    return found


def _moisture(member: Member, sold: Mapping[tuple[str, str], bool], market: Market) -> float:
    wet = market.timbers[member.timber].wet_as_delivered_pct
    return max(wet, DRY_PCT) if sold.get((member.section, member.timber)) else min(wet, DRY_PCT)
