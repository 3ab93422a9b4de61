"""Answers and papers of a quote: the sealed JSON, the customer's PDF, the workshop's sheet."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from ..domain.errors import Fault, Refused
from ..domain.job import Item, Job
from ..domain.measure import from_mm
from ..domain.shop import Shop
from ..domain.site import Site
from . import seal
from .problems import Held
from .quantities import Speaking, Voice
from .schemas import quote as schemas
from .schemas.base import load
from .schemas.job import Job as JobSchema
from .schemas.site import Site as SiteSchema

if TYPE_CHECKING:
    from ..domain.fit import Fit
    from ..domain.piece.model import Piece
    from ..domain.quote import Quote

    # One item as it is drawn: its place in the job, the piece, how it fits.
    Drawn = tuple[int, Piece, Fit | None]


def quote_answer(quote: Quote, shop: Shop, scope: str) -> dict[str, Any]:
    """The quote as JSON for one scope, sealed."""
    schema = schemas.ShopQuote() if scope == "shop" else schemas.Quote()
    with Voice(Speaking(shop, quote.job.units, quote.job.date)):
        said: dict[str, Any] = schema.dump(quote)
    return said | {"seal": seal.seal(said)}


def quote_paper(quote: Quote, shop: Shop) -> bytes:
    """The customer's PDF; Held while a ``stop`` finding stands without a written override."""
    from .. import documents

    if quote.stopped_by:
        raise Held(*(Fault("/overrides", _how(finding.rule, f"{finding.title}. {finding.detail}"))
                     for finding in quote.stopped_by))
    drawn = _drawings(_items_of(quote), quote.job.units, quote.job.site)
    return documents.quote_pdf(quote_answer(quote, shop, "customer"), drawn)


def sealed_paper(answered: dict[str, Any], signature: Mapping[str, Any] | None, shop: Shop) -> bytes:
    """The paper of a quote answered earlier, nothing recalculated; only unchanged templates are drawn."""
    from .. import documents

    part = seal.check(answered)
    if part["held_by"]:
        raise Held(*(Fault("/quote/held_by", _how(rule, "")) for rule in part["held_by"]))
    site: Site = load(SiteSchema(), part["site"])
    drawn = _drawings(_items_again(part, site, shop), part["units"], site)
    return documents.quote_pdf(part, drawn, signature)


def shop_sheet(quote: Quote) -> bytes:
    """The workshop's packet as PDF."""
    from .. import documents

    return documents.shop_sheet_pdf(quote, _drawings(_items_of(quote), quote.job.units, quote.job.site))


def job_again(answered: dict[str, Any]) -> Job:
    """The job behind a sealed quote: what was asked, without what only the price needed."""
    part = seal.check(answered)
    asked = {name: part[name] for name in ("reference", "units", "date", "customer", "site", "overrides")}
    asked["items"] = [{name: item[name] for name in ("template", "dimensions", "choices", "quantity")}
                      for item in part["items"]]
    job: Job = load(JobSchema(), asked)
    return job


def _drawings(items: Iterable[Drawn], units: str, site: Site) -> list[Any]:
    from .. import documents

    return [drawing for item, piece, fit in items
            for drawing in documents.paper_drawings(piece, units, site, fit, item)]


def _items_of(quote: Quote) -> list[Drawn]:
    return [(index, item.piece, item.fit) for index, item in enumerate(quote.items)]


def _items_again(part: dict[str, Any], site: Site, shop: Shop) -> list[Drawn]:
    """The pieces of a sealed quote whose templates are still the ones it was made with."""
    from .. import quoting

    found: list[Drawn] = []
    for index, asked in enumerate(part["items"]):
        template = shop.templates.get(asked["template"])
        if template is None or template.revision != asked["revision"]:
            continue
        sizes = {name: from_mm(size["mm"]) for name, size in asked["dimensions"].items()}
        try:
            made = quoting.piece_of(Item(template.id, sizes, asked["choices"]), part["units"], shop)
        except Refused:
            continue
        found.append((index, made, quoting.fit_of(made, site, part["units"], shop)))
    return found


def _how(rule: str, found: str) -> str:
    override = f'{{"what": "{rule}", "reason": "..."}}'
    return f"{found} To answer for it in writing add the override {override}".strip()
