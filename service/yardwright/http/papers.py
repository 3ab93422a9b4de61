"""Answers and papers of a quote: the sealed JSON, the customer's PDF, the workshop's sheet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from ..domain.errors import Fault, Refused
from ..domain.job import Item, Job
from ..domain.measure import from_mm
from ..domain.piece.model import Piece
from ..domain.quote import Quote
from ..domain.shop import Shop
from . import seal
from .problems import Held
from .quantities import Speaking, Voice
from .schemas import quote as schemas
from .schemas.base import load
from .schemas.job import Job as JobSchema

VIEWS = ("isometric", "front", "side", "plan")


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
        raise Held(*(Fault(f"/overrides ({finding.rule})", _how(finding.title, finding.detail, finding.rule))
                     for finding in quote.stopped_by))
    pieces = [item.piece for item in quote.items]
    return documents.quote_pdf(quote_answer(quote, shop, "customer"), drawings(pieces, quote.job.units))


def sealed_paper(answered: dict[str, Any], signature: Mapping[str, Any] | None, shop: Shop) -> bytes:
    """The paper of a quote answered earlier, nothing recalculated; only unchanged templates are drawn."""
    from .. import documents

    part = seal.check(answered)
    if part.get("held_by"):
        raise Held(*(Fault("/overrides", _how(rule, "", rule)) for rule in part["held_by"]))
    drawn = drawings(_pieces_again(part, shop), part["units"])
    return documents.quote_pdf(part, drawn, signature)


def shop_sheet(quote: Quote) -> bytes:
    """The workshop's packet as PDF."""
    from .. import documents

    pieces = [item.piece for item in quote.items]
    return documents.shop_sheet_pdf(quote, drawings(pieces, quote.job.units, VIEWS))


def drawings(pieces: Sequence[Piece], units: str, views: Sequence[str] = VIEWS) -> list[Any]:
    """Every view of every piece, in order."""
    from .. import documents

    return [documents.draw(piece, view, units) for piece in pieces for view in views]


def job_again(answered: dict[str, Any], shop: Shop) -> Job:
    """The job behind a sealed quote: what was asked, without what only the price needed."""
    part = seal.check(answered)
    asked = {name: part[name] for name in ("reference", "units", "date", "customer", "site", "overrides")}
    asked["items"] = [{name: item[name] for name in ("template", "dimensions", "choices", "quantity")}
                      for item in part["items"]]
    job: Job = load(JobSchema(), asked)
    return job


def _pieces_again(part: dict[str, Any], shop: Shop) -> list[Piece]:
    from .. import quoting

    pieces = []
    for asked, item in zip(part["items"], job_items(part), strict=True):
        template = shop.templates.get(item.template)
        if template is not None and template.revision == asked["revision"]:
            try:
                pieces.append(quoting.piece_of(item, part["units"], shop))
            except Refused:
                continue
    return pieces


def job_items(part: dict[str, Any]) -> list[Item]:
    """The items of a sealed quote as they were asked."""
    return [Item(item["template"], {name: from_mm(size["mm"]) for name, size in item["dimensions"].items()},
                 item["choices"], item["quantity"]) for item in part["items"]]


def _how(title: str, detail: str, rule: str) -> str:
    override = f'{{"what": "{rule}", "reason": "..."}}'
    return f"{title}. {detail} To answer for it in writing add the override {override}"
