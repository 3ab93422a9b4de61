"""What anchors must hold, against moments worked by hand; what they can hold: the goods list, or unknown."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import CEDAR, asked, box, case, piece, shop
from yardwright.domain.checks import anchors
from yardwright.domain.finding import Finding, Level
from yardwright.domain.market import Goods
from yardwright.domain.money import Money
from yardwright.domain.piece.model import FittedHardware, Piece
from yardwright.domain.site import Site

LBF_N, INCH = 4.4482216152605, 25.4
HIGH, DEEP, LONG = 32 * INCH, 12 * INCH, 36 * INCH


def anchor(count: float = 2, kind: str = "anchor") -> FittedHardware:
    return FittedHardware("Bracket", kind, count, {}, {}, "")


def goods(load_n: float | None, kind: str = "anchor") -> Goods:
    size = {} if load_n is None else {"load_n": load_n}
    return Goods(f"A{load_n}", "Bracket", kind, 2, "each", Money(100, "USD"), size, "stainless")


def cabinet(hardware: tuple[FittedHardware, ...] = (anchor(),), fixed: bool = True) -> Piece:
    """A solid block 32 in high, 12 in deep, 36 in long: its weight acts 6 in from either foot line."""
    block = box("Block", (0, 0, 0), (LONG, DEEP, HIGH))
    return piece([block], checks=[asked("tip over", push_height=HIGH, anchored=fixed)], hardware=hardware)


def light(made: Piece, lb: float) -> Piece:
    return replace(made, mass_kg=lb * 0.45359237)


def judged(made: Piece, *sold: Goods, site: Site | None = None) -> tuple[Finding, ...]:
    return anchors.check(asked("anchors"), case(made, site, shop([CEDAR], goods=sold)))


def test_the_pull_is_the_moment_its_weight_leaves_by_hand() -> None:
    """36 lb, 6 in: 216 in·lbf hold; 1.5 x 25 lbf x 32 in = 1200 tip. Left 984: /32 = 30.75, /12 = 82 lbf.

    A child of 25 kg (55.1 lb) 4 in out is 220 - 216 = 4 in·lbf: less. Moments; hand calculation.
    """
    (found,) = judged(light(cabinet(), 36.0))
    assert found.level is Level.NOT_CHECKED
    assert "31 lbf together at 32 in" in found.detail and "82 lbf upward" in found.detail
    assert found.limit == "not known: no load is given for them"
    assert found.measured == "82 lbf on each"            # one of the two is at the far feet
    assert "984 in·lbf" in found.working


@pytest.mark.parametrize(("load_lbf", "level"), [(81.0, Level.STOP), (83.0, Level.NOTE)])
def test_a_load_in_the_goods_list_decides(load_lbf: float, level: Level) -> None:
    (found,) = judged(light(cabinet(), 36.0), replace(goods(load_lbf * LBF_N), load_from="maker's sheet"))
    assert found.level is level and found.source.endswith("load: maker's sheet")


def test_the_weakest_that_may_be_bought_counts_and_one_without_a_load_is_not_checked() -> None:
    made = light(cabinet(), 36.0)
    assert judged(made, goods(400.0), goods(150.0))[0].level is Level.STOP
    assert judged(made, goods(400.0), goods(None))[0].level is Level.NOT_CHECKED


@pytest.mark.parametrize(("count", "each"), [(3, 82), (4, 41), (5, 41), (6, 27)])
def test_half_of_the_anchors_share_the_pull_at_the_feet(count: int, each: int) -> None:
    """82 lbf upward on 1, 2, 2 and 3 of them."""
    (found,) = judged(light(cabinet((anchor(count),)), 36.0))
    assert found.measured == f"{each} lbf on each"


def test_nothing_is_asked_of_anchors_where_the_weight_holds_or_nothing_is_fixed() -> None:
    assert judged(light(cabinet(), 400.0)) == ()             # 2400 in·lbf > 1200
    assert judged(light(cabinet(fixed=False), 36.0)) == ()
    assert judged(light(cabinet(hardware=()), 36.0)) == ()


def test_wind_on_a_fixed_screen_asks_most_of_its_anchors() -> None:
    """1.8 m x 1.8 m at 30 m/s: q = 0.613·900 = 551.7 N/m2, F = 1.5·551.7·3.24 = 2681 N; /2 at the top 1341 N.

    Its own 40 kg on feet 300 mm apart hold 0.6·392·0.15 = 35 N·m of 2413; by hand, ASCE 7 form (memory).
    """
    screen = box("Screen", (0, 0, 0), (1800, 300, 1800))
    made = replace(piece([screen], checks=[asked("tip over", push_height=1800.0, anchored=True)],
                         hardware=[anchor(4)]), mass_kg=40.0)
    found = anchors.check(asked("anchors"), case(made, Site(exposure="suburban"), shop([CEDAR]), units="mm"))
    held = 2681.3 * 0.9 - 0.6 * 40 * 9.80665 * 0.15
    assert found[0].measured == f"{held / 0.3 / 2:.0f} N on each"
    assert "under wind" in found[0].detail
    assert "not checked" in anchors_without_exposure(made)


def anchors_without_exposure(made: Piece) -> str:
    from yardwright.domain.checks import run
    from yardwright.domain.measure import Writer

    told = run(made, None, Site(), shop([CEDAR]), Writer("mm"), "anchors")
    return told[0].title
