"""Earth on a floor presses on the boards around it, though the template asks of its floor alone."""

from __future__ import annotations

import pytest

from handmade import INCH, asked, box, case, piece, shop
from yardwright.domain.checks import run
from yardwright.domain.checks.soil_room import walls
from yardwright.domain.finding import Finding, Level
from yardwright.domain.measure import Writer
from yardwright.domain.piece.model import AskedCheck, Member, Piece
from yardwright.domain.site import Site


def bed(length: float, *checks: AskedCheck) -> Piece:
    """A floor 2 in up between sides 3/4 in thick and 18 in high on corner posts, and a rim on top."""
    t, deep, high = 0.75 * INCH, 400.0, 18 * INCH
    made: list[Member] = []
    for row in range(3):
        z = row * 6 * INCH
        made += [box(f"Long {row}{n}", (0, y, z), (length, t, 6 * INCH), thick="y")
                 for n, y in enumerate((0, deep - t))]
        made += [box(f"End {row}{n}", (x, t, z), (t, deep - 2 * t, 6 * INCH), along="y", thick="x")
                 for n, x in enumerate((0, length - t))]
    made += [box(f"Post {i}{j}", (x, y, 0), (40, 40, high), along="z", thick="y")
             for i, x in enumerate((t, length - t - 40)) for j, y in enumerate((t, deep - t - 40))]
    made.append(box("Floor", (t, t + 40, 40), (length - 2 * t, deep - 2 * t - 80, 20)))
    return piece(made, checks, screwed=[("Long", "Post"), ("End", "Post")])


FLOOR = asked("soil floor", ["Floor"], soil_depth=15 * INCH)


def told(made: Piece, rule: str) -> list[Finding]:
    return list(run(made, None, Site(), shop(), Writer("in"), rule))


def test_the_boards_around_the_earth_are_found_and_its_surface() -> None:
    top, found = walls(case(bed(1000, FLOOR)))
    assert top == 60 + 15 * INCH
    assert {m.name for m in found} == {"Long", "End"} and len(found) == 12
    assert walls(case(bed(1000))) == (0.0, ())


@pytest.mark.parametrize(("length", "worst"), [(500.0, {Level.OK}), (2000.0, {Level.STOP})])
def test_they_are_judged_as_if_asked(length: float, worst: set[Level]) -> None:
    found = [f for f in told(bed(length, FLOOR), "soil sides") if f.title.startswith(("Long", "Soil"))]
    assert worst <= {f.level for f in found}
    assert ("Long: too weak for its load" in {f.title for f in found}) is (length > 1000)


def test_earth_by_its_weight_alone_is_not_checked_against_its_sides() -> None:
    titles = {f.title: f.level for f in told(bed(500, asked("soil weight", soil_volume=1e8)), "implied")}
    assert titles["Earth against the sides: not checked"] is Level.NOT_CHECKED
    assert "Earth against the sides: not checked" not in {f.title for f in told(bed(500, FLOOR), "implied")}
