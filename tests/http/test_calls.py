"""Every call answers as the contract says, judged by an independent JSON Schema library."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from typing import Any

import pytest
from flask.testing import FlaskClient
from jsonschema import Draft202012Validator

from yardwright.http.describe import describe

CONTRACT = describe()
SPACE = {"kind": "between walls", "walls": [
    {"side": "back", "readings": [{"value": "50 in", "at_height": "4 in"},
                                  {"value": "49 3/4 in", "at_height": "30 in"}]},
    {"side": "left", "readings": [{"value": "30 in"}]}, {"side": "right", "readings": [{"value": "30 in"}]}],
    "depths": [{"value": "80 in"}]}
JOB = {"units": "in", "date": "2026-11-25", "site": SPACE,
       "items": [{"template": "storage-bench", "dimensions": {"length": "44 in"}}]}


def conforms(value: Any, name: str) -> None:
    schema = {"$ref": f"#/components/schemas/{name}", "components": CONTRACT["components"]}
    faults = [f"{'/'.join(map(str, e.absolute_path))}: {e.message[:200]}"
              for e in Draft202012Validator(schema).iter_errors(value)]
    assert faults == []


def test_the_lists_conform(client: FlaskClient) -> None:
    conforms(client.get("/v1/templates").json, "TemplateList")
    conforms(client.get("/v1/shop").json, "Shop")
    for template in client.get("/v1/templates").json["templates"]:  # type: ignore[index]
        for units in ("in", "mm"):
            conforms(client.get(f"/v1/templates/{template['id']}?units={units}").json, "Template")


def test_a_quote_conforms_for_the_shop_and_for_the_customer(client: FlaskClient,
                                                            monkeypatch: pytest.MonkeyPatch) -> None:
    conforms(client.post("/v1/quotes", json=JOB).json, "ShopQuote")
    monkeypatch.setenv("YARDWRIGHT_CUSTOMER_KEY", "gate")
    answer = client.post("/v1/quotes", json=JOB, headers={"Authorization": "Bearer gate"})
    conforms(answer.json, "Quote")


def test_the_form_offers_no_default_that_cannot_be_built(client: FlaskClient) -> None:
    for template in client.get("/v1/templates").json["templates"]:  # type: ignore[index]
        answer = client.post("/v1/quotes", json={"units": "mm", "items": [{"template": template["id"]}]})
        assert answer.status_code == 200, answer.text
        assert answer.json["held_by"] == [], "a default piece passes its own checks"


def test_a_fit_names_the_reading_that_binds_and_the_largest_that_fits(client: FlaskClient) -> None:
    question = {"units": "in", "template": "storage-bench", "dimensions": {"length": "60 in"}, "site": SPACE}
    answer = client.post("/v1/fits", json=question).json
    conforms(answer, "Fit")
    assert answer is not None and answer["fits"] is False
    along = next(c for c in answer["clearances"] if c["side"] == "along")
    assert along["clearance"]["mm"] < 0
    largest = answer["largest"]["length"]["mm"]
    assert largest < 49.75 * 25.4
    again = client.post("/v1/fits", json=question | {"dimensions": {"length": {"mm": largest}}}).json
    assert again is not None and again["fits"] is True


@pytest.mark.parametrize("view", ["front", "side", "plan", "isometric"])
def test_a_drawing_is_svg_without_scripts_or_styles(client: FlaskClient, view: str) -> None:
    item = {"template": "storage-bench", "dimensions": {"length": "44 in"}}
    answer = client.post("/v1/drawings", json={"item": item, "units": "mm", "view": view, "opened": True})
    assert answer.content_type == "image/svg+xml"
    root = ElementTree.fromstring(answer.data)
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    assert not [e.tag for e in root.iter() if e.tag.endswith(("script", "style")) or "style" in e.attrib]


def test_the_shops_plan_comes_out_of_four_boards(client: FlaskClient) -> None:
    """Common practice, no source: 5 of 35 1/2, 4 of 34, 2 of 32, 2 of 16, 4 of 13 in from 10 ft."""
    parts = [("A", "35 1/2 in", 5), ("B", "34 in", 4), ("C", "32 in", 2), ("D", "16 in", 2),
             ("E", "13 in", 4)]
    question = {
        "kerf": {"crosscut": "1/8 in", "rip": "1/8 in"}, "end_trim": {"mm": 0},
        "stock": [{"code": "B10", "length": "10 ft", "width": "5 1/2 in", "price": "20.00"}],
        "parts": [{"mark": m, "length": length, "width": "5 1/2 in", "count": n} for m, length, n in parts]}
    answer = client.post("/v1/cutting-plans", json=question).json
    conforms(answer, "CuttingAnswer")
    assert answer is not None
    assert answer["stock"] == [{"code": "B10", "count": 4, "amount": "80.00"}]
    assert (answer["cutting"]["status"], answer["cutting"]["lower_bound"]) == ("optimal", "80.00")
    placed = [p["mark"] for layout in answer["cutting"]["layouts"] for p in layout["parts"]]
    assert {mark: placed.count(mark) for mark, _, _ in parts} == {mark: n for mark, _, n in parts}


def test_health_says_what_is_loaded(client: FlaskClient) -> None:
    assert client.get("/healthz").json["status"] == "ok"  # type: ignore[index]
    ready = client.get("/readyz").json
    assert ready is not None
    assert ready["templates"] == len(client.get("/v1/templates").json["templates"])  # type: ignore[index]
    assert set(ready["versions"]) == {"service", "prices", "templates", "data"}
