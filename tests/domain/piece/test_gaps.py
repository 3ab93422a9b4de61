"""Gaps are held to the bounds that a template gives them, in formulas anywhere and on the boards as placed.

The figures are worked by hand on a deck of 1x6 boards (5 1/2 in) over 40 in.
"""

from __future__ import annotations

from typing import Any

import pytest

from builders import demo_shop
from yardwright.domain.piece import build, faults_of
from yardwright.domain.template import read_template

GIVEN = "spread(depth, slat.width, 1/4*inch, 1/2*inch)"     # 7 boards leave 6 gaps of 1/4 in in 40 in


def deck(rows: str = GIVEN, at: str = "row*(rows.width + rows.gap)", count: str = "rows.count",
         width: str = "rows.width", **more: Any) -> dict[str, Any]:
    """Boards in rows on two bearers."""
    size = {"label": "Size", "default": "40 in", "min": "20 in", "max": "60 in", "step": "1 in"}
    return {
        "id": "deck", "name": "Deck", "timbers": ["western-red-cedar"], "finishes": ["none"],
        "dimensions": {"length": size, "depth": size},
        "choices": {"boards": {"label": "Boards", "options": [{"id": "close", "label": "Close"},
                                                              {"id": "open", "label": "Open"}]}},
        "boards": {"slat": {"sections": ["1x6"]}, "bearer": {"sections": ["2x4"]}},
        "values": {"rows": rows, **more},
        "overall": {"length": "length", "depth": "depth", "height": "bearer.width + slat.thickness"},
        "fit": {"envelope": {"length": "length", "depth": "depth", "height": "5*inch"}},
        "members": [
            {"name": "Bearer", "board": "bearer", "from": ["4*inch", "0*inch", "0*inch"],
             "to": ["4*inch", "depth", "0*inch"], "wide": "up", "thick": "right",
             "mirror": [{"across": "length", "at": "length/2"}]},
            {"name": "Slat", "board": "slat", "width": width, "repeat": [{"index": "row", "count": count}],
             "from": ["0*inch", at, "bearer.width"], "to": ["length", at, "bearer.width"],
             "wide": "back", "thick": "up"}],
        "joints": [{"name": "Slats", "of": ["Slat"], "to": ["Bearer"], "fasten": "glue"}],
    }


def told(data: dict[str, Any], boards: str = "close") -> list[str]:
    piece = build(read_template(data), {}, {"boards": boards}, demo_shop(), "in")
    return [f"{fault.pointer} {fault.detail}" for fault in faults_of(piece, demo_shop())
            if "gap" in fault.detail or "spread" in fault.detail]


def test_a_deck_as_it_should_be_has_nothing_to_tell() -> None:
    assert told(deck()) == []


WIDE = "spread(39*inch, slat.width, 1/4*inch, 0.26*inch, 3*inch)"       # ripped to 7 of 3 in, far apart


@pytest.mark.parametrize(("data", "where"), [
    (deck(rows=WIDE), "/values/rows"),
    (deck(rows=f"choose(boards == 'close', {WIDE}, {GIVEN})"), "/values/rows"),
    (deck(turn=f"{WIDE}.count*1*deg"), "/values/turn"),
    (deck(count=f"floor({WIDE}.count/7)*7"), "/members/1/repeat/0/count"),
    (deck(at=f"row*(rows.width + {WIDE}.gap)"), "/members/1/from/1"),
], ids=["alone", "in a condition", "in a larger value", "in a count", "in a place"])
def test_a_spread_is_held_to_its_bounds_wherever_it_stands(data: dict[str, Any], where: str) -> None:
    """6 boards leave 1.2 in, so 7 are ripped: (39 - 7*3)/6 = 3 in between them, 0.26 in at most."""
    said = f"{where} the gaps come out 3 in, outside 1/4 in to 17/64 in"
    assert any(one.startswith(said) for one in told(data)), told(data)


def test_a_spread_in_a_branch_that_is_not_taken_is_not_judged() -> None:
    data = deck(rows=f"choose(boards == 'open', {WIDE}, {GIVEN})")
    assert told(data, "close") == [] and told(data, "open")
    data = deck()
    lath = {"name": "Lath", "when": "boards == 'open'", "from": ["0*inch", "lath*inch", "40*inch"],
            "to": ["length", "lath*inch", "40*inch"],
            "repeat": [{"index": "lath", "count": f"{WIDE}.count - 6"}]}
    data["members"].append({**data["members"][1], **lath})
    assert told(data, "close") == []
    assert any(one.startswith("/members/2/repeat/0/count") for one in told(data, "open"))


@pytest.mark.parametrize(("at", "said"), [
    ("row*(rows.width + rows.gap + 1/2*inch)", "Slat 1 and Slat 2 leave a gap of 3/4 in, where the spread"),
    ("row*rows.width", "Slat 1 and Slat 2 leave no gap, where the spread"),
    ("choose(row == 3, 1*inch, 0*inch) + row*(rows.width + rows.gap)",
     "Slat 3 and Slat 4 leave a gap of 1 1/4 in, where the spread"),
], ids=["half an inch too far", "gap forgotten", "one board moved"])
def test_boards_that_a_spread_counts_keep_its_bounds_as_they_are_placed(at: str, said: str) -> None:
    """By hand: 1/4 in and 1/2 in more; nothing; 1/4 in and 1 in more (and a clash on its other side)."""
    found = told(deck(at=at))
    assert any(one.startswith("/members/1 ") and said in one for one in found), found


def test_a_count_is_followed_through_named_values_and_one_less_than_counted_too() -> None:
    far = "row*(rows.width + rows.gap + 1*inch)"
    assert told(deck(at=far, count="many", many="rows.count - 1"))


def test_what_is_counted_by_a_spread_but_no_board_of_it_is_not_measured() -> None:
    """A cleat under every board is not as wide as the board; boards one behind the other have no edges."""
    assert told(deck(width="2*inch")) == []
    data = deck()
    data["members"][1] |= {"from": ["row*2*inch", "0*inch", "bearer.width"],
                           "to": ["length + row*2*inch", "0*inch", "bearer.width"]}
    assert told(data) == []


def test_rows_of_several_bays_are_measured_within_each_bay() -> None:
    data = deck(at="bay*100*inch + row*(rows.width + rows.gap)")
    data["members"][1]["repeat"].insert(0, {"index": "bay", "count": "2"})
    assert told(data) == []
    data = deck(at="bay*100*inch + row*(rows.width + rows.gap + 1*inch)")
    data["members"][1]["repeat"].insert(0, {"index": "bay", "count": "2"})
    assert len(told(data)) == 1


def test_gaps_that_take_more_work_than_a_piece_may_ask_for_are_told_not_passed_over() -> None:
    """Six spreads in the places of each of two hundred boards."""
    many = " + ".join(["spread(depth, slat.width, 1/4*inch, 1/2*inch).gap"] * 6)
    data = deck(at=f"row*300*mm + 0*({many})", count="200", width="5*inch")
    assert any("more work to look at than one piece may ask for" in fault.detail for fault in faults_of(
        build(read_template(data), {}, {}, demo_shop(), "in"), demo_shop()))
