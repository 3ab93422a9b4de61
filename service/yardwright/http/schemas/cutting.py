"""The cutting planner's questions and answers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from marshmallow import Schema, ValidationError, fields, post_load, validates_schema

from ...domain import measure
from ..fields import Made, Many, Number, Ours, Picked, Text, Truth, Whole, Word
from ..quantities import Amount, Length, MinorAmount, Written, read_length
from .base import Record
from .job import Blocked, within_piece

if TYPE_CHECKING:
    from ...domain.cutting.model import NeededPart, StockLine

# domain/cutting/model.py has the same words; it is not imported before a plan is asked for.
EFFORTS = ("quick", "normal", "thorough")


class Kerf(Ours):
    """One kerf for both saws, or one for each."""

    shape: Mapping[str, Any] = {"oneOf": [Length.shape, {"type": "object", "required": ["crosscut", "rip"],
                                      "properties": {"crosscut": Length.shape, "rip": Length.shape},
                                      "additionalProperties": False}]}

    def _deserialize(self, value: Any, attr: Any, data: Any, **_: Any) -> tuple[int, int]:
        if isinstance(value, Mapping) and set(value) == {"crosscut", "rip"}:
            kerfs = read_length(value["crosscut"]), read_length(value["rip"])
        else:
            kerfs = (read_length(value),) * 2
        if max(kerfs) > 25 * measure.MM:
            raise ValidationError("a kerf is at most 25 mm")
        return kerfs


class StockIn(Record):
    code = Text(60, least=1, required=True)
    kind = Word(("board", "sheet", "roll"), load_default="board")
    length = Length(attribute="length_nm", required=True)
    width = Length(attribute="width_nm", required=True)
    price = Amount(required=True)
    count = Whole(0, 100_000)
    blocked = Many(fields.Nested(Blocked), 20, load_default=())

    @validates_schema
    def _whole(self, data: dict[str, Any], **_: Any) -> None:
        within_piece(data)

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> StockLine:
        from ...domain.cutting.model import StockLine

        price = data.pop("price").minor
        if price < 0 or not data["length_nm"] or not data["width_nm"]:
            raise ValidationError("stock has a length, a width and a price that is not negative")
        return StockLine(price=price, **data)


class PartIn(Record):
    mark = Text(60, least=1, required=True)
    length = Length(attribute="length_nm", required=True)
    width = Length(attribute="width_nm", required=True)
    count = Whole(1, 2000, required=True)
    grain = Word(("along", "either"), load_default="along")

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> NeededPart:
        from ...domain.cutting.model import NeededPart

        if not data["length_nm"] or not data["width_nm"]:
            raise ValidationError("a part has a length and a width")
        return NeededPart(**data)


class OnHandIn(StockIn):
    """A piece already there: a stock line whose price may be left out."""

    price = Amount()
    count = Whole(1, 500, load_default=1)

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> StockLine:
        from ...domain.cutting.model import StockLine

        price = data.pop("price", None)
        return StockLine(price=price.minor if price else 0, on_hand=True, **data)


class CutCosts(Record):
    """The shop's price of a cut beside the boards', and what a metre of kept offcut is worth to it."""

    crosscut = Amount(attribute="crosscut_cost")
    rip_per_m = Amount(attribute="rip_cost_per_m")
    set_up = Amount(attribute="setup_cost")
    offcut_credit_per_m = Amount()

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> dict[str, float]:
        if any(amount.minor < 0 for amount in data.values()):
            raise ValidationError("costs and credits are not negative")
        return {name: float(amount.minor) for name, amount in data.items()}


class CuttingQuestion(Record):
    kerf = Kerf(required=True)
    end_trim = Length(load_default=0)
    edge_trim = Length(load_default=0)
    stock = Many(fields.Nested(StockIn), 200, required=True)
    parts = Many(fields.Nested(PartIn), 400, required=True)
    on_hand = Many(fields.Nested(OnHandIn), 100, load_default=())
    least_offcut = Length(load_default=0)
    least_rip_length = Length(load_default=0)
    least_strip = Length(load_default=0)
    longest_carry = Length()
    rip_from_wider = Truth(load_default=True)
    costs = fields.Nested(CutCosts)
    effort = Word(EFFORTS, load_default="normal")

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> dict[str, Any]:
        from ...domain.cutting.model import CutRules

        if not data["parts"] or not (data["stock"] or data["on_hand"]):
            raise ValidationError("there is nothing to cut, or nothing to cut it from")
        crosscut, rip = data["kerf"]
        rules = CutRules(crosscut_kerf_nm=crosscut, rip_kerf_nm=rip, end_trim_nm=data["end_trim"],
                         edge_trim_nm=data["edge_trim"], least_offcut_nm=data["least_offcut"],
                         least_rip_length_nm=data["least_rip_length"], least_strip_nm=data["least_strip"],
                         longest_carry_nm=data.get("longest_carry"), rip_from_wider=data["rip_from_wider"],
                         **data.get("costs", {}))
        return {"parts": data["parts"], "stock": (*data["stock"], *data["on_hand"]), "rules": rules,
                "effort": data["effort"]}


def _mm(name: str) -> Any:
    return Made(lambda record: measure.to_mm(getattr(record, f"{name}_nm")), {"type": "number"})


class PlacedOut(Schema):
    mark = Text()
    x_mm = _mm("x")
    y_mm = _mm("y")
    length_mm = _mm("length")
    width_mm = _mm("width")


class OffcutOut(Schema):
    x_mm = _mm("x")
    y_mm = _mm("y")
    length_mm = _mm("length")
    width_mm = _mm("width")
    kept = Truth()


class StepOut(Schema):
    kind = Text()
    setting = Written(attribute="setting_nm")
    times = Whole(0, 100_000)
    piece = Text()
    marks = Many(Text())


class LayoutOut(Schema):
    code = Text()
    length_mm = _mm("length")
    width_mm = _mm("width")
    parts = Many(fields.Nested(PlacedOut))
    offcuts = Many(fields.Nested(OffcutOut))
    steps = Many(fields.Nested(StepOut))


class PlanOut(Schema):
    status = Text()
    cost = MinorAmount()
    lower_bound = MinorAmount()
    share = Number(0, 1, digits=6, attribute="yield_share", data_key="yield")
    stopped = Text()
    layouts = Many(fields.Nested(LayoutOut))


class CuttingOut(PlanOut):
    """One group's plan of a quote."""

    name = Text()
    material = Text()

    def get_attribute(self, obj: Any, attr: str, default: Any) -> Any:
        return super().get_attribute(obj if attr in ("name", "material") else obj.plan, attr, default)


class CuttingGroups(Schema):
    groups = Many(fields.Nested(CuttingOut))


class PurchaseOut(Schema):
    code = Text()
    count = Whole(0, 100_000)
    amount = MinorAmount()


class CuttingAnswer(Schema):
    cutting = Picked(PlanOut, lambda plan: plan)
    stock = Many(fields.Nested(PurchaseOut), attribute="purchases")
