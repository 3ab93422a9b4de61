"""What can be changed of an item: one thing at a time, within its range, never who uses it."""

from __future__ import annotations

from dataclasses import replace

from builders import INCH, demo_shop
from planted import plank_bench, shop_with
from yardwright.domain import piece
from yardwright.domain.job import Item
from yardwright.domain.piece.model import Piece
from yardwright.quoting import changes
from yardwright.quoting.changes import Change
from yardwright.quoting.search import halved


def bench() -> Piece:
    shop = demo_shop()
    return piece.build(shop.templates["storage-bench"], {}, {}, shop, "in")


def test_options_change_one_choice_and_neither_the_user_nor_the_finish() -> None:
    made = bench()
    item = Item("storage-bench", {}, {})
    offered = changes.options(made, demo_shop())
    for change in offered:
        asked = change.of(item, made)
        assert {k for k, v in asked.choices.items() if made.choices.get(k) != v} == set(change.names)
        assert dict(asked.dimensions) == dict(made.dimensions_nm)
    names = {name for change in offered for name in change.names}
    assert names == {"back", "edges", "fixing", "supports", "panel_section", "seat_section", "slat_section",
                     "timber"}
    assert [c.distance for c in offered] == sorted(c.distance for c in offered)


def test_how_it_is_made_is_changed_before_its_looks_and_these_before_its_timber() -> None:
    by_name = {next(iter(c.names)): c.distance for c in changes.options(bench(), demo_shop())}
    assert by_name["fixing"] == by_name["panel_section"] < by_name["back"] < by_name["timber"]


def test_the_timber_nearest_in_price_is_the_nearest() -> None:
    market = demo_shop().market
    near, far = (changes._timber_distance("western-red-cedar", t, market) for t in ("redwood", "robinia"))
    assert changes.TIMBER_DISTANCE <= near < far <= changes.TIMBER_DISTANCE + changes.DEARER


def test_sizes_stay_in_range_and_those_that_say_nothing_are_left_alone() -> None:
    made = bench()
    for way in changes.ways(made, "in"):
        for steps in (1, way.most_steps, way.most_steps + 3):
            (name, size), = way.change(steps).dimensions
            assert way.dimension.least_nm <= size <= way.dimension.most_nm
            assert size != made.dimensions_nm[name]
    low = replace(made, choices={**made.choices, "back": "none"})
    assert "back_height" in {w.dimension.name for w in changes.ways(made, "in")}
    assert "back_height" not in {w.dimension.name for w in changes.ways(low, "in")}


def test_steps_within_a_distance_are_all_nearer_than_it() -> None:
    for way in changes.ways(bench(), "in"):
        for within in (0.001, 0.03, 0.1, 5.0):
            steps = way.steps_within(within)
            assert steps == 0 or way.change(steps).distance < within
            assert steps == way.most_steps or way.change(steps + 1).distance >= within
        assert way.steps_within(float("inf")) == way.most_steps


def test_the_least_number_of_steps_is_found_by_halving() -> None:
    way = next(w for w in changes.ways(bench(), "in") if w.dimension.name == "length" and w.step_nm > 0)
    tried: list[Change] = []

    def from_50_in(change: Change) -> bool:
        tried.append(change)
        return change.dimensions[0][1] >= 50 * INCH

    least = halved(changes.NOTHING, way, from_50_in, 0, way.most_steps)
    assert way.change(least).dimensions == (("length", 50 * INCH),) and len(tried) <= 7


def test_a_heavier_section_is_a_choice_where_the_shop_sells_it() -> None:
    shop = shop_with(plank_bench("14 in", "48 in", "48 in", heavier=("2x6", "45x145")))
    template = shop.templates["plank-bench"]
    (choice,) = (c for c in piece.offered(template, shop) if c.name == "seat_section")
    assert [word for word, _ in choice.options] == ["usual", "2x6"] and choice.about == "make"
    thin = piece.build(template, {}, {}, shop, "in")
    thick = piece.build(template, {}, {"seat_section": "2x6"}, shop, "in")
    assert (thin.member("Seat board 1").section, thick.member("Seat board 1").section) == ("5/4x6", "2x6")
    assert "seat_section" not in thin.choices


def test_the_end_a_wing_is_at_is_offered_first_and_marked_as_of_the_place() -> None:
    made = piece.build(demo_shop().templates["corner-bench"], {}, {}, demo_shop(), "in")
    first, *others = changes.options(made, demo_shop())
    assert first.choices == (("side", "left"),) and first.of_place
    assert not any(other.of_place for other in others)
