"""openapi/openapi.json is what the schemas say, is valid OpenAPI 3.1, and names every route."""

from __future__ import annotations

import json
from pathlib import Path

from flask import Flask
from flask.testing import FlaskClient
from openapi_spec_validator import OpenAPIV31SpecValidator

from yardwright.http.describe import describe, operations

CONTRACT = Path(__file__).parents[2] / "openapi" / "openapi.json"


def test_the_committed_contract_is_the_generated_one() -> None:
    assert json.loads(CONTRACT.read_text(encoding="utf-8")) == describe(), "run `make openapi`"


def test_the_contract_is_valid() -> None:
    OpenAPIV31SpecValidator(describe()).validate()  # type: ignore[arg-type]


def test_every_route_is_in_the_contract(app: Flask) -> None:
    served = {rule.rule.replace("<", "{").replace(">", "}") for rule in app.url_map.iter_rules()}
    described = {path for path, _, _ in operations()}
    assert served - described == {"/", "/{shell:name}", "/openapi.json"}
    assert described <= served


def test_every_call_documents_its_problems() -> None:
    for path, methods in describe()["paths"].items():
        for method, call in methods.items():
            assert {"200", "406", "500"} <= set(call["responses"]), path
            if method == "post":
                assert {"400", "413", "415", "422"} <= set(call["responses"]), path


def test_every_text_number_and_list_that_comes_in_is_bounded() -> None:
    document = describe()
    loose = [f"{name}.{member}" for name, schema in document["components"]["schemas"].items()
             if (schema.get("additionalProperties") is False and "required" not in schema) or name in INWARD
             for member, shape in schema.get("properties", {}).items() if not bounded(shape)]
    assert loose == []


INWARD = ("Job", "Item", "Customer", "Site", "Wall", "Measured", "Obstruction", "Corner", "Ground", "Access",
          "Extra", "Delivery", "Discount", "OnHand", "Override", "CuttingQuestion", "StockIn", "PartIn",
          "Signature")


def bounded(shape: dict[str, object]) -> bool:
    kind = shape.get("type")
    if kind == "string":
        return bool({"maxLength", "enum", "format", "pattern"} & set(shape))
    if kind in ("number", "integer"):
        return {"minimum", "maximum"} <= set(shape)
    return kind != "array" or "maxItems" in shape


def test_the_served_contract_is_the_committed_one(client: FlaskClient) -> None:
    assert client.get("/openapi.json").data == CONTRACT.read_bytes()
