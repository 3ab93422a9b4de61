"""Random-width hardwood: an estimate that says so, by yield and not by factor."""

from __future__ import annotations

from dataclasses import replace

import pytest

import builders as b
from domain.cutting.test_groups import part
from yardwright.domain.cutting import estimate_findings, plan_job
from yardwright.domain.market import BoardStock, Figure
from yardwright.domain.shop import RANDOM_WIDTH_YIELD

SECTION = b.bare_shop().market.sections["1x6"]
RANDOM = BoardStock("RW", SECTION, "western-red-cedar", "Knotty", "dry", 8 * b.FOOT, b.usd("36.67"),
                    random_width=True, sold_by="board foot", rate=b.usd("10.00"), measure=5.5 * 96 / 144)


def only(*boards: BoardStock):
    return b.shop(market=replace(b.market(), boards=boards))


def test_the_wood_is_the_parts_volume_over_the_yield():
    # 24 parts of 36 x 5.5 in, 1 in nominal: 33 board feet net; / 0.75 = 44. Twelve usual boards hold 44.
    (line,), (group,) = plan_job([part("A", 36, 24)], only(RANDOM))
    assert group.plan.status == "estimate"
    assert group.plan.lower_bound == 0
    assert line.amount == b.usd("440.00")
    assert line.spares == 0
    assert "estimate, random width: parts 33 board foot" in line.working


def test_the_yield_is_the_shops_own():
    own = replace(only(RANDOM), random_width_yield=Figure(0.6, "1", "our own log of 40 orders", "seen"))
    (line,), _ = plan_job([part("A", 36, 24)], own)
    assert line.amount == b.usd("550.00")  # 33 / 0.6 = 55 board feet at 10.00
    assert "yield 0.6, seen: 33 / 0.6 = 55" in line.working


def test_it_is_never_less_than_the_boards_laid_out():
    # One part of 50 in a board: 33.3 board feet of parts are less than ten whole boards.
    (line,), _ = plan_job([part("A", 50, 10)], only(RANDOM))
    assert line.count == 10
    assert line.amount.minor == pytest.approx(10 * RANDOM.measure * 1000, abs=1)
    assert "boards laid out hold" in line.working


def test_boards_of_known_width_come_first():
    known = replace(RANDOM, code="FIX", random_width=False, sold_by="piece", price=b.usd("99.00"))
    (line,), (group,) = plan_job([part("A", 36, 4)], only(RANDOM, known))
    assert line.stock.code == "FIX"
    assert group.plan.status == "optimal"
    assert estimate_findings([line], RANDOM_WIDTH_YIELD) == ()


def test_a_note_says_that_it_is_an_estimate():
    bought, _ = plan_job([part("A", 36, 24)], only(RANDOM))
    (finding,) = estimate_findings(bought, RANDOM_WIDTH_YIELD)
    assert (finding.level, finding.customer) == ("note", False)
    assert "0.75" in finding.working
    assert finding.source.endswith("(common practice)")
    assert "estimate" in finding.title


def test_every_part_is_ripped_since_no_board_comes_at_its_width():
    _, (group,) = plan_job([part("A", 36, 2)], only(RANDOM))
    rips = sum(step.times for one in group.plan.layouts for step in one.steps if step.kind == "rip")
    assert rips == 2
