"""Spoilt templates sent to the real app, by every call that takes one; what it answered and what it cost."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from flask.testing import FlaskClient

from fuzzed_templates import Case

JSON, PDF, SVG = "application/json", "application/pdf", "image/svg+xml"
VIEWS = ("front", "side", "plan", "isometric")
# How many seeds go by before a call is made again: the papers of an honest template cost a second.
EVERY = {"quote": 1, "drawing": 3, "fit": 10, "mends": 20, "paper": 21, "sheet": 22}
REFUSED = (400, 413, 422)


@dataclass(frozen=True, slots=True)
class Call:
    """One request. ``name`` says which of the app's calls it is."""

    name: str
    path: str
    body: dict[str, Any]
    accept: str


@dataclass(frozen=True, slots=True)
class Answer:
    """How a call ended: status, what was said when it was refused, processor time."""

    status: int
    said: str
    ms: float

    @property
    def refused(self) -> bool:
        return self.status in REFUSED

    @property
    def crashed(self) -> bool:
        """Anything but an answer or a clear refusal. 409 is a paper held back by a finding."""
        return (not self.refused and self.status not in (200, 409)) or "Traceback" in self.said


def calls(case: Case, every: dict[str, int]) -> Iterator[Call]:
    """The calls this case is sent by: all of them, or by turns."""
    item = {"template": case.template, "dimensions": _asked(case), "quantity": 1}
    job = {"reference": "F-1", "units": "in", "date": "2026-11-25", "items": [item]}
    drawing = {"units": "in", "item": item, "view": VIEWS[case.seed % 4], "opened": case.seed % 2 == 0}
    for call in (
        Call("quote", "/v1/quotes", job, JSON),
        Call("drawing", "/v1/drawings", drawing, SVG),
        Call("fit", "/v1/fits", {"units": "in", "template": case.template, "site": {}}, JSON),
        Call("mends", "/v1/quotes", job | {"mends": True}, JSON),
        Call("paper", "/v1/quotes", job, PDF),
        Call("sheet", "/v1/shop-sheets", {"job": job}, PDF),
    ):
        if case.seed % every.get(call.name, 1) == 0:
            yield call


def _asked(case: Case) -> dict[str, str]:
    """The smallest or the largest of every size that is written as one."""
    rows = case.template.get("dimensions")
    ends = (
        {name: row.get(case.ends) for name, row in rows.items() if isinstance(row, dict)}
        if case.ends and isinstance(rows, dict)
        else {}
    )
    return {name: end for name, end in ends.items() if isinstance(end, str) and len(end) < 40}


def told(client: FlaskClient, call: Call) -> Answer | None:
    """The app's answer; None where the body cannot be written as JSON at all."""
    try:
        sent = json.dumps(call.body).encode()
    except (ValueError, RecursionError):
        return None
    start = time.process_time()
    got = client.post(call.path, data=sent, content_type=JSON, headers={"Accept": call.accept})
    ms = 1000 * (time.process_time() - start)
    return Answer(got.status_code, got.get_json()["detail"] if got.status_code >= 400 else "", ms)
