"""A room that a lid or door shuts is a chest, whatever the template asks or says of it."""

from __future__ import annotations

import pytest

from builders import demo_shop, demo_shop_metric
from handmade import asked, box, case, piece, shop
from yardwright.domain.checks import run
from yardwright.domain.checks.inside import shut_in_mm3
from yardwright.domain.finding import Finding, Level
from yardwright.domain.measure import Writer
from yardwright.domain.piece.build import build
from yardwright.domain.piece.model import AskedCheck, FittedHardware, Member, Piece, Vector
from yardwright.domain.site import Site

LEVEL: Vector = (1.0, 0.0, 0.0)
UPRIGHT: Vector = (0.0, 0.0, 1.0)
STAY = FittedHardware("Stay", "stay", 2, {}, {}, "")
LATCH = FittedHardware("Hook", "latch", 1, {}, {}, "")


def walls(long: float, deep: float, high: float, *left_out: str) -> list[Member]:
    """Four walls of 20 mm and a floor round a room, its low corner at 20, 20, 20."""
    made = {"Front": box("Front", (0, 0, 0), (long + 40, 20, high + 20), thick="y"),
            "Rear": box("Rear", (0, deep + 20, 0), (long + 40, 20, high + 20), thick="y"),
            "Left": box("Left", (0, 20, 0), (20, deep, high + 20), along="y", thick="x"),
            "Right": box("Right", (long + 20, 20, 0), (20, deep, high + 20), along="y", thick="x"),
            "Floor": box("Floor", (20, 20, 0), (long, deep, 20))}
    return [m for name, m in made.items() if name not in left_out]


def chest(long: float, deep: float, high: float, *checks: AskedCheck, without: tuple[str, ...] = (),
          hardware: tuple[FittedHardware, ...] = (STAY,)) -> Piece:
    top = box("Lid", (0, 0, high + 20), (long + 40, deep + 40, 20), group="lid")
    return piece([*walls(long, deep, high, *without), top], checks, hardware=hardware,
                 lid=((0.0, deep + 40, high + 20), LEVEL, -90.0))


def cupboard(*hardware: FittedHardware, without: str = "") -> Piece:
    """A door 20 mm thick before a room of 600 by 400 by 900 mm."""
    door = box("Door", (0, 0, 0), (640, 20, 920), along="z", thick="y", group="lid")
    top = box("Top", (0, 20, 920), (640, 420, 20))
    return piece([*walls(600, 400, 900, "Front", without), door, top], hardware=hardware,
                 lid=((0.0, 0.0, 0.0), UPRIGHT, -90.0))


def told(made: Piece, rule: str = "chest") -> dict[str, Finding]:
    return {f.title: f for f in run(made, None, Site(), shop(), Writer("in"), rule)}


def test_the_room_is_what_the_walls_bound() -> None:
    """600 × 400 × 300 mm inside and the lid's 20 mm: 76.8 L (geometry)."""
    assert shut_in_mm3(case(chest(600, 400, 300)), "lid") == pytest.approx(600 * 400 * 320)
    floorless = chest(600, 400, 300, without=("Floor",))
    assert shut_in_mm3(case(floorless), "lid") == pytest.approx(600 * 400 * 340), "the ground is a floor"
    for side in ("Front", "Rear", "Left", "Right"):
        assert shut_in_mm3(case(chest(600, 400, 300, without=(side,))), "lid") == 0.0, side
    assert shut_in_mm3(case(cupboard()), "lid") == pytest.approx(600 * 420 * 900)


def test_a_chest_that_nobody_asked_about_is_judged() -> None:
    """77 L > 31 L (1.1 ft³, ASTM F963; seen): without a stay a stop, its air not known."""
    loose = told(chest(600, 400, 300, hardware=()))
    assert loose["Chest: nothing stops the lid from falling on a child"].level is Level.STOP
    held = told(chest(600, 400, 300))
    assert held["Chest: the lid is held open"].level is Level.OK
    assert held["Chest: air not checked"].level is Level.NOT_CHECKED
    latched = told(chest(600, 400, 300, hardware=(STAY, LATCH)))
    assert latched["Chest: a latch can shut a child in"].level is Level.STOP


def test_a_small_box_holds_no_child() -> None:
    assert set(told(chest(300, 200, 150, hardware=()))) == {
        "Chest: too small to shut a child in", "Hinge side: not checked"}


def test_a_room_said_to_be_smaller_than_its_walls_is_judged_by_them() -> None:
    lied = chest(600, 400, 300, asked("chest", inside_volume=2e7, hinge_gap=3.0), hardware=())
    assert "Chest: nothing stops the lid from falling on a child" in told(lied)
    (finding,) = told(lied, "declared").values()
    assert finding.level is Level.STOP and (finding.measured, finding.limit) == ("2.7 ft³", "0.7 ft³")
    fair = chest(600, 400, 300, asked("chest", inside_volume=7.2e7, hinge_gap=3.0))
    assert told(fair, "declared") == {}


def test_a_door_that_a_child_fits_behind_is_not_checked_and_a_latch_on_it_a_stop() -> None:
    assert {title: f.level for title, f in told(cupboard()).items()} == {
        "Door: whether a child inside can open it is not checked": Level.NOT_CHECKED,
        "Chest: air not checked": Level.NOT_CHECKED, "Hinge side: not checked": Level.NOT_CHECKED}
    assert told(cupboard(LATCH))["Chest: a latch can shut a child in"].level is Level.STOP
    assert set(told(cupboard(without="Rear"))) == {"Hinge side: not checked"}, "a gate shuts nothing"


@pytest.mark.parametrize("metric", [False, True])
def test_the_room_of_the_storage_bench_is_near_what_it_says(metric: bool) -> None:
    at = demo_shop_metric() if metric else demo_shop()
    template = at.templates["storage-bench"]
    for size in ({}, {d.name: d.least_nm for d in template.dimensions},
                 {d.name: d.most_nm for d in template.dimensions}):
        made = build(template, size, {}, at, at.units)
        said = next(float(c.values["inside_volume"]) for c in made.checks if c.rule.rule == "chest")
        assert said < shut_in_mm3(case(made, at=at), "lid") < said / 0.8
