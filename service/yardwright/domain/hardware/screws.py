"""How long and how thick a screw is: at least twice the piece it holds, and never through the other side.

The screw goes through the thinner of two pieces into the thicker. Length at least 2 x the thickness held
and at least 1 in of thread in the piece that holds; at most what leaves 1/8 in over the tip. Where two
thin pieces leave no room for that, the longest that does not come through, with 3/8 in of thread or more.
Gauge 8 (4.2 mm), from 1 1/4 in held gauge 10 (4.8 mm); lag screws of the diameter nearest a quarter
of the thickness held: 1/4, 5/16, 3/8 in on 1, 1 1/4, 1 1/2 in. Common practice, no source;
data/limits/hardware.toml.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from ..errors import Fault, NoStock
from ..market import Goods
from ..measure import Writer, to_mm
from ..piece.model import Contact, Member
from ..shop import Shop

NEAR_MM = 0.1
LAG = "lag screw"
MITRE_COSINE = 0.866


def through_mm(member: Member, contact: Contact) -> float:
    """How much wood a fastener finds in the member, square to the contact: its size along the normal.

    On a mitre (the contact more than 30 deg off every side of the member) the screw is driven square to the
    edge near the corner and finds about half of the smaller side.
    """
    frame, normal = member.frame, contact.normal
    sides = sorted(((abs(sum(a * b for a, b in zip(axis, normal, strict=True))), size) for axis, size in (
        (frame.along, member.length_mm), (frame.wide, member.width_mm), (frame.thick, member.thickness_mm))),
        reverse=True)
    if sides[0][0] < MITRE_COSINE:
        return min(size for _, size in sides[:2]) / 2
    return sides[0][1]


def held_and_holding(one: Member, other: Member, contact: Contact) -> tuple[float, float]:
    """(held, holding) in mm: the fastener goes through the thinner into the thicker."""
    sizes = through_mm(one, contact), through_mm(other, contact)
    return min(sizes), max(sizes)


def length_mm(held: float, holding: float, lengths: Iterable[float], shop: Shop,
              kind: str = "screw") -> float | None:
    """The screw length for ``held`` mm on ``holding`` mm among those sold; None where none is right.

    A lag screw goes 4.6 of its diameters into the piece that holds, where that is thick enough.
    """
    limit: Callable[[str], float] = lambda name: shop.limits[f"hardware.{name}"].value  # noqa: E731
    sold = sorted(lengths)
    most = held + holding - limit("tip_cover") + NEAR_MM
    least = max(2 * held, held + limit("least_thread")) - NEAR_MM
    if kind == LAG:
        least = max(least, held + limit("lag_inside") * shank_mm(kind, held, shop) - NEAR_MM)
    if right := [length for length in sold if least <= length <= most]:
        return right[0]
    thin = [length for length in sold if held + limit("least_thread_thin") - NEAR_MM <= length <= most]
    return thin[-1] if thin else None


def shank_mm(kind: str, held: float, shop: Shop) -> float:
    """The shank sought for a ``kind`` of goods that goes through ``held`` mm."""
    if kind == LAG:
        return held * shop.limits["hardware.lag_share"].value
    heavy = held >= shop.limits["hardware.heavy_from"].value - NEAR_MM
    return shop.limits["hardware.heavy_screw" if heavy else "hardware.light_screw"].value


def screws(held: float, holding: float, sold: Sequence[Goods], shop: Shop) -> tuple[Goods, ...]:
    """Every pack of the screw (lag, nail) for this place. Raises NoStock with the length that would do."""
    lengths = {to_mm(round(g.size["length_nm"])) for g in sold}
    length = length_mm(held, holding, lengths, shop, sold[0].kind if sold else "screw")
    write = Writer(shop.units).mm
    if length is None:
        kind = sold[0].kind if sold else "screw"
        raise NoStock(Fault("", f"no {kind} the shop sells holds {write(held)} on {write(holding)}: longer "
                                f"than {write(held)}, short of {write(held + holding)} by a safe margin"))
    right = [g for g in sold if abs(to_mm(round(g.size["length_nm"])) - length) < NEAR_MM]
    target = shank_mm(sold[0].kind, held, shop)
    near = min(_off(g, target) for g in right)
    return tuple(g for g in right if _off(g, target) - near < NEAR_MM)


def _off(goods: Goods, target_mm: float) -> float:
    return abs(goods.size.get("diameter_nm", 0.0) / 1e6 - target_mm)
