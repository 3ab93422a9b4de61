"""What it stands on, wood against soil, wood outdoors, drops that nobody measured."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import CEDAR, PINE, asked, box, case, piece, shop, timber
from yardwright.domain.checks import drop_behind, ground_contact, growing_food
from yardwright.domain.checks.surface import kind_of
from yardwright.domain.finding import Level
from yardwright.domain.market import RollStock
from yardwright.domain.money import Money
from yardwright.domain.piece.model import Piece
from yardwright.domain.shop import Shop
from yardwright.domain.site import Ground, Site

LEG = box("Leg", (0, 0, 0), (40, 40, 400), along="z")
UC3B = timber("hem-fir", treated="UC3B", durability="treated, UC3B")


def on(surface: str, kind: str = "open", allowed: float | None = None,
       drop_nm: int | None = None) -> Site:
    return Site(kind=kind, ground=Ground(surface, allowed_load_kn_m2=allowed, drop_behind_nm=drop_nm))


@pytest.mark.parametrize(("said", "kind"), [
    ("Balcony", "raised"), ("roof garden on gravel", "raised"), ("wooden decking", "raised"),
    ("Bark mulch", "soft"), ("the lawn", "soft"), ("crushed stone", "soft"), ("Paving", "hard"),
    ("bluestone flags", "hard"), ("ice", "unknown"), (" ", "")])
def test_what_people_write_is_sorted_by_its_words(said: str, kind: str) -> None:
    assert kind_of(said) == kind


@pytest.mark.parametrize(("said", "level"), [("Soil", Level.CAUTION), ("bark", Level.CAUTION),
                                             ("ice rink", Level.NOT_CHECKED), ("paving", Level.NOTE)])
def test_feet_of_uc3b_are_judged_whatever_the_spelling(said: str, level: Level) -> None:
    leg = replace(LEG, timber=UC3B.id)
    found = ground_contact.check(asked("ground contact"), case(piece([leg]), on(said), shop(timbers=[UC3B])))
    assert found[0].level is level


def planter(kind: str, lining: str = "") -> Piece:
    side = box("Side", (0, 0, 20), (1000, 25, 400), thick="y")
    post = box("Post", (0, 25, 0), (40, 40, 420), along="z")
    made = [replace(side, timber=kind), replace(post, timber=kind)]
    if lining:
        made.append(replace(box("Lining", (0, 30, 20), (1000, 1, 400), thick="y"), material="roll",
                            section=lining))
    return piece(made, [asked("soil sides", ["Side"], soil_top=400.0)])


def lined_shop() -> Shop:
    made = shop(timbers=[CEDAR, PINE, UC3B])
    rolls = tuple(RollStock(code, code, code, 1, 1, 1, Money(1, "USD"), 1.0) for code in ("liner", "fabric"))
    return replace(made, market=replace(made.market, rolls=rolls))


@pytest.mark.parametrize(("kind", "lining", "level"), [
    (UC3B.id, "", Level.CAUTION), (UC3B.id, "fabric", Level.CAUTION), (UC3B.id, "liner", Level.NOTE),
    (PINE.id, "", None), (CEDAR.id, "", None)])
def test_boards_against_wet_soil_are_as_in_the_ground(kind: str, lining: str, level: Level | None) -> None:
    found = ground_contact.check(asked("ground contact"), case(planter(kind, lining), at=lined_shop()))
    told = [f.level for f in found if "soil" in f.title]
    assert told == ([level] if level else [])


def test_only_a_liner_keeps_soil_off_treated_boards() -> None:
    told = {lining: growing_food.check(asked("growing food"), case(planter(PINE.id, lining),
                                                                   at=lined_shop()))[0].detail
            for lining in ("liner", "fabric")}
    assert "liner keeps" in told["liner"] and "liner keeps" not in told["fabric"]


@pytest.mark.parametrize(("durability", "treated", "level"), [
    ("non-resistant", "", Level.CAUTION), ("slightly durable, class 4", "", Level.CAUTION),
    ("", "", Level.NOT_CHECKED), ("moderately to slightly durable", "", None), ("durable, class 2", "", None),
    ("non-resistant", "UC3B", None)])
def test_wood_that_rots_outdoors_is_named_on_any_ground(durability: str, treated: str,
                                                        level: Level | None) -> None:
    wood = timber("wood", treated=treated, durability=durability)
    leg = replace(LEG, timber="wood")
    found = ground_contact.check(asked("ground contact"), case(piece([leg]), on("paving"), shop([wood])))
    assert [f.level for f in found if f.level is not Level.NOTE] == ([level] if level else [])


@pytest.mark.parametrize(("site", "levels"), [
    (on("Deck"), [Level.NOT_CHECKED]), (on("balcony"), [Level.NOT_CHECKED]),
    (on("deck", "against a wall"), []), (on("paving"), []),
    (on("Deck", drop_nm=0), []), (on("deck", drop_nm=800_000_000), [Level.STOP])])
def test_a_seat_free_on_a_deck_asks_how_far_it_drops(site: Site, levels: list[Level]) -> None:
    found = drop_behind.check(asked("drop behind"), case(piece([LEG]), site))
    assert [f.level for f in found] == levels
