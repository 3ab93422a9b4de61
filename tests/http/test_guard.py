"""Keys, scopes and headers."""

from __future__ import annotations

import json
from typing import Any

import pytest
from flask.testing import FlaskClient

JOB = {"units": "in", "items": [{"template": "storage-bench"}]}
OUTSIDE = {"REMOTE_ADDR": "203.0.113.7"}


def asked(client: FlaskClient, path: str = "/v1/shop-sheets", key: str = "", **more: Any) -> tuple[int, str]:
    headers = {"Authorization": f"Bearer {key}"} if key else {}
    answer = client.post(path, json={}, headers=headers | more.pop("headers", {}), **more)
    return answer.status_code, json.loads(answer.data)["code"]


def test_on_loopback_without_keys_every_caller_has_the_shop_scope(client: FlaskClient) -> None:
    assert asked(client) == (422, "bad-shape")


@pytest.mark.parametrize("more", [
    {"environ_base": OUTSIDE},
    {"headers": {"X-Forwarded-For": "203.0.113.7"}},
    {"headers": {"Host": "yard.example"}},
])
def test_elsewhere_keys_are_required(client: FlaskClient, more: dict[str, Any]) -> None:
    assert asked(client, **more) == (401, "no-key")
    assert asked(client, "/v1/quotes", **more) == (401, "no-key")


def test_a_missing_key_says_how_to_give_one(client: FlaskClient) -> None:
    answer = client.post("/v1/quotes", json=JOB, environ_base=OUTSIDE)
    assert answer.headers["WWW-Authenticate"].startswith("Bearer")


def test_lists_shop_fit_and_drawings_are_open_to_everyone(client: FlaskClient) -> None:
    for path in ("/v1/templates", "/v1/shop", "/healthz", "/readyz", "/openapi.json"):
        assert client.get(path, environ_base=OUTSIDE).status_code == 200
    assert asked(client, "/v1/fits", environ_base=OUTSIDE) == (422, "bad-shape")
    assert asked(client, "/v1/drawings", environ_base=OUTSIDE) == (422, "bad-shape")


def test_keys_reach_as_far_as_they_should(client: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("YARDWRIGHT_SHOP_KEY", "anvil")
    monkeypatch.setenv("YARDWRIGHT_CUSTOMER_KEY", "gate")
    for place in ({}, {"environ_base": OUTSIDE}):
        assert asked(client, key="anvil", **place) == (422, "bad-shape")
        assert asked(client, key="gate", **place) == (403, "wrong-key")
        assert asked(client, "/v1/quotes", key="gate", **place) == (422, "bad-shape")
        assert asked(client, key="hinge", **place) == (401, "no-key")
        assert asked(client, **place) == (401, "no-key")


def test_overrides_and_inline_templates_need_the_shop_key(client: FlaskClient,
                                                          monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("YARDWRIGHT_SHOP_KEY", "anvil")
    monkeypatch.setenv("YARDWRIGHT_CUSTOMER_KEY", "gate")
    headers = {"Authorization": "Bearer gate"}
    for job in (JOB | {"overrides": [{"what": "fit", "reason": "measured again"}]},
                {"units": "in", "items": [{"template": {"id": "own"}}]}):
        assert client.post("/v1/quotes", json=job, headers=headers).status_code == 403


def test_every_answer_carries_the_headers(client: FlaskClient) -> None:
    for path in ("/", "/v1/shop", "/nothing", "/v1/quotes"):
        answer = client.get(path)
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert answer.headers["Referrer-Policy"] == "no-referrer"
        assert "camera=(self)" in answer.headers["Permissions-Policy"]
        policy = answer.headers["Content-Security-Policy"]
        assert "default-src 'none'" in policy and "script-src 'self';" in policy
        assert "unsafe" not in policy
        assert "Access-Control-Allow-Origin" not in answer.headers


def test_another_origin_is_not_invited(client: FlaskClient) -> None:
    answer = client.options("/v1/quotes", headers={"Origin": "https://elsewhere.example",
                                                   "Access-Control-Request-Method": "POST"})
    assert "Access-Control-Allow-Origin" not in answer.headers
