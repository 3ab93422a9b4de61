"""A back that nobody asked about is leaned on all the same; places and heights by hand."""

from __future__ import annotations

import pytest

from handmade import INCH, asked, box, case, piece, shop
from yardwright.domain.checks import run
from yardwright.domain.checks.as_built import as_built
from yardwright.domain.finding import Level
from yardwright.domain.measure import Writer
from yardwright.domain.piece.model import AskedCheck, Piece
from yardwright.domain.site import Site

SEAT = asked("seat load", ["Seat"])


def bench(*checks: AskedCheck, y: float = 400.0, low_in: float = 26.0, length: float = 1500.0) -> Piece:
    """A seat 17 in up, 400 mm deep, between two posts 48 in high, a lath 1 1/2 by 3/4 in on their fronts."""
    posts = [box(f"Post {n}", (x, y + 19, 0), (89, 89, 48 * INCH), along="z", thick="y")
             for n, x in enumerate((0, length - 89))]
    legs = [box(f"Leg {n}", (x, 0, 0), (89, 400, 16 * INCH), along="z", thick="x")
            for n, x in enumerate((0, length - 89))]
    lath = box("Lath", (0, y, low_in * INCH), (length, 19, 38), thick="y")
    seat = box("Seat", (0, 0, 16 * INCH), (length, 400, INCH))
    return piece([*posts, *legs, lath, seat], checks, screwed=[("Lath", "Post")])


def called(made: Piece) -> dict[str, tuple[str, ...]]:
    return {c.rule.rule: c.members for c in as_built(case(made)).called_for
            if c.rule.rule in ("back load", "lean back")}


def test_a_lath_behind_the_seat_is_leaned_on_and_its_posts_are_not() -> None:
    assert called(bench(SEAT)) == {"back load": ("Lath",), "lean back": ("Lath",)}
    made = run(bench(SEAT), None, Site(), shop(), Writer("in"), "back load")
    found = [(f.level, f.title) for f in made]
    assert found == [(Level.STOP, "Lath: not carried")], "nothing ties its posts"


@pytest.mark.parametrize(("checks", "wanted"), [
    ((SEAT, asked("back load", ["Lath"])), {}),
    ((SEAT, asked("lean back", ["Lath"], seat_height=17 * INCH)), {"back load": ("Lath",)}),
    ((SEAT, asked("arm load", ["Lath"])), {})])
def test_what_a_template_asks_is_not_asked_again(checks: tuple[AskedCheck, ...],
                                                wanted: dict[str, tuple[str, ...]]) -> None:
    assert called(bench(*checks)) == wanted


@pytest.mark.parametrize(("y", "low_in", "found"), [
    (400.0, 22.0, True), (400.0, 21.0, False),           # its top 6 1/2 and 5 1/2 in above the seat
    (400.0, 42.0, False), (-20.0, 26.0, False)])         # over everybody's head; in front
def test_what_is_low_over_heads_or_in_front_is_no_back(y: float, low_in: float, found: bool) -> None:
    assert bool(called(bench(SEAT, y=y, low_in=low_in))) is found
