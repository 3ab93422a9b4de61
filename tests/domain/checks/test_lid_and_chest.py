"""Lids and chests."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import INCH, asked, box, case, piece, shop
from yardwright.domain.checks import chest, lid
from yardwright.domain.checks.words import LB_KG
from yardwright.domain.finding import Finding, Level
from yardwright.domain.market import Goods
from yardwright.domain.money import Money
from yardwright.domain.piece.model import FittedHardware, Piece

FOOT3 = (12 * INCH) ** 3


def stays(count: float) -> list[FittedHardware]:
    return [FittedHardware("Lid stay", "stay", count, {}, {}, "fit-stay")] if count else []


def lidded(pounds: float = 20, count: float = 2) -> Piece:
    """An even lid 20 in deep, hinged at its back edge."""
    board = box("Lid", (0, 0, 400), (1000, 20 * INCH, 25), group="lid")
    heavy = replace(board, density_kg_m3=pounds * LB_KG / (board.volume_mm3 * 1e-9))
    hinge = ((0.0, 20 * INCH, 412.5), (1.0, 0.0, 0.0), -95.0)
    return piece([heavy], hardware=stays(count), lid=hinge)


def findings(made: Piece, **values: float) -> list[Finding]:
    return list(lid.check(asked("lid", **({"hinge_gap": 3.0} | values)), case(made)))


def test_an_even_lid_takes_half_its_weight_at_the_front_edge() -> None:
    """Handle force W/2, torque W·L/2 = 20·20/2 = 200 in·lbf (moments; recomputed)."""
    hand, held, _ = findings(lidded())
    assert hand.measured == "10 lbf"
    assert "200 in·lbf" in hand.working
    assert hand.level is Level.OK
    assert held.measured == "200 in·lbf"


def test_two_stays_are_rated_110_in_lbf_each() -> None:
    """200 in·lbf over two stays, 1.1 times (common practice)."""
    assert findings(lidded())[1].title == "Lid stays: rated 110 in·lbf each at least"


def test_each_lid_is_held_by_its_own_stays() -> None:
    """One stay holds one of two lids; one that names its lid holds that, and a door needs none."""
    level, upright = ((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 95.0), ((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), 90.0)
    boards = [box(name, (0, n * 500, 400), (400, 400, 25), group=name)
              for n, name in enumerate(("lid", "flap", "gate"))]

    def held(*stays: FittedHardware) -> tuple[int, int]:
        made = replace(piece(boards, hardware=stays), moving={"lid": level, "flap": level, "gate": upright})
        return lid.stays_fitted(made, "lid"), lid.stays_fitted(made, "flap")

    one, = stays(1)
    assert held(one) == (0, 0) and held(replace(one, count=2)) == (1, 1)
    assert held(replace(one, words={"group": "lid"})) == (1, 0)
    assert held(replace(one, words={"group": "lid"}), one) == (1, 1)


def test_rated_stays_are_judged() -> None:
    enough = 110 * 4.4482216 * 25.4 / 1e3
    assert findings(lidded(), stay_torque=enough * 1.001)[1].level is Level.OK
    weak = findings(lidded(), stay_torque=enough * 0.99)[1]
    assert weak.level is Level.CAUTION and "110 in·lbf" in weak.mend


def test_stays_from_a_rated_goods_list_are_chosen_by_the_torque() -> None:
    rated = Goods("STAY", "Lid support", "stay", 1, "each", Money(2000, "USD"), {"torque_nmm": 6779.0})
    found = lid.check(asked("lid"), case(lidded(), at=shop(goods=[rated])))[1]
    assert found.level is Level.OK and found.limit == "220 in·lbf together"


def test_a_lid_without_stays_is_a_caution() -> None:
    assert findings(lidded(count=0))[1].level is Level.CAUTION


@pytest.mark.parametrize(("pounds", "level"), [(40, Level.OK), (60, Level.NOTE), (80, Level.CAUTION)])
def test_a_heavy_lid_is_named(pounds: float, level: Level) -> None:
    """Half of it in the hand: 11 kg is easy, 15 kg the most (lifting practice; memory)."""
    assert findings(lidded(pounds))[0].level is level


def test_no_lid_no_finding() -> None:
    assert lid.check(asked("lid"), case(piece([box("Slat", (0, 0, 0), (1000, 100, 25))]))) == ()


def chest_levels(made: Piece, **values: float) -> dict[str, Level]:
    given = {"inside_volume": 3 * FOOT3, "vent_area": 6 * INCH**2, "hinge_gap": 3.0, **values}
    return {f.title: f.level for f in chest.check(asked("chest", **given), case(made))}


def test_a_chest_under_1_1_cubic_feet_needs_nothing() -> None:
    """Toy-chest rules start at 1.1 ft³ (0.031 m³): ASTM F834/F963; seen."""
    assert list(chest_levels(lidded(count=0), inside_volume=1.0 * FOOT3).values()) == [Level.OK] * 2
    assert Level.STOP in chest_levels(lidded(count=0), inside_volume=1.11 * FOOT3).values()


def test_a_chest_with_stays_and_air_passes() -> None:
    assert set(chest_levels(lidded()).values()) == {Level.OK}


def test_a_chest_without_air_is_stopped_and_an_unsaid_one_is_not_checked() -> None:
    assert chest_levels(lidded(), vent_area=2 * INCH**2)["Chest: no air with the lid shut"] is Level.STOP
    given = chest.check(asked("chest", inside_volume=3 * FOOT3), case(lidded()))
    assert Level.NOT_CHECKED in {f.level for f in given}


def test_a_latch_on_a_chest_is_stopped() -> None:
    made = replace(lidded(), hardware=(*stays(2), FittedHardware("Hasp", "hasp", 1, {}, {}, "")))
    assert chest_levels(made)["Chest: a latch can shut a child in"] is Level.STOP


@pytest.mark.parametrize(("gap", "level"), [(0.125, Level.OK), (0.3, Level.CAUTION), (0.5, Level.OK)])
def test_a_hinge_gap_between_a_fifth_and_half_an_inch_traps_fingers(gap: float, level: Level) -> None:
    """ASTM F963 hinge clearance: 0.2 in or less, or 1/2 in or more; memory."""
    assert level in chest_levels(lidded(), hinge_gap=gap * INCH).values()


def test_fingers_at_the_hinge_of_any_lid_are_judged_or_said_to_be_not_checked() -> None:
    """Also on a box too small for a child, and on a lid without a box."""
    small = chest.check(asked("chest", inside_volume=1.0 * FOOT3), case(lidded()))
    assert [f.title for f in small if f.level is Level.NOT_CHECKED] == ["Hinge side: not checked"]
    lone = lid.check(asked("lid"), case(lidded()))
    assert [f.title for f in lone if f.level is Level.NOT_CHECKED] == ["Hinge side: not checked"]
    assert findings(lidded(), hinge_gap=8.0)[2].level is Level.CAUTION
    both = replace(lidded(), checks=(asked("lid"), asked("chest", inside_volume=3 * FOOT3)))
    assert "Hinge side" not in " ".join(f.title for f in lid.check(asked("lid"), case(both)))


def test_a_deep_chest_is_noted() -> None:
    assert chest_levels(lidded(), inside_depth=30 * INCH)["Chest: deep to empty"] is Level.NOTE
