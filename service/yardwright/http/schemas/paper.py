"""A sealed quote sent back for paper, and the workshop's request."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from marshmallow import ValidationError, fields, post_load

from ..fields import Number, Ours, Text
from .base import Record
from .job import Job


class SealedQuote(Ours):
    """A quote exactly as it was answered; the seal proves its content, so no schema need."""

    shape: Mapping[str, Any] = {"anyOf": [{"$ref": "#/components/schemas/Quote"},
                                          {"$ref": "#/components/schemas/ShopQuote"}]}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> dict[str, Any]:
        if not isinstance(value, dict) or not isinstance(value.get("seal"), str):
            raise ValidationError('this must be a quote as it was answered, with its "seal"')
        return value


class Strokes(Ours):
    """A signature as drawn: strokes of points [x, y], any scale."""

    shape: Mapping[str, Any] = {"type": "array", "maxItems": 400, "items": {
        "type": "array", "minItems": 1, "maxItems": 4000, "items": {
            "type": "array", "minItems": 2, "maxItems": 2, "items": {
                "type": "number", "minimum": -100_000, "maximum": 100_000}}}}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> list[Any]:
        if not isinstance(value, list) or len(value) > 400:
            raise ValidationError("this must be a list of at most 400 strokes")
        return [self._stroke(stroke) for stroke in value]

    def _stroke(self, stroke: Any) -> list[tuple[float, float]]:
        if not isinstance(stroke, list) or not 1 <= len(stroke) <= 4000:
            raise ValidationError("a stroke is a list of 1 to 4000 points")
        number = Number(-100_000, 100_000)
        if any(not isinstance(point, list) or len(point) != 2 for point in stroke):
            raise ValidationError("a point is [x, y]")
        return [(number.deserialize(x), number.deserialize(y)) for x, y in stroke]


class Signature(Record):
    strokes = Strokes(load_default=list)
    name = Text(120, least=1, required=True)
    place = Text(120, load_default="")
    time = Text(60, load_default="")


class PaperQuestion(Record):
    quote = SealedQuote(required=True)
    signature = fields.Nested(Signature)


class SheetQuestion(Record):
    """The job, or the sealed quote that came of it."""

    job = fields.Nested(Job)
    quote = SealedQuote()

    @post_load
    def _make(self, data: Mapping[str, Any], **_: Any) -> Mapping[str, Any]:
        if ("job" in data) == ("quote" in data):
            raise ValidationError('send either "job" or "quote"')
        return data


