"""The contract as OpenAPI 3.1, generated from the schemas that requests and answers really go through.

Run by ``make openapi``; a test compares the committed file with what this gives. apispec comes with the
test requirements only: nothing at run time imports this module.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from typing import Any

from apispec import APISpec
from apispec.ext.marshmallow import MarshmallowPlugin
from flask import Flask
from marshmallow import fields

from .. import __version__
from .fields import Made, Many, Ours
from .operation import JSON, PDF, SVG, Operation
from .problems import MEDIA, STATUS
from .routes import api
from .schemas.base import Record
from .schemas.job import Job
from .static import ROOT

LENGTH = {
    "description": 'A length as people write it ("44 in", "3\' 8\\"", "1120 mm") or {"mm": number}; '
                   "a bare number is refused.",
    "oneOf": [{"type": "string", "minLength": 1, "maxLength": 40, "examples": ["44 in", "1120 mm"]},
              {"type": "object", "required": ["mm"], "additionalProperties": False,
               "properties": {"mm": {"type": "number", "minimum": 0, "maximum": 1_000_000},
                              "text": {"type": "string", "maxLength": 200}}}],
}
WRITTEN = {
    "description": "A length: millimetres for programs, text in the job's units for people.",
    "type": "object", "required": ["mm", "text"], "additionalProperties": False,
    "properties": {"mm": {"type": "number"}, "text": {"type": "string"}},
}
PROBLEM = {
    "description": "Problem details (RFC 9457); each error points into what was sent (RFC 6901).",
    "type": "object", "required": ["type", "title", "status", "detail", "code", "errors"],
    "properties": {
        "type": {"type": "string"}, "title": {"type": "string"}, "status": {"type": "integer"},
        "detail": {"type": "string"}, "instance": {"type": "string"},
        "code": {"type": "string", "enum": list(STATUS)},
        "errors": {"type": "array", "items": {
            "type": "object", "required": ["pointer", "detail"],
            "properties": {"pointer": {"type": "string"}, "detail": {"type": "string"}}}}},
}
BOUNDS = ("maxLength", "minLength", "maximum", "minimum")
REASONS = {
    400: "The body is no JSON that can be trusted", 401: "A key is needed",
    403: "The key does not reach that far", 404: "There is no such thing",
    406: "No asked media type can be given", 409: "Held back by a stop finding",
    413: "More bytes than this call takes", 415: "The body must be application/json",
    422: "The JSON is sound, its meaning is not", 500: "Our fault; the problem carries a number to ask about",
}
UNITS = {"name": "units", "in": "query", "required": False,
         "schema": {"type": "string", "enum": ["in", "mm"]},
         "description": "Units of the lengths in the answer; the shop's own by default."}


def describe() -> dict[str, Any]:
    """The whole document."""
    plugin = MarshmallowPlugin(schema_name_resolver=_name)
    spec = APISpec(
        "Yardwright", __version__, "3.1.0", plugins=[plugin],
        info={"description": "From a tape and a phone in the customer's yard to a price on paper.",
              "license": {"name": "MIT", "identifier": "MIT"}},
        security=[{}, {"key": []}])
    plugin.converter.attribute_functions.remove(plugin.converter.field2default)
    plugin.converter.add_attribute_function(_shape)
    for name, shape in (("Length", LENGTH), ("WrittenLength", WRITTEN), ("Problem", PROBLEM)):
        spec.components.schema(name, shape)
    spec.components.security_scheme("key", {"type": "http", "scheme": "bearer"})
    for path, method, known in operations():
        spec.path(path, operations={method: _operation(path, known)})
    document: dict[str, Any] = spec.to_dict()
    for key, name in plugin.converter.refs.items():
        if not issubclass(key[0], Record):
            _always_whole(document["components"]["schemas"][name])
    return document


def _always_whole(shape: dict[str, Any]) -> None:
    """What is only ever answered has all its members and no others."""
    shape["required"] = list(shape["properties"])
    shape["additionalProperties"] = False


def operations() -> Iterator[tuple[str, str, Operation]]:
    """Every operation with its path, from the routes themselves."""
    app = Flask("contract", static_folder=None)
    app.register_blueprint(api)
    for rule in sorted(app.url_map.iter_rules(), key=lambda rule: rule.rule):
        known = getattr(app.view_functions[rule.endpoint], "operation", None)
        if known is not None:
            method = next(m for m in sorted(rule.methods or ()) if m in ("GET", "POST"))
            yield rule.rule.replace("<", "{").replace(">", "}"), method.lower(), known


def _operation(path: str, known: Operation) -> dict[str, Any]:
    made: dict[str, Any] = {"operationId": known.name, "summary": known.summary,
                            "responses": _responses(known)}
    if "{id}" in path:
        made["parameters"] = [{"name": "id", "in": "path", "required": True,
                               "schema": {"type": "string", "minLength": 1, "maxLength": 60}}, UNITS]
    elif path == "/v1/shop":
        made["parameters"] = [UNITS]
    if known.body:
        content = {"schema": known.body} | ({"examples": _examples()} if known.body is Job else {})
        made["requestBody"] = {"required": True, "content": {JSON: content},
                               "description": f"At most {known.most_bytes} bytes."}
    if known.scope != "open":
        made["security"] = [{}, {"key": []}]
        made["description"] = f"Needs the {known.scope} key, except on loopback where no keys are set."
    return made


def _examples() -> dict[str, Any]:
    """The seed scenarios' own files."""
    found = {}
    for path in sorted((ROOT / "seed_scenarios").glob("*/job.json")):
        title = (path.parent / "notes.md").read_text(encoding="utf-8").splitlines()[0].lstrip("# ")
        found[path.parent.name] = {"summary": title, "value": json.loads(path.read_text(encoding="utf-8"))}
    return found


def _responses(known: Operation) -> dict[str, Any]:
    content = {media: {"schema": _answer(known, media)} for media in known.media}
    codes = {406, 500, *known.errors}
    codes |= {400, 413, 415, 422} if known.body else {422}
    codes |= {401, 403} if known.scope != "open" or known.body else set()
    problem = {MEDIA: {"schema": {"$ref": "#/components/schemas/Problem"}}}
    return {"200": {"description": known.summary, "content": content},
            **{str(code): {"description": REASONS[code], "content": problem} for code in sorted(codes)}}


def _answer(known: Operation, media: str) -> Any:
    if media in (PDF, SVG):
        return {"type": "string", "contentMediaType": media}
    if not known.answers:
        return {"type": "object"}
    return known.answers[0] if len(known.answers) == 1 else {"anyOf": list(known.answers)}


def _name(schema: Any) -> str:
    kind = schema if isinstance(schema, type) else type(schema)
    if isinstance(schema, str):
        return schema
    return kind.__name__.removesuffix("Out")


def _shape(_converter: Any, field: fields.Field[Any], **_: Any) -> dict[str, Any]:
    if isinstance(field, Many) and field.most:
        return {"maxItems": field.most}
    shape = dict(getattr(field, "shape", {})) if isinstance(field, Ours) else {}
    if isinstance(field, Made) or not isinstance(field.root, Record):
        return {key: value for key, value in shape.items() if key not in BOUNDS}
    return shape


def main() -> None:
    json.dump(describe(), sys.stdout, indent=1, sort_keys=False, ensure_ascii=False)
    sys.stdout.write("\n")


if __name__ == "__main__":
    main()

