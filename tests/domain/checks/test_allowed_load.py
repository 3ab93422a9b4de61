"""What a balcony, roof or deck may carry: the piece full, everybody on it, whatever the template asks."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builders import demo_shop, demo_shop_metric
from handmade import INCH, asked, box, case, piece
from yardwright.domain.checks import allowed_load, run
from yardwright.domain.checks.footprint import footprint_mm2
from yardwright.domain.checks.soil_room import soil_of
from yardwright.domain.finding import Finding, Level
from yardwright.domain.measure import Writer
from yardwright.domain.piece.build import build
from yardwright.domain.piece.model import AskedCheck, Member, Piece
from yardwright.domain.site import Ground, Site

FOOT = 12 * INCH


def on(surface: str, allowed: float | None = None) -> Site:
    return Site(ground=Ground(surface, allowed_load_kn_m2=allowed))


def found(made: Piece, surface: str = "balcony", allowed: float | None = None) -> tuple[Finding, ...]:
    return allowed_load.check(asked("allowed load"), case(made, on(surface, allowed)))


def bed(*checks: AskedCheck) -> Piece:
    """A solid 4 by 2 ft, 18 in high, of cedar."""
    return piece([box("Box", (0, 0, 0), (4 * FOOT, 2 * FOOT, 18 * INCH), thick="z")], checks)


@pytest.mark.parametrize("said", ["Balcony", "ROOF TERRACE", "wooden deck", "somewhere odd"])
def test_what_stands_on_no_plain_ground_is_never_passed_over(said: str) -> None:
    made = bed(asked("soil weight", soil_volume=3e8))
    assert [f.level for f in found(made, said)] == [Level.NOT_CHECKED]
    assert [f.level for f in found(made, said, 2.0)] == [Level.STOP]
    assert [f.level for f in found(made, "", 2.0)] == [Level.STOP]
    assert found(made, "paving") == () == found(made, "")


def test_a_known_load_is_compared_with_piece_and_wet_soil_over_the_plan() -> None:
    """12 ft³ of garden soil at 100 lb/ft³ = 1200 lb, 1 lb = 0.45359237 kg, g = 9.80665 (recomputed)."""
    made = bed(asked("soil weight", soil_volume=12 * FOOT**3), asked("shelf load", ["Box"], {"use": "table"}))
    area = 4 * FOOT * 2 * FOOT
    soil, own = 1200 * 0.45359237, area * 18 * INCH * 1e-9 * 358
    people = 2 * 180 * 0.45359237                    # 48 in of level top, 18 in up: 2 people on it
    load = (soil + own + people) * 9.80665 / (area + 18 * INCH * 48 * INCH) * 1000
    below, above = found(made, allowed=load * 0.999)[0], found(made, allowed=load * 1.001)[0]
    assert (below.level, above.level) == (Level.STOP, Level.OK)
    assert "licensed engineer" in below.mend


def test_six_people_round_a_table_weigh_as_much_as_six() -> None:
    """Two seats of 60 in take 3 at 18 in each: 6 × 18 in × 120 lbf/ft = 1080 lbf (ICC 300; IBC 1004.6)."""
    seats = [box(f"Seat {n}", (0, y, 0), (60 * INCH, 10 * INCH, 17 * INCH)) for n, y in enumerate((0, 1300))]
    made = piece(seats, [asked("seat load", [s.key for s in seats])])
    assert "6 people 1080 lb" in found(made)[0].detail
    assert [f.level for f in found(made, allowed=0.5)] == [Level.STOP]
    silent = replace(made, checks=())
    assert "6 people 1080 lb" in found(silent)[0].detail, "seats are found though no check names them"


def test_what_is_kept_on_shelves_comes_on_top() -> None:
    """125 lb/ft² of light storage (ASCE 7; memory) on 8 ft² is 1000 lbf."""
    shelf = box("Shelf", (0, 0, 900), (4 * FOOT, 2 * FOOT, 20))
    made = piece([shelf], [asked("shelf load", ["Shelf"], {"use": "shelf"})])
    tight = found(made, allowed=2.0)[0]
    assert tight.level is Level.CAUTION and "1000 lbf" in tight.detail
    assert found(made, allowed=9.0)[0].level is Level.OK


def test_the_inner_corner_of_an_l_carries_nothing() -> None:
    wings = [box("Long", (0, 0, 0), (1000, 300, 400)), box("Wing", (0, 300, 0), (300, 700, 400))]
    assert footprint_mm2(wings) == pytest.approx(1000 * 300 + 300 * 700)
    slats = [box(f"Slat {n}", (0, 110 * n, 0), (1000, 100, 20)) for n in range(3)]
    assert footprint_mm2(slats) == pytest.approx(1000 * 300), "gaps of 10 mm carry once more than twice"


def sides(*checks: AskedCheck) -> Piece:
    """Boards round 900 by 400 mm, 300 mm high, on a floor 50 mm up."""
    made: list[Member] = [box(f"Side {n}", (0, y, 50), (940, 20, 300), thick="y")
                          for n, y in enumerate((0, 420))]
    made += [box(f"End {n}", (x, 20, 50), (20, 400, 300), along="y", thick="x")
             for n, x in enumerate((0, 920))]
    return piece([*made, box("Floor", (20, 20, 50), (900, 400, 20))], checks)


PRESSED = asked("soil sides", ["Side 0", "Side 1", "End 0", "End 1"], soil_top=330.0)
LAIN = asked("soil floor", ["Floor"], soil_depth=260.0)


@pytest.mark.parametrize(("said", "litres"), [(0.0, 93.6), (1e7, 93.6), (9.2e7, 92.0), (2e8, 200.0)])
def test_a_volume_said_to_be_less_than_the_boards_hold_is_not_believed(said: float, litres: float) -> None:
    """0.9 × 0.4 m × (330 − 70) mm = 93.6 L (geometry)."""
    checks = [asked("soil weight", soil_volume=said)] if said else []
    soil = soil_of(case(sides(PRESSED, LAIN, *checks)))
    assert soil and soil.volume_mm3 / 1e6 == pytest.approx(litres)


def test_soil_that_nobody_measured_is_not_checked() -> None:
    made = bed(asked("growing food"))
    told = run(made, None, on("balcony", 2.0), case(made).shop, Writer("in"), "allowed load")
    assert [f.level for f in told] == [Level.NOT_CHECKED] and "how much" in told[0].detail
    assert soil_of(case(bed())) is None


@pytest.mark.parametrize("metric", [False, True])
def test_a_planter_is_as_heavy_with_its_soil_checks_left_out(metric: bool) -> None:
    shop = demo_shop_metric() if metric else demo_shop()
    made = build(shop.templates["planter-box"], {}, {}, shop, shop.units)
    left = replace(made, checks=tuple(c for c in made.checks if "soil_volume" not in c.values))
    whole, part = soil_of(case(made, at=shop)), soil_of(case(left, at=shop))
    assert whole and part and not whole.measured
    assert part.volume_mm3 == pytest.approx(whole.volume_mm3, rel=0.01)
