"""A piece that does not go in whole: the parts it comes in, from least to most left to do on site."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest

from yardwright.domain import piece
from yardwright.domain.finding import Level
from yardwright.domain.fit.access import carried
from yardwright.domain.fit.carrying import in_parts
from yardwright.domain.fit.in_parts import brought, splits
from yardwright.domain.measure import INCH, MM, Writer
from yardwright.domain.piece.model import Piece
from yardwright.domain.shop import Shop
from yardwright.domain.site import Access
from yardwright.domain.template import sizes

WRITER = Writer("in")


@pytest.fixture(scope="module")
def bench(demo_shop: Shop) -> Piece:
    """The storage bench at its default sizes: 44 x 25 x 34 in with a lid."""
    template = demo_shop.templates["storage-bench"]
    asked = sizes(template, {}, {"timber": "western-red-cedar", "finish": "none"}, "in")
    return piece.build(template, *asked, demo_shop, "in")


def gate(width_in: float, height_in: float = 80) -> Access:
    return Access("gate", round(width_in * INCH), round(height_in * INCH))


def test_where_the_whole_piece_passes_nothing_is_taken_apart(bench: Piece) -> None:
    assert in_parts(bench, (gate(36),), WRITER) == ()
    assert in_parts(bench, (), WRITER) == ()


def test_the_lid_comes_off_first_then_the_steps_are_left_to_the_site_one_by_one(bench: Piece) -> None:
    ways = list(splits(bench))
    assert ways[0].left == ("hang the lid again",) and len(ways[0].units) == 2
    assert ways[-1].words == "In boards and glued blanks"
    counts = [len(way.units) for way in ways]
    assert counts == sorted(counts)
    boards = sum(1 for m in bench.members if m.material != "roll" and not m.glue_up)
    blanks = len({(m.glue_up, m.glue_up_no) for m in bench.members if m.glue_up})
    assert counts[-1] == boards + blanks


def test_taking_more_apart_never_makes_the_biggest_part_bigger(bench: Piece) -> None:
    bulk = [max(sorted(u.sizes)[1] * sorted(u.sizes)[2] for u in way.units) for way in splits(bench)]
    assert bulk == sorted(bulk, reverse=True)


@pytest.mark.parametrize("width_in", [22, 17, 12, 9])
def test_the_parts_named_do_pass_and_less_taken_apart_would_not(bench: Piece, width_in: float) -> None:
    (found,) = in_parts(bench, (gate(width_in),), WRITER)
    assert (found.rule, found.level, found.title) == ("way in", Level.NOTE, "It goes in in parts")
    boxed = [all(carried(u.sizes, gate(width_in)) for u in way.units) for way in splits(bench)].index(True)
    chosen = brought(bench, (gate(width_in),)).split
    ways = [way.left for way in splits(bench)]
    assert chosen is not None and ways.index(chosen.left) <= boxed, "at a tilt more may go in than as boxes"
    assert found.detail.startswith(f"{chosen.words}, {len(chosen.units)} part")
    assert "The time for it is in the price where delivery" in found.detail


def test_every_narrow_place_counts(bench: Piece) -> None:
    alone = [in_parts(bench, (place,), WRITER)[0].detail for place in (gate(17), gate(9))]
    for both in itertools.permutations((gate(17), gate(9))):
        assert in_parts(bench, both, WRITER)[0].detail == alone[1]


def test_a_board_that_does_not_pass_is_a_stop(bench: Piece) -> None:
    (found,) = in_parts(bench, (gate(4, 40),), WRITER)
    assert (found.level, found.title) == (Level.STOP, "It cannot be brought in, even in parts")
    assert found.limit == "4 in wide, 40 in high"
    assert found.mend == "Find another way in, or choose a smaller piece."


def test_a_thin_board_that_only_goes_tilted_under_an_unmeasured_height_is_not_checked(
        demo_shop: Shop) -> None:
    """A rod goes round two 811-mm ways to (2 x 811^(2/3))^(3/2) = 2294 mm at most (calculus); it is 2405."""
    planter = built(demo_shop, "planter-box", length=2430 / 25.4, depth=360 / 25.4, height=290 / 25.4)
    turn = Access("turn", 811 * MM, None)
    (found,) = in_parts(planter, (turn,), WRITER)
    assert (found.level, found.title) == (Level.NOT_CHECKED, "Whether its boards go in: not checked")
    assert "Measure the height" in found.mend
    (low,) = in_parts(planter, (replace(turn, height_nm=600 * MM),), WRITER)
    assert low.level is Level.STOP, "no room to tilt it"
    assert in_parts(planter, (replace(turn, height_nm=2600 * MM),), WRITER) == (), "all of it goes on end"


def test_a_board_too_wide_or_thick_to_be_tilted_by_hand_stays_a_stop(demo_shop: Shop) -> None:
    planter = built(demo_shop, "planter-box", length=2430 / 25.4, depth=360 / 25.4, height=290 / 25.4)
    heavy = replace(planter, members=tuple(replace(m, thickness_mm=60.0) for m in planter.members))
    (found,) = in_parts(heavy, (Access("turn", 811 * MM, None),), WRITER)
    assert found.level is Level.STOP


def built(shop: Shop, name: str, **sizes_in: float) -> Piece:
    template = shop.templates[name]
    asked = sizes(template, {k: round(v * INCH) for k, v in sizes_in.items()},
                  {"timber": template.default_timber, "finish": "none"}, "in")
    return piece.build(template, *asked, shop, "in")


def test_a_corner_bench_goes_through_a_gate_of_900_mm_as_main_box_and_wing(demo_shop: Shop) -> None:
    bench = built(demo_shop, "corner-bench")
    place = Access("gate", 900 * 1_000_000, 2000 * 1_000_000)
    chosen = brought(bench, (place,)).split
    assert chosen is not None and chosen.planned
    assert [u.name for u in chosen.units if not u.loose] == ["the main box", "the wing"]
    assert {u.name for u in chosen.units if u.loose} == {"Seat board", "Wing back board"}
    assert chosen.left[0].startswith("Carry both boxes in")
    assert 0 < chosen.fasteners["screws"] < 0.2 * sum(j.fasteners for j in bench.joints)


def test_a_corner_bench_that_goes_in_whole_is_joined_in_the_shop(demo_shop: Shop) -> None:
    bench = built(demo_shop, "corner-bench")
    assert brought(bench, (Access("gate", 1200 * 1_000_000, 2000 * 1_000_000),)).split is None
    assert brought(bench, ()).split is not None, "nobody measured the way in: what the template says holds"


@pytest.mark.parametrize(("name", "parts"), [
    ("picnic-table", {"the top": 1, "the frame": 2, "the seat": 2}),
    ("lounge-chair", {"the frame": 1, "the back": 1}),
    ("planter-box", {"the long side": 2, "the end": 2}),
    ("storage-bench", {"the rear frame": 1, "the front": 1, "the back": 1, "the lid": 1}),
    ("corner-bench", {"the main box": 1, "the wing": 1}),
])
def test_every_template_comes_apart_into_what_a_maker_would_carry(demo_shop: Shop, name: str,
                                                                  parts: dict[str, int]) -> None:
    made = built(demo_shop, name)
    ways = [sorted(u.name for u in way.units if not u.loose) for way in splits(made)]
    assert sorted(n for n, count in parts.items() for _ in range(count)) in ways


def test_a_joint_left_for_the_site_holds_nothing_before_it(demo_shop: Shop) -> None:
    bench = built(demo_shop, "corner-bench")
    whole = sum(j.fasteners for j in bench.joints)
    for way in splits(bench):
        assert 0 < sum(way.fasteners.values()) <= whole
        keys = [m.key for u in way.units for m in u.members]
        assert sorted(keys) == sorted(m.key for m in bench.members if m.material != "roll")
