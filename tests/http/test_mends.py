"""Mends over HTTP: unasked one of each finding, several when asked, none when not wanted."""

from __future__ import annotations

import re
from typing import Any

import pytest
from flask import Flask

from yardwright.domain.shop import Shop
from yardwright.http import create_app

JOB: dict[str, Any] = {"reference": "M-2", "units": "in", "date": "2026-11-09",
                       "items": [{"template": "storage-bench", "choices": {"fixing": "free"}}]}


@pytest.fixture(scope="module")
def app(demo_shop: Shop) -> Flask:
    return create_app(demo_shop)


def findings(app: Flask, **more: Any) -> list[dict[str, Any]]:
    answer = app.test_client().post("/v1/quotes", json=JOB | more)
    assert answer.status_code == 200 and answer.json, answer.text
    return list(answer.json["items"][0]["findings"])


def test_a_stop_comes_with_the_change_that_mends_it_unless_that_is_not_wanted(app: Flask) -> None:
    without, with_them = findings(app, mends=False), findings(app)
    assert not any(f["mends"] or f["searched"] for f in without)
    tips = next(f for f in with_them if f["rule"] == "tip over" and f["level"] == "stop")
    (mend,) = tips["mends"]
    assert mend["dimensions"] == {} and mend["choices"] in ({"back": "none"}, {"fixing": "brackets"})
    assert mend["text"].startswith("choose ") and tips["searched"] == "found"
    assert {"after", "measured", "limit"} <= mend.keys()
    assert re.fullmatch(r"-?\d+\.\d\d", mend["price_difference"])
    assert [f["title"] for f in without] == [f["title"] for f in with_them]


def test_a_heavier_section_is_asked_for_like_any_other_choice(app: Flask) -> None:
    item = {"template": "storage-bench", "choices": {"panel_section": "5/4x6"}}
    answer = app.test_client().post("/v1/quotes", json=JOB | {"items": [item]})
    assert answer.json and answer.status_code == 200, answer.text
    quoted = answer.json["items"][0]
    assert quoted["choices"]["panel_section"] == "5/4x6"
    assert quoted["choice_labels"]["Panel boards, section"] == "5/4 × 6"
    wrong = app.test_client().post("/v1/quotes", json=JOB | {"items": [item | {
        "choices": {"panel_section": "28x120"}}]})
    assert wrong.status_code == 422 and wrong.json
    assert wrong.json["errors"][0]["pointer"] == "/items/0/choices/panel_section"


def test_mends_is_true_or_false(app: Flask) -> None:
    answer = app.test_client().post("/v1/quotes", json=JOB | {"mends": "please"})
    assert answer.status_code == 422 and answer.json
    assert answer.json["errors"][0]["pointer"] == "/mends"
