"""The trial finds what would not fit, touch, hold or be workable, and says at which sizes."""

from __future__ import annotations

from typing import Any

import pytest

from builders import INCH, MM, demo_shop, demo_shop_metric
from small_templates import changed, trestle
from yardwright.domain.errors import Fault
from yardwright.domain.piece import trial
from yardwright.domain.template import read_template


def told(data: dict[str, Any], points: int = 4) -> set[str]:
    report = trial(read_template(data), demo_shop(), points)
    return {f"{fault.pointer} {fault.detail}" for fault in (*report.faults, *report.lacking)}


def test_a_sound_template_passes_at_every_corner_and_between() -> None:
    report = trial(read_template(trestle()), demo_shop(), 10)
    assert report.faults == () and report.lacking == () and report.good
    assert report.points == 2 + 4 * 2 + 10


def test_a_timber_nobody_sells_is_told_and_no_point_tried_is_no_pass() -> None:
    report = trial(read_template(trestle(timbers=["teak"])), demo_shop(), 5)
    assert report.unsold == ("teak",) and report.points == 0 and not report.good
    assert not trial(read_template(trestle()), demo_shop_metric(), 5).good


@pytest.mark.parametrize(
    ("path", "value", "where", "said"),
    [
        ("overall/length", "length + 1*inch", "/overall/length", "says 21 in where the customer asks for"),
        ("overall/depth", "post.width", "/overall/depth", "deep where 3 1/2 in is asked, 2 in too much"),
        ("members/1/ends", ["square", {"angle": "5*deg"}], "/members/0", "Post 2 and Beam overlap, 5/16"),
        ("members/0/to/2", "under - 6*inch", "/joints/0", "Beam touches none of Post; the nearest, Post 1, "),
        ("members/0/to/2", "under - 6*inch", "/members/0", "Post 1 is held by nothing"),
        ("fit/envelope/open_height", "height", "/fit/envelope/open_height", "the piece needs"),
        ("fit/envelope/depth", "3*inch", "/fit/envelope/depth", "the piece needs 5 1/2 in, 2 1/2 in more"),
        ("groups/lid/opens", "90*deg", "/members/2", "deep, with the lid or door at"),
        ("groups/lid/along", "height", "/groups", "no fit can tell"),
        ("boards/top/sections", ["1x60"], "/boards/top/sections", "wants 1x60"),
        ("members/0/from/0", "-1*inch", "/overall/length", "Post 1 reaches to x = -1 in, where 0 is"),
        ("members/0/width", "1/2*inch", "/members/0", "1/2 in wide, too small to work: the shop's"),
        ("members/0/width", "5*inch", "/members/0", "Post is 5 in x 3 1/2 in; 4x4 gives 3 1/2 in x 3 1/2 in"),
        ("values/spare", "3*inch", "/values/spare", "no formula uses it"),
    ],
)
def test_what_is_wrong_is_found_with_its_place(path: str, value: Any, where: str, said: str) -> None:
    found = told(changed(path, value))
    assert any(one.startswith(f"{where} ") and said in one for one in found), found


def test_what_else_looks_is_asked_only_of_pieces_that_are_sound_so_far() -> None:
    template = read_template(trestle())
    also = trial(template, demo_shop(), 0, also=lambda piece, shop: [Fault("/joints/0", "glue is out")])
    assert {(f.pointer, f.detail) for f in also.faults} == {("/joints/0", "glue is out")}
    assert len(also.faults) == also.points == 10
    spoilt = read_template(changed("overall/length", "length + 1*inch"))
    both = trial(spoilt, demo_shop(), 0, also=lambda piece, shop: [Fault("/joints/0", "glue is out")])
    assert both.faults and all(f.detail != "glue is out" for f in both.faults)


def test_a_fault_says_whether_the_piece_stood() -> None:
    stood = trial(read_template(changed("overall/length", "length + 1*inch")), demo_shop(), 0)
    fell = trial(read_template(changed("members/0/width", "5*inch")), demo_shop(), 0)
    assert all(fault.built for fault in stood.faults) and stood.faults
    assert not any(fault.built for fault in fell.faults) and fell.faults


def test_the_same_seed_tries_the_same_points() -> None:
    data = changed("overall/length", "length + 1*inch")
    first, again = (trial(read_template(data), demo_shop(), 6, seed=3) for _ in range(2))
    assert [f.point.words() for f in first.faults] == [f.point.words() for f in again.faults]
    assert "length 40 in" in first.faults[0].point.words() and "20 in" in first.faults[2].point.words()


def test_what_is_looked_at_as_it_is_usually_offered_is_not_asked_of_other_sizes() -> None:
    template = read_template(trestle())
    made = trial(template, demo_shop(), 3, usually=lambda piece, shop: [Fault("/checks/0", "too weak")])
    assert [fault.point.dimensions_nm["length"] for fault in made.faults] == [40 * INCH, 1000 * MM]
