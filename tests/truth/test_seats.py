"""Seats against the 2010 ADA Standards 903 and people to a bench against IBC 1004.6."""

from __future__ import annotations

import pytest

from handmade import INCH, asked, box, case, limits, piece
from yardwright.domain.checks import seat
from yardwright.domain.checks.words import LBF_N
from yardwright.domain.finding import Level

BENCH = piece([box("Slat", (0, 0, 0), (1000, 100, 25))])


def levels(**inches: float) -> dict[str, Level]:
    """Seat findings of an accessible bench by the first word of their title."""
    values = {name: value * INCH for name, value in inches.items()}
    found = seat.check(asked("seat", users="accessible", **values), case(BENCH))
    return {f.title.split(":")[0]: f.level for f in found}


@pytest.mark.parametrize(("height", "depth", "level"), [
    (17, 20, Level.OK), (19, 24, Level.OK), (18, 22, Level.OK),
    (16.5, 19.5, Level.CAUTION), (19.5, 24.5, Level.CAUTION)])
def test_accessible_seats_are_17_to_19_in_high_and_20_to_24_in_deep(
        height: float, depth: float, level: Level) -> None:
    """2010 ADA Standards 903.3, 903.5; seen."""
    found = levels(height=height, depth=depth)
    assert found["Seat height"] == found["Seat depth"] == level


def test_accessible_seats_are_42_in_long_at_least() -> None:
    """2010 ADA Standards 903.3; seen."""
    assert "Short for an accessible bench" in levels(height=18, length=41.5)
    assert "Short for an accessible bench" not in levels(height=18, length=42)


def test_an_accessible_back_ends_18_in_above_the_seat_at_least() -> None:
    """2010 ADA Standards 903.4; seen."""
    assert levels(height=18, back_top=17.5)["Back"] is Level.NOTE
    assert levels(height=18, back_top=18)["Back"] is Level.OK


def test_the_seat_load_is_250_lbf_or_1112_n() -> None:
    """2010 ADA Standards 903.6 gives both; seen."""
    load = limits()["structure.seat_load"].value
    assert load == pytest.approx(250 * LBF_N)
    assert load == pytest.approx(1112, abs=0.5)


def test_an_accessible_back_begins_2_in_above_the_seat_at_most() -> None:
    """2010 ADA Standards 903.4; seen."""
    assert set(levels(height=18, back_top=18, back_gap=2)) == {"Seat height", "Back"}
    high = asked("seat", users="accessible", height=18 * INCH, back_top=18 * INCH, back_gap=2.5 * INCH)
    found = seat.check(high, case(BENCH))
    assert "Back: begins high above the seat" in {f.title for f in found}


@pytest.mark.parametrize(("length_mm", "people"), [(1500, 3), (60 * INCH, 3), (72 * INCH, 4), (18 * INCH, 1)])
def test_people_to_a_bench(length_mm: float, people: int) -> None:
    """One person for each 18 in (457 mm) of bench without arms: IBC 1004.6 (memory); counts recomputed."""
    found = seat.check(asked("seat", height=450.0, length=length_mm), case(BENCH))
    assert any(f.title.startswith(f"Room for {people} ") for f in found)


@pytest.mark.parametrize(("length_in", "users", "level", "title"), [
    (17.9, "adult", Level.NOTE, "Room for one, snug"), (16, "adult", Level.NOTE, "Room for one, snug"),
    (15.9, "older", Level.CAUTION, "Narrow for one adult"), (12, "child", Level.NOTE, "Room for one, snug")])
def test_a_seat_under_18_in_is_for_one_and_under_16_in_narrow_for_an_adult(
        length_in: float, users: str, level: Level, title: str) -> None:
    """Hips of large adults sitting 16-17 in (memory); 18 in a person: IBC 1004.6 (memory)."""
    found = seat.check(asked("seat", height=450.0, length=length_in * INCH, users=users), case(BENCH))
    assert [(f.level, f.title) for f in found if "one" in f.title] == [(level, title)]


@pytest.mark.parametrize(("length_in", "people"), [(72, 3), (96, 4)])
def test_people_to_a_bench_in_comfort_at_24_in(length_in: float, people: int) -> None:
    """People per bench at 24 in each (recomputed)."""
    found = seat.check(asked("seat", height=450.0, length=length_in * INCH), case(BENCH))
    assert any(f"{people} in comfort" in f.detail for f in found)
