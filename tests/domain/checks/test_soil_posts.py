"""Posts of a planter under the soil's push, worked by hand."""

from __future__ import annotations

import pytest

from handmade import asked, box, case, piece
from yardwright.domain.checks import soil_floor, soil_sides
from yardwright.domain.checks.soil_posts import moment
from yardwright.domain.finding import Level
from yardwright.domain.piece.model import Piece

FLUID = 40 * 157.0874e-9                 # 40 lbf/ft³ in N/mm³


def test_a_post_tied_at_top_and_floor_is_a_beam_between() -> None:
    """600 deep, tied at 0-40 and 560-600, 500 of side: w = p·560·500 at the lower tie, M = w·520²/8."""
    found = moment([(0.0, 40.0), (560.0, 600.0)], 0.0, 600.0, (0.0, 600.0), FLUID, 500.0)
    assert found == pytest.approx(FLUID * 560 * 500 * 520**2 / 8)


def test_a_post_tied_at_its_foot_alone_stands_as_a_cantilever() -> None:
    found = moment([(0.0, 40.0)], 0.0, 600.0, (0.0, 600.0), FLUID, 500.0)
    assert found == pytest.approx(FLUID * 560 * 500 * 560**2 / 2)


def test_ties_in_a_row_leave_no_gap() -> None:
    assert moment([(0.0, 300.0), (300.0, 600.0)], 0.0, 600.0, (0.0, 600.0), FLUID, 500.0) == 0.0


def test_soil_on_a_raised_floor_does_not_press_the_legs_below_it() -> None:
    """A leg 31 in high, ends tied at 20 to 31 in, floor at 23 1/4 in, soil to 31: nothing hangs below, boards
    end to end leave no gap. Pressed down to its foot it had 40·31·43/1728·20²/2 in·lbf (recomputed)."""
    ties = [(508.0, 647.7), (647.7, 787.4)]
    assert moment(ties, 0.0, 787.4, (590.55, 787.4), FLUID, 1092.2) == 0.0
    assert moment(ties, 0.0, 787.4, (0.0, 787.4), FLUID, 1092.2) == pytest.approx(
        40 * 31 * 43 / 1728 * 20**2 / 2 * 112.98, rel=1e-3)


def test_soil_above_all_ties_pushes_with_its_whole_lever() -> None:
    """Tied at 0-100, soil from 300 to 500 on 400 of side: w·200·(400 - 100), w at the soil's foot."""
    found = moment([(0.0, 100.0)], 0.0, 500.0, (300.0, 500.0), FLUID, 400.0)
    assert found == pytest.approx(FLUID * 200 * 400 * 200 * 300)


def bed(deep: float, tied_at_top: bool, thick: float = 90.0) -> Piece:
    """Two long sides on three pairs of posts, each tied across at the floor, and at its top or not."""
    sides = [box(f"Side {n}{r}", (0, y, r * deep / 2), (2400, 25, deep / 2), thick="y")
             for n, y in enumerate((0, 725)) for r in range(2)]
    posts = [box(f"Post {n}{i}", (x, y, 0), (38, thick, deep), along="z", thick="x")
             for i, x in enumerate((0, 1181, 2362)) for n, y in enumerate((25, 725 - thick))]
    across = [box(f"Tie {i}{k}", (x + 38 if x < 2362 else x - 38, 25, z), (38, 700, 60), along="y", thick="x")
              for i, x in enumerate((0, 1181, 2362))
              for k, z in enumerate((0.0, deep - 60.0) if tied_at_top else (0.0,))]
    return piece([*sides, *posts, *across], [asked("soil sides", [s.key for s in sides], soil_top=deep)],
                 screwed=[("Side", "Post"), ("Tie", "Post")])


@pytest.mark.parametrize(("deep", "tied", "level"), [
    (300.0, True, None), (700.0, True, None), (700.0, False, Level.STOP)])
def test_a_deep_bed_whose_posts_are_tied_at_the_floor_alone_bulges(deep: float, tied: bool,
                                                                  level: Level | None) -> None:
    made = bed(deep, tied)
    found = [f.level for f in soil_sides.check(made.checks[0], case(made)) if f.title.startswith("Post")]
    assert found == ([level] if level else [])


def on_legs(thick: float, high: float) -> list[Level]:
    """A floor of 1000 x 500 mm under 400 mm of wet soil, 1602 kg/m³: 3142 N, 1.25 of a quarter is 982 N."""
    legs = [box(f"Leg {i}{j}", (x, y, 0), (thick, thick, high), along="z", thick="y")
            for i, x in enumerate((0, 1000 - thick)) for j, y in enumerate((0, 500 - thick))]
    rails = [box(f"Rail {i}", (x, 0, high), (thick, 500, 60), along="y", thick="x")
             for i, x in enumerate((0, 1000 - thick))]
    boards = [box(f"Floor {n}", (0, 100 * n, high + 60), (1000, 100, 40)) for n in range(5)]
    made = piece([*legs, *rails, *boards], screwed=[("Rail", "Leg")])
    check = asked("soil floor", [b.key for b in boards], soil_depth=400.0)
    return [f.level for f in soil_floor.check(check, case(made)) if f.title == "Leg: too slender"]


@pytest.mark.parametrize(("thick", "high", "levels"), [
    (60.0, 600.0, []), (15.0, 600.0, [Level.STOP]), (15.0, 900.0, [Level.STOP])])
def test_legs_of_a_raised_bed_carry_its_soil_as_columns(thick: float, high: float,
                                                        levels: list[Level]) -> None:
    """Euler, cedar wet: 0.822·0.365·6888/(600/15)²·225 = 291 N, far below 982 N; 900 is past l/d 50."""
    assert on_legs(thick, high) == levels
