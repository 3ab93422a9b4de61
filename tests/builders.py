"""Small shops and pieces for everyone's tests, with round prices; sizes in mm, money in USD.

``demo_shop`` and ``demo_shop_metric`` are the embedded shops as read from disk, read once.
``shop`` is a small one: cedar 1x4, 1x6, 2x4 and 4x4 in 8 and 12 ft, treated pine 2x4, one of each goods.
"""

from __future__ import annotations

import functools
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import yardwright
from yardwright.domain.cutting.model import (
    CutStep,
    CuttingGroup,
    CuttingPlan,
    Layout,
    Placed,
    Purchase,
    StockLineBought,
)
from yardwright.domain.formula.model import Formula
from yardwright.domain.job import Customer, Delivery, Item, Job
from yardwright.domain.market import BoardStock, Goods, Market, RollStock, SheetStock
from yardwright.domain.money import Money, money
from yardwright.domain.parts import Part
from yardwright.domain.piece.model import Box, Contact, Frame, MadeJoint, Member, Piece, ShapeWork
from yardwright.domain.shop import PriceRules, Shop, TaxRule
from yardwright.domain.site import Site
from yardwright.domain.template.model import FitRule, GlueUp, Joint, Template
from yardwright.files.shop import read_bare_shop, read_shop

DATA = Path(yardwright.__file__).parent / "data"
INCH, FOOT, MM = 25_400_000, 304_800_000, 1_000_000


@functools.cache
def demo_shop() -> Shop:
    return read_shop(DATA / "demo_shop", DATA)


@functools.cache
def demo_shop_metric() -> Shop:
    return read_shop(DATA / "demo_shop_metric", DATA)


@functools.cache
def bare_shop() -> Shop:
    """The inch shop without templates, so that a template half written breaks no other test."""
    return read_bare_shop(DATA / "demo_shop", DATA)


def usd(text: str) -> Money:
    return money(text, "USD")


def _boards() -> tuple[BoardStock, ...]:
    sections = bare_shop().market.sections
    listed = []
    for section, foot_price in (("1x4", "1.00"), ("1x6", "1.50"), ("2x4", "2.00"), ("4x4", "4.00")):
        for feet in (8, 12):
            listed.append(BoardStock(f"C-{section}-{feet}", sections[section], "western-red-cedar", "Knotty",
                                     "dry", feet * FOOT, usd(foot_price).times(feet)))
    listed.append(BoardStock("P-2x4-8", sections["2x4"], "southern-pine-uc4a", "No.1", "wet", 8 * FOOT,
                             usd("8.00")))
    return tuple(listed)


def _goods() -> tuple[Goods, ...]:
    return (
        *(Goods(f"S{length}-{per}", f"Screw {length} in, {per}", "screw", per, "each", usd(price),
                {"gauge": 8, "diameter_nm": 4_165_600, "length_nm": length * INCH}, "stainless 305", 0.003)
          for length in (1.25, 1.5, 2, 2.5, 3) for per, price in ((100, "10.00"), (350, "30.00"))),
        *(Goods(f"H{length}", f"Hinge {length} in", "hinge", 1, "each", usd(f"{length}.00"),
                {"length_nm": length * INCH}, "stainless 304", 0.014 * length) for length in (12, 24, 48)),
        Goods("STAY", "Lid stay", "stay", 1, "each", usd("25.00"), {"torque_nmm": 11_300}),
        Goods("ST", "Staples 1000", "staple", 1000, "each", usd("15.00"), {"length_nm": 12 * MM},
              "stainless 304"),
        Goods("BOLT", "Bolt 4 in", "bolt", 1, "each", usd("3.00"), {"length_nm": 4 * INCH}, "stainless 304"),
        Goods("G", "Glue 0.25 L", "glue", 0.25, "L", usd("9.00"), {"litres": 0.25}),
        Goods("F1", "Oil 1 L", "finish", 1.0, "L", usd("30.00"), {"litres": 1.0}, "clear-oil"),
        Goods("F4", "Oil 4 L", "finish", 4.0, "L", usd("80.00"), {"litres": 4.0}, "clear-oil"),
        Goods("PRES", "Cut-end preservative 1 L", "preservative", 1.0, "L", usd("20.00"), {"litres": 1.0}),
    )


def market() -> Market:
    known = bare_shop().market
    sheet = SheetStock("PLY", "Plywood", "exterior plywood", 8 * FOOT, 4 * FOOT, 18 * MM, usd("60.00"), 560)
    mesh = RollStock("MESH", "Mesh 24 in", "mesh", 24 * INCH, FOOT, 50 * FOOT, usd("3.00"), 1.2)
    return Market(known.timbers, known.sections, _boards(), (sheet,), (mesh,), _goods(), known.finishes,
                  "2026-11-02", True)


def price_rules(**changes: Any) -> PriceRules:
    """60 an hour in all, no handling, 25 % margin, 8 % sales tax, rounded to whole dollars."""
    rules = PriceRules("USD", "half-up", usd("1.00"), usd("40.00"), usd("20.00"), "0", "margin", "0.25",
                       {"screw": "0.10", "glue": "0.10", "finish": "0.10"}, {"Knotty": "0.10"},
                       (TaxRule("Sales tax", "0.08", False, "invoice", "all"),), "0.40", 20.0, usd("1.50"),
                       usd("30.00"), 50.0)
    return replace(rules, **changes)


def shop(**changes: Any) -> Shop:
    """The small shop; keywords replace its fields."""
    small = {"id": "small", "market": market(), "prices": price_rules(), "templates": {}}
    return replace(bare_shop(), **(small | changes))


def number(value: float, kind: str = "number") -> Formula:
    return Formula(f"{value:g}", value, kind)


def template(**changes: Any) -> Template:
    """A template with nothing in it but names."""
    empty: dict[str, Any] = dict.fromkeys(Template.__dataclass_fields__, ())
    empty |= {"id": "bench", "revision": 1, "name": "Bench", "summary": "A bench.",
              "default_timber": "western-red-cedar", "default_finish": "none", "overall": {},
              "fit": FitRule((), {}, ()), "source": "bench.toml"}
    return Template(**(empty | changes))


def member(key: str, length_mm: float, width_mm: float = 139.7, thickness_mm: float = 19.05, *,
           name: str = "", at: tuple[float, float, float] = (0.0, 0.0, 0.0), section: str = "1x6",
           timber: str = "western-red-cedar", grade: str = "Knotty", material: str = "board",
           stock_width_mm: float = 139.7, shape: Sequence[ShapeWork] = (), hand: str = "", glue_up: str = "",
           glue_up_no: int = 0, grain: str = "along", density: float = 358.4, finish: bool = True) -> Member:
    """A square blank lying along x, its width along y and its thickness along z."""
    ends = 2 * width_mm * thickness_mm
    return Member(
        key, name or key, "slat", material, "fixed", section, timber, grade, length_mm, width_mm,
        thickness_mm, stock_width_mm, Frame(at, (1, 0, 0), (0, 1, 0), (0, 0, 1)), None,
        length_mm * width_mm * thickness_mm,
        (at[0] + length_mm / 2, at[1] + width_mm / 2, at[2] + thickness_mm / 2),
        2 * length_mm * (width_mm + thickness_mm) + ends, ends, density, tuple(shape), hand, grain, finish,
        glue_up, glue_up_no)


def contact(first: str, second: str, area_mm2: float = 2500.0,
            normal: tuple[float, float, float] = (0.0, 0.0, -1.0)) -> Contact:
    return Contact(first, second, area_mm2, normal, (0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (50.0, 50.0, 0.0))


def joint(name: str, fasten: str, contacts: Sequence[Contact], fasteners: int = 0, glue: bool = False
          ) -> MadeJoint:
    rule = Joint(name, ("*",), ("*",), fasten, glue=glue)
    return MadeJoint(rule, tuple(contacts), fasteners)


def piece(members: Sequence[Member], joints: Sequence[MadeJoint] = (), *, finish: str = "none",
          glue_ups: Sequence[GlueUp] = (), choices: Mapping[str, str] | None = None, **changes: Any) -> Piece:
    """A piece of the given members, as large as the first of them."""
    box = Box((0.0, 0.0, 0.0), (members[0].length_mm, members[0].width_mm, members[0].thickness_mm))
    made = Piece(
        template(), {}, {"timber": "western-red-cedar", "finish": finish} | dict(choices or {}), {},
        tuple(members), tuple(c for j in joints for c in j.contacts), tuple(joints), tuple(glue_ups), (), (),
        (), (), box, box, (), sum(m.mass_kg for m in members), members[0].centre)
    return replace(made, **changes)


def job(**changes: Any) -> Job:
    """One bench for nobody in particular, on 25 November 2026."""
    plain = Job("Q-1", "in", date(2026, 11, 25), Customer(), Site(), (Item("bench", {}, {}),),
                delivery=Delivery())
    return replace(plain, **changes)


def cut(parts: Sequence[Part], small: Shop) -> tuple[tuple[StockLineBought, ...], tuple[CuttingGroup, ...]]:
    """Every board part from a board of its own, the shortest that does: no plan, but whole boards."""
    layouts, bought = [], []
    for part in (p for p in parts if p.material == "board"):
        board = min((line for line in small.market.boards
                     if (line.section.id, line.timber) == (part.section, part.timber)
                     and line.length_nm >= part.rough_length_nm), key=lambda line: line.length_nm)
        placed = Placed(part.mark, 0, 0, part.rough_length_nm, part.width_nm)
        step = CutStep("crosscut", part.rough_length_nm, 1, "board", (part.mark,))
        layouts += [Layout(board.code, board.length_nm, board.width_nm, (placed,), (), (step,),
                           board.price.minor)] * part.count
        bought.append(StockLineBought(board, "board", part.count, 0, False, board.length_nm,
                                      board.price.times(part.count), "one for each part"))
    cost = sum(line.amount.minor for line in bought)
    purchases = tuple(Purchase(line.stock.code, line.count, line.amount.minor) for line in bought)
    plan = CuttingPlan("bounded", cost, cost, 0, 0.5, tuple(layouts), purchases)
    return tuple(bought), (CuttingGroup("boards", "board", plan),)
