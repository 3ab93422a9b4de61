"""Labour: hours by operation from counts, metres and square metres, and elapsed days.

    minutes = (set-up once a job + count x minutes each) x (1 + allowance for rest and delay)

Set-up is shared to items by their counts. A batch of alike pieces gets no learning discount: the hours
are what the last one takes if nobody gets faster. Time standards and the allowance are the shop's.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import ceil

from ..cutting.model import CuttingGroup
from ..errors import BadData, Fault, Refused
from ..fit import SiteWork
from ..hardware import HardwareLine, delivered_kg
from ..hardware.coats import finish_of
from ..job import Job
from ..measure import in_units
from ..parts import Part
from ..piece.model import Piece
from ..shop import Shop, TimeStandard
from .counts import Work, making, sawing, waiting_hours
from .model import Labour, Operation

__all__ = ["DELIVERY", "PHASES", "SITE", "Labour", "Operation", "at_the_customers", "crew", "estimate"]

PHASES = ("prepare", "cut", "join", "fit", "finish", "office")
# Putting together and levelling at the customer's.
SITE = ("site-setup", "site-place", "site-fasten", "scribe-leg", "shim-leg", "scribe-wall")
# Work at the customer's: priced on the delivery line, not in the items.
DELIVERY = ("drive", "install", *SITE)


def estimate(pieces: Sequence[tuple[Piece, int]], parts: Sequence[Part], groups: Sequence[CuttingGroup],
             hardware: Sequence[HardwareLine], job: Job, shop: Shop,
             on_site: Sequence[SiteWork] = ()) -> Labour:
    """Hours of the whole job by operation and item, what waits for clamps and coats, and working days.

    ``on_site`` is what a piece of each item takes at the customer's, done where the shop goes there. Elapsed
    days = whole working days + one day for each begun 24 h of every wait.
    """
    work = [*sawing(parts, groups)]
    for item, (piece, quantity) in enumerate(pieces):
        work += _making(piece, item, quantity, shop)
        work += _handling(piece, item, quantity, job, shop)
        if item < len(on_site) and at_the_customers(job):
            work += _on_site(on_site[item], item, quantity, crew([(piece, quantity)], job, shop))
    work += _by_job(pieces, job, shop)
    operations = _operations(work, len(pieces), job.units, shop)
    minutes = sum(operation.minutes for operation in operations)
    waits = waiting_hours(pieces, shop)
    days = ceil(minutes / 60 / shop.terms.hours_per_day - 1e-9)
    waited = sum(ceil(wait / 24) for wait in waits)
    return Labour(operations, minutes / 60, sum(waits), days + waited,
                  f"{minutes / 60:.2f} h at {shop.terms.hours_per_day:g} h a day: {days} days; clamps and "
                  f"coats wait {sum(waits):g} h: {waited} days")


def _making(piece: Piece, item: int, quantity: int, shop: Shop) -> tuple[Work, ...]:
    try:
        return tuple(making(piece, shop, item, quantity))
    except Refused as refused:
        raise refused.under(f"/items/{item}/template") from None


def crew(pieces: Iterable[tuple[Piece, int]], job: Job, shop: Shop) -> int:
    """How many people deliver: as asked, and two from the shop's weight for one piece on."""
    heaviest = max((delivered_kg(piece, shop) for piece, _ in pieces), default=0.0)
    return max(job.delivery.crew, 2 if heaviest > shop.prices.second_person_over_kg else 1)


def _handling(piece: Piece, item: int, quantity: int, job: Job, shop: Shop) -> Iterator[Work]:
    people = crew([(piece, quantity)], job, shop)
    yield Work("load", item, quantity)
    if job.delivery.distance_km > 0:
        yield Work("unload", item, quantity * people)
    if job.delivery.install:
        yield Work("install", item, quantity * people)


def at_the_customers(job: Job) -> bool:
    """Whether the shop goes there at all: it delivers or installs."""
    return job.delivery.distance_km > 0 or job.delivery.install


def _on_site(work: SiteWork, item: int, quantity: int, people: int) -> Iterator[Work]:
    """Everybody there carries and aligns; screws, saw and shims are one person's."""
    counts = (("site-place", work.parts * people), ("site-fasten", work.fasteners),
              ("scribe-leg", work.scribed), ("shim-leg", work.shimmed),
              ("scribe-wall", sum(work.edges_nm) * 1e-9))
    if any(count for _, count in counts):
        yield Work("site-setup", item, 1)
    yield from (Work(standard, item, count * quantity) for standard, count in counts if count)


def _by_job(pieces: Sequence[tuple[Piece, int]], job: Job, shop: Shop) -> Iterator[Work]:
    """Office and measuring are set-up alone: once a job, shared equally."""
    for item in range(len(pieces)):
        yield Work("office", item, 1 / len(pieces))
        yield Work("measure-visit", item, 1 / len(pieces))
        yield Work("drive", item,
                   2 * job.delivery.distance_km * (crew(pieces, job, shop) - 1) / len(pieces))
    coats = {f.id: f.coats for piece, _ in pieces if (f := finish_of(piece, shop)) is not None}
    for item, (piece, _) in enumerate(pieces):
        if (finish := finish_of(piece, shop)) is not None:
            alike = sum(p.choices.get("finish") == finish.id for p, _ in pieces)
            yield Work("clean-up", item, coats[finish.id] / alike)


def _operations(work: Iterable[Work], items: int, units: str, shop: Shop) -> tuple[Operation, ...]:
    """The work summed by standard and name, in the order of the shop's phases, told in ``units``."""
    counts: dict[tuple[str, str, float | None], list[float]] = {}
    for done in work:
        by_item = counts.setdefault((done.standard, done.name, done.each_minutes), [0.0] * items)
        by_item[done.item] += done.count
    begun: set[str] = set()
    found = []
    for (standard_id, name, each), by_item in counts.items():
        if sum(by_item) > 1e-12:
            standard = _standard(standard_id, shop)
            setup = 0.0 if standard_id in begun else standard.setup_minutes
            begun.add(standard_id)
            minutes = standard.minutes if each is None else each
            found.append(_operation(standard, name, by_item, minutes, setup, units, shop.allowance.value))
    return tuple(sorted(found, key=lambda operation: PHASES.index(operation.phase)))


def _standard(standard_id: str, shop: Shop) -> TimeStandard:
    if standard_id not in shop.times:
        raise BadData(Fault("times", f"the time standard {standard_id!r} is missing; data/times/ needs it"))
    return shop.times[standard_id]


def _operation(standard: TimeStandard, name: str, by_item: Sequence[float], each: float, setup: float,
               units: str, allowance: float) -> Operation:
    factor, per = in_units(standard.per, units)
    count = sum(by_item)
    minutes = (setup + count * each) * (1 + allowance)
    begins = f"{setup:g} min set-up + " if setup else ""
    return Operation(standard.id, name or standard.name, standard.phase, count * factor, per, each / factor,
                     setup, minutes, tuple(minutes * part / count for part in by_item),
                     f"({begins}{count * factor:.4g} {per} x {each / factor:.3g} min) x {1 + allowance:g}")
