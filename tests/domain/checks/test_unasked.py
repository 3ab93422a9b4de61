"""What a template forgot to ask is told, and food, glue and metal are looked at where they are."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import CEDAR, PINE, asked, box, case, piece, shop, stock, timber
from yardwright.domain.checks import corrosion, food_contact, lid, run, unasked, wet_gluing
from yardwright.domain.finding import Level
from yardwright.domain.market import Goods, Section
from yardwright.domain.measure import Writer
from yardwright.domain.money import Money
from yardwright.domain.piece.model import AskedCheck, FittedHardware, MadeJoint, Piece
from yardwright.domain.site import Site
from yardwright.domain.template.model import Joint

HINGED = ((0.0, 300.0, 400.0), (1.0, 0.0, 0.0), -90.0)
UPRIGHT = ((0.0, 300.0, 400.0), (0.0, 0.0, 1.0), -90.0)


def chest(hinge: tuple[tuple[float, float, float], tuple[float, float, float], float], *rules: str) -> Piece:
    body = box("Body", (0, 0, 0), (800, 300, 400))
    top = box("Lid", (0, 0, 400), (800, 300, 20), group="lid")
    return piece([body, top], [asked(r, ["Lid"]) for r in rules], lid=hinge)


def titles(made: Piece) -> list[str]:
    return [f.title for f in unasked.check(asked("unasked"), case(made)) if f.level is Level.NOT_CHECKED]


def test_a_lid_nobody_asked_about_is_not_checked() -> None:
    assert titles(chest(HINGED, "shelf load")) == ["Lid: not checked"]
    assert titles(chest(HINGED, "shelf load", "lid")) == []
    assert titles(chest(UPRIGHT, "shelf load")) == []


def test_a_piece_without_any_load_is_a_stop_where_people_may_sit_or_stand_on_it() -> None:
    low = piece([box("Block", (0, 0, 0), (800, 300, 400))])
    found = unasked.check(asked("unasked"), case(low))
    assert [(f.level, f.title) for f in found] == [(Level.STOP, "Strength of this piece: not checked")]
    upright = piece([box("Screen", (0, 0, 0), (800, 30, 1500), thick="y")])
    assert titles(upright) == ["Loads: not checked"]
    seat = piece([box("Block", (0, 0, 0), (800, 300, 400))], [asked("seat", height=400.0)])
    assert titles(seat) == ["Seat: its load is not checked"]


def told(made: Piece, rule: str) -> list[tuple[Level, str]]:
    return [(f.level, f.title) for f in run(made, None, Site(), shop(), Writer("in"), rule)]


def test_a_tall_piece_is_pushed_though_its_template_does_not_ask() -> None:
    tall = piece([box("Tower", (0, 0, 0), (400, 300, 900), along="z")], [asked("shelf load")])
    assert told(tall, "tip over") == [(Level.STOP, "Falls over easily")]
    leant = replace(tall, checks=(*tall.checks, asked("lean back", ["Tower"], seat_height=400.0)))
    assert told(leant, "tip over") == [(Level.STOP, "Falls over easily")], "to lean back is no push"
    low = replace(tall, checks=(asked("tip over", push_height=100.0),))
    assert told(low, "tip over") == [(Level.STOP, "Falls over easily")], "pushed at its top all the same"


def stool(*checks: AskedCheck) -> Piece:
    """A seat 300 mm deep on a foot 90 mm deep: a person's 250 lbf 105 mm outside it, 6 kg within."""
    foot = box("Foot", (0, 105, 0), (600, 90, 400), along="z", thick="y")
    seat = [box(f"Seat {n}", (0, y, 400), (600, 148, 30)) for n, y in enumerate((0, 152))]
    return piece([foot, *seat], checks)


def test_a_person_on_the_edge_tips_a_low_stool_whatever_its_template_asks() -> None:
    tips = (Level.STOP, "A person on the edge tips it")
    named = asked("seat load", ["Seat 0", "Seat 1"])
    pushed = asked("tip over", push_height=430.0)
    planter = asked("tip over", words={"kind": "planter"}, push_height=430.0)
    for checks in ([], [named], [pushed], [named, pushed], [named, planter]):
        assert tips in told(stool(*checks), "tip over"), checks


def test_seats_beyond_the_feet_are_loaded_all_on_one_side_though_nobody_asks() -> None:
    post = box("Post", (0, 500, 0), (1200, 200, 700), along="z", thick="y")
    seats = [box(f"Seat {n}", (0, y, 400), (1200, 300, 38)) for n, y in enumerate((0, 900))]
    made = piece([post, *seats], [asked("seat load", ["Seat 0", "Seat 1"])])
    assert (Level.STOP, "Tips over with all on one side") in told(made, "attached seats")
    assert told(stool(), "attached seats") == []


def test_boards_to_sit_on_that_no_load_names_are_loaded() -> None:
    """A 12 mm board over 1.1 m: 250 lbf on it is far too much."""
    ends = [box(f"End {n}", (x, 0, 0), (40, 300, 400), along="z", thick="x") for n, x in enumerate((0, 1100))]
    made = piece([*ends, box("Plank", (0, 0, 400), (1140, 300, 12))], [asked("back load", ["End 0"])])
    assert (Level.STOP, "Plank: too weak for its load") in told(made, "seat load")


def test_level_boards_that_no_load_names_are_not_checked_by_name() -> None:
    high = box("Shelf", (0, 0, 880), (900, 300, 20))
    body = box("Body", (0, 0, 0), (900, 300, 860), along="z", thick="y")
    made = piece([body, high], [asked("back load", ["Body"])])
    assert titles(made) == ["Shelf: load not checked"]
    assert titles(replace(made, checks=(asked("shelf load", ["Shelf"]),))) == []


def test_a_door_is_no_lid() -> None:
    made = chest(UPRIGHT, "lid")
    found = run(made, None, Site(), case(made).shop, Writer("in"), "lid")
    assert [f.level for f in found] == [Level.NOT_CHECKED] and "upright hinge" in found[0].detail
    assert lid.check(asked("lid"), case(chest(HINGED, "lid")))


@pytest.mark.parametrize(("kind", "finish", "level"), [
    (PINE, "none", Level.CAUTION), (CEDAR, "none", Level.OK), (CEDAR, "clear-oil", Level.NOTE)])
def test_food_does_not_lie_on_treated_wood(kind: object, finish: str, level: Level) -> None:
    """EPA: treated wood is not for counters and cutting boards; seen."""
    top = box("Top", (0, 0, 700), (1000, 400, 30), kind=kind)            # type: ignore[arg-type]
    made = piece([top], finish=finish)
    assert food_contact.check(asked("food contact", ["Top"]), case(made))[0].level is level


def test_a_wet_joint_that_is_glued_is_noticed_without_any_glue_up() -> None:
    section = Section("1x6", "in", 0, 0, 0, 0, "", "")
    strips = [box(f"Cap {n}", (0, 100 * n, 0), (900, 100, 20), kind=PINE, section="1x6") for n in range(2)]
    made = piece(strips)
    joint = MadeJoint(Joint("Mitres", ("Cap",), ("Cap",), "screws", glue=True), made.contacts, 2)
    glued = replace(made, joints=(joint,))
    wet = shop(boards=[stock(section, PINE, "Select Knotty", "wet")])
    found = wet_gluing.check(asked("wet gluing"), case(glued, at=wet))
    assert [f.level for f in found] == [Level.CAUTION] and "Mitres" in found[0].title
    assert wet_gluing.check(asked("wet gluing"), case(made, at=wet)) == ()


def goods(code: str, kind: str, material: str) -> Goods:
    return Goods(code, f"{kind} {code}", kind, 1, "each", Money(100, "USD"), {}, material)


@pytest.mark.parametrize(("sold", "level"), [
    (["stainless 304"], Level.OK), (["stainless 304", "zinc plated"], Level.CAUTION), ([""], Level.CAUTION)])
def test_every_hinge_that_may_be_bought_is_fit_for_cedar(sold: list[str], level: Level) -> None:
    """A shop that sells both may serve the piece with the plated one."""
    made = piece([box("Slat", (0, 0, 0), (900, 140, 19))],
                 hardware=[FittedHardware("Hinge", "hinge", 1, {}, {}, "")])
    listed = [goods(str(n), "hinge", m) for n, m in enumerate(sold)]
    assert corrosion.check(asked("corrosion"), case(made, at=shop(goods=listed)))[0].level is level


def test_plain_steel_rusts_outdoors_in_any_wood() -> None:
    fir = timber("fir")
    made = piece([box("Slat", (0, 0, 0), (900, 140, 19), kind=fir)],
                 hardware=[FittedHardware("Hinge", "hinge", 1, {}, {}, "")])
    at = shop(timbers=[fir], goods=[goods("1", "hinge", "bright steel")])
    assert corrosion.check(asked("corrosion"), case(made, at=at))[0].title == "Metal that will rust outdoors"


@pytest.mark.parametrize("top_mm", [0.0, 40.0])
def test_boards_of_a_seat_that_no_seat_load_names_are_not_checked(top_mm: float) -> None:
    main = box("Seat board", (0, 0, 400), (1200, 140, 38))
    wing = box("Wing seat board", (0, -600, 400 - top_mm), (140, 598, 38), along="y")
    apron = box("Apron", (0, 150, 300), (1200, 38, 138), thick="y")
    told = titles(piece([main, wing, apron], [asked("seat load", ["Seat board"])]))
    assert told == (["Wing seat board: its load is not checked"] if not top_mm else [])
    assert titles(piece([main, wing], [asked("seat load", ["Seat board", "Wing seat board"])])) == []
