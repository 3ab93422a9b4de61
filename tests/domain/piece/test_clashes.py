"""Clashes: solids that share room, shut or with a lid on its way; and how much room the way takes."""

from __future__ import annotations

from typing import Any

import pytest

from builders import demo_shop
from small_templates import trestle
from yardwright.domain.piece import build, overlap_mm3
from yardwright.domain.piece.clashes import stations
from yardwright.domain.piece.model import Piece
from yardwright.domain.template import read_template

INCH = 25.4


def made(**changes: Any) -> Piece:
    return build(read_template(trestle(**changes)), {}, {}, demo_shop(), "in")


def member(name: str, start: list[str], end: list[str], **rest: Any) -> dict[str, Any]:
    return {"name": name, "board": "top", "from": start, "to": end, "wide": "back", "thick": "up"} | rest


LID = member("Lid board", ["0*inch", "0*inch", "0*inch"], ["40*inch", "0*inch", "0*inch"], group="lid")


def with_wall(at: str, height: str = "10*inch") -> Piece:
    """A lid of 5 1/2 in hinged along its back edge on top, and a board standing ``at`` behind the front."""
    wall = member("Wall", ["0*inch", at, "0*inch"], ["0*inch", at, height], wide="right", thick="back")
    return made(
        members=[LID, wall],
        joints=[],
        hardware=[],
        checks=[],
        groups={"lid": {"along": "length", "at": ["0*inch", "top.width", "3/4*inch"], "opens": "-120*deg"}},
    )


def test_a_sound_piece_has_none() -> None:
    assert made().clashes == ()


def test_solids_that_share_room_are_told_with_volume_and_depth() -> None:
    post = member("Post a", ["0*inch", "0*inch", "0*inch"], ["40*inch", "0*inch", "0*inch"])
    other = member("Post b", ["0*inch", "5*inch", "1/2*inch"], ["40*inch", "5*inch", "1/2*inch"])
    piece = made(members=[post, other], joints=[], groups={}, hardware=[], checks=[])
    (clash,) = piece.clashes
    assert (clash.first, clash.second, clash.opened_deg) == ("Post a", "Post b", 0.0)
    assert clash.volume_mm3 == pytest.approx(40 * 0.5 * 0.25 * INCH**3)
    assert clash.depth_mm == pytest.approx(0.25 * INCH)
    assert overlap_mm3(*piece.members) == pytest.approx(clash.volume_mm3)


def test_a_joint_may_share_as_deep_as_it_says_and_no_deeper() -> None:
    lower = member("Lower lap", ["0*inch", "0*inch", "0*inch"], ["40*inch", "0*inch", "0*inch"])
    upper = member(
        "Upper lap", ["9*inch", "-9*inch", "3/8*inch"], ["9*inch", "20*inch", "3/8*inch"], wide="right"
    )
    for depth, count in (("3/8*inch", 0), ("1/4*inch", 1)):
        joint = {
            "name": "Lap",
            "of": ["Lower lap"],
            "to": ["Upper lap"],
            "fasten": "none",
            "may_share": depth,
        }
        piece = made(members=[lower, upper], joints=[joint], groups={}, hardware=[], checks=[])
        assert len(piece.clashes) == count


def test_a_hair_of_overlap_is_rounding_not_a_clash() -> None:
    low = member("Lower", ["0*inch", "0*inch", "0*inch"], ["40*inch", "0*inch", "0*inch"])
    on_it = member(
        "Upper", ["0*inch", "0*inch", "3/4*inch - 0.04*mm"], ["40*inch", "0*inch", "3/4*inch - 0.04*mm"]
    )
    deeper = member(
        "Upper", ["0*inch", "0*inch", "3/4*inch - 0.2*mm"], ["40*inch", "0*inch", "3/4*inch - 0.2*mm"]
    )
    for upper, count in ((on_it, 0), (deeper, 1)):
        assert len(made(members=[low, upper], joints=[], groups={}, hardware=[], checks=[]).clashes) == count


def test_a_lid_that_strikes_something_on_its_way_is_told_with_the_angle() -> None:
    (clash,) = with_wall("5.6*inch", "30*inch").clashes
    assert clash.first == "Lid board" and clash.second == "Wall"
    assert -120 <= clash.opened_deg <= -95


def test_a_lid_that_clears_what_stands_behind_it_is_fine() -> None:
    assert with_wall("9*inch").clashes == ()


def test_a_lid_is_tried_every_five_degrees_and_fully_open() -> None:
    assert stations(-92.0)[-1] == -92.0
    assert all(
        abs(b - a) <= 5.0 + 1e-9 for a, b in zip([0.0, *stations(-92.0)], stations(-92.0), strict=False)
    )


def test_the_open_box_holds_the_arc_between_the_stations_too() -> None:
    piece = with_wall("9*inch", "1*inch")
    hinge = (139.7, 19.05)
    assert piece.closed.high[2] == pytest.approx(25.4)
    # The front lower edge lies (5 1/2 in, 3/4 in) from the hinge: at its highest a full radius above it.
    assert piece.opened.high[2] == pytest.approx(hinge[1] + (139.7**2 + 19.05**2) ** 0.5)
    # At 120 degrees the far edge lies sin(30) x 5 1/2 in behind the hinge, no further than the wall.
    assert piece.opened.high[1] == pytest.approx(max(piece.closed.high[1], hinge[0] + 139.7 / 2))
    assert piece.opened.low[1] == pytest.approx(hinge[0] - (139.7**2 + 19.05**2) ** 0.5)


def test_a_group_that_is_not_there_does_not_move() -> None:
    piece = build(read_template(trestle()), {}, {"lid": "no"}, demo_shop(), "in")
    assert piece.moving == {} and piece.opened == piece.closed
    assert piece.group("lid") == () and piece.hardware == ()
