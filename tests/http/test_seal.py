"""The seal: any change of what the customer was told is noticed, whichever way the quote came back."""

from __future__ import annotations

import copy
import json
from io import BytesIO
from typing import Any

import pytest
from flask.testing import FlaskClient
from pypdf import PdfReader

from yardwright.http import seal

JOB = {"reference": "S-1", "units": "in", "date": "2026-11-25", "customer": {"name": "Wren Ashdown"},
       "items": [{"template": "planter-box", "dimensions": {"length": "48 in"}}]}


@pytest.fixture
def shop_quote(client: FlaskClient) -> dict[str, Any]:
    return dict(client.post("/v1/quotes", json=JOB).json or {})


@pytest.fixture
def customer_quote(client: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> dict[str, Any]:
    monkeypatch.setenv("YARDWRIGHT_CUSTOMER_KEY", "gate")
    answer = client.post("/v1/quotes", json=JOB, headers={"Authorization": "Bearer gate"})
    monkeypatch.delenv("YARDWRIGHT_CUSTOMER_KEY")
    return dict(answer.json or {})


def paper(client: FlaskClient, quote: Any, **more: Any) -> Any:
    return client.post("/v1/papers", json={"quote": quote, **more})


def test_both_scopes_carry_the_same_seal(shop_quote: dict[str, Any], customer_quote: dict[str, Any]) -> None:
    assert shop_quote["seal"] == customer_quote["seal"]
    assert shop_quote["seal"].startswith("v1.")


def test_a_customer_sees_no_cost(customer_quote: dict[str, Any]) -> None:
    text = json.dumps(customer_quote)
    for member in ("unit_price", "build_up", "margin_share", "cutting", "operations", "shop_working",
                   "shop_findings", "overhead", "lower_bound"):
        assert f'"{member}"' not in text


def test_the_customers_part_of_the_shops_quote_is_the_customers_quote(shop_quote: dict[str, Any],
                                                                      customer_quote: dict[str, Any]) -> None:
    assert seal.check(shop_quote) == customer_quote


def test_either_comes_back_as_the_same_paper(client: FlaskClient, shop_quote: dict[str, Any],
                                             customer_quote: dict[str, Any]) -> None:
    first, second = paper(client, shop_quote), paper(client, customer_quote)
    assert first.status_code == 200, first.text
    assert first.data == second.data
    assert first.content_type == "application/pdf"
    assert first.headers["Content-Disposition"] == 'inline; filename="quote-S-1.pdf"'


def test_a_quote_that_went_through_a_phone_keeps_its_seal(client: FlaskClient,
                                                          shop_quote: dict[str, Any]) -> None:
    def as_a_phone_writes(value: Any) -> Any:
        """JavaScript has one kind of number: 12.0 comes back as 12, members in another order."""
        if isinstance(value, float) and value.is_integer():
            return int(value)
        if isinstance(value, dict):
            return {name: as_a_phone_writes(value[name]) for name in reversed(value)}
        return [as_a_phone_writes(inner) for inner in value] if isinstance(value, list) else value
    assert paper(client, as_a_phone_writes(shop_quote)).status_code == 200


CHANGES = {
    "the total": lambda quote: quote["price"].update(total="1.00"),
    "the deposit": lambda quote: quote["price"].update(deposit="0.00"),
    "a size": lambda quote: quote["items"][0]["dimensions"]["length"].update(mm=9999.0),
    "the name": lambda quote: quote["customer"].update(name="Someone Else"),
    "a finding": lambda quote: quote["items"][0]["findings"].pop(),
    "a caution": lambda quote: quote["cautions"].pop(),
    "the validity": lambda quote: quote.update(valid_until="2099-01-01"),
    "what holds it": lambda quote: quote.update(held_by=["fit"]),
    "the demonstration mark": lambda quote: quote.update(demonstration=False),
    "the seal": lambda quote: quote.update(seal="v1." + "A" * 43),
    "an added line": lambda quote: quote["price"]["lines"].append({"kind": "extra"}),
}


@pytest.mark.parametrize("what", CHANGES)
def test_a_changed_figure_is_noticed(client: FlaskClient, shop_quote: dict[str, Any], what: str) -> None:
    changed = copy.deepcopy(shop_quote)
    CHANGES[what](changed)
    answer = paper(client, changed)
    assert (answer.status_code, answer.json["code"]) == (422, "broken-seal")
    assert answer.json["errors"][0]["pointer"] == "/quote/seal"


def test_another_shops_key_does_not_fit(client: FlaskClient, shop_quote: dict[str, Any],
                                        monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("YARDWRIGHT_SEAL_KEY", "another")
    assert paper(client, shop_quote).status_code == 422


@pytest.mark.parametrize("nonsense", [
    {"seal": "v1.é"}, {"seal": ""}, {"seal": "x", "items": 3}, {"seal": "x", "items": [None], "price": []},
    {"seal": "x", "items": {"a": 1}, "stock": "none"},
])
def test_nonsense_with_a_seal_is_refused_and_never_a_500(client: FlaskClient,
                                                         nonsense: dict[str, Any]) -> None:
    assert paper(client, nonsense).status_code == 422


def test_a_signed_paper_carries_name_place_and_time(client: FlaskClient, shop_quote: dict[str, Any]) -> None:
    signature = {"strokes": [[[0, 0], [10, 12.5], [30, 4]], [[5, 5]]], "name": "Wren <i>Ashdown</i>",
                 "place": "Port Ellery", "time": "2026-11-25 10:42"}
    answer = paper(client, shop_quote, signature=signature)
    assert answer.status_code == 200, answer.text
    pages = PdfReader(BytesIO(answer.data)).pages
    said = " ".join(" ".join(page.extract_text() for page in pages).split())
    for word in ("Wren <i>Ashdown</i>", "Port Ellery", "25 November 2026, 10:42"):
        assert word in said
    assert answer.data != paper(client, shop_quote).data


def test_the_workshops_sheet_comes_from_the_sealed_quote_too(client: FlaskClient,
                                                             shop_quote: dict[str, Any]) -> None:
    again = client.post("/v1/shop-sheets", json={"quote": shop_quote})
    assert again.status_code == 200, again.text
    assert [item["parts"] for item in again.json["items"]] == [item["parts"] for item in shop_quote["items"]]
    assert client.post("/v1/shop-sheets", json={"quote": shop_quote, "job": JOB}).status_code == 422
    assert client.post("/v1/shop-sheets", json={}).status_code == 422


def test_a_quote_held_by_a_finding_gives_no_paper(client: FlaskClient) -> None:
    job = {**JOB, "items": [{"template": "storage-bench"}],
           "site": {"kind": "open", "ground": {"surface": "deck", "drop_behind": "40 in"}}}
    answer = client.post("/v1/quotes", json=job).json
    assert answer is not None and "drop behind" in answer["held_by"]
    for held in (paper(client, answer),
                 client.post("/v1/quotes", json=job, headers={"Accept": "application/pdf"})):
        assert (held.status_code, held.json["code"]) == (409, "held")
        assert '"what": "drop behind"' in held.json["errors"][0]["detail"]
