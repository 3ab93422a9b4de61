"""What joints and glue-ups need: screws, lags, nails, bolts and staples by contact, glue by contact area."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from ..errors import Fault, NoStock
from ..market import Goods
from ..measure import Writer, say_amount, say_coverage
from ..piece.model import Contact, MadeJoint, Member, Piece
from ..shop import Shop
from .model import Need
from .screws import held_and_holding, screws

KINDS = {"screws": "screw", "lags": "lag screw", "nails": "nail", "bolts": "bolt", "staples": "staple"}


def needs(piece: Piece, shop: Shop) -> Iterator[Need]:
    """Fasteners of every joint and the glue of every glued contact of one piece."""
    members = {member.key: member for member in piece.members}
    for joint in piece.joints:
        if joint.fasteners and joint.contacts and joint.rule.fasten in KINDS:
            yield from _fasteners(joint, members, shop)
    yield from _glue(piece, shop)


def _fasteners(joint: MadeJoint, members: Mapping[str, Member], shop: Shop) -> Iterator[Need]:
    """The joint's fasteners, contact by contact; where they were only counted in all, as evenly as whole ones
    go. Contacts that call for the same size are counted together.
    """
    kind = KINDS[joint.rule.fasten]
    each, more = divmod(joint.fasteners, len(joint.contacts))
    here = joint.each if len(joint.each) == len(joint.contacts) else tuple(
        each + (at < more) for at in range(len(joint.contacts)))
    counts: dict[tuple[float, float, tuple[str, ...]], int] = {}
    for contact, number in zip(joint.contacts, here, strict=True):
        if not number:
            continue
        one, other = members[contact.first], members[contact.second]
        held, holding = (round(size, 1) for size in held_and_holding(one, other, contact))
        place = (held, holding, _metals((one, other), shop))
        counts[place] = counts.get(place, 0) + number
    for (held, holding, metals), number in counts.items():
        sold = _sold(kind, metals, shop)
        goods = CHOOSE[kind](held, holding, sold, shop)
        write = Writer(shop.units).mm
        yield Need(goods, number, f"{joint.rule.name}: {number}, {write(held)} held on {write(holding)}")


def _metals(members: Sequence[Member], shop: Shop) -> tuple[str, ...]:
    """The metals fit for every timber of the joint; () = any."""
    fit: tuple[str, ...] | None = None
    for member in members:
        timber = shop.market.timbers.get(member.timber)
        if timber and timber.fasteners:
            fit = timber.fasteners if fit is None else tuple(m for m in fit if m in timber.fasteners)
    return fit or ()


def _sold(kind: str, metals: tuple[str, ...], shop: Shop) -> tuple[Goods, ...]:
    found = tuple(g for g in shop.market.goods
                  if g.kind == kind and (not metals or g.material.startswith(metals)))
    if not found:
        fit = f" in {' or '.join(metals)}" if metals else ""
        raise NoStock(Fault("", f"the shop sells no {kind}{fit}; its goods list needs one"))
    return found


def _bolts(held: float, holding: float, sold: Sequence[Goods], shop: Shop) -> tuple[Goods, ...]:
    """Through both pieces, with room for washer and nut; the next length up."""
    least = held + holding + shop.limits["hardware.bolt_extra"].value - 0.1
    long = [g for g in sold if g.size.get("length_nm", 0.0) / 1e6 >= least]
    if not long:
        raise NoStock(Fault("", f"no bolt the shop sells is {Writer(shop.units).mm(least)} long"))
    shortest = min(g.size["length_nm"] for g in long)
    return tuple(g for g in long if g.size["length_nm"] == shortest)


def _staples(held: float, holding: float, sold: Sequence[Goods], shop: Shop) -> tuple[Goods, ...]:
    """Any that does not come through."""
    short = tuple(g for g in sold if g.size.get("length_nm", 0.0) / 1e6 < held + holding)
    if not short:
        raise NoStock(Fault("", f"every staple the shop sells comes through {held + holding:.0f} mm"))
    return short


CHOOSE: Mapping[str, Callable[[float, float, Sequence[Goods], Shop], tuple[Goods, ...]]] = {
    "screw": screws, "lag screw": screws, "nail": screws, "bolt": _bolts, "staple": _staples,
}


def glued_contacts(piece: Piece) -> tuple[Contact, ...]:
    """Every contact that gets glue, once: glued joints, and strips of one blank."""
    found = {id(c): c for joint in piece.joints if joint.rule.glue or joint.rule.fasten == "glue"
             for c in joint.contacts}
    blanks = {member.key: (member.glue_up, member.glue_up_no) for member in piece.members if member.glue_up}
    joined = {frozenset((c.first, c.second)) for c in found.values()}
    for contact in piece.contacts:
        pair = frozenset((contact.first, contact.second))
        blank = blanks.get(contact.first)
        if blank is not None and blank == blanks.get(contact.second) and pair not in joined:
            found[id(contact)] = contact
    return tuple(found.values())


def _glue(piece: Piece, shop: Shop) -> Iterator[Need]:
    """Litres = glued area x film thickness (0.25 mm: the upper end of 150 to 250 g/m2)."""
    area_mm2 = sum(contact.area_mm2 for contact in glued_contacts(piece))
    if area_mm2 <= 0:
        return
    film_mm = shop.limits["hardware.glue_film"].value
    litres = area_mm2 * film_mm * 1e-6
    area = say_amount(area_mm2 * 1e-6, "m2", shop.units, 3)
    yield Need(_sold("glue", (), shop), litres, f"glue on {area} at {say_coverage(1 / film_mm, shop.units)}")
