"""Templates and the shop as a form needs them; no costs."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, fields

from ...domain.shop import Shop
from ...domain.template.model import Choice, Template
from ..fields import Made, Many, Picked, Text, Truth, Whole, Words
from ..quantities import Voice, Written, written


class TemplateHead(Schema):
    id = Text()
    revision = Whole(0, 1_000_000)
    name = Text()
    summary = Text(400)


class TemplateList(Schema):
    templates = Many(fields.Nested(TemplateHead))


CONDITION = {"anyOf": [{"description": "A formula tree over dimensions (mm) and choices that gives true or "
                                       "false: whether this applies."}, {"type": "null"}]}


class DimensionOut(Schema):
    name = Text()
    label = Text()
    help = Text(400)
    default = Made(lambda d: written(d.default_nm[Voice.get().units]), Written.shape)
    min = Written(attribute="least_nm")
    max = Written(attribute="most_nm")
    step = Made(lambda d: written(d.step_nm[Voice.get().units]), Written.shape)
    when = Made(lambda d: d.when.tree if d.when else None, CONDITION)


class Option(Schema):
    id = Text()
    label = Text()


class ChoiceOut(Schema):
    name = Text()
    label = Text()
    help = Text(400)
    options = Picked(Option, lambda c: [{"id": word, "label": label} for word, label in c.options], many=True)
    default = Text()
    about = Made(lambda c: c.about, {"type": "string", "enum": ["look", "make", "place", "use"],
                                     "description": "What it looks like, how it is made, how it is set "
                                                    "in its place, who uses it."})


TREE = {"description": "A formula tree: a number or [operator, ...]. Lengths in mm, angles in degrees."}


class NamedTree(Schema):
    name = Text()
    tree = Made(lambda pair: pair["formula"].tree, TREE)


class FitRuleOut(Schema):
    """Formula trees as pwa/logic/formula.js runs them; lengths in mm, angles in degrees."""

    values = Picked(NamedTree, lambda f: [{"name": n, "formula": tree} for n, tree in f.values], many=True)
    envelope = Made(lambda f: {name: formula.tree for name, formula in f.envelope.items()},
                    {"type": "object", "additionalProperties": TREE})
    wing = Made(lambda f: f.wing.tree if f.wing else None, TREE)
    priority = Many(Text())
    wing = Made(lambda f: f.wing.tree if f.wing else None,
                {"anyOf": [{"description": "Gives the end an L for a corner has its wing at: left, right or "
                                           "none."}, {"type": "null"}]})


class TemplateOut(TemplateHead):
    included = Many(Text(400))
    dimensions = Many(fields.Nested(DimensionOut))
    choices = Picked(ChoiceOut, lambda t: choices(t, Voice.get().shop), many=True)
    fit = fields.Nested(FitRuleOut)
    cautions = Made(lambda t: [c.text for c in t.cautions], {"type": "array", "items": {"type": "string"}})
    caution_conditions = Made(lambda t: [c.when.tree if c.when else None for c in t.cautions],
                              {"description": "One for each caution, in order.", "type": "array",
                               "items": CONDITION})


class Named(Schema):
    id = Text()
    name = Text()


class FittingOut(Schema):
    tape_class = Text()
    reading = Written(attribute="reading_nm")
    allowance = Written(attribute="allowance_nm")
    airflow = Written(attribute="airflow_nm")
    walkway = Written(attribute="walkway_nm")


class KeepClearOut(Schema):
    kind = Text()
    label = Text()
    sides = Written(attribute="sides_nm")
    front = Written(attribute="front_nm")
    above = Written(attribute="above_nm")
    below = Written(attribute="below_nm")
    solid = Truth()
    level = Text()
    advice = Text(600)


class ShopHead(Schema):
    """The shop as a letterhead."""

    name = Text()
    address = Many(Text())
    phone = Text()
    email = Text()
    tax_number = Text()


class ShopOut(Schema):
    id = Text()
    name = Text(attribute="identity.name")
    address = Many(Text(), attribute="identity.address")
    phone = Text(attribute="identity.phone")
    email = Text(attribute="identity.email")
    currency = Text(attribute="prices.currency")
    units = Text()
    timbers = Picked(Named, lambda s: sold_timbers(s), many=True)
    finishes = Picked(Named, lambda s: finishes(s), many=True)
    terms = Many(Text(600), attribute="terms.lines")
    cautions = Many(Text(600), attribute="terms.cautions")
    fitting = fields.Nested(FittingOut)
    keep_clear = Picked(KeepClearOut, lambda s: list(s.keep_clear.values()), many=True)
    prices_as_of = Text(attribute="market.as_of")
    demonstration = Truth(attribute="market.demonstration")
    versions = Words()


def sold_timbers(shop: Shop) -> list[Any]:
    """The timbers that the shop has a board of."""
    sold = {board.timber for board in shop.market.boards}
    return [timber for key, timber in shop.market.timbers.items() if key in sold]


def finishes(shop: Shop) -> list[Any]:
    """The finishes the shop gives, none at all first."""
    none = {"id": "none", "name": "No finish"}
    return [none, *(finish for key, finish in shop.market.finishes.items() if key != "none")]


def choices(template: Template, shop: Shop) -> tuple[Choice, ...]:
    """The template's own choices, then timber and finish as this shop can give them."""
    from ...domain.piece.offer import offered

    return offered(template, shop)
