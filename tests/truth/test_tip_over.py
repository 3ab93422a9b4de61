"""Tip-over against the worked bench: 34 in back, 25 lbf, weight 9 in before the rear foot (recomputed).

Needs 25·34/9 = 94.4 lb to stand, 141.7 lb with the factor 1.5; a 60 lb bench falls. Common practice, no
source.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import INCH, asked, box, case, piece, shop
from yardwright.domain.checks import tip_over
from yardwright.domain.checks.words import LB_KG, LBF_N
from yardwright.domain.finding import Finding, Level
from yardwright.domain.market import Goods
from yardwright.domain.money import Money
from yardwright.domain.piece.model import FittedHardware


def bench(pounds: float) -> Finding:
    """A block 18 in deep and 60 in long (its ends hold more than its back), pushed at 34 in."""
    depth, long, high = 18 * INCH, 60 * INCH, 10 * INCH
    density = pounds * LB_KG / (depth * long * high * 1e-9)
    made = piece([replace(box("Block", (0, 0, 0), (long, depth, high)), density_kg_m3=density)])
    return tip_over.check(asked("tip over", push_height=34 * INCH), case(made))[0]


@pytest.mark.parametrize(("pounds", "level"), [
    (60, Level.STOP), (94.3, Level.STOP), (94.6, Level.CAUTION), (141.5, Level.CAUTION), (141.9, Level.OK)])
def test_the_worked_bench_stands_at_94_4_and_is_safe_at_141_7_lb(pounds: float, level: Level) -> None:
    assert bench(pounds).level is level


def test_the_mend_names_the_weight_and_the_spread() -> None:
    """60 lb: 142 lb would do, or the feet 21.25 - 9 = 12 1/4 in further out (1.5·25·34/60 = 21.25 in)."""
    mend = bench(60).mend
    assert "142 lb" in mend
    assert "12 1/4 in" in mend


def test_a_person_on_a_front_edge_past_the_feet() -> None:
    """100 lb with its weight 9 in behind the front foot line holds 250 lbf at 100·9/250 = 3.6 in past it."""
    for over, level in ((3.5, Level.OK), (3.7, Level.STOP)):
        box_ = replace(box("Box", (0, 100, 0), (60 * INCH, 18 * INCH, 400)), density_kg_m3=1.0)
        heavy = replace(box_, density_kg_m3=100 * LB_KG / (box_.volume_mm3 * 1e-9))
        board = replace(box("Seat", (0, 100 - over * INCH, 400), (60 * INCH, 100, 20)), density_kg_m3=0.0)
        made = case(piece([heavy, board]))
        found = tip_over.check(asked("tip over", ["Seat"], push_height=420.0, seat=True), made)
        assert found[1].level is level, over
        assert "3 5/8 in" in found[1].mend or level is Level.OK


def fixed(density: float, *hardware: FittedHardware, load_n: float = 0.0) -> Finding:
    block = replace(box("Block", (0, 0, 0), (60 * INCH, 18 * INCH, 250)), density_kg_m3=density)
    check = asked("tip over", push_height=34 * INCH, anchored=True)
    size = {"load_n": load_n} if load_n else {}
    goods = [Goods("A", "Anchor", "anchor", 1, "each", Money(1, "USD"), size)]
    made = piece([block], [check], hardware=hardware)
    return tip_over.check(check, case(made, at=shop(goods=goods)))[0]


def test_said_to_be_fixed_counts_only_with_two_anchors_in_the_quote() -> None:
    """37.8 lb, 9 in: 340 of 1275 in·lbf; 935 left: 52 lbf up at the far feet, 18 in away, on one of two."""
    two = FittedHardware("Brackets", "anchor", 2, {}, {}, "fit-bracket")
    assert fixed(100.0).level is Level.STOP
    for nothing in (replace(two, count=0.0), replace(two, count=1.0), replace(two, kind="bolt", count=8.0),
                    replace(two, kind="bracket", count=8.0), replace(two, kind="strap", words={"to": "leg"})):
        assert fixed(100.0, nothing).title == "Falls over easily", nothing
    assert fixed(1000.0, two).title == "Stands a push"
    for so in (two, replace(two, kind="strap", words={"to": "ground"})):
        found = fixed(100.0, so)
        assert found.level is Level.CAUTION and "52 lbf on each of its 2 anchors" in found.detail


@pytest.mark.parametrize(("load_lbf", "level"), [(0.0, Level.CAUTION), (50.0, Level.STOP), (53.0, Level.OK)])
def test_fixed_is_proven_by_a_load_in_the_goods_list_only(load_lbf: float, level: Level) -> None:
    anchors = FittedHardware("Brackets", "anchor", 2, {}, {}, "fit-bracket")
    found = fixed(100.0, anchors, load_n=load_lbf * LBF_N)
    assert found.level is level
    assert level is not Level.OK or "what they go into must bear as much" in found.detail


def test_from_100_lbf_on_one_anchor_of_unknown_load_it_is_a_stop() -> None:
    """9 in deep and 9.4 lb: 1275 - 42 = 1233 in·lbf, over 9 in 137 lbf on one of the two."""
    block = replace(box("Block", (0, 0, 0), (60 * INCH, 9 * INCH, 250)), density_kg_m3=50.0)
    check = asked("tip over", push_height=34 * INCH, anchored=True)
    made = piece([block], [check], hardware=[FittedHardware("Brackets", "anchor", 2, {}, {}, "")])
    assert tip_over.check(check, case(made))[0].level is Level.STOP


def test_a_person_on_an_overhang() -> None:
    """W·(L/2 - o) >= 250·o: an 8 ft, 100 lb bench holds 250 lbf on ends 13 in past its feet, not on 14 in.

    100·(48 - o) = 250·o at o = 13.71 in (recomputed).
    """
    for over, level in ((13, Level.OK), (14, Level.STOP)):
        long, depth = 96 * INCH, 60 * INCH
        seat = box("Seat", (0, 0, 400), (long, depth, 50))
        density = 100 * LB_KG / (seat.volume_mm3 * 1e-9)
        heavy = replace(seat, density_kg_m3=density)
        feet = [box(f"Leg {i}", (x, 0, 0), (1, depth, 400), along="z", thick="x")
                for i, x in enumerate((over * INCH, long - over * INCH - 1))]
        weightless = [replace(f, density_kg_m3=0.0) for f in feet]
        made = case(piece([heavy, *weightless]))
        found = tip_over.check(asked("tip over", ["Seat"], push_height=450.0, seat=True), made)
        assert found[1].level is level, over
