"""A job as sent, and the smaller questions about one item."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from marshmallow import ValidationError, fields, post_load, validates_schema

from ...domain import job, measure
from ..fields import Day, Many, Ours, Text, Truth, Whole, Word, Words
from ..quantities import Amount, Distance, Length, Lengths, Share, Voice
from .base import Record
from .site import Site

UNITS = ("in", "mm")


class TemplateRef(Ours):
    """A template's id, or a whole template inline (shop scope only)."""

    shape: Mapping[str, Any] = {"oneOf": [{"type": "string", "minLength": 1, "maxLength": 60},
                       {"type": "object", "description": "A whole template; needs the shop key."}]}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> str | Mapping[str, Any]:
        if isinstance(value, Mapping):
            return value
        return Text(60, least=1).deserialize(value)  # type: ignore[no-any-return]


class Customer(Record):
    makes = job.Customer
    name = Text(120, load_default="")
    address = Text(300, lines=True, load_default="")
    phone = Text(40, load_default="")
    email = Text(120, load_default="")


class Item(Record):
    template = TemplateRef(required=True)
    dimensions = Lengths(load_default=dict)
    choices = Words(load_default=dict)
    quantity = Whole(1, 200, load_default=1)

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> job.Item:
        asked = data["template"]
        if isinstance(asked, str):
            return job.Item(**data)
        name = asked.get("id") if isinstance(asked.get("id"), str) else "inline"
        return job.Item(**(data | {"template": name, "inline": asked}))


class Extra(Record):
    makes = job.Extra
    text = Text(120, least=1, required=True)
    amount = Amount(required=True)
    taxed = Truth(load_default=True)


class Delivery(Record):
    makes = job.Delivery
    distance = Distance(attribute="distance_km", load_default=0.0)
    install = Truth(load_default=False)
    crew = Whole(1, 6, load_default=1)


class Discount(Record):
    makes = job.Discount
    share = Share()
    amount = Amount()
    reason = Text(200, load_default="")

    @validates_schema
    def _one_of_two(self, data: Mapping[str, Any], **_: Any) -> None:
        if ("share" in data) == ("amount" in data):
            raise ValidationError('a discount has either "share" or "amount"')


class Blocked(Record):
    """A part of a board that cannot be used."""

    start = Length(data_key="from", required=True)
    end = Length(data_key="to", required=True)

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> tuple[int, int]:
        if data["end"] <= data["start"]:
            raise ValidationError({"to": ["this must be beyond from"]})
        return data["start"], data["end"]


def within_piece(data: Mapping[str, Any]) -> None:
    """Refuse blocked zones beyond the end of their piece."""
    faults = {at: {"to": [f"this is beyond the end of the piece, {measure.write(data['length_nm'], 'mm')}"]}
              for at, (_, to) in enumerate(data["blocked"]) if to > data["length_nm"]}
    if faults:
        raise ValidationError({"blocked": faults})


class OnHand(Record):
    makes = job.OnHand
    section = Text(40, least=1, required=True)
    timber = Text(60, least=1, required=True)
    length = Length(attribute="length_nm", required=True)
    count = Whole(1, 500, load_default=1)
    price = Amount()
    blocked = Many(fields.Nested(Blocked), 20, load_default=())

    @validates_schema
    def _whole(self, data: dict[str, Any], **_: Any) -> None:
        within_piece(data)

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> job.OnHand:
        return job.OnHand(**({"price": None} | data))


class Wanted(Truth):
    """Whether changes that mend a finding are looked for."""

    shape: Mapping[str, Any] = {**Truth.shape, "description":
             "Left out: the nearest change that mends is looked for, one for each stop and "
             "caution (not of a template that comes with the job). true: up to three of each, with more "
             "work; false: none."}


class Override(Record):
    makes = job.Override
    what = Text(120, least=1, required=True)
    to = Text(200, load_default="")
    reason = Text(400, least=3, lines=True, required=True)


class Job(Record):
    reference = Text(40, load_default="")
    units = Word(UNITS, required=True)
    date = Day()
    customer = fields.Nested(Customer, load_default=job.Customer)
    site = fields.Nested(Site, load_default=job.Site)
    items = Many(fields.Nested(Item), 20, required=True)
    extras = Many(fields.Nested(Extra), 20, load_default=())
    delivery = fields.Nested(Delivery, load_default=job.Delivery)
    discount = fields.Nested(Discount)
    wanted_by = Day()
    on_hand = Many(fields.Nested(OnHand), 100, load_default=())
    overrides = Many(fields.Nested(Override), 20, load_default=())
    notes = Text(2000, lines=True, load_default="")
    mends = Wanted(load_default=None)

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> job.Job:
        if not data["items"]:
            raise ValidationError({"items": ["at least one item is asked for"]})
        return job.Job(**({"date": Voice.get().today} | data))


class FitQuestion(Record):
    """One template and a site, with the wished sizes."""

    units = Word(UNITS, required=True)
    template = Text(60, least=1, required=True)
    dimensions = Lengths(load_default=dict)
    choices = Words(load_default=dict)
    site = fields.Nested(Site, required=True)


class DrawingQuestion(Record):
    units = Word(UNITS, load_default="in")
    item = fields.Nested(Item, required=True)
    view = Word(("front", "side", "plan", "isometric"), load_default="isometric")
    opened = Truth(load_default=False)
    site = fields.Nested(Site, load_default=job.Site)
