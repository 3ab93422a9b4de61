"""One function for each call of the contract: ask the domain, write the answer.

The engine, the geometry kernel and the PDF library are imported when they are first asked for, so that
the service answers its health check and its lists at once after a start.
"""

from __future__ import annotations

from typing import Any

from flask import Blueprint, Response, request

from ..domain.errors import Fault
from ..domain.job import Item, Job
from . import guard, papers
from .operation import JSON, PDF, SVG, answer, answer_json, answer_pdf, asked, operation, shop, today
from .problems import NotFound
from .quantities import Speaking, Voice
from .schemas import catalogue, cutting, fit, job, paper, quote
from .schemas.base import BadShape, near_miss

api = Blueprint("api", __name__)


@api.get("/v1/templates")
@operation("The pieces this shop makes", answers=(catalogue.TemplateList,))
def list_templates() -> Response:
    listed = {"templates": list(shop().templates.values())}
    return answer_json(catalogue.TemplateList().dump(listed), 300)


@api.get("/v1/templates/<id>")
@operation("One piece: what can be chosen, and what its fit needs",
           answers=(catalogue.TemplateOut,), errors=(404,))
def get_template(id: str) -> Response:
    found = shop().templates.get(id)
    if found is None:
        raise NotFound(Fault("", near_miss(id, list(shop().templates), "template")))
    with Voice(Speaking(shop(), _asked_units(), today())):
        return answer_json(catalogue.TemplateOut().dump(found), 300)


@api.get("/v1/shop")
@operation("What a form needs to know of the shop; no costs", answers=(catalogue.ShopOut,))
def get_shop() -> Response:
    with Voice(Speaking(shop(), _asked_units(), today())):
        return answer_json(catalogue.ShopOut().dump(shop()), 300)


@api.post("/v1/fits")
@operation("Does a piece fit the measured space, where, and what is the largest that does",
           body=job.FitQuestion, answers=(fit.FitOut,))
def answer_fit(question: dict[str, Any]) -> Response:
    from .. import quoting

    found, dimensions_nm = quoting.fit_question(shop=shop(), **question)
    return answer_json(fit.FitOut().dump(found) | fit.asked_sizes(dimensions_nm))


@api.post("/v1/quotes")
@operation("A job's quote; the shop's key sees its costs", body=job.Job,
           answers=(quote.Quote, quote.ShopQuote), media=(JSON, PDF), scope="customer", errors=(409,))
def create_quote(asked_job: Job) -> Response:
    from .. import quoting

    _shop_only(asked_job)
    made = quoting.with_mends(quoting.make_quote(asked_job, shop()), shop())
    if asked((JSON, PDF)) == PDF:
        return answer_pdf(papers.quote_paper(made, shop()), f"quote {made.job.reference}")
    return answer_json(papers.quote_answer(made, shop(), guard.scope()))


@api.post("/v1/papers")
@operation("The paper of a quote exactly as it was answered, signed or not",
           body=paper.PaperQuestion, media=(PDF,), scope="customer", errors=(409,),
           most_bytes=guard.MOST_SEALED_BYTES)
def create_paper(question: dict[str, Any]) -> Response:
    paper_bytes = papers.sealed_paper(question["quote"], question.get("signature"), shop())
    return answer_pdf(paper_bytes, f"quote {question['quote']['reference']}")


@api.post("/v1/shop-sheets")
@operation("The workshop's packet for a job or a sealed quote", body=paper.SheetQuestion,
           answers=(quote.ShopQuote,), media=(JSON, PDF), scope="shop", most_bytes=guard.MOST_SEALED_BYTES)
def create_shop_sheet(question: dict[str, Any]) -> Response:
    from .. import quoting

    asked_job = question["job"] if "job" in question else papers.job_again(question["quote"])
    made = quoting.make_quote(asked_job, shop())
    if asked((JSON, PDF)) == PDF:
        return answer_pdf(papers.shop_sheet(made), f"workshop {made.job.reference}")
    return answer_json(papers.quote_answer(made, shop(), "shop"))


@api.post("/v1/drawings")
@operation("One item drawn", body=job.DrawingQuestion, media=(SVG,))
def create_drawing(question: dict[str, Any]) -> Response:
    from .. import documents, quoting

    _inline_only_for_shop([question["item"]], "/item")
    made = quoting.piece_of(question["item"], question["units"], shop())
    units, site = question["units"], question["site"]
    fits = quoting.fit_of(made, site, units, shop())
    drawn = documents.draw(made, question["view"], units, question["opened"], site, fits)
    return answer(documents.svg(drawn).encode(), SVG)


@api.post("/v1/cutting-plans")
@operation("Parts cut from stock, with a true lower bound", body=cutting.CuttingQuestion,
           answers=(cutting.CuttingAnswer,))
def create_cutting_plan(question: dict[str, Any]) -> Response:
    from ..domain.cutting import plan

    return answer_json(cutting.CuttingAnswer().dump(plan(**question)))


@api.get("/healthz")
@operation("The process is up")
def healthz() -> Response:
    return answer_json({"status": "ok", "service": shop().versions.get("service", "")})


@api.get("/readyz")
@operation("The data is read")
def readyz() -> Response:
    read = {"templates": len(shop().templates), "versions": dict(shop().versions)}
    return answer_json({"status": "ok"} | read)


def _asked_units() -> str:
    units = request.args.get("units", shop().units)
    if units not in job.UNITS:
        raise BadShape(Fault("/units", f"units are one of: {', '.join(job.UNITS)}"))
    return units


def _shop_only(asked_job: Job) -> None:
    """Inline templates and overrides change what the shop answers for, so they need its key."""
    _inline_only_for_shop(asked_job.items, "/items")
    if asked_job.overrides:
        guard.require("shop", "an override")


def _inline_only_for_shop(items: Any, pointer: str) -> None:
    if any(isinstance(item, Item) and item.inline is not None for item in items):
        guard.require("shop", f"an inline template ({pointer})")
