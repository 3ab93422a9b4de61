"""What there is to do on each item, counted: boards, cuts, metres, screws, square metres, coats."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from ..cutting.model import CuttingGroup, Layout
from ..errors import BadTemplate, Fault
from ..hardware.coats import coated_m2, finish_of
from ..hardware.joints import glued_contacts
from ..parts import Part
from ..piece.model import MadeJoint, Piece
from ..shop import Shop

FASTENING = {"screws": "drive-screw", "lags": "drive-lag", "nails": "drive-nail", "bolts": "bolt",
             "staples": "staple"}
RIPPED_NM = 1_000            # narrower than its stock by more than a micrometre = ripped


@dataclass(frozen=True, slots=True)
class Work:
    """Some count of a time standard on one item; ``name`` and ``each_minutes`` where they differ from it."""

    standard: str
    item: int
    count: float
    name: str = ""
    each_minutes: float | None = None


def sawing(parts: Sequence[Part], groups: Sequence[CuttingGroup]) -> Iterator[Work]:
    """Fetching, crosscuts and rips of the cutting plan, shared to items by their area on each board.

    Every part narrower than its board counts its own length of rip, though strips may share it.
    """
    items = {part.mark: part.item for part in parts}
    for layout in (layout for group in groups for layout in group.plan.layouts):
        crosscuts = sum(step.times for step in layout.steps if step.kind in ("crosscut", "trim"))
        for item, share in _shares(layout, items).items():
            yield Work("fetch-board", item, share)
            yield Work("crosscut", item, share * crosscuts)
        for placed in layout.parts:
            if placed.width_nm < layout.width_nm - RIPPED_NM:
                yield Work("rip", items[placed.mark], placed.length_nm * 1e-9)
                yield Work("rip-piece", items[placed.mark], 1)


def _shares(layout: Layout, items: Mapping[str, int]) -> Mapping[int, float]:
    area: Counter[int] = Counter()
    for placed in layout.parts:
        area[items[placed.mark]] += placed.length_nm * placed.width_nm
    whole = sum(area.values())
    return {item: share / whole for item, share in area.items()}


def making(piece: Piece, shop: Shop, item: int, quantity: int) -> Iterator[Work]:
    """Everything after the saw for one item: shaping, joining, fitting, sanding, coats, cut ends."""
    for work in (*_shaping(piece), *_joining(piece), *_fitting(piece, shop), *_surfaces(piece, shop)):
        yield Work(work.standard, item, work.count * quantity, work.name, work.each_minutes)


def _shaping(piece: Piece) -> Iterator[Work]:
    for work in (work for member in piece.members for work in member.shape):
        if work.kind in ("bevel", "compound"):
            yield Work("bevel", 0, work.count)
        elif work.kind == "plane":
            yield Work("bevel", 0, 1)
            yield Work("rip", 0, work.metres)
        elif work.kind == "outline":
            yield Work("curve", 0, work.metres)
        elif work.kind == "round over":
            yield Work("rout", 0, work.metres)
            yield Work("sand-edge", 0, work.metres)
        else:
            yield Work("drill" if work.kind == "hole" else "pocket", 0, work.count)


def _joining(piece: Piece) -> Iterator[Work]:
    """Each strip after the first of a blank is one glue joint; blanks are then cut to length at both ends."""
    strips = Counter((m.glue_up, m.glue_up_no) for m in piece.members if m.glue_up)
    yield Work("glue-up", 0, sum(strips.values()) - len(strips))
    yield Work("crosscut", 0, 2 * len(strips))
    for joint in piece.joints:
        yield from _joint(joint)
    yield Work("assemble", 0, len(strips) + sum(not m.glue_up for m in piece.members))


def _joint(joint: MadeJoint) -> Iterator[Work]:
    if joint.rule.fasten in FASTENING:
        yield Work(FASTENING[joint.rule.fasten], 0, joint.fasteners)
    if joint.rule.fasten == "glue":
        yield Work("glue-up", 0, len(joint.contacts))
    elif joint.rule.glue:
        yield Work("spread-glue", 0, len(joint.contacts))


def _fitting(piece: Piece, shop: Shop) -> Iterator[Work]:
    """Bought parts by the operation the template names, else by their kind; roll goods by area."""
    for fitted in piece.hardware:
        own = f"fit-{fitted.kind.replace(' ', '-')}"
        standard = fitted.operation or (own if own in shop.times else "fit")
        yield Work(_known(standard, fitted.name, shop), 0, ceil(fitted.count))
    for done in piece.operations:
        yield Work(_known(done.rule.standard, done.rule.name, shop), 0, done.count, done.rule.name)
    meshes = {roll.code for roll in shop.market.rolls if roll.material == "mesh"}
    for member in piece.members:
        if member.material == "roll":
            area_m2 = member.length_mm * member.width_mm * 1e-6
            yield Work("mesh" if member.section in meshes else "line", 0, area_m2)


def _known(standard: str, used_by: str, shop: Shop) -> str:
    if standard not in shop.times:
        known = ", ".join(sorted(shop.times))
        raise BadTemplate(Fault("/operations", f"{used_by}: no time standard is called {standard!r}; "
                                               f"known: {known}"))
    return standard


def _surfaces(piece: Piece, shop: Shop) -> Iterator[Work]:
    area_m2 = coated_m2(piece)
    grits = {g.size.get("grit") for g in shop.market.goods if g.kind == "abrasive"}
    yield Work("sand", 0, area_m2 * max(2, len(grits)))
    if (finish := finish_of(piece, shop)) is not None:
        for coat in range(finish.coats):
            each = finish.minutes_m2[min(coat, len(finish.minutes_m2) - 1)]
            yield Work("coat", 0, area_m2, f"{finish.name}, coat {coat + 1}", each)
    treated = {t.id for t in shop.market.timbers.values() if t.treated}
    yield Work("preserve-cut", 0, 2 * sum(m.timber in treated for m in piece.members))


def waiting_hours(pieces: Sequence[tuple[Piece, int]], shop: Shop) -> tuple[float, ...]:
    """Each wait the job cannot work through: the clamps once, then every coat of the slowest finish."""
    glued = any(glued_contacts(piece) for piece, _ in pieces)
    finishes = [finish for piece, _ in pieces if (finish := finish_of(piece, shop)) is not None]
    slowest = max(finishes, key=lambda f: f.coats * f.dry_hours, default=None)
    coats = (slowest.dry_hours,) * slowest.coats if slowest else ()
    return ((shop.limits["hardware.clamp"].value / 60,) if glued else ()) + coats
