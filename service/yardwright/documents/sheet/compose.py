"""The shop sheet on pages, in the order in which the work goes: see, buy, cut, make, check, reckon."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict

from reportlab.platypus import CondPageBreak, Flowable, PageBreak, Spacer

from yardwright.domain.finding import Finding, Level
from yardwright.domain.fit.verdict import UNCHECKED
from yardwright.domain.measure import Writer
from yardwright.domain.quote import Quote

from ..drawing.model import Drawing
from ..drawing.pdf import Drawn
from ..faces import register
from ..pages.findings import findings
from ..pages.page import Paper, build
from ..pages.tables import facts, plain, section, subhead
from ..pages.words import FINE, ITEM, SHOP, STRONG, TITLE, bullet, day, para
from .build_up import build_up, workings
from .buying import shopping
from .cut_list import cut_list
from .cutting import diagrams
from .names import choices, item_names
from .parts import marked_views, part_sheets
from .setting_out import setting_out
from .work import assembly, labour_sheet


def shop_sheet_pdf(quote: Quote, drawings: Sequence[Drawing]) -> bytes:
    """The workshop's packet of one quote, on A4 or Letter by the job's units."""
    register()
    reference = quote.job.reference
    paper = Paper(title=f"Shop sheet {reference}".strip(), author="", units=quote.job.units,
                  foot=f"Shop sheet {reference}   ·   for the workshop only",
                  demonstration=quote.demonstration)
    return build(paper, _story(quote, drawings, paper.width))


def _story(quote: Quote, drawings: Sequence[Drawing], width: float) -> list[Flowable]:
    writer, names = Writer(quote.job.units), item_names(quote)
    parts = [(name, item.parts) for name, item in zip(names, quote.items, strict=True)]
    return [*_head(quote, width), *_pictures(quote, names, drawings, width),
            *shopping(quote.stock, quote.hardware, quote.price.currency, writer, width),
            *cut_list(parts, quote.cutting, writer, width), *part_sheets(quote.items, names, writer, width),
            *diagrams(quote.cutting, writer, width), *setting_out(quote.items, names, writer, width),
            *assembly(quote.items, names),
            *labour_sheet(quote.labour, width), *_findings(quote, names, width), *_cautions(quote),
            PageBreak(), *build_up(quote.price, names, width), *workings(quote.working, width)]


def _head(quote: Quote, width: float) -> list[Flowable]:
    job = quote.job
    left = facts([("Reference", job.reference), ("Customer", job.customer.name),
                  ("Address", job.customer.address), ("Notes", job.notes)], width * 0.6)
    wanted = day(job.wanted_by) if job.wanted_by else ""
    right = facts([("Date", day(job.date)), ("Wanted by", wanted),
                   ("Hours", f"{quote.labour.hours:.1f}"), ("Working days", quote.labour.elapsed_days),
                   ("Prices", quote.versions.get("prices", ""))], width * 0.4)
    return [para("Shop sheet", TITLE), Spacer(0, 6), plain([[left, right]], (width * 0.6, width * 0.4)),
            *_stopped(quote), *_open(quote, item_names(quote))]


def _stopped(quote: Quote) -> list[Flowable]:
    if not quote.stopped_by:
        return []
    return [Spacer(0, 6), para("Held: do not start. No paper goes out while these stand.", SHOP),
            *(bullet(f"{f.title}. {f.mend}") for f in quote.stopped_by)]


def _open(quote: Quote, names: Sequence[str]) -> list[Flowable]:
    """What must not be missed, on the first page: the workings of each stand among the checks."""
    whose = [f" ({name})" if len(names) > 1 else "" for name in names]
    told = [*((f, "") for f in quote.findings), *(
        (f, name) for name, item in zip(whose, quote.items, strict=True) for f in item.findings)]
    heads = ((Level.STOP, "Stopped, and answered for in writing."), (Level.CAUTION, "Cautions: mind these."),
             (Level.NOT_CHECKED, "Not checked: look yourself before you start."))
    found: list[Flowable] = []
    for level, head in heads:
        held = quote.stopped_by if level is Level.STOP else ()       # these are told above
        lines = dict.fromkeys(f"{f.title.removesuffix(UNCHECKED)}{name}" for f, name in told
                              if f.level is level and f not in held)
        if lines:
            found += [Spacer(0, 6), para(head, SHOP), *(bullet(line, FINE) for line in lines)]
    return found



def _pictures(quote: Quote, names: Sequence[str], drawings: Sequence[Drawing],
              width: float) -> list[Flowable]:
    """Each item as it will stand, with its measured views; every part's mark is in one of its pictures."""
    story: list[Flowable] = []
    for number, (item, name) in enumerate(zip(quote.items, names, strict=True)):
        own = [d for d in drawings if d.item == number]
        picture = next((d for d in own if d.view == "isometric"), None)
        side: list[Flowable] = [para(name, ITEM), facts(choices(item), width * 0.46, label=112),
                                *(bullet(note, FINE) for note in item.piece.notes)]
        shown: list[Flowable] | str = [Drawn(picture, width * 0.46, 190)] if picture else ""
        story += [CondPageBreak(240), Spacer(0, 10), plain([[shown, "", side]],
                                                          (width * 0.46, width * 0.06, width * 0.48)),
                  *marked_views(item, number, quote.job.units, [d for d in own if d.opened], width)]
    return story


def _findings(quote: Quote, names: Sequence[str], width: float) -> list[Flowable]:
    """Every finding of every check with its working, also those the customer does not see."""
    groups: list[tuple[str, Sequence[Finding]]] = [("", quote.findings)]
    groups += [(name, (*item.findings, *(item.fit.findings if item.fit else ())))
               for name, item in zip(names, quote.items, strict=True)]
    story: list[Flowable] = section("Checks", 120.0)
    for name, found in groups:
        if found:
            story += [Spacer(0, 6), *subhead(name)] if name else []
            story += findings([asdict(f) for f in dict.fromkeys(found)], width, working=True)
    story += [para("Answered for in writing", STRONG)] if quote.job.overrides else []
    return story + [bullet(f"{o.what}: {o.to}. {o.reason}") for o in quote.job.overrides]


def _cautions(quote: Quote) -> list[Flowable]:
    lines = [*quote.cautions, *(c for item in quote.items for c in item.piece.cautions)]
    return [*section("Safety", 80.0),
            *(bullet(line, FINE) for line in dict.fromkeys(lines))]
