"""Moving loads, which of bending and shear decides, pitch, and carriers along the boards."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

import pytest

from handmade import INCH, PINE, asked, box, case, contacts, piece
from yardwright.domain.checks import seat_load, soil_floor
from yardwright.domain.checks.boards import pitch_mm, stack
from yardwright.domain.checks.loaded import Bar, lies_flat, moving, share_that_serves, spread
from yardwright.domain.checks.strength import Strength
from yardwright.domain.checks.supports import footing, places, supports
from yardwright.domain.finding import Level
from yardwright.domain.piece.model import MadeJoint, Member
from yardwright.domain.template.model import Joint

BAR = Bar(1000.0, 100.0, 20.0, (0.0, 1000.0))


def test_a_point_load_is_worst_in_the_middle_and_its_shear_near_a_support() -> None:
    """PL/4 and nearly P (beam handbook; memory)."""
    worst = moving(BAR, 800.0, 1.0, 10_000.0)
    assert worst.moment_nmm == pytest.approx(800 * 1000 / 4, rel=2e-3)
    assert worst.shear == pytest.approx(1.5 * 800 / (100 * 20), rel=0.03)
    assert worst.shear < 1.5 * 800 / (100 * 20)
    assert worst.reaction_n == pytest.approx(800, rel=2e-3)


def test_an_even_load_all_along() -> None:
    """wL²/8, and the shear taken a depth from the support: w(L/2 - h) (NDS 3.4.3.1; memory)."""
    worst = spread(BAR, 2.0, 10_000.0)
    assert worst.moment_nmm == pytest.approx(2 * 1000**2 / 8)
    assert worst.shear == pytest.approx(1.5 * 2 * (500 - 20) / (100 * 20))
    assert worst.sag_mm == pytest.approx(5 * 2 * 1000**4 / (384 * 10_000 * 100 * 20**3 / 12))


def test_an_overhang_is_found_and_its_uplift_too() -> None:
    beam = replace(BAR, supports_mm=(0.0, 700.0))
    worst = moving(beam, 100.0, 1.0, 10_000.0)
    assert worst.moment_nmm == pytest.approx(100 * 300, rel=5e-3)
    assert worst.sag_overhangs and worst.sag_span_mm == pytest.approx(300)
    assert worst.uplift_n == pytest.approx(100 * 300 / 700, rel=5e-3)


def test_the_greater_of_bending_and_shear_decides() -> None:
    worst = spread(BAR, 2.0, 10_000.0)
    bends = Strength(worst.bending / 0.9, worst.shear / 0.5, 10_000.0, "", "")
    shears = Strength(worst.bending / 0.5, worst.shear / 1.2, 10_000.0, "", "")
    assert worst.used(bends) == pytest.approx(0.9)
    assert worst.used(shears) == pytest.approx(1.2)


def test_the_share_that_serves_is_found_closely() -> None:
    assert share_that_serves(lambda share: share <= 0.6) == pytest.approx(0.6, abs=1e-3)
    assert share_that_serves(lambda share: False) == 0.0


def test_flat_is_wider_than_deep() -> None:
    assert lies_flat(BAR) and not lies_flat(Bar(1000.0, 20.0, 100.0, (0.0, 1000.0)))


def test_pitch_is_to_the_nearest_neighbour_in_the_same_layer() -> None:
    boards = [box(f"Slat {n}", (0, y, 0), (1000, 90, 20)) for n, y in enumerate((0, 100, 230))]
    above = box("Slat 9", (0, 3, 20), (1000, 90, 20))
    across = box("Rail", (0, 40, 0), (40, 300, 20), along="y")
    assert pitch_mm(boards[0], boards) == pytest.approx(100)
    assert pitch_mm(boards[2], boards) == pytest.approx(130)
    assert pitch_mm(boards[0], [boards[0], above, across]) == pytest.approx(90)


def floor_on(bearer: Member, *under: Member) -> dict[str, Level]:
    boards = [box(f"Floor {n}", (0, n * 110, 100), (700, 100, 38), kind=PINE, grade="No.1") for n in range(3)]
    walls = [box(f"Wall {i}", (x, 0, 0), (40, 330, 100), along="y", thick="x")
             for i, x in enumerate((0, 660))]
    held = [("Bearer", "Wall")] if not under else []
    made = case(piece([*boards, *walls, bearer, *under], screwed=held))
    check = asked("soil floor", [b.key for b in boards], soil_depth=450.0)
    return {f.title: f.level for f in soil_floor.check(check, made)}


def test_a_bearer_along_a_board_takes_that_boards_share_and_one_across_half_of_all() -> None:
    """Wet soil 450 mm deep: 7 kN/m². Along: 0.110 m of it on 620 mm; across: 0.35 m of it on 620 mm (by hand
    5.5 and 17 N/mm² in a 45 × 30 mm bearer; 7.5 allowed)."""
    along = box("Bearer", (40, 10, 70), (620, 45, 30), kind=PINE)
    assert "Bearer: too weak for its load" not in floor_on(along)
    across = box("Bearer", (340, -150, 70), (45, 630, 30), along="y", kind=PINE)
    posts = [box(f"Post {i}", (340, y, 0), (45, 10, 70), along="z", thick="y")
             for i, y in enumerate((-150, 470))]
    assert floor_on(across, *posts)["Bearer: too weak for its load"] is Level.STOP


def test_boards_on_edge_one_on_another_bend_together() -> None:
    wall = [box(f"Panel {n}", (0, 0, n * 100), (1000, 20, 100), thick="y") for n in range(3)]
    apart = [box(f"Panel {n}", (0, 0, n * 110), (1000, 20, 100), thick="y") for n in range(3)]
    assert stack(case(piece(wall)), wall[2]) == {"Panel 0", "Panel 1", "Panel 2"}
    assert stack(case(piece(apart)), apart[2]) == {"Panel 2"}


def test_glue_holds_as_screws_do_and_a_bare_touch_does_not() -> None:
    """A ledger glued to two posts stands; one that only touches them does not."""
    members = [box("Slat", (0, 40, 200), (1000, 90, 20)), box("Ledger", (0, 40, 160), (1000, 40, 40)),
               *(box(f"Leg {i}", (x, 0, 0), (40, 40, 200), along="z", thick="y")
                 for i, x in enumerate((0, 960)))]
    bare = piece(members)
    held = tuple(c for c in contacts(members) if {c.first[:3], c.second[:3]} == {"Led", "Leg"})
    rule = Joint("Ledger", ("Ledger",), ("Leg*",), "none", glue=True)
    glued = replace(bare, joints=(MadeJoint(rule, held, 0),))
    for made, stands in ((bare, False), (glued, True)):
        seen = case(made)
        on = footing(seen, frozenset({"Slat"}))
        assert (len(places(supports(seen, seen.member("Slat"), on))) >= 2) is stands


def test_a_leg_as_thick_as_the_mend_says_stands() -> None:
    def legged(thick: float) -> dict[str, str]:
        board = box("Slat", (0, 0, 900), (400, 140, 38), kind=PINE, grade="No.1")
        legs = [box(f"Leg {i}", (x, 0, 0), (thick, 38, 900), along="z", thick="x")
                for i, x in enumerate((0, 400 - thick))]
        found = seat_load.check(asked("seat load", ["Slat"]), case(piece([board, *legs])))
        return {f.title: f.mend for f in found}

    mend = re.search(r"Make it (.+?) in thick", legged(15)["Leg: too slender"])
    assert mend is not None
    thick = sum(float(Fraction(part)) for part in mend.group(1).split()) * INCH
    assert 15 < thick < 30
    assert "Leg: too slender" not in legged(thick)


def test_a_load_is_tried_in_the_span_next_to_a_short_end_span_however_spans_are_rounded() -> None:
    """Of spans alike within a hair the one beside the ends bends most: it is never missed."""
    found = []
    for hair in (-0.1, 0.0, 0.1):
        supports = (35.0, 76.0, 317.4 + hair, 558.8, 800.2 - hair, 1041.6, 1083.0)
        found.append(moving(Bar(1118.0, 139.7, 25.4, supports), 1112.0, 101.6, 7000.0).moment_nmm)
    assert max(found) <= 1.005 * min(found)
