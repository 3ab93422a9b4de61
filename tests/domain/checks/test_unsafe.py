"""Deliberately unsafe pieces: each is stopped, cautioned or told as not checked, none passes as fine."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from handmade import CEDAR, PINE, asked, box, piece, shop, stock, timber
from yardwright.domain.checks import run
from yardwright.domain.finding import Level
from yardwright.domain.market import Goods, Section
from yardwright.domain.measure import Writer
from yardwright.domain.money import Money
from yardwright.domain.piece.model import FittedHardware, MadeJoint, Piece
from yardwright.domain.shop import Shop
from yardwright.domain.site import Ground, Site
from yardwright.domain.template.model import Joint

Case = tuple[Piece, Site, Shop]
HEM_FIR = timber("hem-fir", treated="UC3B", durability="treated, UC3B", density_kg_m3=450.0,
                 specific_gravity=0.43, rupture_mpa=70.0, elasticity_mpa=10000.0,
                 tangential_movement=0.0025, tangential_shrinkage_pct=7.0)


def bench(span: float = 500.0, thick: float = 38.0, site: Site = Site(), at: Shop | None = None) -> Case:  # noqa: B008
    legs = [box(f"Leg {n}", (x, 0, 0), (40, 400, 400), along="z", thick="x") for n, x in enumerate((0, span))]
    seat = [box(f"Seat {n}", (0, y, 400), (span + 40, 130, thick)) for n, y in enumerate((0, 135, 270))]
    made = piece([*legs, *seat], [asked("seat", height=438.0), asked("seat load", [s.key for s in seat])],
                 screwed=[("Seat", "Leg")])
    return made, site, at or shop()


def block(high: float, deep: float, *rules: str, kind: str = "", **values: object) -> Piece:
    body = box("Body", (0, 0, 0), (600, deep, high), along="z", thick="y")
    words = {"kind": kind} if kind else None
    checks = [asked(r, ["Body"], words if r == "tip over" else None, **values) for r in rules]
    return piece([replace(body, density_kg_m3=60.0)], checks)


def glued_wet() -> Case:
    section = Section("1x6", "in", 0, 0, 0, 0, "", "")
    strips = [box(f"Cap {n}", (0, 100 * n, 0), (900, 100, 20), kind=PINE, section="1x6") for n in range(2)]
    made = piece(strips, [asked("shelf load", ["Cap 0"])])
    joint = MadeJoint(Joint("Mitre", ("Cap",), ("Cap",), "none", glue=True), made.contacts, 0)
    return replace(made, joints=(joint,)), Site(), shop(boards=[stock(section, PINE, "Select Knotty", "wet")])


def plain_steel() -> Case:
    made, site, _ = bench()
    hinged = replace(made, hardware=(FittedHardware("Strap", "strap hinge", 1, {}, {}, ""),))
    goods = Goods("H", "Strap hinge", "strap hinge", 1, "each", Money(1, "USD"), {}, "bright steel")
    return hinged, site, shop(goods=[goods])


def planter(surface: str, allowed: float | None = None) -> Case:
    made = block(500.0, 400.0, "soil weight", soil_volume=1e8)
    return made, Site(ground=Ground(surface, allowed_load_kn_m2=allowed)), shop()


def against_soil() -> Case:
    side = replace(box("Side", (0, 0, 0), (900, 30, 300), thick="y"), timber=HEM_FIR.id)
    made = piece([side], [asked("soil sides", ["Side"], soil_top=300.0)])
    return made, Site(), shop(timbers=[CEDAR, HEM_FIR])


def stool() -> Case:
    top = replace(box("Top", (0, 0, 600), (600, 600, 40)), density_kg_m3=700.0)
    legs = [box(f"Leg {n}", (x, y, 0), (30, 30, 600), along="z", thick="x")
            for n, (x, y) in enumerate(((0, 0), (570, 0), (285, 570)))]
    return piece([top, *legs], [asked("tip over", push_height=640.0)]), Site(), shop()


UNSAFE: dict[str, tuple[Callable[[], Case], str, set[Level]]] = {
    "a 3/4 in board over 4 ft": (lambda: bench(1200.0, 19.0), "seat load", {Level.STOP}),
    "a bench whose boards alone hold its legs": (bench, "racking", {Level.STOP, Level.CAUTION}),
    "a seat before a 3 ft drop": (
        lambda: bench(site=Site(ground=Ground("deck", drop_behind_nm=914_400_000))), "drop behind",
        {Level.STOP}),
    "a seat free on a roof, drop not said": (
        lambda: bench(site=Site("open", ground=Ground("Roof terrace"))), "drop behind", {Level.NOT_CHECKED}),
    "a tall narrow empty planter": (
        lambda: (block(760.0, 250.0, "tip over", kind="planter", push_height=760.0), Site(), shop()),
        "tip over", {Level.STOP}),
    "a tall narrow cupboard that nobody asked to push": (
        lambda: (block(1000.0, 250.0, "shelf load"), Site(), shop()), "tip over", {Level.STOP}),
    "the same and a climbing child": (
        lambda: (block(1000.0, 250.0, "shelf load"), Site(), shop()), "climbing", {Level.STOP}),
    "a screen in the open": (
        lambda: (block(1800.0, 60.0, "shelf load"), Site(exposure="open"), shop()), "wind", {Level.STOP}),
    "a screen nobody knows the wind of": (
        lambda: (block(1800.0, 60.0, "shelf load"), Site(), shop()), "wind", {Level.NOT_CHECKED}),
    "wet soil on a balcony of 1 kN/m2": (lambda: planter("Balcony", 1.0), "allowed load", {Level.STOP}),
    "wet soil on a balcony": (lambda: planter("my balcony"), "allowed load", {Level.NOT_CHECKED}),
    "above-ground timber against soil": (against_soil, "ground contact", {Level.CAUTION}),
    "wet stock glued": (glued_wet, "wet gluing", {Level.CAUTION}),
    "plain steel on cedar": (plain_steel, "corrosion", {Level.CAUTION}),
    "a light stool on three legs": (stool, "tip over", {Level.STOP, Level.CAUTION}),
    "an opening that holds a child's head": (
        lambda: (block(500.0, 400.0, "entrapment", opening=150.0, users="child"), Site(), shop()),
        "entrapment", {Level.STOP}),
    "a shut box for a child": (
        lambda: (block(500.0, 400.0, "chest", inside_volume=6e7, vent_area=100.0), Site(), shop()),
        "chest", {Level.STOP}),
    "a load that nobody asked for": (lambda: (block(300.0, 400.0), Site(), shop()), "unasked",
                                     {Level.NOT_CHECKED}),
}


@pytest.mark.parametrize("name", UNSAFE)
def test_an_unsafe_piece_never_passes_as_fine(name: str) -> None:
    make, rule, levels = UNSAFE[name]
    made, site, at = make()
    found = {f.level for f in run(made, None, site, at, Writer("in")) if f.rule == rule}
    assert found & levels, found
