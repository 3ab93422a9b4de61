"""The quote on pages, in the order in which a customer reads it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from reportlab.platypus import Flowable, Spacer

from ..drawing.model import Drawing
from ..faces import register
from ..pages.findings import findings
from ..pages.page import Paper, build
from ..pages.tables import plain, section, subhead
from ..pages.words import FINE, RULE, SECTION, STRONG, bullet, day, para
from .heading import heading
from .items import details, overview
from .notice import notices
from .prices import prices
from .signing import closing
from .single import single
from .space import space

Json = Mapping[str, Any]


def quote_pdf(quote: Json, drawings: Sequence[Drawing], signature: Json | None = None) -> bytes:
    """The quote as answered (the customer's JSON), on A4 or Letter by its units, ready to sign."""
    register()
    shop = str((quote.get("shop") or {}).get("name", ""))
    reference = str(quote.get("reference") or "")
    paper = Paper(title=f"Quote {reference}".strip(), author=shop, foot=f"{shop}   ·   Quote {reference}",
                  units=str(quote.get("units", "mm")), demonstration=bool(quote.get("demonstration")),
                  code=str(quote.get("seal") or "")[:10])
    return build(paper, _story(quote, drawings, signature, paper.width))


def _story(quote: Json, drawings: Sequence[Drawing], signature: Json | None,
           width: float) -> list[Flowable]:
    items = list(quote.get("items") or ())
    return [*heading(quote, width), *overview(items, drawings, width),
            *prices(quote.get("price") or {}, width), *_shown(items, drawings, width),
            *_checked(quote, items, width), *_overrides(quote, items, width), *_cautions(quote, items),
            *closing(quote, signature, _terms(quote), width), *notices(quote, signature, width)]


def _shown(items: Sequence[Json], drawings: Sequence[Drawing], width: float) -> list[Flowable]:
    """What the customer gets and where it stands: one item on a page of its own, several in turn."""
    if len(items) == 1:
        return single(items[0], [d for d in drawings if d.item == 0], width)
    return [*details(items, drawings, width), *space(items, drawings, width)]


def _checked(quote: Json, items: Sequence[Json], width: float) -> list[Flowable]:
    """What was checked: the job's findings, then each item's own and those of its fit."""
    groups = [("", list(quote.get("findings") or ()))]
    for number, item in enumerate(items, 1):
        name = f"{number}.  {item.get('template_name', '')}" if len(items) > 1 else ""
        own = [*(item.get("findings") or ()), *((item.get("fit") or {}).get("findings") or ())]
        groups.append((name, own))
    story: list[Flowable] = []
    for name, found in groups:
        if found:
            story += [Spacer(0, 6), *subhead(name)] if name else []
            story += findings(_each_once(found), width)
    return [*section("What we checked"), *story] if story else []


def _each_once(found: Sequence[Json]) -> list[Json]:
    return [f for i, f in enumerate(found) if f not in found[:i]]


def _overrides(quote: Json, items: Sequence[Json], width: float) -> list[Flowable]:
    """What the shop answers for in writing, with its reason; a rule goes by the title of its finding."""
    found = [*(quote.get("findings") or ()), *(f for item in items for f in item.get("findings") or ())]
    titles = {str(f.get("rule")): f.get("title") for f in found if f.get("level") == "stop"}
    rows = [[para(titles.get(str(o.get("what"))) or o.get("what", ""), STRONG), para(o.get("to", "")),
             para(o.get("reason", ""))] for o in quote.get("overrides") or ()]
    if not rows:
        return []
    table = plain(rows, (width * 0.24, width * 0.2, width * 0.56), (
        ("LINEBELOW", (0, 0), (-1, -1), 0.35, RULE), ("TOPPADDING", (0, 0), (-1, -1), 3),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 4), ("RIGHTPADDING", (0, 0), (1, -1), 8)))
    return [*section("Decided by the shop in writing, with its reason"), table]


def _cautions(quote: Json, items: Sequence[Json]) -> list[Flowable]:
    lines = [*(quote.get("cautions") or ()), *(c for item in items for c in item.get("cautions") or ())]
    lines = list(dict.fromkeys(str(line) for line in lines))
    if not lines:
        return []
    return [*section("Please note, for safety"),
            *(bullet(line, FINE) for line in lines)]


def _terms(quote: Json) -> list[Flowable]:
    until = quote.get("valid_until")
    lines = [f"This quote holds until {day(until)}."] if until else []
    lines += [str(line) for line in quote.get("terms") or ()]
    return [para("Terms", SECTION), *(bullet(line, FINE) for line in lines)]
