"""A piece in the air is stopped, one with posts in the ground has its depth told and its ground unknown."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import CEDAR, INCH, PINE, asked, box, case, piece, shop, timber
from yardwright.domain.checks import dug_in, ground_contact, held_up, off_ground, run
from yardwright.domain.finding import Finding, Level
from yardwright.domain.market import Timber
from yardwright.domain.measure import Writer
from yardwright.domain.piece.model import FittedHardware, Piece
from yardwright.domain.site import Ground, Site

SPRUCE = timber("spruce", durability="slightly resistant", density_kg_m3=420.0)
FEET = FittedHardware("Pads", "foot", 4, {}, {}, "")


def stool(up: float, *hardware: FittedHardware, stands: str = "on the ground") -> Piece:
    made = piece([box("Block", (0, 0, up * INCH), (400, 400, 300))], hardware=hardware)
    return replace(made, template=replace(made.template, stands=stands))


@pytest.mark.parametrize(("made", "stopped"), [
    (stool(0.0), False), (stool(5.0), True), (stool(0.25), True), (stool(0.25, FEET), False),
    (stool(5.0, FEET), True), (stool(0.25, replace(FEET, count=0.0)), True),
    (stool(40.0, stands="hung on a wall"), False), (stool(1.0, stands="posts in the ground"), True)])
def test_a_piece_in_the_air_is_a_stop(made: Piece, stopped: bool) -> None:
    found = off_ground.check(asked("on the ground"), case(made))
    assert [f.level for f in found] == ([Level.STOP] if stopped else [])
    levels = {f.level for f in run(made, None, Site(), case(made).shop, Writer("in"), "on the ground")}
    assert (Level.STOP in levels) is stopped


def fence(deep: float, high: float = 72.0, stands: str = "posts in the ground") -> Piece:
    posts = [box(f"Post {n}", (x * INCH, 0, -deep * INCH), (89, 89, (high + deep) * INCH), along="z",
                 thick="y")
             for n, x in enumerate((0.0, 56.5))]
    slats = [box(f"Slat {n}", (0, 89, (4 + n * 12) * INCH), (60 * INCH, 19, 11 * INCH), thick="y")
             for n in range(5)]
    made = piece([*posts, *slats], screwed=[("Slat", "Post")])
    return replace(made, template=replace(made.template, stands=stands))


def told(made: Piece, exposure: str = "") -> tuple[Finding, ...]:
    return dug_in.check(asked("posts in the ground"), case(made, Site(exposure=exposure)))


@pytest.mark.parametrize(("deep", "high", "level"), [
    (24.0, 72.0, Level.NOTE), (23.5, 72.0, Level.CAUTION), (24.0, 48.0, Level.NOTE),
    (20.0, 48.0, Level.CAUTION), (28.0, 84.0, Level.NOTE), (27.0, 84.0, Level.CAUTION),
    (12.0, 72.0, Level.CAUTION), (11.5, 72.0, Level.STOP), (4.0, 72.0, Level.STOP),
    (1.0, 32.0, Level.STOP)])
def test_a_third_of_the_height_and_24_in_at_least_half_a_stop(deep: float, high: float,
                                                              level: Level) -> None:
    """Common practice, no source."""
    depth, ground = told(fence(deep, high))
    assert depth.level is level
    assert ground.level is Level.NOT_CHECKED


def test_no_post_stands_in_a_balcony() -> None:
    found = dug_in.check(asked("posts in the ground"), case(fence(24.0), Site(ground=Ground("balcony"))))
    assert [(f.level, f.title) for f in found] == [(Level.STOP, "No post stands in a balcony")]


def test_what_the_wind_asks_of_the_ground_is_told_by_hand() -> None:
    """789 lbf at 37 m/s on 60 x 72 in, half on a post: 394.4 lbf x 36 in (test_wind_frame.py)."""
    assert "with 394 lbf and turns it with 14198 in·lbf" in told(fence(24.0), "coast")[1].detail
    assert "wind" not in told(fence(24.0))[1].detail


def test_posts_that_do_not_reach_below_the_ground_are_stopped() -> None:
    assert [f.level for f in told(fence(0.0))] == [Level.STOP]
    assert told(fence(24.0, stands="on the ground")) == ()


def test_its_height_is_that_above_the_ground_and_nothing_tips_over_feet() -> None:
    made = fence(24.0)
    assert made.standing_mm[2] == pytest.approx(72 * INCH)
    site = Site(exposure="coast", ground=Ground("soil", fall_along=0.05))
    rules = {f.rule for f in run(made, None, site, case(made).shop, Writer("in"))}
    assert not rules & {"tip over", "climbing", "wind", "racking", "fall of the ground", "on the ground"}
    assert {"posts in the ground", "wind on its frame", "ground contact"} <= rules


def test_dug_in_less_than_the_rule_of_thumb_it_is_judged_as_standing_by_its_weight() -> None:
    """25 lbf at 72 in turn it with 1800 in·lbf; its weight acts about 2 in from the edge of its posts."""
    for deep in (1.0, 4.0, 23.5):
        made = fence(deep)
        found = run(made, None, Site(exposure="coast"), case(made).shop, Writer("in"))
        assert {"tip over", "climbing", "wind"} <= {f.rule for f in found if f.level is Level.STOP}, deep


def test_one_post_dug_in_does_not_hold_those_that_only_stand() -> None:
    made = fence(24.0)
    short = replace(box("Post 1", (56.5 * INCH, 0, 0), (89, 89, 72 * INCH), along="z", thick="y"))
    mixed = piece([short if m.key == "Post 1" else m for m in made.members], screwed=[("Slat", "Post")])
    mixed = replace(mixed, template=made.template)
    assert held_up.is_dug_in(case(made)) and not held_up.is_dug_in(case(mixed))


@pytest.mark.parametrize(("kind", "level", "said"), [
    (CEDAR, Level.NOTE, "heartwood or treated through"), (PINE, Level.NOTE, "heartwood or treated through"),
    (SPRUCE, Level.CAUTION, "will rot")])
def test_posts_in_the_ground_last_there_whatever_lies_on_top(kind: Timber, level: Level, said: str) -> None:
    """UC4A or resistant heartwood: AWPA U1 (seen)."""
    made = fence(24.0)
    of = replace(made, members=tuple(replace(m, timber=kind.id) for m in made.members))
    at = case(of, Site(ground=Ground("paving")), shop([CEDAR, PINE, SPRUCE]))
    found = ground_contact.check(asked("ground contact"), at)[0]
    assert found.level is level and said in found.title
