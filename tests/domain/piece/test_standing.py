"""A piece stands on the ground on all its legs, or on feet that are bought; figures by hand."""

from __future__ import annotations

from typing import Any

import pytest

from builders import demo_shop
from small_templates import trestle
from yardwright.domain.measure import Writer
from yardwright.domain.piece import build
from yardwright.domain.piece.standing import standing_faults
from yardwright.domain.template import read_template


def told(data: dict[str, Any]) -> list[tuple[str, str]]:
    piece = build(read_template(data), {}, {}, demo_shop(), "in")
    return [(fault.pointer, fault.detail) for fault in standing_faults(piece, Writer("in"))]


def lifted(posts: str, third: str = "", **more: Any) -> dict[str, Any]:
    """The trestle on posts that begin so high, and on a third one."""
    data = trestle(**more)
    data["members"][0]["from"][2] = posts
    if third:
        data["members"].append({"name": "Prop", "board": "post", "from": ["length/2", "0*inch", third],
                                "to": ["length/2", "0*inch", "8*inch"], "wide": "right", "thick": "back"})
    return data


def test_a_piece_on_the_ground_is_fine_with_legs_of_one_length() -> None:
    assert told(lifted("0*inch")) == told(lifted("0*inch", "0*inch")) == []


@pytest.mark.parametrize(("short", "said"), [
    ("0.01*mm", ""), ("1/64*inch", "1/64 in"), ("1/4*inch", "1/4 in"), ("1/2*inch", "")])
def test_a_leg_a_little_short_is_told_and_one_well_clear_of_the_ground_is_not(short: str, said: str) -> None:
    told_of = (f"Prop ends {said} above what the piece stands on: let it reach down as far, or clear that by "
               "1/2 in")
    assert told(lifted("0*inch", short)) == ([("/members/3", told_of)] if said else [])


def test_the_longer_legs_are_what_the_piece_stands_on() -> None:
    assert [pointer for pointer, _ in told(lifted("1/8*inch", "0*inch"))] == ["/members/0", "/members/0"]


def test_a_piece_that_floats_is_told_unless_it_stands_on_feet_or_hangs_on_a_wall() -> None:
    (found,) = told(lifted("1/4*inch"))
    assert found[1].startswith("Post 1 is the lowest and ends 1/4 in above the ground, z = 0: let ")
    feet = {"name": "Pads", "kind": "foot", "count": "4"}
    assert told(lifted("1/4*inch", hardware=[feet])) == []
    assert len(told(lifted("1/4*inch", hardware=[feet | {"count": "0"}]))) == 1
    fixed = {"rule": "tip over", "push_height": "height", "anchored": "1 < 2"}
    assert len(told(lifted("1/4*inch", checks=[fixed]))) == 1
    assert len(told(lifted("3*inch", hardware=[feet]))) == 1             # no foot is 3 in high
    assert told(lifted("3*inch", stands="hung on a wall")) == []


@pytest.mark.parametrize("stands", ["hung on a wall", "posts in the ground"])
def test_legs_of_what_does_not_stand_on_the_ground_may_end_where_they_like(stands: str) -> None:
    """Posts are dug in as deep as each place asks."""
    low = "1/4*inch" if stands == "hung on a wall" else "-8*inch"
    assert told(lifted(low, f"{low} + 1/4*inch", stands=stands)) == []
    assert len(told(lifted("0*inch", "1/4*inch"))) == 1
