"""Strong ETags and conditional requests (RFC 9110 sections 8.8.3, 13.1.2 and 15.4.5)."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

KEPT = ["/v1/templates", "/v1/templates/storage-bench", "/v1/shop", "/openapi.json", "/", "/sw.js",
        "/main.js"]


@pytest.mark.parametrize("path", KEPT)
def test_an_unchanged_answer_is_not_sent_again(client: FlaskClient, path: str) -> None:
    first = client.get(path)
    tag = first.headers["ETag"]
    assert first.status_code == 200 and tag.startswith('"')
    for asked in (tag, f'"other", {tag}', f"W/{tag}", "*"):
        again = client.get(path, headers={"If-None-Match": asked})
        assert (again.status_code, again.data, again.headers["ETag"]) == (304, b"", tag)
    assert client.get(path, headers={"If-None-Match": '"other"'}).status_code == 200


@pytest.mark.parametrize("path", KEPT)
def test_head_says_what_get_would(client: FlaskClient, path: str) -> None:
    get, head = client.get(path), client.head(path)
    assert head.data == b""
    for name in ("ETag", "Content-Type", "Content-Length", "Cache-Control"):
        assert head.headers[name] == get.headers[name]


def test_units_change_the_answer_and_its_tag(client: FlaskClient) -> None:
    inches, metric = (client.get(f"/v1/shop?units={units}") for units in ("in", "mm"))
    assert inches.headers["ETag"] != metric.headers["ETag"]
    assert inches.json["fitting"]["walkway"]["text"] != metric.json["fitting"]["walkway"]["text"]  # type: ignore[index]
    assert inches.json["fitting"]["walkway"]["mm"] == metric.json["fitting"]["walkway"]["mm"]  # type: ignore[index]


def test_the_app_is_always_revalidated_and_calculations_are_never_stored(client: FlaskClient) -> None:
    assert client.get("/sw.js").headers["Cache-Control"] == "no-cache"
    assert client.get("/").headers["Cache-Control"] == "no-cache"
    assert client.get("/healthz").headers["Cache-Control"] == "no-store"
    assert client.post("/v1/fits", json={}).headers["Cache-Control"] == "no-store"


def test_the_app_is_served_with_its_media_types_and_nothing_beside_it(client: FlaskClient) -> None:
    assert client.get("/main.js").content_type.startswith("text/javascript")
    assert client.get("/manifest.webmanifest").content_type == "application/manifest+json"
    for path in ("/../pyproject.toml", "/%2e%2e/pyproject.toml", "/.git/config", "/icons", "/nothing.js"):
        assert client.get(path).status_code == 404
