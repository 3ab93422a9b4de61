"""Bought parts that a template asks for by kind: hinges, stays, feet, handles, brackets."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import ceil, hypot, sqrt

from ..errors import Fault, NoStock
from ..market import Goods
from ..measure import Writer, say_amount
from ..piece.model import FittedHardware, Piece
from ..piece.vectors import Vector
from ..shop import Shop
from .model import Need

GRAVITY_M_S2 = 9.80665
NEAR_NM = 100_000.0


def needs(piece: Piece, shop: Shop) -> Iterator[Need]:
    """Every bought part of one piece, in the next size the shop sells."""
    for asked in piece.hardware:
        if asked.count > 0:
            yield _need(asked, piece, shop)


def _need(asked: FittedHardware, piece: Piece, shop: Shop) -> Need:
    sold = [g for g in shop.market.goods if g.kind == asked.kind
            and asked.words.get("code", g.code) == g.code
            and g.material.startswith(asked.words.get("material", ""))]
    if not sold:
        raise NoStock(Fault("", f"{asked.name}: the shop sells no {asked.kind}; its goods list needs one"))
    if asked.kind == "stay" and piece.moving and any("torque_nmm" in g.size for g in sold):
        return _stays(asked, piece, sold, shop)
    if "length" in asked.size:
        return _long_enough(asked, sold, shop)
    wanted = {f"{name}_nm": value * 1e6 for name, value in asked.size.items()}
    large = [g for g in sold if all(g.size.get(name, 0.0) >= nm - NEAR_NM for name, nm in wanted.items())]
    if not large:
        sizes = ", ".join(f"{name} {Writer(shop.units).mm(mm)}" for name, mm in asked.size.items())
        raise NoStock(Fault("", f"{asked.name}: no {asked.kind} the shop sells has {sizes}"))
    smallest = min(_sizes(g, wanted) for g in large)
    goods = tuple(g for g in large if _sizes(g, wanted) == smallest)
    return Need(goods, asked.count, f"{asked.name}: {asked.count:g}")


def _sizes(goods: Goods, wanted: Mapping[str, float]) -> tuple[float, ...]:
    return tuple(goods.size.get(name, 0.0) for name in wanted)


def _long_enough(asked: FittedHardware, sold: Sequence[Goods], shop: Shop) -> Need:
    """The next length up, cut down to fit; beyond the longest, several of it end to end."""
    lengths = sorted({g.size["length_nm"] for g in sold if "length_nm" in g.size})
    if not lengths:
        raise NoStock(Fault("", f"{asked.name}: no {asked.kind} in the goods list states its length"))
    wanted = asked.size["length"] * 1e6
    pieces = max(1, ceil((wanted - NEAR_NM) / lengths[-1]))
    chosen = next(nm for nm in lengths if nm * pieces >= wanted - NEAR_NM)
    goods = tuple(g for g in sold if g.size.get("length_nm") == chosen)
    write = Writer(shop.units)
    count = asked.count * pieces
    return Need(goods, count, f"{asked.name}: {count:g} of {write.length(round(chosen))}, "
                              f"cut down to {write.mm(asked.size['length'])} in all")


def _stays(asked: FittedHardware, piece: Piece, sold: Sequence[Goods], shop: Shop) -> Need:
    """Stays that hold the heaviest lid: turning moment x 1.1 shared by the number asked, or more of them."""
    moment = max(lid_moment_nmm(piece, group) for group in piece.moving)
    wanted = moment * shop.limits["people.stay_factor"].value
    rated = sorted({g.size["torque_nmm"] for g in sold if "torque_nmm" in g.size})
    number = max(ceil(asked.count), ceil(wanted / rated[-1] - 1e-9))
    chosen = next(torque for torque in rated if torque * number >= wanted * (1 - 1e-9))
    return Need(tuple(g for g in sold if g.size.get("torque_nmm") == chosen), number,
                f"{asked.name}: lid turns with {_torque(moment, shop)}, {number} rated "
                f"{_torque(chosen, shop)} hold {_torque(number * chosen, shop)}")


def _torque(nmm: float, shop: Shop) -> str:
    return say_amount(nmm / 1000, "N m", shop.units, 3)


def lid_moment_nmm(piece: Piece, group: str) -> float:
    """The greatest moment of a group's weight about its hinge line: weight x distance from line to centre.

    A lid shut on a level hinge has its whole distance as lever; a door on an upright hinge has none.
    """
    hinge, axis, _ = piece.moving[group]
    level = hypot(axis[0], axis[1])
    lever_kg_mm = sum(m.mass_kg * _distance(m.centre, hinge, axis) for m in piece.group(group))
    return level * GRAVITY_M_S2 * lever_kg_mm


def _distance(centre: Vector, hinge: Vector, axis: Vector) -> float:
    off = [c - h for c, h in zip(centre, hinge, strict=True)]
    along = sum(o * a for o, a in zip(off, axis, strict=True))
    return sqrt(max(0.0, sum(o * o for o in off) - along * along))
