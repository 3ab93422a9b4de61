"""Hands: a mirrored part is left or right only where no turning makes it its twin."""

from __future__ import annotations

from typing import Any

import pytest

from builders import demo_shop
from small_templates import one_member
from yardwright.domain.piece import build

MITRE = {"angle": "45*deg", "about": "thick"}
ANTI = {"angle": "-45*deg", "about": "thick"}
BEVEL = {"angle": "20*deg", "about": "wide"}
POCKET = {"kind": "pocket", "from": ["1*inch", "1*inch", "0*inch"], "to": ["3*inch", "2*inch", "1/4*inch"]}
ACROSS_DEPTH = [{"across": "depth", "at": "20*inch"}]
ACROSS_BOTH = [*ACROSS_DEPTH, {"across": "length", "at": "60*inch"}]


def hands(**member: Any) -> list[str]:
    template = one_member(**({"mirror": ACROSS_DEPTH} | member))
    return [m.hand for m in build(template, {}, {}, demo_shop(), "in").members]


@pytest.mark.parametrize(
    "member",
    [
        {},
        {"ends": ["square", MITRE]},
        {"ends": [MITRE, MITRE]},
        {"ends": [BEVEL, "square"]},
        {"ends": [MITRE, ANTI]},  # a parallelogram lies on either face
        {"cuts": [{"kind": "round over", "edges": "top front", "radius": "3*mm"}]},
        {"cuts": [{"kind": "hole", "at": ["3*inch", "1*inch"], "diameter": "6*mm"}]},
    ],
)
def test_parts_that_can_be_turned_over_have_no_hand(member: dict[str, Any]) -> None:
    assert hands(**member) == ["", ""]


@pytest.mark.parametrize(
    "member",
    [
        {"ends": [MITRE, BEVEL]},  # mitre one end, bevel the other
        {"cuts": [POCKET]},  # off centre, on one face
        {"ends": ["square", MITRE], "cuts": [{"kind": "round over", "edges": "top front", "radius": "3*mm"}]},
    ],
)
def test_parts_that_no_turning_makes_alike_are_left_and_right(member: dict[str, Any]) -> None:
    assert sorted(hands(**member)) == ["left", "right"]


def test_mirrored_twice_is_the_same_hand_again() -> None:
    assert hands(cuts=[POCKET], mirror=ACROSS_BOTH) == ["left", "right", "right", "left"]


def test_mirrored_solids_keep_their_volume_and_face_outward() -> None:
    template = one_member(mirror=ACROSS_BOTH, cuts=[POCKET])
    members = build(template, {}, {}, demo_shop(), "in").members
    assert len({round(m.volume_mm3, 3) for m in members}) == 1
    for m in members:
        assert m.solid.volume_mm3 == pytest.approx(float(m.solid.kernel.volume()))
        assert m.solid.centre == pytest.approx(m.centre)
