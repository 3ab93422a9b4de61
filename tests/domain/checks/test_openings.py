"""Openings that trap: frames worked by hand, and random frames against a plain raster of millimetres."""

from __future__ import annotations

import random

import pytest

from handmade import asked, box, case, piece, shop
from yardwright.domain.checks import openings as rule
from yardwright.domain.checks import run
from yardwright.domain.checks.holes import Probe, openings
from yardwright.domain.finding import Finding, Level
from yardwright.domain.measure import Writer
from yardwright.domain.piece.model import Member
from yardwright.domain.site import Site


def frame(wide: float, high: float, low: float, closed: bool = True) -> list[Member]:
    """Two posts and two rails 40 mm thick around an opening of ``wide`` x ``high``, its edge ``low`` up."""
    posts = [box(f"Post {n}", (x, 0, 0), (60, 40, low + high + 60), along="z", thick="y")
             for n, x in enumerate((-60.0, wide))]
    rails = [box(f"Rail {n}", (0, 0, z), (wide, 40, 60), thick="y")
             for n, z in enumerate((low - 60, low + high)) if n or closed]
    return [*posts, *rails]


def judged(members: list[Member], users: str) -> tuple[Finding, ...]:
    made = piece(members, [asked("seat", height=350.0, users=users)])
    return rule.check(asked("openings"), case(made, units="mm"))


@pytest.mark.parametrize(("wide", "low", "users", "level"), [
    (150.0, 300.0, "adult", Level.NOTE), (150.0, 300.0, "child", Level.CAUTION),
    (150.0, 600.0, "child", Level.STOP), (150.0, 599.0, "child", Level.CAUTION),
    (89.5, 700.0, "child", Level.STOP), (229.0, 700.0, "child", Level.STOP)])
def test_what_takes_a_childs_head_and_no_more_is_told_by_who_uses_it(wide: float, low: float, users: str,
                                                                     level: Level) -> None:
    """89 to 230 mm; 600 mm: ASTM F1487, EN 1176-1 (memory)."""
    (found,) = judged(frame(wide, 400.0, low), users)
    assert found.level is level
    assert found.measured == f"{round(wide)} mm" or wide == 89.5


@pytest.mark.parametrize(("wide", "high"), [(88.0, 400.0), (231.0, 400.0), (150.0, 60.0)])
def test_openings_too_small_for_a_head_or_large_enough_to_leave_trap_nobody(wide: float, high: float) -> None:
    assert judged(frame(wide, high, 700.0), "child") == ()


def test_a_way_open_to_one_side_is_no_closed_opening() -> None:
    assert judged(frame(150.0, 400.0, 700.0, closed=False), "child") == ()


def test_a_recess_with_a_board_close_behind_takes_no_head() -> None:
    behind = box("Panel", (-60, 60, 0), (270, 20, 1200), along="z", thick="y")
    assert judged([*frame(150.0, 400.0, 700.0), behind], "child") == ()


def test_fingers_of_children_are_caught_by_slots_of_8_to_25_mm() -> None:
    (found,) = judged(frame(12.0, 400.0, 700.0), "child")
    assert found.level is Level.CAUTION and "fingers" in found.title
    assert judged(frame(12.0, 400.0, 700.0), "adult") == ()
    assert judged(frame(7.0, 400.0, 700.0), "child") == ()


def test_under_an_arm_of_a_childs_chair_is_looked_at() -> None:
    """Arm 165 mm above the side rail, legs at both ends: 165 mm is neither small nor large enough."""
    parts = [box("Leg 1", (0, 0, 0), (40, 60, 500), along="z", thick="x"),
             box("Leg 2", (0, 440, 0), (40, 60, 500), along="z", thick="x"),
             box("Side rail", (0, 60, 250), (40, 380, 85), along="y", thick="x"),
             box("Arm", (-20, 0, 500), (90, 500, 25), along="y")]
    (found,) = judged(parts, "child")
    assert found.measured == "165 mm" and "Arm" in found.detail and "Side rail" in found.detail


def test_a_piece_of_very_many_members_that_children_use_is_not_checked() -> None:
    slats = [box(f"Slat {n}", (0, 0, 30.0 * n), (900, 40, 20), thick="y") for n in range(340)]
    made = piece(slats, [asked("seat", height=350.0, users="child")])
    (found,) = run(made, None, Site(), shop(), Writer("mm"), "openings")
    assert found.level is Level.NOT_CHECKED
    assert judged(slats, "adult") == ()


def raster(members: list[Member], size: int) -> set[int]:
    """Widths in mm of the largest squares in the closed openings of boards in one plane, cell by cell."""
    free = {(x, z) for x in range(-1, size + 1) for z in range(-1, size + 1)}
    for m in members:
        (x0, _, z0), (x1, z1) = m.frame.origin, (max(c[0] for c in m.corners), max(c[2] for c in m.corners))
        free -= {(x, z) for x in range(round(x0), round(x1)) for z in range(round(z0), round(z1))}
    found = set()
    while free:
        waiting, hole = [min(free)], set()
        while waiting:
            cell = waiting.pop()
            if cell in free:
                free.discard(cell)
                hole.add(cell)
                waiting += [(cell[0] + 1, cell[1]), (cell[0] - 1, cell[1]), (cell[0], cell[1] + 1),
                            (cell[0], cell[1] - 1)]
        if (-1, -1) not in hole:
            side: dict[tuple[int, int], int] = {}
            for x, z in sorted(hole):
                beside = ((x - 1, z), (x, z - 1), (x - 1, z - 1))
                side[x, z] = 1 + min(side.get(cell, 0) for cell in beside)
            found.add(max(side.values()))
    return found


@pytest.mark.parametrize("seed", range(25))
def test_random_boards_in_a_plane_leave_the_openings_that_a_raster_finds(seed: int) -> None:
    chance, size = random.Random(seed), 90
    boards = []
    for n in range(chance.randint(4, 9)):
        long, thin = 2 * chance.randint(10, 40), 2 * chance.randint(2, 5)
        wide, high = chance.choice(((long, thin), (thin, long)))
        at = 2 * chance.randint(0, (size - wide) // 2), 2 * chance.randint(0, (size - high) // 2)
        boards.append(box(f"Board {n}", (at[0], 0, at[1]), (wide, 10, high), thick="y"))
    found = {round(o.wide_mm) for o in openings(boards, Probe(1.5, 1e9, 10.0, 10.0))}
    assert found == {wide for wide in raster(boards, size) if wide > 1}


def crib(soil: bool) -> tuple[Finding, ...]:
    """A box of boards in three courses of 140 mm, 200 mm wide inside, under a rim of rails."""
    sides, rim = [], []
    for n in range(3):
        sides += [box(f"Side {n} {y:g}", (0, y, 140.0 * n), (900, 25, 140), thick="y") for y in (0.0, 225.0)]
        sides += [box(f"End {n} {x:g}", (x, 25, 140.0 * n), (25, 200, 140), along="y", thick="x")
                  for x in (0.0, 875.0)]
    rim += [box(f"Rim {y:g}", (0, y, 420), (900, 25, 25)) for y in (0.0, 225.0)]
    rim += [box(f"Rim end {x:g}", (x, 25, 420), (25, 200, 25), along="y") for x in (0.0, 875.0)]
    checks = [asked("soil sides", [m.key for m in sides], soil_top=350.0)] if soil else []
    return rule.check(asked("openings"), case(piece([*sides, *rim], checks), units="mm"))


def test_the_open_top_of_a_filled_box_is_no_opening_and_that_of_an_empty_one_is() -> None:
    """Soil closes it: nothing goes through. Judgement, no source."""
    (empty,) = crib(soil=False)
    assert empty.measured == "200 mm"
    assert crib(soil=True) == ()


def test_what_adults_use_has_a_note_to_the_shop_alone_and_children_are_told_on_the_paper() -> None:
    (adult,), (child,) = (judged(frame(150.0, 400.0, 300.0), users) for users in ("adult", "child"))
    assert not adult.customer and child.customer
