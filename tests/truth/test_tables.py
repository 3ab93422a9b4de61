"""Tables, armrests, openings, attached seats, wind and outdoor moisture against published figures."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import CEDAR, INCH, asked, box, case, limits, piece
from yardwright.domain.checks import armrest, attached_seats, entrapment, table, wind
from yardwright.domain.checks.climate import service_range
from yardwright.domain.checks.words import LB_KG
from yardwright.domain.finding import Finding, Level
from yardwright.domain.site import Site

TOP = piece([box("Top", (0, 0, 0), (1800, 760, 40))])


def level(users: str = "adult", of: str = "Table height", **inches: float) -> Level:
    values = {name: value * INCH for name, value in {"height": 30.0, **inches}.items()}
    found = table.check(asked("table", users=users, **values), case(TOP))
    return next(f.level for f in found if f.title.startswith(of))


@pytest.mark.parametrize(("users", "height", "wanted"), [
    ("adult", 30.0, Level.OK),            # picnic 28-32 in, 30 most common; picnic guides, seen
    ("adult", 29.0, Level.OK),            # 29 in / 735 mm; "Chair sizes", seen
    ("adult", 36.0, Level.CAUTION),       # a counter, not a table
    ("accessible", 34.0, Level.OK),       # 28-34 in; 2010 ADA Standards 902.3, seen
    ("accessible", 35.0, Level.CAUTION),
    ("child", 30.0, Level.CAUTION),
])
def test_table_heights(users: str, height: float, wanted: Level) -> None:
    assert level(users, height=height) is wanted


@pytest.mark.parametrize(("users", "knees", "wanted"), [
    ("accessible", 27.0, Level.OK), ("accessible", 26.0, Level.CAUTION),    # 27 in; 2010 ADA 306.3, memory
    ("adult", 24.0, Level.OK), ("adult", 23.0, Level.CAUTION),              # apron 24 in clear; memory
])
def test_room_for_knees(users: str, knees: float, wanted: Level) -> None:
    assert level(users, "Room for knees", knee_height=knees) is wanted


@pytest.mark.parametrize(("seat", "wanted"), [(18.0, Level.OK), (15.0, Level.CAUTION), (21.0, Level.CAUTION)])
def test_seat_to_table_top_is_25_to_35_cm(seat: float, wanted: Level) -> None:
    """12 in typical, 25-35 cm (sit-stand page; seen)."""
    assert level("adult", "Seat to table top", seat_height=seat) is wanted


@pytest.mark.parametrize(("feet", "people"), [(6, 3), (8, 4)])
def test_a_6_ft_picnic_table_seats_3_a_side_and_an_8_ft_one_4(feet: int, people: int) -> None:
    """6 ft = 6 adults, 8 ft = 8 (picnic guides; seen)."""
    found = table.check(asked("table", height=30 * INCH, length=feet * 12 * INCH), case(TOP))
    assert f"{people} a side in comfort" in next(f.detail for f in found if f.title.startswith("Places"))


@pytest.mark.parametrize(("height", "wanted"), [(7.0, Level.OK), (9.5, Level.OK), (6.0, Level.NOTE),
                                                (11.0, Level.NOTE)])
def test_armrests_are_7_to_9_1_2_in_above_the_seat(height: float, wanted: Level) -> None:
    """Bodyspace / BIFMA type data; memory."""
    assert armrest.check(asked("armrest", height=height * INCH), case(TOP))[0].level is wanted


@pytest.mark.parametrize(("mm", "wanted"), [(88, Level.OK), (90, Level.STOP), (229, Level.STOP),
                                            (231, Level.OK)])
def test_openings_between_3_5_and_9_in_hold_a_childs_head(mm: float, wanted: Level) -> None:
    """ASTM F1487, EN 1176; memory."""
    found = entrapment.check(asked("entrapment", opening=float(mm), users="child"), case(TOP))
    assert found[0].level is wanted


@pytest.mark.parametrize(("mm", "wanted"), [(7, Level.OK), (12, Level.CAUTION), (26, Level.OK)])
def test_moving_gaps_of_8_to_25_mm_trap_fingers(mm: float, wanted: Level) -> None:
    """EN 581-1, EN 1176 idea; memory."""
    assert entrapment.check(asked("entrapment", moving_gap=float(mm)), case(TOP))[0].level is wanted


def picnic(pounds: float, out_in: float) -> Finding:
    """A 6 ft table on feet 60 in apart, its seats' middles ``out_in`` outside the feet."""
    feet = [box(f"Foot {n}", (0, y * INCH, 0), (72 * INCH, 1, 40)) for n, y in enumerate((0.0, 60.0))]
    seats = [box(f"Seat {n}", (0, (y - 5) * INCH, 400), (72 * INCH, 10 * INCH, 38))
             for n, y in enumerate((-out_in, 60 + out_in))]
    weightless = [replace(m, density_kg_m3=0.0) for m in (*feet, *seats)]
    top = box("Top", (0, 15 * INCH, 700), (72 * INCH, 30 * INCH, 38))
    heavy = replace(top, density_kg_m3=pounds * LB_KG / (top.volume_mm3 * 1e-9))
    made = case(piece([*weightless, heavy]))
    return attached_seats.check(asked("attached seats", ["Seat 0", "Seat 1"]), made)[0]


@pytest.mark.parametrize(("pounds", "out", "wanted"), [
    (149, 6, Level.STOP), (151, 6, Level.CAUTION), (224, 6, Level.CAUTION), (227, 6, Level.OK),
    (60, -1, Level.OK)])
def test_three_people_on_one_side_of_a_picnic_table(pounds: float, out: float, wanted: Level) -> None:
    """3 x 250 lb 6 in outside = 4500 in·lb; W x 30 in: 150 lb to stand, 225 lb with 1.5 (recomputed)."""
    assert picnic(pounds, out).level is wanted


def screen(exposure: str, anchored: float = 0.0) -> list[Finding]:
    """A screen 2 m long, 1.8 m high, 400 mm deep at the foot, 60 kg."""
    board = box("Screen", (0, 0, 0), (2000, 400, 1800), along="z", thick="y", kind=CEDAR)
    heavy = replace(board, density_kg_m3=60 / (board.volume_mm3 * 1e-9))
    made = piece([heavy])
    return list(wind.check(asked("wind"), case(made, Site(exposure=exposure))))


def test_the_wind_on_a_screen_by_hand() -> None:
    """q = 0.613·34² = 709 N/m²; F = 709·1.5·2·1.8 = 3827 N; M = 3827·0.9 = 3444 N·m against
    0.6·60·9.807·0.2 = 71 N·m: T = (3444 - 71)/0.4 = 8434 N (recomputed; form of ASCE 7, memory)."""
    found = screen("open")[0]
    assert found.level is Level.STOP
    assert "14.8 lbf/ft²" in found.working       # 709 N/m² / 47.88
    assert "860 lbf" in found.detail                         # 3827 N
    assert "1896 lbf" in found.mend                          # 8434 N


def test_pressures_of_the_form_q_is_0613_v2() -> None:
    """40 m/s -> 981 N/m², 100 mph (44.7 m/s) -> 25.6 psf = 1226 N/m² (ASCE 7; memory)."""
    factor = limits()["wind.air"].value
    assert factor * 40**2 == pytest.approx(981, abs=1)
    assert factor * 44.704**2 == pytest.approx(0.00256 * 100**2 * 47.88, rel=0.002)


@pytest.mark.parametrize(("region", "low", "high"), [
    ("Phoenix, AZ", 4.6, 9.5), ("Seattle WA", 12.2, 16.5), ("Las Vegas", 4.0, 8.5), ("Boston", 11.6, 13.1),
    ("near New Orleans", 14.0, 15.3), ("Denver", 9.4, 11.0)])
def test_outdoor_moisture_by_city(region: str, low: float, high: float) -> None:
    """Driest and dampest month, Wood Handbook Table 13-1; memory. Rain adds 3 % (judgement)."""
    found = service_range(case(TOP, Site(region=region)))
    assert found[:2] == pytest.approx((low, high + 3.0))


def test_a_place_nobody_listed_has_the_general_range() -> None:
    assert service_range(case(TOP, Site(region="Tanner's Steps")))[:2] == (8.0, 18.0)
