"""Fall of the ground: what lies under each foot, and what takes it up."""

from __future__ import annotations

import pytest

from handmade import asked, box, case, piece, shop
from yardwright.domain.checks import fall, run
from yardwright.domain.finding import Finding, Level
from yardwright.domain.fit.ground import drops
from yardwright.domain.measure import Writer
from yardwright.domain.piece.model import FittedHardware, Member, Piece
from yardwright.domain.site import Ground, Measured, Site, Wall

FEET = FittedHardware("Levelling feet", "levelling foot", 4, {}, {}, "fit-foot")


def legs(length: float, depth: float, height: float = 400.0) -> list[Member]:
    """Four posts 50 mm square at the corners under a top."""
    posts = [box(f"Leg {x:g} {y:g}", (x, y, 0), (50, 50, height), along="z", thick="y")
             for x in (0.0, length - 50) for y in (0.0, depth - 50)]
    return [*posts, box("Top", (0, 0, height), (length, depth, 25))]


def found(made: Piece, units: str = "mm", **ground: object) -> tuple[Finding, ...]:
    return fall.check(asked("fall of the ground"), case(made, Site(ground=Ground(**ground)), units=units))  # type: ignore[arg-type]


def test_feet_over_a_quarter_inch_a_foot_fall_by_the_handbook_figure() -> None:
    # 72 in on a patio falling 1/4 in a foot: 1 1/2 in (facts of practice, recomputed); the posts' middles are
    # 1778.8 mm apart of the 1828.8.
    made = piece(legs(1828.8, 500.0))
    feet = drops(made, Ground("paving", 1 / 48), 1.0)
    assert max(f.drop_mm for f in feet) == pytest.approx((1828.8 - 50) / 48)
    (told,) = found(made, "in", surface="paving", fall_along=1 / 48)
    assert (told.level, told.title) == (Level.CAUTION, "Legs to be cut to the ground")
    assert told.measured == "1 1/2 in" and told.limit == "3/8 in"
    assert "cut 2 of them to scribe on site, 0.5 to 1 h for four" in told.mend


def test_a_small_fall_is_shimmed_and_says_where() -> None:
    (told,) = found(piece(legs(900, 450)), surface="paving", fall_away=0.02)
    assert (told.level, told.title) == (Level.NOTE, "Shims take up the fall")
    assert "back left 0 mm; back right 0 mm; front left 8 mm; front right 8 mm" in told.detail
    assert told.mend == "Bring shims that do not rot, up to 8 mm thick."


def test_a_fall_both_ways_adds_up_in_one_corner() -> None:
    feet = drops(piece(legs(1050, 550)), Ground("deck", 0.01, 0.02), 1.0)
    drop = {(round(f.x_mm), round(f.y_mm)): f.drop_mm for f in feet}
    assert drop == pytest.approx({(25, 525): 0.0, (1025, 525): 10.0, (25, 25): 10.0, (1025, 25): 20.0})


@pytest.mark.parametrize(("fall", "there", "level"), [
    (0.01, True, Level.NOTE), (0.01, False, Level.CAUTION), (0.05, True, Level.CAUTION)])
def test_legs_cut_in_the_price_are_noted_up_to_2_in(fall: float, there: bool, level: Level) -> None:
    """1450 mm from foot to foot: 14.5 mm at 1 %, 72.5 mm at 5 %. Judgement, no source."""
    site = Site(ground=Ground("paving", fall_along=fall))
    (told,) = run(piece(legs(1500, 450)), None, site, shop(), Writer("mm"), "fall of the ground", there)
    assert (told.level, told.title) == (level, "Legs to be cut to the ground")


@pytest.mark.parametrize(("share", "level"), [(0.02, Level.NOTE), (0.021, Level.CAUTION)])
def test_levelling_feet_take_up_what_their_thread_reaches(share: float, level: Level) -> None:
    made = piece(legs(1050, 450), hardware=[FEET])
    (told,) = found(made, surface="paving", fall_along=share)
    assert told.level is level and told.limit == "20 mm"
    assert ("Screw the feet out" in told.mend) is (level is Level.NOTE)


def test_a_long_foot_stands_at_both_its_ends() -> None:
    made = piece([box("Runner", (0, 0, 0), (1200, 90, 45)), box("Runner", (0, 400, 0), (1200, 90, 45))])
    feet = drops(made, Ground("paving", 0.01), 1.0)
    ends = sorted((round(f.x_mm), round(f.drop_mm, 6)) for f in feet)
    assert ends == [(0, 0), (0, 0), (1200, 12), (1200, 12)]


def test_strips_of_one_blank_are_one_foot() -> None:
    strips = [box("Leg strip 1", (0, 0, 0), (80, 25, 400), along="z", thick="y", glue_up="Leg"),
              box("Leg strip 2", (0, 25, 0), (25, 55, 400), along="z", thick="y", glue_up="Leg")]
    feet = drops(piece(strips), Ground("paving", 0.01), 1.0)
    assert [(f.name, f.x_mm, f.y_mm) for f in feet] == [("Leg", 40, 40)]


def test_the_way_along_that_is_worse_for_an_uneven_foot_print_counts() -> None:
    made = piece([box("Post 1", (0, 0, 0), (50, 50, 400), along="z", thick="y"),
                  box("Post 2", (1000, 600, 0), (50, 50, 400), along="z", thick="y")])
    (told,) = found(made, surface="paving", fall_along=0.02, fall_away=0.02)
    assert told.measured == "32 mm", "to the left both falls add up: 20 + 12"
    assert "to the left along the wall" in told.detail


@pytest.mark.parametrize("share", [0.01, 0.02, 0.03, 0.05, 0.08, 0.1])
def test_the_side_it_is_taken_to_fall_to_does_not_turn_with_how_much_it_falls(share: float) -> None:
    (told,) = found(piece(legs(1373.3, 450.7)), surface="paving", fall_along=share)
    assert "taken to fall to the right along the wall; the other way asks for no more" in told.detail


def test_soft_ground_is_dug_level_first() -> None:
    (told,) = found(piece(legs(1500, 450)), surface="soil", fall_along=0.02)
    assert told.mend.startswith("Dig or fill the ground level under it")


def test_a_measured_site_that_says_nothing_of_its_ground_is_not_checked() -> None:
    wall = Wall("back", (Measured(2_000_000_000),))
    made = piece(legs(900, 450))
    (told,) = fall.check(asked("fall of the ground"), case(made, Site("against a wall", (wall,))))
    assert told.level is Level.NOT_CHECKED
    assert found(made, surface="paving") == () and found(made) == ()
