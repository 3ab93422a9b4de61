"""Twelve mistakes people and programs make: each is named with its field and what would be right.

Every one is sent through the test client and once more over real HTTP; none may end in a 500.
"""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import pytest
import requests
from flask.testing import FlaskClient

JOB: dict[str, Any] = {
    "reference": "M-1", "units": "in", "date": "2026-11-25", "customer": {"name": "Wren Ashdown"},
    "site": {"kind": "between walls", "walls": [
        {"side": "back", "readings": [{"value": "62 in", "at_height": "4 in"},
                                      {"value": "62 1/8 in", "at_height": "36 in"}]},
        {"side": "left", "readings": [{"value": "40 in"}]},
        {"side": "right", "readings": [{"value": "40 in"}]}],
        "depths": [{"value": "80 in"}]},
    "items": [{"template": "storage-bench", "dimensions": {"length": "44 in"}, "quantity": 1}],
}


@dataclass(frozen=True)
class Mistake:
    name: str
    body: bytes
    status: int
    code: str
    pointer: str
    says: list[str] = field(default_factory=list)


def sent(change: Callable[[dict[str, Any]], None]) -> bytes:
    job = copy.deepcopy(JOB)
    change(job)
    return json.dumps(job).encode()


def put(text: str) -> bytes:
    """The job with a piece of raw JSON as the quantity."""
    return sent(lambda job: job["items"][0].update(quantity="@")).replace(b'"@"', text.encode())


MISTAKES = [
    Mistake("a misspelt member", sent(lambda job: job["items"][0].update(quantitty=2)),
            422, "bad-shape", "/items/0/quantitty", ["did you mean 'quantity'"]),
    Mistake("an impossible size", sent(lambda job: job["items"][0].update(dimensions={"length": "400 in"})),
            422, "bad-job", "/items/0/dimensions/length", ["400", "outside", "in"]),
    Mistake("a bare number", sent(lambda job: job["items"][0].update(dimensions={"length": 44})),
            422, "bad-shape", "/items/0/dimensions/length", ["44 in", "44 mm"]),
    Mistake("an unknown template", sent(lambda job: job["items"][0].update(template="storage-bnech")),
            422, "bad-job", "/items/0/template", ["did you mean 'storage-bench'"]),
    Mistake("NaN", put("NaN"), 400, "bad-json", "/items/0/quantity", ["NaN is not a number"]),
    Mistake("1e999", put("1e999"), 400, "bad-json", "/items/0/quantity", ["1e999", "beyond any number"]),
    Mistake("nesting of 20 000 levels", put("[" * 20_000 + "]" * 20_000),
            400, "bad-json", "/items/0/quantity", ["64 levels"]),
    Mistake("a number of 5 000 digits", put("9" * 5000),
            400, "bad-json", "/items/0/quantity", ["5000 digits"]),
    Mistake("half a surrogate pair", sent(lambda job: job["customer"].update(name="Wren \ud83d")),
            400, "bad-json", "/customer/name", ["surrogate", "U+D83D"]),
]


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda mistake: mistake.name)
def test_a_mistake_is_named_with_its_field(client: FlaskClient, server: str, mistake: Mistake) -> None:
    answer = client.post("/v1/quotes", data=mistake.body, content_type="application/json")
    check(answer.status_code, answer.content_type, answer.data, mistake)
    over_http = requests.post(f"{server}/v1/quotes", data=mistake.body, timeout=30,
                              headers={"Content-Type": "application/json"})
    check(over_http.status_code, over_http.headers["Content-Type"], over_http.content, mistake)


def check(status: int, media: str, body: bytes, mistake: Mistake) -> None:
    problem = json.loads(body)
    assert (status, problem["code"], media) == (mistake.status, mistake.code, "application/problem+json")
    details = [error["detail"] for error in problem["errors"] if error["pointer"] == mistake.pointer
               or error["pointer"].startswith(mistake.pointer + "/")]
    assert details, problem["errors"]
    for word in mistake.says:
        assert word in details[0]


def post(server: str, body: bytes, accept: str = "application/json") -> requests.Response:
    return requests.post(f"{server}/v1/quotes", data=body, timeout=60,
                         headers={"Content-Type": "application/json", "Accept": accept})


def test_markup_in_a_customers_name_is_a_name_and_prints_as_it_is(server: str) -> None:
    from io import BytesIO

    from pypdf import PdfReader

    name = 'Orla <b>Penhallow & <img src="/etc/passwd"> Sons'
    body = sent(lambda job: job["customer"].update(name=name))
    answer = post(server, body)
    assert answer.status_code == 200, answer.text
    assert answer.json()["customer"]["name"] == name
    paper = post(server, body, "application/pdf")
    assert paper.status_code == 200, paper.text
    pages = [page.extract_text() for page in PdfReader(BytesIO(paper.content)).pages]
    printed = " ".join(" ".join(pages).split())
    assert "Orla <b>Penhallow &" in printed
    assert "root:" not in printed


def test_readings_that_cannot_all_be_true_are_a_finding_that_names_the_reading(server: str) -> None:
    def contradict(job: dict[str, Any]) -> None:
        job["site"]["corners"] = [{"at": "left", "diagonals": [
            {"along": "36 in", "out": "36 in", "across": "90 in"}]}]

    answer = post(server, sent(contradict))
    assert answer.status_code == 200, answer.text
    findings = answer.json()["findings"] + [f for item in answer.json()["items"] for f in item["findings"]
                                            + (item["fit"] or {}).get("findings", [])]
    found = [f for f in findings if f["level"] in ("stop", "caution") and "left" in f["detail"] + f["title"]]
    assert found, findings
    assert any("90" in f["detail"] + f["measured"] for f in found)


def test_a_part_longer_than_any_stock_names_the_part_and_the_longest_board(server: str) -> None:
    question = {"kerf": "1/8 in", "end_trim": "1/4 in",
                "stock": [{"code": "B8", "length": "8 ft", "width": "5 1/2 in", "price": "10.00"}],
                "parts": [{"mark": "A1", "length": "44 in", "width": "5 1/2 in", "count": 2},
                          {"mark": "A2", "length": "9 ft", "width": "5 1/2 in", "count": 1}]}
    answer = requests.post(f"{server}/v1/cutting-plans", json=question, timeout=60)
    problem = answer.json()
    assert (answer.status_code, problem["code"]) == (422, "no-stock")
    said = json.dumps(problem["errors"])
    assert "A2" in said
    assert "A1" not in said
