"""Mends over HTTP: only when asked for, in the findings, with a price in the shop's money."""

from __future__ import annotations

import re
from typing import Any

import pytest
from flask import Flask

from yardwright.domain.shop import Shop
from yardwright.http import create_app
from yardwright.quoting import mends

JOB: dict[str, Any] = {"reference": "M-2", "units": "in", "date": "2026-11-09",
                       "items": [{"template": "storage-bench", "choices": {"fixing": "free"}}]}


@pytest.fixture(scope="module")
def app(demo_shop: Shop) -> Flask:
    return create_app(demo_shop)


def findings(app: Flask, **more: Any) -> list[dict[str, Any]]:
    answer = app.test_client().post("/v1/quotes", json=JOB | more)
    assert answer.status_code == 200 and answer.json, answer.text
    return list(answer.json["items"][0]["findings"])


def test_mends_are_looked_for_only_when_asked(app: Flask, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(mends, "MOST_BUILT", 6)
    without, with_them = findings(app), findings(app, mends=True)
    assert not any(f["mends"] for f in without)
    tips = next(f for f in with_them if f["rule"] == "tip over" and f["level"] == "stop")
    fixed = next(m for m in tips["mends"] if m["choices"] == {"fixing": "brackets"})
    assert fixed["dimensions"] == {} and fixed["text"].startswith("choose Fixing")
    assert re.fullmatch(r"-?\d+\.\d\d", fixed["price_difference"])
    assert [f["title"] for f in without] == [f["title"] for f in with_them]


def test_mends_is_true_or_false(app: Flask) -> None:
    answer = app.test_client().post("/v1/quotes", json=JOB | {"mends": "please"})
    assert answer.status_code == 422 and answer.json
    assert answer.json["errors"][0]["pointer"] == "/mends"
