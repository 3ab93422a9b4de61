"""A push on ground that falls: the arm of the weight is h·fall shorter on the lower side; by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import INCH, asked, box, case, piece
from yardwright.domain.checks import tip_over
from yardwright.domain.finding import Finding
from yardwright.domain.piece.model import FittedHardware, Piece
from yardwright.domain.site import Ground, Site

PADS = FittedHardware("Pads", "foot", 4, {}, {}, "")


def block(*hardware: FittedHardware, kg: float = 60.0) -> Piece:
    """18 in deep, 60 in long, 30 in high: its weight acts 9 in from the front and back, 15 in up."""
    made = box("Block", (0, 0, 0), (60 * INCH, 18 * INCH, 30 * INCH))
    heavy = replace(made, density_kg_m3=kg / (made.volume_mm3 * 1e-9))
    return piece([heavy], hardware=hardware)


def pushed(made: Piece, along: float = 0.0, away: float = 0.0) -> Finding:
    site = Site(ground=Ground("paving", fall_along=along, fall_away=away))
    return tip_over.check(asked("tip over", push_height=30 * INCH), case(made, site))[0]


def factor(found: Finding) -> float:
    return float(found.measured.split("factor ")[1].rstrip(")"))


@pytest.mark.parametrize(("away", "side"), [(0.02, "forward"), (-0.02, "backward")])
def test_the_lower_side_loses_its_share_of_the_arm(away: float, side: str) -> None:
    """2 % over 18 in is 9 mm: shims. 15 in x 0.02 = 0.3 in of 9: the factor falls by 0.3 / 9."""
    level, fallen = pushed(block()), pushed(block(), away=away)
    assert (factor(level), factor(fallen)) == (1.59, 1.53)                  # 132.3 lb x 9 or 8.7 over 25 x 30
    assert f"pushed {side} with" in fallen.detail
    assert "the fall of the ground takes 0.30 in" in fallen.working and "fall" not in level.working


def test_it_falls_along_to_whichever_end_is_worse() -> None:
    """0.6 % over 60 in is 9 mm: 15 in x 0.006 = 0.09 in of 30 at the ends; front and back stay the worse."""
    assert factor(pushed(block(), along=0.006)) == factor(pushed(block()))


@pytest.mark.parametrize(("made", "away"), [
    (block(FittedHardware("Feet", "levelling foot", 4, {}, {}, "")), 0.02),      # screwed out: level
    (block(), 0.05)])                                                            # 23 mm: legs cut
def test_legs_that_make_up_the_fall_stand_it_level(made: Piece, away: float) -> None:
    assert factor(pushed(made, away=away)) == factor(pushed(made))


def test_a_filled_planter_leans_too() -> None:
    """Its soil about the middle, 15 in up: 0.3 in of 9 lost, filled as empty."""
    def told(away: float) -> Finding:
        check = asked("tip over", words={"kind": "planter"}, push_height=30 * INCH, soil_volume=1e8)
        return tip_over.check(check, case(block(), Site(ground=Ground("paving", fall_away=away))))[0]

    level, fallen = (told(away).measured for away in (0.0, 0.02))
    assert level == "factor 1.59 empty, 2.22 filled" and fallen == "factor 1.53 empty, 2.15 filled"


def test_pads_do_not_make_up_the_fall() -> None:
    assert factor(pushed(block(PADS), away=0.02)) < factor(pushed(block(PADS)))
