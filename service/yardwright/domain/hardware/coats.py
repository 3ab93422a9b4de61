"""What surfaces and cut ends need: finish by coat, preservative on treated wood's ends, sanding discs."""

from __future__ import annotations

from collections.abc import Iterator

from ..errors import BadJob, Fault, NoStock
from ..market import Finish, Goods
from ..measure import say_amount, say_coverage
from ..piece.model import Member, Piece
from ..shop import Shop
from .model import Need


def needs(piece: Piece, shop: Shop) -> Iterator[Need]:
    """Finish where one is chosen; preservative and discs where the shop's list has them."""
    if (finish := finish_of(piece, shop)) is not None:
        yield _finish(piece, finish, shop)
    yield from _preservative(piece, shop)
    yield from _discs(piece, shop)


def finish_of(piece: Piece, shop: Shop) -> Finish | None:
    """The chosen finish, None for bare wood. Raises BadJob where the shop does not know it."""
    chosen = piece.choices.get("finish", "none")
    if chosen == "none":
        return None
    if chosen not in shop.market.finishes:
        known = ", ".join(("none", *shop.market.finishes))
        raise BadJob(Fault("/choices/finish", f"no finish is called {chosen!r}; known: {known}"))
    return shop.market.finishes[chosen]


def coated(piece: Piece) -> tuple[Member, ...]:
    """The members that take finish: boards and sheets, every side and end, as coated before assembly."""
    return tuple(m for m in piece.members if m.finish and m.material != "roll")


def coated_m2(piece: Piece) -> float:
    """The area a brush goes over, in m2."""
    return sum(m.surface_mm2 for m in coated(piece)) * 1e-6


def finish_litres(piece: Piece, finish: Finish, shop: Shop) -> float:
    """Litres for all coats: each coat's area by its coverage, end grain counted 2.5 times."""
    thirsty = shop.limits["hardware.end_grain"].value
    area = sum(m.surface_mm2 + (thirsty - 1) * m.end_grain_mm2 for m in coated(piece)) * 1e-6
    return sum(area / finish.coverage_m2_l[min(coat, len(finish.coverage_m2_l) - 1)]
               for coat in range(finish.coats))


def _finish(piece: Piece, finish: Finish, shop: Shop) -> Need:
    tins = tuple(g for g in shop.market.goods if g.kind == "finish" and g.material == finish.id)
    if not tins:
        raise NoStock(Fault("/choices/finish", f"the shop's goods list has no tin of {finish.id}"))
    by_coat = " and ".join(say_coverage(m2, shop.units) for m2 in finish.coverage_m2_l[:finish.coats])
    return Need(tins, finish_litres(piece, finish, shop),
                f"{finish.name}: {say_amount(coated_m2(piece), 'm2', shop.units)} and end grain more, "
                f"{finish.coats} coats at {by_coat}")


def _preservative(piece: Piece, shop: Shop) -> Iterator[Need]:
    """Two brushed coats on the ends of every treated member (AWPA M4, from memory: treat fresh cuts)."""
    tins = _listed("preservative", shop)
    treated = [m for m in piece.members if m.material == "board" and m.timber in shop.market.timbers
               and shop.market.timbers[m.timber].treated]
    if tins and treated:
        area_mm2 = sum(m.end_grain_mm2 for m in treated)
        film_mm = shop.limits["hardware.preservative_film"].value
        area = say_amount(area_mm2 * 1e-6, "m2", shop.units, 3)
        yield Need(tins, area_mm2 * film_mm * 1e-6,
                   f"cut ends of treated wood: {area} at {say_coverage(1 / film_mm, shop.units)}")


def _discs(piece: Piece, shop: Shop) -> Iterator[Need]:
    """Sanding discs of each grit the shop lists: sanded area by the area one disc lasts."""
    discs = _listed("abrasive", shop)
    area_mm2 = coated_m2(piece) * 1e6
    each_mm2 = shop.limits["hardware.disc_area"].value
    for grit in sorted({g.size.get("grit", 0.0) for g in discs}):
        yield Need(tuple(g for g in discs if g.size.get("grit", 0.0) == grit), area_mm2 / each_mm2,
                   f"sanding {say_amount(area_mm2 * 1e-6, 'm2', shop.units)}, grit {grit:g}, "
                   f"{say_amount(each_mm2 * 1e-6, 'm2', shop.units, 2)} a disc")


def _listed(kind: str, shop: Shop) -> tuple[Goods, ...]:
    return tuple(g for g in shop.market.goods if g.kind == kind)
