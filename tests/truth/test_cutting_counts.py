"""Sawing counts a shop can check by hand.

Sources: floor((L - trim + kerf) / (part + kerf)), recomputed; the bench is common practice, no source.
"""

from __future__ import annotations

import pytest

from yardwright.domain.cutting import plan
from yardwright.domain.cutting.model import CutRules, NeededPart, StockLine
from yardwright.domain.errors import NoStock

INCH, MM = 25_400_000, 1_000_000


@pytest.mark.parametrize(
    ("board_nm", "trim_nm", "kerf_nm", "part_nm", "fit"),
    [
        # 96 in, 1/2 in of trim in all, kerf 1/8: (95.5 + 0.125) / 22.125 = 4.32 (recomputed)
        (96 * INCH, INCH // 4, INCH // 8, 22 * INCH, 4),
        # 96 in untrimmed, part 24 in: four would need 96.375 in (recomputed)
        (96 * INCH, 0, INCH // 8, 24 * INCH, 3),
        # 2440 mm, kerf 3: four of 600 need 2409 mm (recomputed)
        (2440 * MM, 0, 3 * MM, 600 * MM, 4),
        # exactly full: 4 x 24 in + 3 kerfs of 1/8 = 96.375 in (recomputed)
        (96 * INCH + 3 * INCH // 8, 0, INCH // 8, 24 * INCH, 4),
    ],
)
def test_as_many_parts_come_out_of_a_board_as_arithmetic_says(
    board_nm: int, trim_nm: int, kerf_nm: int, part_nm: int, fit: int
) -> None:
    stock = [StockLine("board", board_nm, 100 * MM, 100, count=1)]
    rules = CutRules(kerf_nm, kerf_nm, end_trim_nm=trim_nm)
    made = plan([NeededPart("A", part_nm, 100 * MM, fit)], stock, rules)
    assert len(made.layouts) == 1
    with pytest.raises(NoStock):
        plan([NeededPart("A", part_nm, 100 * MM, fit + 1)], stock, rules)


def test_a_bench_comes_out_of_four_ten_foot_boards() -> None:
    # Common practice, no source: kerf 1/8, no end trim, full width.
    wide = round(5.5 * INCH)
    sizes = (("A", 35.5, 5), ("B", 34, 4), ("C", 32, 2), ("D", 16, 2), ("E", 13, 4))
    parts = [NeededPart(mark, round(inches * INCH), wide, count) for mark, inches, count in sizes]
    made = plan(parts, [StockLine("10 ft", 120 * INCH, wide, 1999)], CutRules(INCH // 8, INCH // 8))
    assert len(made.layouts) == 4
    assert made.status == "optimal"


def test_a_glued_leg_comes_from_one_board_ripped_once() -> None:
    # Wide strip r, narrow strip board - r - kerf (recomputed): 3 1/16 + 1/8 + 2 5/16 = 5 1/2 in.
    strips = [NeededPart("W", 17 * INCH, 49 * INCH // 16, 1), NeededPart("N", 17 * INCH, 37 * INCH // 16, 1)]
    stock = [StockLine("short", 17 * INCH, round(5.5 * INCH), 100, count=1)]
    made = plan(strips, stock, CutRules(INCH // 8, INCH // 8))
    assert [(p.mark, p.y_nm) for p in made.layouts[0].parts] == [("W", 0), ("N", 51 * INCH // 16)]
    assert sum(step.times for step in made.layouts[0].steps if step.kind == "rip") == 1
