"""Every error answers as RFC 9457 problem details; each code is known to the one table."""

from __future__ import annotations

import json
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from yardwright.domain import errors
from yardwright.http import create_app, problems

JSON = "application/json"


def all_refusals(kind: type[errors.Refused] = errors.Refused) -> list[type[errors.Refused]]:
    return [kind, *(inner for sub in kind.__subclasses__() for inner in all_refusals(sub))]


@pytest.mark.parametrize("kind", all_refusals(), ids=lambda kind: kind.__name__)
def test_every_error_of_the_house_has_a_status(kind: type[errors.Refused]) -> None:
    assert kind.code in problems.STATUS


def test_a_problem_has_all_members_of_the_standard(client: FlaskClient) -> None:
    answer = client.get("/v1/templates/nothing-such")
    body = json.loads(answer.data)
    assert answer.status_code == body["status"] == 404
    assert answer.content_type == problems.MEDIA
    assert set(body) == {"type", "title", "status", "detail", "instance", "code", "errors"}
    assert body["type"] == f"urn:yardwright:problem:{body['code']}"
    assert answer.headers["Cache-Control"] == "no-store"


@pytest.mark.parametrize(("method", "path", "sent", "status", "code"), [
    ("get", "/v1/nothing", {}, 404, "not-found"),
    ("get", "/v1/templates/x", {}, 404, "not-found"),
    ("delete", "/v1/quotes", {}, 405, "not-allowed"),
    ("get", "/v1/quotes", {}, 405, "not-allowed"),
    ("get", "/v1/shop", {"headers": {"Accept": "text/csv"}}, 406, "not-acceptable"),
    ("post", "/v1/quotes", {"json": {}, "headers": {"Accept": "image/png"}}, 406, "not-acceptable"),
    ("post", "/v1/quotes", {"data": "units=in"}, 415, "media-type"),
    ("post", "/v1/quotes", {"data": "{}", "content_type": "text/plain"}, 415, "media-type"),
    ("post", "/v1/quotes", {"data": b" " * 262_145, "content_type": JSON}, 413, "too-big"),
    ("post", "/v1/quotes", {"data": "{", "content_type": JSON}, 400, "bad-json"),
    ("post", "/v1/quotes", {"json": []}, 422, "bad-shape"),
    ("post", "/v1/quotes", {"json": {}}, 422, "bad-shape"),
    ("post", "/v1/papers", {"json": {"quote": {"seal": "v1.x"}}}, 422, "broken-seal"),
    ("get", "/v1/shop?units=ell", {}, 422, "bad-shape"),
])
def test_each_way_to_go_wrong_has_its_status(client: FlaskClient, method: str, path: str,
                                             sent: dict[str, Any], status: int, code: str) -> None:
    answer = getattr(client, method)(path, **sent)
    assert (answer.status_code, json.loads(answer.data)["code"]) == (status, code)


def test_a_method_that_is_not_allowed_says_which_are(client: FlaskClient) -> None:
    assert "POST" in client.get("/v1/quotes").headers["Allow"]
    assert set(client.put("/v1/shop").headers["Allow"].split(", ")) == {"GET", "HEAD", "OPTIONS"}


def test_what_nobody_foresaw_is_a_bare_500_with_a_number(demo_shop: Any,
                                                         caplog: pytest.LogCaptureFixture) -> None:
    app: Flask = create_app(demo_shop)

    @app.get("/boom")
    def boom() -> str:
        raise KeyError("the combination of the safe")

    answer = app.test_client().get("/boom")
    body = json.loads(answer.data)
    assert answer.status_code == 500
    assert b"safe" not in answer.data
    assert body["instance"].startswith("urn:uuid:")
    assert body["instance"].removeprefix("urn:uuid:") in caplog.text
    assert "the combination of the safe" in caplog.text
