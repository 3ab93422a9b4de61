"""Hostile templates sent with a job over HTTP: a problem in words or a quote with faults, never a 500."""

from __future__ import annotations

import json
from typing import Any

import pytest
from flask.testing import FlaskClient

from hostile_templates import collection
from small_templates import trestle

CASES = collection()
RAW = {
    "a bracket fifty thousand deep": lambda: b"[" * 50_000,
    "a template twice": lambda: body("@").replace(b'"@"', b'{"id": "a", "id": "b"}'),
    "not a number": lambda: body("@").replace(b'"@"', b'{"revision": NaN}'),
    "ten thousand digits": lambda: body("@").replace(b'"@"', b'{"revision": ' + b"9" * 10_000 + b"}"),
    "half a surrogate pair": lambda: body("@").replace(b'"@"', b'{"id": "\\ud800"}'),
    "a list for a template": lambda: body([trestle()]),
    "nothing for a template": lambda: body({}),
    "a template in a template": lambda: body({"template": trestle()}),
    "three hundred kilobytes": lambda: body(trestle(summary="x" * 300_000)),
}


def body(template: Any) -> bytes:
    """A job for one of that template."""
    job = {"reference": "H-1", "units": "in", "date": "2026-11-25", "customer": {"name": "Wren Ashdown"},
           "items": [{"template": template, "quantity": 1}]}
    return json.dumps(job).encode()


def told(client: FlaskClient, sent: bytes) -> tuple[int, dict[str, Any]]:
    """Status and JSON of a quote asked with the shop's scope (loopback without keys)."""
    answer = client.post("/v1/quotes", data=sent, content_type="application/json")
    return answer.status_code, answer.get_json()


@pytest.mark.parametrize("name", CASES)
def test_a_hostile_template_is_a_problem_with_its_place_or_a_quote(client: FlaskClient, name: str) -> None:
    try:
        sent = body(CASES[name]())
    except (ValueError, RecursionError):
        pytest.skip("cannot be written as JSON at all")
    status, answer = told(client, sent)
    assert status in (200, 400, 413, 422), answer
    if status != 200:
        assert (answer["errors"] and all(e["detail"] for e in answer["errors"])) or answer["detail"]
        assert len(json.dumps(answer)) < 40_000
        assert "Traceback" not in json.dumps(answer)


@pytest.mark.parametrize("name", RAW)
def test_a_hostile_body_is_a_problem(client: FlaskClient, name: str) -> None:
    status, answer = told(client, RAW[name]())
    assert status in (400, 413, 422)
    assert answer["detail"] and "Traceback" not in json.dumps(answer)


def test_an_honest_template_sent_with_a_job_is_quoted(client: FlaskClient) -> None:
    status, answer = told(client, body(trestle()))
    assert (status, answer.get("errors")) == (200, None)


def test_a_job_brings_few_templates_of_its_own(client: FlaskClient) -> None:
    job = json.loads(body(CASES["all in one place"]()))
    job["items"] *= 5
    status, answer = told(client, json.dumps(job).encode())
    assert status == 422 and "at most 4 items may bring their own template" in answer["errors"][0]["detail"]
