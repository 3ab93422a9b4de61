"""Posts of a planter under the soil's push, worked by hand."""

from __future__ import annotations

import pytest

from handmade import asked, box, case, piece
from yardwright.domain.checks import soil_sides
from yardwright.domain.checks.soil_posts import moment
from yardwright.domain.finding import Level
from yardwright.domain.piece.model import Piece

FLUID = 40 * 157.0874e-9                 # 40 lbf/ft³ in N/mm³


def test_a_post_tied_at_top_and_floor_is_a_beam_between() -> None:
    """600 deep, tied at 0-40 and 560-600, 500 of side: w = p·560·500 at the lower tie, M = w·520²/8."""
    found = moment([(0.0, 40.0), (560.0, 600.0)], 0.0, 600.0, 600.0, FLUID, 500.0)
    assert found == pytest.approx(FLUID * 560 * 500 * 520**2 / 8)


def test_a_post_tied_at_its_foot_alone_stands_as_a_cantilever() -> None:
    found = moment([(0.0, 40.0)], 0.0, 600.0, 600.0, FLUID, 500.0)
    assert found == pytest.approx(FLUID * 560 * 500 * 560**2 / 2)


def test_ties_in_a_row_leave_no_gap() -> None:
    assert moment([(0.0, 300.0), (300.0, 600.0)], 0.0, 600.0, 600.0, FLUID, 500.0) == 0.0


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
