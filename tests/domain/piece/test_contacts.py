"""Contacts: where two members lie face on face, with the patch they share."""

from __future__ import annotations

from math import cos, radians, sin
from typing import Any

import pytest

from builders import demo_shop
from small_templates import trestle
from yardwright.domain.piece import build
from yardwright.domain.piece.joints import components, loose, untouched
from yardwright.domain.piece.model import Contact, Piece
from yardwright.domain.template import read_template


def stacked(at: list[str], wide: str = "back", **rest: Any) -> Piece:
    lower = {
        "name": "Lower",
        "board": "top",
        "from": ["0*inch", "0*inch", "0*inch"],
        "to": ["40*inch", "0*inch", "0*inch"],
        "wide": "back",
        "thick": "up",
    }
    upper = {"name": "Upper", "board": "top", "from": at, "to": rest.pop("to"), "wide": wide, "thick": "up"}
    data = trestle(members=[lower, upper | rest], joints=[], groups={}, hardware=[], checks=[])
    return build(read_template(data), {}, {}, demo_shop(), "in")


def only(piece: Piece) -> Contact:
    assert len(piece.contacts) == 1
    return piece.contacts[0]


def test_a_board_across_another_touches_it_over_their_crossing() -> None:
    c = only(stacked(["10*inch", "-5*inch", "3/4*inch"], "right", to=["10*inch", "20*inch", "3/4*inch"]))
    assert c.area_mm2 == pytest.approx(139.7**2)
    assert c.normal == pytest.approx((0, 0, 1))
    assert c.centre == pytest.approx((10 * 25.4 + 69.85, 69.85, 19.05))
    assert (c.low, c.high) == (pytest.approx((254, 0, 19.05)), pytest.approx((393.7, 139.7, 19.05)))


def test_a_board_askew_touches_over_the_exact_parallelogram() -> None:
    c = only(
        stacked(
            ["5*inch", "-20*inch", "3/4*inch"],
            "right",
            to=["5*inch + 60*tan(30*deg)*inch", "40*inch", "3/4*inch"],
        )
    )
    assert c.area_mm2 == pytest.approx(139.7 * 139.7 / cos(radians(30)), rel=1e-9)
    assert c.high[0] - c.low[0] == pytest.approx(
        139.7 * sin(radians(30)) / cos(radians(30)) + 139.7 / cos(radians(30))
    )


@pytest.mark.parametrize(("gap_mm", "touches"), [("0*mm", True), ("0.04*mm", True), ("0.06*mm", False)])
def test_faces_within_a_twentieth_of_a_millimetre_touch(gap_mm: str, touches: bool) -> None:
    piece = stacked(
        ["0*inch", "0*inch", f"3/4*inch + {gap_mm}"], to=["40*inch", "0*inch", f"3/4*inch + {gap_mm}"]
    )
    assert bool(piece.contacts) is touches


def test_edges_and_corners_are_no_contact() -> None:
    assert stacked(["0*inch", "5.5*inch", "3/4*inch"], to=["40*inch", "5.5*inch", "3/4*inch"]).contacts == ()


def test_a_board_on_a_hole_touches_around_it() -> None:
    hole = {"kind": "hole", "at": ["5*inch", "2*inch"], "diameter": "2*inch"}
    c = only(stacked(["0*inch", "0*inch", "3/4*inch"], to=["40*inch", "0*inch", "3/4*inch"], cuts=[hole]))
    assert c.area_mm2 == pytest.approx(1016 * 139.7 - 3.14159265 * 25.4**2, rel=2e-4)


def test_fasteners_are_counted_by_contact_or_by_spacing_along_it() -> None:
    data = trestle()
    data["joints"] = [
        data["joints"][0],
        {"name": "Lid rests", "of": ["Lid*"], "to": ["Beam"], "fasten": "nails", "spacing": "6*inch"},
    ]
    piece = build(read_template(data), {}, {}, demo_shop(), "in")
    by_name = {j.rule.name: j for j in piece.joints}
    assert (len(by_name["Beam to posts"].contacts), by_name["Beam to posts"].fasteners) == (2, 6)
    # 33 in of beam under the lid: ceil(33 / 6) + 1
    assert by_name["Lid rests"].fasteners == 7


def test_a_joint_whose_members_do_not_meet_is_told() -> None:
    data = trestle()
    data["members"][1]["to"] = ["length - post.width - 1*inch", "0*inch", "under - post.width"]
    data["members"][1]["ends"] = ["square", "square"]
    data["joints"].append({"name": "Lid on posts", "of": ["Post"], "to": ["Beam"], "fasten": "none"})
    piece = build(read_template(data), {}, {}, demo_shop(), "in")
    assert untouched(piece.joints, piece.members) == ("Lid on posts: Post 2 touches none of Beam",)
    assert piece.notes == ("Lid on posts: Post 2 touches none of Beam",)
    assert loose(piece.members, piece.joints) == (("Post 2",),)


def test_strips_that_touch_make_one_blank() -> None:
    assert components(["a", "b", "c", "d"], [("a", "c"), ("c", "x"), ("d", "d")]) == [
        ["a", "c"],
        ["b"],
        ["d"],
    ]


def test_glue_ups_are_numbered_by_what_touches() -> None:
    strips = [
        {
            "name": name,
            "board": "top",
            "width": "2*inch",
            "from": ["0*inch", y, "0*inch"],
            "to": ["20*inch", y, "0*inch"],
            "wide": "back",
            "thick": "up",
            "mirror": [{"across": "depth", "at": "20*inch"}],
        }
        for name, y in (("Inner strip", "0*inch"), ("Outer strip", "2*inch"))
    ]
    data = trestle(
        members=strips,
        joints=[],
        groups={},
        hardware=[],
        checks=[],
        glue_ups=[{"name": "Leaf", "kind": "edge", "members": ["*strip", "Inner strip", "Outer strip"]}],
    )
    data["glue_ups"][0]["members"] = ["Inner strip", "Outer strip"]
    piece = build(read_template(data), {}, {}, demo_shop(), "in")
    assert [(m.key, m.glue_up, m.glue_up_no) for m in piece.members] == [
        ("Inner strip 1", "Leaf", 1),
        ("Inner strip 2", "Leaf", 2),
        ("Outer strip 1", "Leaf", 1),
        ("Outer strip 2", "Leaf", 2),
    ]
