"""Three legs and an L stand on the line between their outer feet, not on a rectangle around them."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

import pytest

from handmade import asked, box, case, piece
from yardwright.domain.checks import attached_seats, climbing, lean_back, tip_over
from yardwright.domain.checks.stance import Stance, outline, stance_of
from yardwright.domain.finding import Level
from yardwright.domain.piece.model import Frame, Member, Piece


def light(member: Member, kg: float = 0.001) -> Member:
    return replace(member, density_kg_m3=kg / (member.volume_mm3 * 1e-9))


def stool(kg: float) -> Piece:
    """A heavy round block's stand-in on three thin legs: two in front, one behind."""
    top = light(box("Top", (0, 0, 600), (600, 600, 100)), kg)
    legs = [light(box(f"Leg {n}", (x, y, 0), (2, 2, 600), along="z", thick="x"))
            for n, (x, y) in enumerate(((0, 0), (598, 0), (299, 598)))]
    return piece([top, *legs])


def test_a_rectangle_of_feet_has_four_sides_and_their_names() -> None:
    made = piece([box("Block", (0, 0, 0), (900, 400, 300))])
    on = stance_of(made, 1.0)
    assert sorted(s.name for s in on.sides) == ["back", "front", "left end", "right end"]
    assert on.nearest(450, 150)[1] == pytest.approx(150)
    assert on.room(450, 150, (0.0, 1.0)) == pytest.approx(250)


def test_three_legs_tip_between_them_where_a_rectangle_would_stand() -> None:
    """Middle (300, 300) lies 134 mm within the slanting side, 300 within the rectangle: 60 kg hold
    60·9.81·134.8 = 79.3 N·m, the push 111.2 N·700 = 77.8; a rectangle would be told twice as safe."""
    on = stance_of(stool(60), 1.0)
    side, arm = on.nearest(300, 300)
    assert arm == pytest.approx(134, abs=1.5)
    assert side.name in ("back left corner", "back right corner")
    found = tip_over.check(asked("tip over", push_height=700.0), case(stool(60)))[0]
    assert found.level is Level.CAUTION and "factor 1.02" in found.measured


def test_a_climbing_child_pulls_three_legs_over_their_slanting_side() -> None:
    found = climbing.check(asked("climbing"), case(stool(60)))[0]
    assert found.level is Level.STOP and "corner" in found.detail


@pytest.mark.parametrize("turned", [0, 30, 90, 200])
def test_the_outline_turns_with_its_feet(turned: float) -> None:
    c, s = cos(radians(turned)), sin(radians(turned))
    places = [(0, 0), (500, 0), (500, 300), (0, 300), (250, 150), (250, 0)]
    around = outline([(x * c - y * s, x * s + y * c) for x, y in places])
    assert len(around) == 4


def test_a_screen_one_board_thick_stands_on_its_own_breadth() -> None:
    made = piece([box("Board", (0, 0, 0), (900, 20, 700), along="z", thick="y")])
    assert stance_of(made, 1.0).nearest(450, 10)[1] == pytest.approx(10)


def test_feet_in_one_line_give_no_arm_across_it() -> None:
    thin = piece([box("Board", (0, 0, 0), (900, 0.0001, 700), along="z", thick="y")])
    on = Stance(stance_of(thin, 1.0).sides)
    assert on.nearest(450, 0)[1] == pytest.approx(0, abs=1e-3)


def test_people_on_an_end_seat_tip_a_table_over_that_end() -> None:
    """A seat across the right end, 300 mm past the feet; none in front or behind."""
    top = light(box("Top", (0, 0, 700), (1000, 1000, 40)), 20)
    foot = light(box("Foot", (0, 0, 0), (1000, 1000, 40)))
    seat = light(box("Seat", (1200, 0, 420), (240, 1000, 40), along="y"), 2)
    arm = light(box("Arm", (900, 450, 380), (540, 80, 40)))
    found = attached_seats.check(asked("attached seats", ["Seat"]), case(piece([top, foot, seat, arm])))
    assert found[0].level is Level.STOP and "right seat" in found[0].detail


def test_a_back_that_looks_to_the_side_is_leaned_on_sideways() -> None:
    """The chair of test_lean_back turned a quarter: its rear feet end 32 mm behind the back's face."""
    seat = light(box("Seat", (0, 0, 380), (400, 500, 20)), 10)
    back = light(replace(box("Back", (400, 0, 380), (20, 500, 600), along="y", thick="x"), frame=Frame(
        (400.0, 0.0, 380.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))))

    def chair(rear: float) -> Piece:
        feet = [light(box(f"Leg {n}", (x, y, 0), (40, 40, 380), along="z", thick="x"))
                for n, (x, y) in enumerate(((0, 0), (0, 460), (rear - 40, 0), (rear - 40, 460)))]
        return piece([seat, back, *feet])

    levels = [lean_back.check(asked("lean back", ["Back"], seat_height=400.0), case(chair(r)))[0].level
              for r in (432, 435, 444, 448)]
    assert levels == [Level.STOP, Level.CAUTION, Level.CAUTION, Level.OK]
