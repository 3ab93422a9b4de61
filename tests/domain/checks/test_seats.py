"""Which level boards people sit on: 10 to 24 in up (data/limits/people.toml), never a floor under earth."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import INCH, asked, box, case, piece
from yardwright.domain.checks.seats import people_along, sat_on
from yardwright.domain.piece.model import Member, Piece


def bed(ends: bool = True) -> list[Member]:
    """A floor 14 in up in a box 20 in high; without ends it is a bench between two walls."""
    sides = [box(f"Side {n}", (0, y, 0), (1000, 20, 20 * INCH), thick="y") for n, y in enumerate((0, 480))]
    across = [box(f"End {n}", (x, 20, 0), (20, 460, 20 * INCH), along="y", thick="x")
              for n, x in enumerate((0, 980))]
    return [*sides, *(across if ends else []), box("Floor", (20, 20, 13 * INCH), (960, 460, INCH))]


def names(made: Piece) -> list[str]:
    return [m.name for m in sat_on(case(made))]


@pytest.mark.parametrize(("rule", "ends", "seats"), [
    ("soil floor", True, []), ("soil weight", True, []), ("board gaps", True, ["Floor"]),
    ("soil floor", False, ["Floor"])])
def test_the_floor_of_a_bed_is_no_seat(rule: str, ends: bool, seats: list[str]) -> None:
    assert names(piece(bed(ends), [asked(rule)])) == seats


def test_a_planter_by_its_tip_over_has_a_floor_under_earth_too() -> None:
    assert names(piece(bed(), [asked("tip over", words={"kind": "planter"})])) == []


@pytest.mark.parametrize(("stands", "seats"), [("hung on a wall", []), ("on the ground", ["Top"])])
def test_a_top_hung_29_in_up_is_no_seat_though_its_lowest_board_is_8_in_up(stands: str,
                                                                           seats: list[str]) -> None:
    made = piece([box("Upright", (0, 480, 8 * INCH), (40, 20, 20 * INCH), along="z", thick="y"),
                  box("Top", (0, 0, 28 * INCH), (1000, 500, INCH))])
    assert names(replace(made, template=replace(made.template, stands=stands))) == seats


def test_a_seat_of_48_in_is_for_two_at_24_in_though_it_is_measured_from_somewhere() -> None:
    assert people_along(2000 + 1219.2 - 2000, 609.6) == 2
    assert people_along(1217.0, 609.6) == 1
