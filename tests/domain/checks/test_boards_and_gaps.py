"""Shelves, backs, gaps between boards."""

from __future__ import annotations

import pytest

from handmade import CEDAR, INCH, PINE, asked, box, case, piece, shop, stock
from yardwright.domain.checks import back_load, board_gaps, shelf_load
from yardwright.domain.finding import Finding, Level
from yardwright.domain.market import Section, Timber
from yardwright.domain.piece.model import Piece


def back(span: float, rails: bool = True) -> Piece:
    """Upright slats before two rails, the rails on posts that side boards tie."""
    slats = [box(f"Slat {n}", (n * 120 + 60, 100, 400), (90, 19, 400), along="z", thick="y")
             for n in range(5)]
    across = [box(f"Rail {i}", (0, 119, z), (span, 28, 90), thick="y") for i, z in enumerate((410, 700))]
    posts = [box(f"Post {i}", (x, 147, 0), (28, 90, 800), along="z", thick="x")
             for i, x in enumerate((0, span - 28))]
    ties = [box(f"Side {i}", (x, 0, 100), (19, 237, 140), along="y", thick="x")
            for i, x in enumerate((-19, span))]
    held = [("Slat", "Rail"), ("Rail", "Post"), ("Side 0", "Post 0"), ("Side 1", "Post 1")]
    return piece([*slats, *(across if rails else []), *posts, *ties], screwed=held if rails else held[2:])


def leaned(made: Piece) -> dict[str, Finding]:
    keys = [m.key for m in made.members if m.name == "Slat"]
    return {f.title: f for f in back_load.check(asked("back load", keys), case(made))}


def test_a_back_on_tied_rails_holds_and_long_rails_break() -> None:
    assert "Back load: carried" in leaned(back(700))
    assert "Post: too weakly fixed for a back leaned on" in leaned(back(700))     # two screws at its foot
    assert "Rail: too weak for its load" in leaned(back(2400))


def test_slats_on_nothing_are_stopped() -> None:
    assert leaned(back(700, rails=False))["Slat: not carried"].level is Level.STOP


@pytest.mark.parametrize(("use", "span", "level"), [
    ("box", 600, Level.OK), ("shelf", 600, Level.OK), ("shelf", 1500, Level.STOP)])
def test_shelves_carry_by_use(use: str, span: float, level: Level) -> None:
    boards = [box(f"Shelf {n}", (0, n * 150, 100), (span, 140, 19)) for n in range(2)]
    legs = [box(f"Leg {i}", (x, 0, 0), (40, 290, 100), along="z", thick="x")
            for i, x in enumerate((0, span - 40))]
    check = asked("shelf load", [b.key for b in boards], {"use": use})
    assert shelf_load.check(check, case(piece([*boards, *legs])))[0].level is level


def gaps(gap_in: float, kind: Timber = CEDAR, moisture: str = "dry", use: str = "seat",
         users: str = "") -> dict[str, Finding]:
    section = Section("1x6", "in", 19_050_000, 139_700_000, 19_843_750, 142_875_000, "", "")
    board = box("Slat", (0, 0, 0), (1000, 139.7, 19), kind=kind, section="1x6")
    made = case(piece([board]), at=shop(boards=[stock(section, kind, "Select Knotty", moisture)]))
    check = asked("board gaps", ["Slat"], {"use": use}, gap=gap_in * INCH, users=users)
    return {f.title: f for f in board_gaps.check(check, made)}


def test_a_quarter_inch_on_a_cedar_seat_is_fine_wet_and_dry() -> None:
    found = gaps(0.25)
    assert found["Gaps of the seat: fine"].level is Level.OK
    assert found["Gaps of the seat: room to move"].level is Level.OK
    assert found["Gaps of the seat: room to move"].mend == ""


@pytest.mark.parametrize(("gap", "title"), [
    (0.0625, "Gaps of the seat: narrow"), (0.75, "Gaps of the seat: wide")])
def test_gaps_out_of_bounds_are_cautions(gap: float, title: str) -> None:
    assert gaps(gap)[title].level is Level.CAUTION


def test_boards_set_dry_and_tight_press_together_when_damp() -> None:
    """5 1/2 in cedar, 15 -> 18 %: eq. 13-3 gives 0.028 in; a gap of 1/64 in closes (recomputed)."""
    found = gaps(1 / 64)["Gaps of the seat: boards will press together"]
    assert found.level is Level.CAUTION
    assert found.mend == "Leave 0.03 in at least."


def test_boards_delivered_wet_open_as_they_dry() -> None:
    """5 1/2 in pine, 28 -> 8 %: 5.5·20/(3000/7.4 - 30 + 28) = 0.27 in (recomputed)."""
    found = gaps(0.25, kind=PINE, moisture="wet")["Gaps of the seat: they will open as the boards dry"]
    assert found.level is Level.NOTE
    assert "shrink 0.27 in" in found.detail


def test_a_gap_that_traps_a_childs_finger_is_named_for_children_only() -> None:
    trap = "Gaps of the seat: a child's fingers can be trapped"
    assert trap in gaps(0.4, users="child")
    assert trap not in gaps(0.4, users="adult")
    assert trap not in gaps(0.25, users="child")
