"""Sideways sway counts every row of seats, whichever way it runs."""

from __future__ import annotations

import pytest

from handmade import asked, box, case, piece
from yardwright.domain.checks import racking
from yardwright.domain.piece.model import Member

BACK = [box(f"Seat {n}", (0, n * 145.0, 400), (1500, 140, 38)) for n in range(3)]
WING = [box(f"Wing seat {n}", (n * 145.0, -900, 400), (140, 895, 38), along="y") for n in range(3)]
FAR = [box(f"Seat {n}", (0, 900 + n * 145.0, 400), (1500, 140, 38)) for n in range(3, 5)]


def rounded(boards: list[Member]) -> list[tuple[float, tuple[float, float, float]]]:
    return sorted((round(long, 1), way) for long, way in racking.rows(boards))


def test_boards_side_by_side_are_one_row_and_an_l_and_a_table_have_two() -> None:
    assert rounded(BACK) == [(1500.0, (1.0, 0.0, 0.0))]
    assert rounded(BACK + WING) == [(895.0, (0.0, 1.0, 0.0)), (1500.0, (1.0, 0.0, 0.0))]
    assert rounded(BACK + FAR) == [(1500.0, (1.0, 0.0, 0.0))] * 2


def test_a_seat_of_short_boards_across_is_as_long_as_all_of_them() -> None:
    across = [box(f"Slat {n}", (n * 100.0, 0, 400), (90, 450, 25), along="y") for n in range(12)]
    assert rounded(across) == [(1190.0, (1.0, 0.0, 0.0))]


def test_the_wing_sways_along_itself_with_the_load_of_a_row() -> None:
    # IBC 1607 / ASCE 7 (seen): 24 lb a foot along the row, 10 across; 1500 mm and 895 mm, recomputed.
    legs = [box(f"Leg {x} {y}", (x, y, 0), (40, 40, 400), along="z", thick="y")
            for x, y in ((0, 0), (1460, 395), (0, 395), (1460, 0), (0, -900), (395, -900))]
    made = piece([*legs, *BACK, *WING], [asked("seat load", [m.key for m in (*BACK, *WING)])])
    told = racking.check(asked("racking"), case(made))[0]
    per_mm = 4.4482216 / 304.8
    demands = [(24 * 1500 + 10 * 895) * per_mm, (10 * 1500 + 24 * 895) * per_mm]
    said = float(told.limit.split(" lbf")[0].replace(",", "")) * 4.4482216
    assert any(said == pytest.approx(n, abs=3) for n in demands)
