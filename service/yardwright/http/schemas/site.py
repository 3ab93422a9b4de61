"""The site as sent and as echoed."""

from __future__ import annotations

from typing import Any

from marshmallow import ValidationError, fields, post_dump, validates_schema

from ...domain import site
from ..fields import Many, Number, Text, Word
from ..quantities import Fall, Length
from .base import Record


class Echoed(Record):
    """A record that is echoed without the members that were left out."""

    @post_dump
    def _leave_out(self, data: dict[str, Any], **_: Any) -> dict[str, Any]:
        return {name: value for name, value in data.items() if value not in (None, "", [])}


class Measured(Echoed):
    makes = site.Measured
    value = Length(attribute="value_nm", required=True)
    at_height = Length(attribute="at_height_nm")
    at_depth = Length(attribute="at_depth_nm")
    at_along = Length(attribute="at_along_nm")


class Obstruction(Echoed):
    makes = site.Obstruction
    kind = Text(40, least=1, required=True)
    start = Length(attribute="from_nm", data_key="from", required=True)
    end = Length(attribute="to_nm", data_key="to", required=True)
    projection = Length(attribute="projection_nm", required=True)
    bottom = Length(attribute="bottom_nm")
    top = Length(attribute="top_nm")


class Wall(Echoed):
    """Out of plumb by so much over ``plumb_over`` of its height; it ``leans`` in, or away from the space."""

    makes = site.Wall
    side = Word(("back", "left", "right"), load_default="back")
    readings = Many(fields.Nested(Measured), 20, load_default=())
    out_of_plumb = Length(attribute="out_of_plumb_nm")
    plumb_over = Length(attribute="plumb_over_nm")
    leans = Word(("in", "away"), load_default="")
    obstructions = Many(fields.Nested(Obstruction), 20, load_default=())

    @validates_schema
    def _over_what(self, data: dict[str, Any], **_: Any) -> None:
        if data.get("out_of_plumb_nm") and not data.get("plumb_over_nm"):
            raise ValidationError({"plumb_over": ["over what height does the wall lean by that much?"]})


class Diagonal(Record):
    makes = site.Diagonal
    along = Length(attribute="along_nm", required=True)
    out = Length(attribute="out_nm", required=True)
    across = Length(attribute="across_nm", required=True)


class Corner(Echoed):
    makes = site.Corner
    at = Word(("left", "right"), required=True)
    angle = Number(30, 150, attribute="angle_deg")
    diagonals = Many(fields.Nested(Diagonal), 6, load_default=())


class Ground(Echoed):
    makes = site.Ground
    surface = Text(40, load_default="")
    fall_along = Fall(load_default=0.0)
    fall_away = Fall(load_default=0.0)
    drop_behind = Length(attribute="drop_behind_nm")
    allowed_load_kn_m2 = Number(0, 100)


class Access(Echoed):
    makes = site.Access
    kind = Word(("gate", "stairs", "turn", "passage"), required=True)
    width = Length(attribute="width_nm", required=True)
    height = Length(attribute="height_nm")
    width_after = Length(attribute="width_after_nm")


class Site(Echoed):
    makes = site.Site
    kind = Word(("between walls", "corner", "against a wall", "open"), load_default="open")
    walls = Many(fields.Nested(Wall), 3, load_default=())
    corners = Many(fields.Nested(Corner), 2, load_default=())
    depths = Many(fields.Nested(Measured), 20, load_default=())
    height_under = Length(attribute="height_under_nm")
    ground = fields.Nested(Ground, load_default=site.Ground)
    access = Many(fields.Nested(Access), 10, load_default=())
    exposure = Text(40, load_default="")
    region = Text(60, load_default="")
    tape_class = Word(("I", "II", "III", ""), load_default="")
    walkway = Length(attribute="walkway_nm")
