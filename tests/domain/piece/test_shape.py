"""Shape work: what is cut away has the size geometry says, and the maker is told in words."""

from __future__ import annotations

from math import acos, pi, sqrt
from typing import Any

import pytest

from builders import demo_shop
from small_templates import one_member
from yardwright.domain.errors import BadTemplate
from yardwright.domain.piece import build, edges, faces
from yardwright.domain.piece.model import Member

INCH = 25.4
WHOLE = 1016.0 * 139.7 * 19.05


def cut(**values: Any) -> Member:
    return build(one_member(cuts=[values]), {}, {}, demo_shop(), "in").members[0]


def test_an_arc_takes_off_the_circle_segment() -> None:
    m = cut(
        kind="outline",
        points=[
            ["0*inch", "0*inch"],
            ["40*inch", "0*inch"],
            ["40*inch", "3.5*inch"],
            {"to": ["0*inch", "3.5*inch"], "through": ["20*inch", "5.5*inch"]},
        ],
    )
    # Segment of chord 40 in, rise 2 in: r = (20^2 + 2^2)/(2*2) = 101 in (geometry).
    r = 101 * INCH
    d = r - 2 * INCH
    segment = r * r * acos(d / r) - d * sqrt(r * r - d * d)
    exact = (40 * 3.5 * INCH**2 + segment) * 19.05
    assert m.volume_mm3 == pytest.approx(exact, rel=2e-3)
    assert m.volume_mm3 <= exact
    assert max(p[1] for p in m.solid.corners) == pytest.approx(139.7, abs=1e-6)
    assert m.shape[0].text == "edge cut to a curve"
    assert m.shape[0].metres == pytest.approx(2 * r * acos(d / r) / 1000, rel=1e-3)


def test_a_curve_is_drawn_as_one_edge_not_as_its_chords() -> None:
    m = cut(
        kind="outline",
        points=[
            ["0*inch", "0*inch"],
            ["40*inch", "0*inch"],
            ["40*inch", "3.5*inch"],
            {"to": ["0*inch", "3.5*inch"], "through": ["20*inch", "5.5*inch"]},
        ],
    )
    assert len(faces(m)) > 20
    across = [e for e in edges(m) if abs(e[0][2] - e[1][2]) > 1]
    assert len(across) == 4


def test_a_plane_takes_off_what_lies_beyond_it() -> None:
    m = cut(kind="plane", at=["30*inch", "0*inch", "0*inch"], normal="right")
    assert m.volume_mm3 == pytest.approx(WHOLE * 0.75)
    assert m.length_mm == pytest.approx(1016)
    sloped = cut(kind="plane", at=["0*inch", "0*inch", "0*inch"], normal=["0", "-1", "1"])
    assert sloped.volume_mm3 == pytest.approx(WHOLE - 1016 * 19.05 * 19.05 / 2)
    assert "45.0° off the face" in sloped.shape[0].text


def test_a_cut_with_words_of_its_own_still_says_how_much() -> None:
    """A taper of 1 in over 40: atan(1/40) = 1.4 degrees off the edge (geometry)."""
    tapered = cut(
        kind="plane", text="edge tapered", at=["0*inch", "0*inch", "0*inch"], normal=["1", "-40", "0"])
    assert tapered.shape[0].text == "edge tapered, 1.4° off the edge"
    notch = {"kind": "pocket", "text": "notch", "from": ["1*inch", "1*inch", "0*inch"],
             "to": ["3*inch", "2*inch", "1/4*inch"]}
    assert cut(**notch).shape[0].text == "notch, 2 in x 1 in x 1/4 in"


def test_a_pocket_is_a_box_taken_out_measured_from_the_first_end() -> None:
    m = cut(
        **{"kind": "pocket", "from": ["1*inch", "1*inch", "0*inch"], "to": ["3*inch", "2*inch", "1/4*inch"]}
    )
    assert m.volume_mm3 == pytest.approx(WHOLE - 2 * 1 * 0.25 * INCH**3)
    assert m.shape[0].text == "pocket 2 in x 1 in x 1/4 in"


def test_a_pocket_cut_from_beyond_the_blank_is_told_as_it_is_measured_in_it() -> None:
    beyond = {"kind": "pocket", "from": ["-1*inch", "-1*inch", "-1/8*inch"],
              "to": ["3*inch", "2*inch", "1/4*inch"]}
    m = cut(**beyond)
    assert m.shape[0].text == "pocket 3 in x 2 in x 1/4 in"
    assert m.shape[0].metres == pytest.approx(2 * 5 * 0.0254)


def test_a_pocket_stays_on_its_side_when_the_thickness_grows_the_other_way() -> None:
    pocket = {
        "kind": "pocket",
        "from": ["1*inch", "1*inch", "0*inch"],
        "to": ["3*inch", "2*inch", "1/4*inch"],
    }
    for thick, side in (("up", 0.0), ("down", 0.0)):
        m = build(one_member(thick=thick, cuts=[pocket]), {}, {}, demo_shop(), "in").members[0]
        bottom = [f for f in m.solid.faces if f.holes]
        assert len(bottom) == 1 and bottom[0].outline[0][2] == pytest.approx(side)


def test_a_hole_goes_through_and_a_face_with_a_hole_is_bridged_for_drawing() -> None:
    m = cut(kind="hole", at=["2*inch", "2*inch"], diameter="1*inch")
    assert m.volume_mm3 == pytest.approx(WHOLE - pi * (INCH / 2) ** 2 * 19.05, rel=1e-4)
    pierced = [f for f in faces(m) if len(f) > 8]
    assert len(pierced) == 2
    assert m.shape[0].text == "hole 1 in through"


def test_rounding_over_is_work_but_takes_no_wood() -> None:
    m = cut(kind="round over", edges="top front, top back", radius="1/4*inch")
    assert m.volume_mm3 == pytest.approx(WHOLE)
    assert m.shape[0].metres == pytest.approx(2 * 1.016)
    assert m.shape[0].text == "round over top front, top back 2 edges, radius 1/4 in"
    all_top = cut(kind="round over", edges="top", radius="1/4*inch")
    assert all_top.shape[0].metres == pytest.approx(2 * (1.016 + 0.1397))


def test_a_cut_that_leaves_nothing_is_refused() -> None:
    with pytest.raises(BadTemplate, match="leaves nothing"):
        cut(kind="plane", at=["0*inch", "0*inch", "0*inch"], normal="right")


def test_a_conditional_cut_may_look_at_the_repeat() -> None:
    template = one_member(
        repeat=[{"index": "n", "count": "2"}],
        cuts=[{"kind": "plane", "at": ["20*inch", "0*inch", "0*inch"], "normal": "right", "when": "n == 1"}],
        **{"from": ["0*inch", "n*6*inch", "0*inch"], "to": ["40*inch", "n*6*inch", "0*inch"]},
    )
    whole, half = build(template, {}, {}, demo_shop(), "in").members
    assert (whole.volume_mm3, half.volume_mm3) == pytest.approx((WHOLE, WHOLE / 2))
    assert (whole.key, half.key) == ("Board 1", "Board 2")
