"""Soil in planters: sideways, on the floor, and as weight."""

from __future__ import annotations

import pytest

from handmade import INCH, PINE, asked, box, case, limits, piece
from yardwright.domain.checks import bed_reach, growing_food, soil_floor, soil_sides, soil_weight, tip_over
from yardwright.domain.checks.words import PSF
from yardwright.domain.finding import Finding, Level
from yardwright.domain.piece.model import Member, Piece

HIGH = 18 * INCH


def planter(length: float, thick: float = 0.75 * INCH, stakes: bool = False) -> Piece:
    """Long sides and ends of three boards on corner posts; ``stakes`` join a side's boards at its middle."""
    wide, t = 6 * INCH, thick
    members: list[Member] = []
    for row in range(3):
        z = row * wide
        members += [box(f"Long {row}{side}", (0, y, z), (length, t, wide), thick="y")
                    for side, y in enumerate((0, 400 - t))]
        members += [box(f"End {row}{side}", (x, t, z), (t, 400 - 2 * t, wide), along="y", thick="x")
                    for side, x in enumerate((0, length - t))]
    posts = [(x, y) for x in (t, length - t - 40) for y in (t, 400 - t - 40)]
    members += [box(f"Post {i}", (x, y, 0), (40, 40, HIGH), along="z", thick="y")
                for i, (x, y) in enumerate(posts)]
    if stakes:
        members += [box(f"Stake {i}", (length / 2, y, 0), (40, 40, HIGH), along="z", thick="y")
                    for i, y in enumerate((t, 400 - t - 40))]
    screwed = [("Long", "Post"), ("End", "Post")] + ([("Long", "Stake")] if stakes else [])
    return piece(members, screwed=screwed)


def sides(made: Piece) -> dict[str, Finding]:
    keys = [m.key for m in made.members if m.name[:3] in ("Lon", "End")]
    found = soil_sides.check(asked("soil sides", keys, soil_top=HIGH), case(made))
    return {f.title: f for f in found}


def test_the_side_pressure_of_18_in_of_soil_is_60_psf_at_the_bottom() -> None:
    """30-40 lb/ft² for each ft: 45-60 psf at 18 in; building practice, memory."""
    assert limits()["soil.side_pressure"].value * HIGH == pytest.approx(60 * PSF)


def test_a_short_planter_holds_and_a_long_one_bulges_or_breaks() -> None:
    assert list(sides(planter(20 * INCH))) == ["Soil sides: carried"]
    long = sides(planter(60 * INCH))
    assert long["Long: too weak for its load"].level is Level.STOP


def test_stakes_that_only_join_boards_do_not_help() -> None:
    plain, staked = sides(planter(60 * INCH)), sides(planter(60 * INCH, stakes=True))
    assert plain["Long: too weak for its load"].measured == staked["Long: too weak for its load"].measured


def test_the_lowest_board_takes_the_pressure_at_its_middle_by_hand() -> None:
    """p = 40 psf/ft × 15 in = 50 psf; w = 50/144 × 6 in = 2.083 lb/in; M = wL²/8 (recomputed)."""
    made = planter(30 * INCH)
    finding = next(iter(sides(made).values()))
    span = 30 * INCH - 2 * 0.75 * INCH - 40
    moment = 2.08333 * (span / INCH) ** 2 / 8
    cantilever = 2.08333 * ((30 - span / INCH) / 2) ** 2 / 2
    stress = (moment - cantilever) / (6 * 0.75**2 / 6)
    assert finding.measured.startswith(f"bending {stress:.0f} psi")


def floor_of(span: float, depth: float) -> Finding:
    boards = [box(f"Floor {n}", (0, n * 110, 100), (span + 40, 100, 19)) for n in range(3)]
    ledgers = [box(f"Ledger {i}", (x, 0, 60), (40, 330, 40), along="y") for i, x in enumerate((0, span))]
    legs = [box(f"Leg {i}{j}", (x, y, 0), (40, 40, 60), along="z", thick="y")
            for i, x in enumerate((0, span)) for j, y in enumerate((0, 290))]
    made = piece([*boards, *ledgers, *legs])
    return soil_floor.check(asked("soil floor", [b.key for b in boards], soil_depth=depth), case(made))[0]


def test_floor_boards_carry_wet_soil_on_a_short_span_only() -> None:
    assert floor_of(400, 400).level is Level.OK
    assert floor_of(1200, 400).level is Level.STOP


def weight(soil: str = "garden") -> Finding:
    made = piece([box("Box", (0, 0, 0), (48 * INCH, 24 * INCH, 18 * INCH))])
    check = asked("soil weight", words={"soil": soil}, soil_volume=12 * (12 * INCH) ** 3)
    return soil_weight.check(check, case(made))[0]


def test_12_cubic_feet_of_light_mix_weigh_720_lb() -> None:
    """4 × 2 ft × 18 in inside = 12 ft³; at 60 lb/ft³ 720 lb (recomputed)."""
    assert "(720 lb of soil)" in weight(soil="light").detail
    assert "(1200 lb of soil)" in weight().detail


def test_treated_wood_around_food_is_a_caution_and_durable_wood_is_not() -> None:
    treated = piece([box("Side", (0, 0, 0), (1000, 20, 140), kind=PINE)])
    plain = piece([box("Side", (0, 0, 0), (1000, 20, 140))])
    assert growing_food.check(asked("growing food"), case(treated))[0].level is Level.CAUTION
    assert growing_food.check(asked("growing food"), case(plain))[0].level is Level.OK
    assert growing_food.check(asked("growing food", edible=False), case(treated)) == ()


@pytest.mark.parametrize(("width_in", "side", "level"), [
    (24, "one side", Level.OK), (30, "one side", Level.NOTE), (48, "both sides", Level.OK),
    (54, "both sides", Level.NOTE)])
def test_a_bed_is_reached_2_ft_from_one_side_and_4_ft_from_both(width_in: float, side: str,
                                                                level: Level) -> None:
    """Raised-bed guides; seen."""
    made = case(piece([box("Side", (0, 0, 0), (1000, 20, 140))]))
    check = asked("bed reach", words={"from": side}, width=width_in * INCH)
    assert bed_reach.check(check, made)[0].level is level


@pytest.mark.parametrize(("high_in", "soil_ft3", "level"), [
    (20, 5, Level.NOTE), (26, 20, Level.CAUTION), (26, 0.5, Level.STOP)])
def test_a_tall_planter_that_falls_is_stopped_and_a_low_one_noted(high_in: float, soil_ft3: float,
                                                                  level: Level) -> None:
    made = piece([box("Box", (0, 0, 0), (30 * INCH, 12 * INCH, 100))])
    check = asked("tip over", words={"kind": "planter"}, push_height=high_in * INCH,
                  soil_volume=soil_ft3 * (12 * INCH) ** 3)
    assert tip_over.check(check, case(made))[0].level is level
