"""The pipeline of one quote, read as a table of contents."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from itertools import islice
from typing import TypeVar

from ..domain import checks, cutting, fit, hardware, labour, measure, parts, piece, pricing
from ..domain.cutting.model import CuttingGroup, StockLineBought
from ..domain.errors import BadJob, BadTemplate, Fault, Refused
from ..domain.finding import Finding
from ..domain.fit import Fit
from ..domain.hardware import HardwareLine
from ..domain.job import Item, Job
from ..domain.labour import Labour
from ..domain.parts import Part
from ..domain.piece.model import Piece
from ..domain.pricing import Price
from ..domain.quote import Quote
from ..domain.shop import Shop
from ..domain.site import Site
from ..domain.template import Template, read_template, sizes
from .answer import cautions_of, quoted_items, stopped_by
from .limits import known_on_hand, near, within_limits
from .makeable import not_makeable
from .rack import unused
from .side_by_side import together
from .working import working_of

Made = TypeVar("Made")
MOST_FAULTS = 20


def make_quote(job: Job, shop: Shop) -> Quote:
    """The whole answer to one job, or Refused with a pointer for everything that stands in its way."""
    within_limits(job)
    known_on_hand(job, shop)
    job = _referenced(job)
    writer = measure.Writer(job.units)
    pieces = _each(job.items, lambda item: _makeable(item, piece_of(item, job.units, shop), job, shop))
    counted = tuple((made, item.quantity) for made, item in zip(pieces, job.items, strict=True))
    beside = tuple(together(job, counted))
    fits = _each(pieces, lambda made: _among(fit_of(made, job.site, job.units, shop), beside))
    cost = costed(job, counted, shop)
    findings = tuple(checks.run(made, its_fit, job.site, shop, writer,
                                worked_on_site=labour.at_the_customers(job))
                     for made, its_fit in zip(pieces, fits, strict=True))
    of_job = (*fit.site_findings(job.site, shop, writer), *beside, *cost.findings)
    items = quoted_items(counted, fits, cost.parts, cost.hours, cost.price, findings, shop)
    return Quote(
        job=job, versions=shop.versions, valid_until=job.date + timedelta(days=shop.terms.valid_days),
        items=items, stock=cost.stock, cutting=cost.groups, hardware=cost.goods, labour=cost.hours,
        price=cost.price, findings=of_job,
        stopped_by=stopped_by((*of_job, *(f for found in findings for f in found)), job.overrides),
        terms=shop.terms.lines, cautions=cautions_of(pieces, shop),
        working=working_of(job, items, cost.stock, cost.groups, cost.goods, cost.hours, cost.price, shop),
        demonstration=shop.market.demonstration)


@dataclass(frozen=True, slots=True)
class Costed:
    """What the pieces of a job take and cost, and what the price itself gives cause to say."""

    parts: tuple[Part, ...]
    stock: tuple[StockLineBought, ...]
    groups: tuple[CuttingGroup, ...]
    goods: tuple[HardwareLine, ...]
    hours: Labour
    price: Price
    findings: tuple[Finding, ...]


def costed(job: Job, counted: Sequence[tuple[Piece, int]], shop: Shop) -> Costed:
    """Boards, goods, hours and price of built pieces, each with how many of it, in the job's order."""
    on_site = [fit.site_work(made, job.site, shop, job.delivery.install) for made, _ in counted]
    cut_list = parts.cut_list(counted, shop, [work.longer_nm for work in on_site])
    stock, groups = cutting.plan_job(cut_list, shop, job.on_hand)
    goods = hardware.count(counted, replace(shop, units=job.units))    # its workings in the job's units
    on_site = on_site if labour.at_the_customers(job) else []
    hours = labour.estimate(counted, cut_list, groups, goods, job, shop, on_site)
    price = pricing.price(job, counted, cut_list, stock, groups, goods, hours, shop, on_site)
    estimates = cutting.estimate_findings(stock, shop.random_width_yield)
    said = (*pricing.warnings(price, shop), *estimates, *unused(job, cut_list, stock, shop))
    return Costed(cut_list, stock, groups, goods, hours, price, said)


def piece_of(item: Item, units: str, shop: Shop, solids: bool = True) -> Piece:
    """One item resolved: its template known, its sizes and choices full, every member placed.

    A template that came with the job is looked at as ``check`` looks at one point of a template of ours.
    Without ``solids`` it has its figures only, no members.
    """
    template = known_template(item, shop)
    dimensions_nm, choices = sizes(template, item.dimensions, _chosen(template, item, shop), units)
    allowance = piece.OWN if item.inline is None else piece.INLINE
    if not solids:
        return piece.figures(template, dimensions_nm, choices, shop, units)
    try:
        made = piece.build(template, dimensions_nm, choices, shop, units, allowance)
    except Refused as refused:
        raise refused if item.inline is None else _in_template(refused) from None
    if item.inline is not None and (faults := tuple(islice(piece.faults_of(made, shop, units),
                                                         MOST_FAULTS))):
        raise BadTemplate(*faults).under("/template")
    return made


def _in_template(refused: Refused) -> Refused:
    """The refusal with its pointers set into the inline template, but for those at what the item asks."""
    asked = ("/dimensions", "/choices")
    return type(refused)(*(fault if fault.pointer.startswith(asked) else
                           Fault("/template" + fault.pointer, fault.detail) for fault in refused.faults))


def _makeable(item: Item, made: Piece, job: Job, shop: Shop) -> Piece:
    """The piece, if the shop can make it: asked of a template that came with the job, before planning."""
    if item.inline is not None and (faults := tuple(not_makeable(made, shop, job.on_hand))):
        raise BadTemplate(*faults[:MOST_FAULTS]).under("/template")
    return made


def _chosen(template: Template, item: Item, shop: Shop) -> dict[str, str]:
    """What the item chooses; timber and finish, where it does not say, as this shop offers them."""
    if {"timber", "finish"} <= set(item.choices):
        return dict(item.choices)
    offered = {choice.name: choice.default for choice in piece.offered(template, shop)[-2:] if choice.default}
    return offered | dict(item.choices)


def known_template(item: Item, shop: Shop) -> Template:
    """The template of that id, or the inline one read and checked."""
    if item.inline is not None:
        try:
            return checks.with_known_checks(read_template(item.inline, "the inline template"))
        except Refused as refused:
            raise refused.under("/template") from None
    found: Template | None = shop.templates.get(item.template)
    if found is None:
        named = item.template[:60]
        raise BadJob(Fault("/template", f"there is no template {named!r}{near(named, shop.templates)}"))
    return found


def fit_of(made: Piece, site: Site, units: str, shop: Shop) -> Fit | None:
    """How the piece fits the site, None where nothing was measured."""
    if not (site.walls or site.corners or site.depths or site.access or site.height_under_nm):
        return None
    found = fit.fit(made.template, made.dimensions_nm, made.choices, site, shop, units)
    return fit.with_way_in(found, made, site.access, measure.Writer(units))


def fit_question(template: str, dimensions: Mapping[str, int], choices: Mapping[str, str], site: Site,
                 units: str, shop: Shop) -> tuple[Fit, dict[str, int]]:
    """One template in one site, and the full set of sizes that was tried; the site's own findings first."""
    asked = Item(template, dimensions, choices)
    known = known_template(asked, shop)
    dimensions_nm, chosen = sizes(known, dimensions, _chosen(known, asked, shop), units)
    found = fit.fit(known, dimensions_nm, chosen, site, shop, units)
    if not fit.goes_in_whole(found):    # only then are its solids worth making
        made = piece.build(known, dimensions_nm, chosen, shop, units)
        found = fit.with_way_in(found, made, site.access, measure.Writer(units))
    return replace(found, findings=(*found.doubts, *found.findings)), dimensions_nm


def _among(found: Fit | None, beside: tuple[Finding, ...]) -> Fit | None:
    """The fit of one piece, with what is to be said of the others that come into the same space."""
    return replace(found, doubts=(*found.doubts, *beside)) if found else None


def _each(given: Iterable[object], make: Callable[..., Made]) -> tuple[Made, ...]:
    """One result for each; refusals are collected so that a form can show them all at once."""
    made: list[Made] = []
    faults: list[Fault] = []
    kind: type[Refused] = BadJob
    for index, one in enumerate(given):
        try:
            made.append(make(one))
        except Refused as refused:
            kind = type(refused)
            faults += refused.under(f"/items/{index}").faults
    if faults:
        raise kind(*faults)
    return tuple(made)


def _referenced(job: Job) -> Job:
    """A job without a reference gets one from its content: the same job, the same reference."""
    if job.reference:
        return job
    return replace(job, reference="Y-" + hashlib.sha256(repr(job).encode()).hexdigest()[:8].upper())
