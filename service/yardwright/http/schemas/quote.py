"""The quote as the customer may see it, and what the shop sees on top.

``Quote`` is dumped alone for a customer's key. ``ShopQuote`` is the same content with members that only
the shop sees; ``customer_part`` takes them off again, so that either can be sealed, sent back and printed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from marshmallow import Schema, fields

from ...domain import measure
from ...domain.market import BoardStock
from ..fields import Day, Made, Many, Number, Picked, Text, Truth, Whole, Words
from ..quantities import Amount, Voice, Written, WrittenLengths, written
from .catalogue import ShopHead
from .cutting import CuttingGroups
from .fit import FindingOut, QuotedFitOut, for_customer, for_shop
from .job import Customer, Override
from .site import Site

if TYPE_CHECKING:
    from ...domain.cutting.model import StockLineBought
    from ...domain.piece.model import Piece
    from ...domain.quote import QuotedItem


class PartOut(Schema):
    mark = Text()
    name = Text()
    count = Whole(0, 100_000)
    hand = Text()
    timber = Text()
    section = Text()
    length = Written(attribute="length_nm")
    width = Written(attribute="width_nm")
    thickness = Written(attribute="thickness_nm")
    made_of = Text()
    shape = Many(Text(200))
    notes = Many(Text(200))


class QuotedItemOut(Schema):
    template = Text(attribute="piece.template.id")
    template_name = Text(attribute="piece.template.name")
    revision = Whole(0, 1_000_000, attribute="piece.template.revision")
    dimensions = WrittenLengths(attribute="piece.dimensions_nm")
    dimension_labels = Made(lambda i: labels_of(i.piece), Words.shape)
    overall = Made(lambda i: overall(i), WrittenLengths.shape)
    choices = Words(attribute="piece.choices")
    choice_labels = Made(lambda i: choice_labels(i), Words.shape)
    included = Many(Text(400), attribute="piece.template.included")
    quantity = Whole(1, 200)
    fit = fields.Nested(QuotedFitOut, allow_none=True)
    parts = Many(fields.Nested(PartOut))
    weight_kg = Number(0, 1e6, digits=2, attribute="mass_kg")
    weight_delivered_kg = Number(0, 1e6, digits=2, attribute="delivered_kg")
    price = Amount()
    hours = Number(0, 1e6, digits=2)
    findings = Picked(FindingOut, lambda i: for_customer(i.findings), many=True)
    cautions = Many(Text(600), attribute="piece.cautions")
    notes = Many(Text(400), attribute="piece.notes")


class StockOut(Schema):
    code = Text(attribute="stock.code")
    name = Made(lambda line: stock_name(line), Text.shape)
    kind = Text()
    section = Made(lambda line: line.stock.section.id if line.kind == "board" else "", Text.shape)
    timber = Made(lambda line: line.stock.timber if line.kind == "board" else "", Text.shape)
    length = Written(attribute="length_nm")
    count = Whole(0, 100_000)


class HardwareOut(Schema):
    code = Text(attribute="goods.code")
    name = Text(attribute="goods.name")
    need = Number(0, 1e9, digits=3)
    packs = Whole(0, 100_000)


class LabourOut(Schema):
    hours = Number(0, 1e6, digits=2)
    elapsed_days = Whole(0, 100_000)


class LineOut(Schema):
    kind = Text()
    text = Text(400)
    quantity = Whole(0, 100_000)
    unit = Amount()
    amount = Amount()
    taxed = Truth()


class TaxOut(Schema):
    name = Text()
    rate = Text()
    base = Amount()
    amount = Amount()
    included = Truth()


class PriceOut(Schema):
    currency = Text()
    lines = Many(fields.Nested(LineOut))
    net = Amount()
    tax = Many(fields.Nested(TaxOut))
    total = Amount()
    deposit = Amount()


class WorkingOut(Schema):
    what = Text()
    rule = Text(400)
    numbers = Text(2000)
    result = Text(200)
    source = Text(400)


class Quote(Schema):
    reference = Text(attribute="job.reference")
    date = Day(attribute="job.date")
    units = Text(attribute="job.units")
    seal = Text()
    versions = Words()
    valid_until = Day()
    demonstration = Truth()
    shop = Picked(ShopHead, lambda q: Voice.get().shop.identity)
    customer = fields.Nested(Customer, attribute="job.customer")
    site = fields.Nested(Site, attribute="job.site")
    items = Many(fields.Nested(QuotedItemOut))
    stock = Many(fields.Nested(StockOut))
    hardware = Many(fields.Nested(HardwareOut))
    labour = fields.Nested(LabourOut)
    price = fields.Nested(PriceOut)
    findings = Picked(FindingOut, lambda q: for_customer(q.findings), many=True)
    held_by = Made(lambda q: list(dict.fromkeys(finding.rule for finding in q.stopped_by)),
                   {"type": "array", "items": {"type": "string"}})
    overrides = Many(fields.Nested(Override), attribute="job.overrides")
    terms = Many(Text(600))
    cancellation = Made(lambda q: list(Voice.get().shop.terms.cancellation),
                        {"type": "array", "items": {"type": "string"}})
    home_sale_notice = Made(lambda q: Voice.get().shop.terms.home_sale_notice, {"type": "string"})
    lead_weeks = Made(lambda q: list(Voice.get().shop.terms.lead_weeks),
                      {"type": "array", "items": {"type": "integer"}})
    cautions = Many(Text(600))
    working = Picked(WorkingOut, lambda q: [w for w in q.working if w.customer], many=True)


class ShopQuotedItem(QuotedItemOut):
    shop_findings = Picked(FindingOut, lambda i: for_shop(i.findings), many=True)


class ShopStock(StockOut):
    unit_price = Amount(attribute="stock.price")
    amount = Amount()
    spares = Whole(0, 100_000)
    on_hand = Truth()
    working = Text(2000)


class ShopHardware(HardwareOut):
    unit_price = Amount(attribute="goods.price")
    amount = Made(lambda line: line.goods.price.times(line.packs).text(), Amount.shape)
    with_spare = Number(0, 1e9, digits=3)
    working = Text(2000)


class OperationOut(Schema):
    standard = Text()
    name = Text()
    phase = Text()
    count = Number(0, 1e9, digits=3)
    per = Text()
    each_minutes = Number(0, 1e9, digits=3)
    setup_minutes = Number(0, 1e9, digits=3)
    minutes = Number(0, 1e9, digits=2)
    by_item = Many(Number(0, 1e9, digits=2))
    working = Text(2000)


class ShopLabour(LabourOut):
    wait_hours = Number(0, 1e6, digits=2)
    operations = Many(fields.Nested(OperationOut))
    working = Text(2000)


class CostOut(Schema):
    name = Text()
    amount = Amount()
    working = Text(2000)


class ItemCostOut(Schema):
    stock = Amount()
    hardware = Amount()
    labour = Amount()
    overhead = Amount()
    cost = Amount()
    price = Amount()


class ShopPrice(PriceOut):
    items = Many(fields.Nested(ItemCostOut))
    build_up = Many(fields.Nested(CostOut))
    margin_share = Number(-1e9, 1, digits=6)


class ShopQuote(Quote):
    items = Many(fields.Nested(ShopQuotedItem))
    stock = Many(fields.Nested(ShopStock))
    hardware = Many(fields.Nested(ShopHardware))
    labour = fields.Nested(ShopLabour)
    price = fields.Nested(ShopPrice)
    cutting = Picked(CuttingGroups, lambda q: {"groups": q.cutting})
    shop_findings = Picked(FindingOut, lambda q: for_shop(q.findings), many=True)
    shop_working = Picked(WorkingOut, lambda q: [w for w in q.working if not w.customer], many=True)


def customer_part(answer: dict[str, Any]) -> dict[str, Any]:
    """A Quote or ShopQuote less everything a customer does not see, seal included."""
    part = _only(answer, Quote)
    part.pop("seal", None)
    for name, schema in (("items", QuotedItemOut), ("stock", StockOut), ("hardware", HardwareOut)):
        part[name] = [_only(entry, schema) for entry in _list(part.get(name))]
    for name, schema in (("labour", LabourOut), ("price", PriceOut)):
        part[name] = _only(part.get(name), schema)
    return part


def _only(value: Any, schema: type[Schema]) -> dict[str, Any]:
    known = schema._declared_fields
    return {name: inner for name, inner in value.items() if name in known} if isinstance(value, dict) else {}


def _list(value: Any) -> list[Any]:
    return value if isinstance(value, list) else []


def overall(item: QuotedItem) -> dict[str, Any]:
    """The closed piece as it stands: its height is from the ground, feet included."""
    return {name: written(nm) for name, nm in item.overall_nm().items()}


def labels_of(piece: Piece) -> dict[str, str]:
    """The label of each size that says something with the piece's choices."""
    return {d.name: d.label for d in piece.template.dimensions if d.name in piece.used_nm}


def choice_labels(item: QuotedItem) -> dict[str, str]:
    """Each choice in the words of the form, timber and finish included."""
    from ...domain.piece.offer import finish_name, offered

    piece, shop = item.piece, Voice.get().shop
    shown = {c.label: dict(c.options).get(piece.choices[c.name], piece.choices[c.name])
             for c in offered(piece.template, shop)[:-2] if c.name in piece.choices}
    timber = shop.market.timbers.get(piece.choices["timber"])
    return shown | {"Timber": timber.name if timber else piece.choices["timber"],
                    "Finish": finish_name(piece.choices["finish"], shop)}


def stock_name(line: StockLineBought) -> str:
    """ "Western red cedar 1x6, 10', clear" for a board, the list's own name for a sheet or roll."""
    stock = line.stock
    if not isinstance(stock, BoardStock):
        return stock.name
    timber = Voice.get().shop.market.timbers.get(stock.timber)
    name = timber.name if timber else stock.timber
    length = measure.Writer(Voice.get().units).length(line.length_nm)
    return ", ".join(word for word in (f"{name} {stock.section.id}", length, stock.grade) if word)
