"""The same use cases from files: serve, quote a job, check a template."""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from . import __version__
from .domain.errors import Refused
from .domain.job import Job
from .domain.quote import Quote
from .domain.shop import Shop
from .wiring import load_shop

if TYPE_CHECKING:
    from .domain.piece.trial import TrialReport
    from .domain.template import Template

MOST_FAULTS = 20


def main(arguments: Sequence[str] | None = None) -> int:
    """0 when all went well, 1 when what was asked is refused or at fault, 2 for a wrong command line."""
    given = _reader().parse_args(arguments)
    try:
        return int(given.run(given))
    except Refused as refused:
        print(f"{refused.title}:", file=sys.stderr)
        for fault in refused.faults:
            print(f"  {fault.pointer or '(whole)'}: {fault.detail}", file=sys.stderr)
    except OSError as error:
        print(f"{error.filename}: {error.strerror}", file=sys.stderr)
    return 1


def _reader() -> argparse.ArgumentParser:
    reader = argparse.ArgumentParser("yardwright", description="From a tape and a phone to a price on paper.")
    reader.add_argument("--version", action="version", version=__version__)
    reader.add_argument("--shop", help="the shop's folder, or the name of one that comes along")
    what = reader.add_subparsers(required=True, metavar="serve | quote | check")
    serve = what.add_parser("serve", help="the service and the phone app")
    serve.add_argument("--host")
    serve.add_argument("--port", type=int)
    serve.add_argument("--workers", type=int, default=2)
    serve.add_argument("--debug", action="store_true", help="one reloading process; never in public")
    serve.set_defaults(run=_serve)
    quote = what.add_parser("quote", help="a job file to a quote: PDF, JSON or CSV (the cut list) by name")
    quote.add_argument("job", type=Path)
    quote.add_argument("-o", "--output", type=Path, action="append", required=True)
    quote.add_argument("--shop-sheet", type=Path, help="also the workshop's packet as PDF")
    quote.add_argument("--shopping-list", type=Path, help="also what to buy, as CSV")
    quote.set_defaults(run=_quote)
    check = what.add_parser("check", help="try a template over its whole range")
    check.add_argument("template", type=Path)
    check.add_argument("--points", type=int, default=200, help="sizes and choices tried between the corners")
    check.add_argument("--combinations", type=int, default=6, help="of choices tried at each corner")
    check.add_argument("--seed", type=int, default=1, help="another number tries other points")
    check.add_argument("--drawing", type=Path, help="an SVG of the worst case, its members pointed out")
    check.set_defaults(run=_check)
    return reader


def _serve(given: argparse.Namespace) -> int:
    from .http.serve import serve

    return serve(load_shop(given.shop), given.host, given.port, given.workers, given.debug)


def _quote(given: argparse.Namespace) -> int:
    from . import quoting

    shop = load_shop(given.shop)
    quote = quoting.with_mends(quoting.make_quote(_read_job(given.job, shop), shop), shop)
    for path in given.output:
        _write(path, quote, shop)
    if given.shop_sheet:
        from .http.papers import shop_sheet

        given.shop_sheet.write_bytes(shop_sheet(quote))
    if given.shopping_list:
        from .documents import shopping_list_csv

        given.shopping_list.write_text(shopping_list_csv(quote), encoding="utf-8", newline="")
    written = ", ".join(str(path) for path in given.output)
    print(f"{quote.job.reference}: {quote.price.total.text()} {quote.price.currency}, "
          f"{len(quote.items)} item(s), {quote.labour.hours:.1f} h; {written}")
    return 0


def _write(path: Path, quote: Quote, shop: Shop) -> None:
    from .http import papers

    if path.suffix.lower() == ".json":
        answer = papers.quote_answer(quote, shop, "shop")
        path.write_text(json.dumps(answer, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    elif path.suffix.lower() == ".csv":
        from .documents import cut_list_csv

        path.write_text(cut_list_csv(quote), encoding="utf-8", newline="")
    else:
        path.write_bytes(papers.quote_paper(quote, shop))


def _read_job(path: Path, shop: Shop) -> Job:
    from .http.quantities import Speaking, Voice
    from .http.reading import read_json
    from .http.schemas.base import load
    from .http.schemas.job import Job as JobSchema

    with Voice(Speaking(shop, shop.units, date.today())):
        job: Job = load(JobSchema(), read_json(path.read_bytes()))
        return job


def _check(given: argparse.Namespace) -> int:
    from .domain.piece.trial import trial
    from .files.templates import load
    from .files.trial_report import report_lines, tried_words
    from .quoting.held import held
    from .quoting.makeable import not_makeable

    template, shop, start = load(given.template), load_shop(given.shop), time.perf_counter()
    report = trial(template, shop, given.points, given.seed, given.combinations, not_makeable, held)
    seconds = time.perf_counter() - start
    lines = report_lines(report, template, given.template)
    print("\n".join(lines[:2 * MOST_FAULTS]), end="\n" if lines else "")
    kinds = len(lines) // 2          # of those that differ in nothing but the members named a few
    more = f", of {kinds} kind{'s' if kinds > 1 else ''}" if kinds else ""
    more += f", {MOST_FAULTS} shown" if kinds > MOST_FAULTS else ""
    unsold = f"; not sold here: {', '.join(report.unsold)}" if report.unsold else ""
    faults = len(report.faults) + len(report.lacking)
    print(f"{report.template}: {faults} faults{more}; {tried_words(report)}; {seconds:.1f} s{unsold}")
    if given.drawing:
        _draw_worst(given.drawing, report, template, shop)
    return 0 if report.good else 1


def _draw_worst(path: Path, report: TrialReport, template: Template, shop: Shop) -> None:
    from .documents import svg
    from .documents.drawing.pointed import pointed_out
    from .domain.piece.worst import worst
    from .files.trial_report import whole_words

    found = worst(report, template, shop)
    if found is None:
        why = "nothing at all could be built" if report.faults else "no piece that was built has a fault"
        left = "; what it shows is older" if path.exists() else ""
        print(f"{path} not drawn: {why}{left}")
        return
    told = f"{whole_words(found.fault)}. At {found.fault.point.words()}. {found.instead}".strip()
    drawing = pointed_out(found.piece, found.members, told, found.fault.point.units, found.opened_deg)
    path.write_text(svg(drawing), encoding="utf-8")
    print(f"{path} drawn: {'the worst case' if not found.instead else found.instead}")
