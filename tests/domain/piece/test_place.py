"""Blanks: length long point to long point and compound ends follow from the planes that end them."""

from __future__ import annotations

from math import atan, cos, degrees, radians, sqrt, tan

import pytest

from builders import demo_shop
from small_templates import one_member
from yardwright.domain.errors import BadTemplate, NoStock
from yardwright.domain.piece import build
from yardwright.domain.piece.model import Member
from yardwright.domain.template import Template

INCH = 25.4


def board(template: Template) -> Member:
    return build(template, {}, {}, demo_shop(), "in").members[0]


def test_a_square_board_is_as_long_as_its_line_and_as_big_as_its_section() -> None:
    m = board(one_member())
    assert (m.length_mm, m.width_mm, m.thickness_mm) == pytest.approx((1016.0, 139.7, 19.05))
    assert m.volume_mm3 == pytest.approx(1016.0 * 139.7 * 19.05)
    assert m.centre == pytest.approx((508.0, 69.85, 9.525))
    assert m.surface_mm2 == pytest.approx(2 * (1016 * 139.7 + 1016 * 19.05 + 139.7 * 19.05))
    assert m.end_grain_mm2 == pytest.approx(2 * 139.7 * 19.05)
    assert m.shape == ()
    assert m.mass_kg == pytest.approx(m.volume_mm3 * 1e-9 * m.density_kg_m3)


def test_thickness_may_grow_either_way_and_the_frame_stays_right_handed() -> None:
    up, down = board(one_member()), board(one_member(thick="down"))
    assert up.solid.box[0][2] == pytest.approx(0) and down.solid.box[1][2] == pytest.approx(0)
    for m in (up, down):
        a, b, c = m.frame.along, m.frame.wide, m.frame.thick
        assert a[0] * (b[1] * c[2] - b[2] * c[1]) == pytest.approx(1.0)
        assert m.frame.to_world(0, 0, 0) == pytest.approx(m.solid.box[0])


def test_the_width_is_taken_square_to_the_line() -> None:
    m = board(one_member(to=["40*inch", "0*inch", "30*inch"], wide="up", thick="back"))
    assert m.length_mm == pytest.approx(50 * INCH)
    assert m.frame.wide == pytest.approx((-0.6, 0.0, 0.8))


def test_a_mitre_lengthens_the_far_edge_by_width_times_its_tangent() -> None:
    mitred = {"angle": "45*deg", "about": "thick"}
    m = board(one_member(ends=[mitred, mitred]))
    assert m.length_mm == pytest.approx(1016 + 2 * 139.7)
    assert m.shape[0].text == "both ends mitred 45°, long on the same side"
    assert m.shape[0].kind == "bevel" and m.shape[0].count == 2
    inward = {"angle": "-45*deg", "about": "thick"}
    assert board(one_member(ends=[inward, inward])).length_mm == pytest.approx(1016)


def test_a_bevel_runs_through_the_thickness() -> None:
    m = board(one_member(ends=["square", {"angle": "30*deg", "about": "wide"}]))
    assert m.length_mm == pytest.approx(1016 + 19.05 * tan(radians(30)))
    assert [s.text for s in m.shape] == ["one end bevelled 30°"]


def test_level_ends_of_a_leaning_leg_are_parallel_and_square_to_the_rake() -> None:
    m = board(
        one_member(
            to=["0*inch", "10*tan(8*deg)*inch", "10*inch"],
            wide="right",
            thick="back",
            ends=["level", "level"],
        )
    )
    low, high = m.solid.box
    assert (low[2], high[2]) == pytest.approx((0, 10 * INCH))
    assert m.length_mm == pytest.approx(10 * INCH / cos(radians(8)) + 19.05 * tan(radians(8)))
    assert m.shape[0].text == "both ends bevelled 8°, parallel"


def test_plumb_ends_stand_upright_across_the_heading() -> None:
    m = board(
        one_member(to=["30*inch", "0*inch", "40*inch"], wide="up", thick="back", ends=["plumb", "plumb"])
    )
    low, high = m.solid.box
    assert (low[0], high[0]) == pytest.approx((0, 30 * INCH))


def test_a_compound_end_gives_the_saw_its_mitre_and_its_tilt() -> None:
    # A leg splayed 10 degrees both ways, cut level: on its wide face the fence stands at the angle whose
    # tangent is the splay's across the width, the blade leans by what is left (spherical trigonometry).
    t = tan(radians(10))
    m = board(
        one_member(
            to=["20*tan(10*deg)*inch", "20*tan(10*deg)*inch", "20*inch"],
            wide="right",
            thick="back",
            ends=["level", "level"],
        )
    )
    along = (t / sqrt(1 + 2 * t * t), t / sqrt(1 + 2 * t * t), 1 / sqrt(1 + 2 * t * t))
    wide_up = -along[0] * along[2] / sqrt(1 - along[0] ** 2)
    thick_up = sqrt(1 - along[2] ** 2 - wide_up**2)
    mitre, tilt = degrees(atan(abs(wide_up) / along[2])), degrees(atan(thick_up / sqrt(1 - thick_up**2)))
    assert m.shape[0].kind == "compound"
    assert m.shape[0].text == (
        f"both ends mitred {round(mitre, 1):g}° with the blade tilted {round(tilt, 1):g}°, parallel"
    )


@pytest.mark.parametrize(
    ("member", "said"),
    [
        ({"to": ["0*inch", "0*inch", "0*inch"]}, "cannot be placed: from and to are the same place"),
        ({"wide": "right"}, "it runs right from `from` to `to`, and wide is that way too"),
        ({"thick": "back"}, "wide and thick are the same way"),
        ({"ends": ["level", "square"]}, "along the member's own length"),
        (
            {"to": ["1*inch", "0*inch", "0*inch"], "ends": [{"angle": "-45*deg"}, {"angle": "-45*deg"}]},
            "the two ends cross",
        ),
        ({"repeat": [{"index": "k", "count": "2.5"}]}, "2.5; a whole number of copies"),
        ({"repeat": [{"index": "k", "count": "601"}]}, "601; a whole number of copies"),
        ({"repeat": [{"index": "k", "count": "60"}, {"index": "n", "count": "60"}]}, "more than 600 members"),
    ],
)
def test_a_member_that_cannot_be_is_refused_where_it_is_declared(
    member: dict[str, object], said: str
) -> None:
    with pytest.raises(BadTemplate) as refused:
        board(one_member(**member))
    assert said in refused.value.faults[0].detail
    assert refused.value.faults[0].pointer.startswith("/members/0")


def test_a_board_wider_or_thicker_than_its_section_is_no_board() -> None:
    for side in ({"width": "6*inch"}, {"thickness": "1*inch"}):
        with pytest.raises(NoStock, match="1x6 gives"):
            board(one_member(**side))
