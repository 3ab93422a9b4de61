"""How long one bench takes, stage by stage, and the HTTP quote against a bare echo of the same payload.

Absolute times swing on a shared machine; the ratio is taken request by request in the same run, with a
different size each time so that nothing is answered from memory. Run by ``make bench``.
"""

from __future__ import annotations

import json
import resource
import statistics
import subprocess
import sys
import threading
import time
from collections import defaultdict
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Any

import requests
from flask import Flask, request
from werkzeug.serving import make_server

from yardwright import documents, quoting
from yardwright.domain.job import Customer, Item, Job
from yardwright.domain.site import Site
from yardwright.http import create_app, papers
from yardwright.http.quantities import Speaking, Voice
from yardwright.http.reading import read_json
from yardwright.http.schemas.base import load
from yardwright.http.schemas.job import Job as JobSchema
from yardwright.quoting import pipeline
from yardwright.wiring import load_shop

SCENARIO = Path(__file__).parents[2] / "seed_scenarios" / "01-downpipe-and-gate" / "job.json"
ROUNDS = 30
BARE = "import flask, marshmallow; flask.Flask('bare')"
OURS = ("from yardwright.http import create_app; from yardwright.wiring import load_shop; "
        "create_app(load_shop())")


FAILING: tuple[tuple[str, str, dict[str, int], dict[str, str]], ...] = (
    ("sound bench", "storage-bench", {}, {}),
    ("bench with a low seat", "storage-bench", {"seat_height": 14 * 25_400_000}, {}),
    ("bench that stands free", "storage-bench", {}, {"fixing": "free"}),
    ("heavy lid", "storage-bench", {"length": 76 * 25_400_000, "depth": 27 * 25_400_000},
     {"back": "none", "timber": "robinia"}),
    ("small tall planter, treated, for food", "planter-box",
     {"length": 17 * 25_400_000, "height": 27 * 25_400_000},
     {"grows": "food", "lining": "none", "timber": "southern-pine-uc4a"}),
    ("picnic table for older people, low", "picnic-table", {"seat_height": 16 * 25_400_000},
     {"users": "older", "timber": "western-red-cedar"}),
    ("deep low chair for older people", "lounge-chair",
     {"seat_height": 14 * 25_400_000, "seat_depth": 22 * 25_400_000}, {"users": "older"}),
    ("corner bench with a high seat", "corner-bench", {"seat_height": 20 * 25_400_000}, {}),
)


def main() -> int:
    shop = load_shop()
    body = json.loads(SCENARIO.read_text(encoding="utf-8"))
    stages = by_stage(shop, ROUNDS)
    print(f"\nOne storage bench, {ROUNDS} sizes, this machine now")
    print(f"{'stage':<28}{'median ms':>10}{'p95 ms':>10}")
    for name, times in stages.items():
        print(f"{name:<28}{statistics.median(times):>10.2f}{p95(times):>10.2f}")
    quote, echo = over_http(shop, body, ROUNDS)
    ratios = [q / e for q, e in zip(quote, echo, strict=True)]
    print(f"\n{'over HTTP, one connection':<28}{'median ms':>10}{'p95 ms':>10}")
    print(f"{'quote':<28}{statistics.median(quote):>10.2f}{p95(quote):>10.2f}")
    print(f"{'bare echo, same payload':<28}{statistics.median(echo):>10.2f}{p95(echo):>10.2f}")
    print(f"{'quote / echo':<28}{statistics.median(ratios):>10.1f}{p95(ratios):>10.1f}")
    print(f"\n{'quote with its mends, processor time':<38}{'quote ms':>10}{'mends ms':>10}{'ratio':>8}")
    for name, template, dimensions, choices in FAILING:
        alone, more = mends(shop, template, dimensions, choices)
        print(f"{name:<38}{alone:>10.0f}{more:>10.0f}{more / alone:>8.2f}")
    bare, ours = (statistics.median(seconds_of(code) for _ in range(5)) for code in (BARE, OURS))
    print(f"\n{'start, processor time':<28}{'ms':>10}\n{'flask and marshmallow':<28}{bare * 1000:>10.0f}")
    print(f"{'the service, data read':<28}{ours * 1000:>10.0f}\n{'ratio (bar 2.0)':<28}{ours / bare:>10.2f}")
    return 0


def seconds_of(code: str) -> float:
    """Processor seconds of a fresh interpreter running ``code``."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, "-c", code], check=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def p95(times: list[float]) -> float:
    return sorted(times)[int(len(times) * 0.95)]


def mends(shop: Any, template: str, dimensions: dict[str, int], choices: dict[str, str]
          ) -> tuple[float, float]:
    """Median processor ms of the quote and of its mends, a length a little different each time."""
    quote: list[float] = []
    more: list[float] = []
    length = next(d for d in shop.templates[template].dimensions if d.name == "length")
    for index in range(5):
        asked = dimensions.get("length", length.default_nm["in"]) + index * 1_587_500
        item = Item(template, dimensions | {"length": asked}, choices)
        begun = time.process_time()
        made = quoting.make_quote(Job("B", "in", date(2026, 11, 25), Customer(), Site(), (item,)), shop)
        between = time.process_time()
        quoting.with_mends(made, shop)
        more.append((time.process_time() - between) * 1000)
        quote.append((between - begun) * 1000)
    return statistics.median(quote), statistics.median(more)


def job(index: int) -> Job:
    """A bench a sixteenth of an inch longer each time."""
    length_nm = 44 * 25_400_000 + index * 1_587_500
    item = Item("storage-bench", {"length": length_nm}, {})
    return Job("B", "in", date(2026, 11, 25), Customer(), Site(), (item,))


def by_stage(shop: Any, rounds: int) -> dict[str, list[float]]:
    """Milliseconds of each stage of make_quote, and of what is made from the quote."""
    found: dict[str, list[float]] = defaultdict(list)
    body = json.loads(SCENARIO.read_text(encoding="utf-8"))
    with watched(found):
        for index in range(rounds):
            body["items"][0]["dimensions"]["length"] = {"mm": 1117.6 + index * 1.5875}
            raw = json.dumps(body).encode()
            asked = timed(found, "read and check the job", lambda raw=raw: read(raw, shop))
            made = timed(found, "the whole quote", lambda asked=asked: quoting.make_quote(asked, shop))
            timed(found, "quote as JSON, sealed", lambda made=made: papers.quote_answer(made, shop, "shop"))
            timed(found, "isometric drawing as SVG",
                  lambda made=made: documents.svg(documents.draw(made.items[0].piece, "isometric", "in")))
            if index < 5:
                timed(found, "paper as PDF (5 of them)", lambda made=made: papers.quote_paper(made, shop))
    return found


def read(raw: bytes, shop: Any) -> Job:
    with Voice(Speaking(shop, "in", date(2026, 11, 25))):
        return load(JobSchema(), read_json(raw))  # type: ignore[no-any-return]


def timed(found: dict[str, list[float]], name: str, work: Callable[[], Any]) -> Any:
    begun = time.perf_counter()
    made = work()
    found[name].append((time.perf_counter() - begun) * 1000)
    return made


@contextmanager
def watched(found: dict[str, list[float]]) -> Iterator[None]:
    """The pipeline's steps with a stopwatch around each."""
    places = [(pipeline.piece, "build", "piece: place, cut, touch")]
    places += [(getattr(pipeline, module), name, label) for label, module, name in (
        ("fit", "fit", "fit"), ("cut list", "parts", "cut_list"), ("cutting plan", "cutting", "plan_job"),
        ("hardware", "hardware", "count"), ("hours", "labour", "estimate"), ("price", "pricing", "price"),
        ("checks", "checks", "run"), ("site findings", "fit", "site_findings"))]
    kept = [(module, name, getattr(module, name)) for module, name, _ in places]
    for module, name, label in places:
        setattr(module, name, stopwatch(found, label, getattr(module, name)))
    try:
        yield
    finally:
        for module, name, real in kept:
            setattr(module, name, real)


def stopwatch(found: dict[str, list[float]], label: str, real: Callable[..., Any]) -> Callable[..., Any]:
    return lambda *given, **named: timed(found, label, lambda: real(*given, **named))


def over_http(shop: Any, body: dict[str, Any], rounds: int) -> tuple[list[float], list[float]]:
    """Milliseconds of the quote and of the echo, turn by turn, sizes changing from request to request."""
    quote: list[float] = []
    echo: list[float] = []
    with served(create_app(shop)) as ours, served(bare_echo(shop)) as bare, requests.Session() as session:
        for index in range(rounds + 2):
            body["items"][0]["dimensions"]["length"] = {"mm": 1117.6 + index * 1.5875}
            for times, address in ((quote, f"{ours}/v1/quotes"), (echo, f"{bare}/echo")):
                begun = time.perf_counter()
                answer = session.post(address, json=body, timeout=60)
                times.append((time.perf_counter() - begun) * 1000)
                answer.raise_for_status()
    return quote[2:], echo[2:]


def bare_echo(shop: Any) -> Flask:
    """Flask and marshmallow alone: the same job read by the same schema and given back."""
    app = Flask("echo")

    @app.post("/echo")
    def echo() -> Any:
        with Voice(Speaking(shop, "in", date(2026, 11, 25))):
            given = JobSchema().load(request.get_json())
            return {"reference": given.reference, "items": len(given.items)} | {"job": request.get_json()}
    return app


@contextmanager
def served(app: Flask) -> Iterator[str]:
    import logging

    logging.getLogger("werkzeug").setLevel(logging.ERROR)
    server = make_server("127.0.0.1", 0, app)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        thread.join()


if __name__ == "__main__":
    sys.exit(main())
