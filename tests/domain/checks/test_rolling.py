"""A board pressed at its edge: moments by hand; twisting against Saint-Venant's series for a rectangle."""

from __future__ import annotations

from math import cosh, pi, tanh

import pytest

from handmade import asked, box, case, piece
from yardwright.domain.checks import arm_load, seat_load
from yardwright.domain.checks.rolling import Press, _twisted, rolls
from yardwright.domain.finding import Finding, Level
from yardwright.domain.piece.model import Member, Piece

HAND = Press(700.0, 50.0, 100.0, "A hand", "test")


def arm_on_rails(start: float, wide: float = 40.0, screwed: bool = True) -> tuple[Piece, Member]:
    """An arm 600 x 140 x 38 on two rails across its ends that reach from ``start`` over ``wide`` of it."""
    arm = box("Arm", (0, 0, 0), (600, 140, 38))
    rails = [box(f"Rail {n}", (x, start, -40), (40, wide, 40), along="y") for n, x in ((1, 0), (2, 560))]
    return piece([arm, *rails], screwed=[("Arm", "Rail")] if screwed else ()), arm


def rolled(start: float, wide: float = 40.0, screwed: bool = True) -> tuple[Finding, ...]:
    made, arm = arm_on_rails(start, wide, screwed)
    return tuple(rolls(case(made, units="mm"), "arm load", [arm], HAND))


def test_a_load_within_what_the_board_lies_on_says_nothing() -> None:
    assert rolled(50.0) == ()                     # rails from 50 to 90; loads at 50 and 90


def test_a_load_outside_turns_by_its_distance_and_screws_hold_it() -> None:
    """Rails from 60 to 100: the hand at 50 stands 10 mm outside: 700·10 = 7.0 N·m; by hand."""
    (found,) = rolled(60.0)
    assert found.level is Level.OK
    assert found.measured == "7.0 N·m"


def test_what_screws_hold_is_their_pull_times_their_distance_by_hand() -> None:
    """Four #10 screws 20 mm within: 4·0.7·2850·0.32²·0.190·thread in lb, NDS 12.2-2 (seen)."""
    (found,) = rolled(60.0)
    screw_in = 2.5 - 38 / 25.4                    # a 2 1/2 in screw through 38 mm
    each_n = 0.7 * 2850 * 0.32**2 * 0.190 * screw_in * 4.4482216
    assert float(found.limit.split()[0]) == pytest.approx(4 * each_n * 20 / 1000, rel=0.02)


def test_a_board_that_only_lies_there_rolls_off() -> None:
    (found,) = rolled(60.0, screwed=False)
    assert found.level is Level.STOP
    assert "rolls off" in found.title


def test_screws_in_end_grain_hold_nothing_down() -> None:
    """On two posts the screws go into end grain: never pulled (NDS 12.2; seen)."""
    arm = box("Arm", (0, 0, 0), (600, 140, 38))
    posts = [box(f"Post {n}", (x, 60, -500), (40, 40, 500), along="z", thick="x")
             for n, x in ((1, 0), (2, 560))]
    made = piece([arm, *posts], screwed=[("Arm", "Post")])
    (found,) = rolls(case(made, units="mm"), "arm load", [arm], HAND)
    assert found.level is Level.STOP


def series(torque: float, wide: float, thin: float) -> float:
    """Greatest shear of a twisted rectangle, Saint-Venant's series (Timoshenko and Goodier; memory)."""
    odd = range(1, 40, 2)
    rigidity = thin**3 * wide / 3 * (1 - 192 * thin / (pi**5 * wide) * sum(
        tanh(n * pi * wide / (2 * thin)) / n**5 for n in odd))
    most = thin * (1 - 8 / pi**2 * sum(1 / (n**2 * cosh(n * pi * wide / (2 * thin))) for n in odd))
    return torque / rigidity * most


@pytest.mark.parametrize(("wide", "thin"), [(140, 38), (90, 45), (190, 19), (60, 60)])
def test_twisting_is_within_a_few_percent_of_saint_venant(wide: float, thin: float) -> None:
    arm = box("Arm", (0, 0, 0), (600, wide, thin))
    torque, stress, _ = _twisted(case(piece([arm])), arm, Press(700.0, 10.0, 100.0, "", ""))
    assert torque == 700.0 * (wide / 2 - 10.0) / 2
    assert stress == pytest.approx(series(torque, wide, thin), rel=0.05)


def test_thin_broad_arms_twist() -> None:
    made, _ = arm_on_rails(20.0, 100.0)
    wide = box("Arm", (0, 0, 0), (600, 240, 12))
    thin = piece([wide, *(m for m in made.members if m.name == "Rail")], screwed=[("Arm", "Rail")])
    told = arm_load.check(asked("arm load", ["Arm"]), case(thin))
    assert any("twists" in f.title and f.level is Level.CAUTION for f in told)


def test_a_seat_board_on_one_narrow_bearer_in_its_middle_rolls() -> None:
    seat = box("Seat", (0, 0, 0), (900, 140, 38))
    bearer = box("Bearer", (0, 60, -90), (900, 20, 90), thick="y")
    made = piece([seat, bearer])
    told = seat_load.check(asked("seat load", ["Seat"]), case(made))
    assert any("rolls off" in f.title and f.level is Level.STOP for f in told)
