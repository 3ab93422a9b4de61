"""A piece that does not go in whole: the parts it comes in, from least to most left to do on site."""

from __future__ import annotations

import itertools

import pytest

from yardwright.domain import piece
from yardwright.domain.finding import Level
from yardwright.domain.fit.access import carried
from yardwright.domain.fit.in_parts import in_parts, splits
from yardwright.domain.measure import INCH, Writer
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
    assert ways[0].left == "hang the lid again" and len(ways[0].units) == 2
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
    passing = [all(carried(u.sizes, gate(width_in)) for u in way.units) for way in splits(bench)]
    first = passing.index(True)
    assert found.detail.startswith(list(splits(bench))[first].words)
    assert str(len(list(splits(bench))[first].units)) in found.detail
    assert "not in the price" in found.detail


def test_every_narrow_place_counts(bench: Piece) -> None:
    alone = [in_parts(bench, (place,), WRITER)[0].detail for place in (gate(17), gate(9))]
    for both in itertools.permutations((gate(17), gate(9))):
        assert in_parts(bench, both, WRITER)[0].detail == alone[1]


def test_a_board_that_does_not_pass_is_a_stop(bench: Piece) -> None:
    (found,) = in_parts(bench, (gate(4, 40),), WRITER)
    assert (found.level, found.title) == (Level.STOP, "It cannot be brought in, even in parts")
    assert found.limit == "4 in wide, 40 in high"
    assert found.mend == "Find another way in, or choose a smaller piece."
