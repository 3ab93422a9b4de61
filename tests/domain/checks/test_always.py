"""Checks that run for every piece: fit, clashes, ground, metal, glue, drops."""

from __future__ import annotations

import pytest

from handmade import CEDAR, PINE, asked, box, case, piece, shop, stock, timber
from yardwright.domain.checks import (
    clashes,
    corrosion,
    drop_behind,
    fits,
    ground_contact,
    stand_ins,
    wet_gluing,
)
from yardwright.domain.finding import Finding, Level
from yardwright.domain.fit.model import Clearance, Fit
from yardwright.domain.market import Goods, Section, Timber
from yardwright.domain.money import Money
from yardwright.domain.piece.model import Clash
from yardwright.domain.site import Ground, Site

SLAT = box("Slat", (0, 0, 0), (1000, 140, 19))
INCH_NM = 25_400_000


def fit(fits_: bool, *findings: Finding, best: int | None = None) -> Fit:
    tight = Clearance("left", -INCH_NM, INCH_NM // 8, "back wall at 36 in high")
    roomy = Clearance("front", 10 * INCH_NM, 0, "walkway")
    return Fit(fits_, (roomy, tight), (), {}, {"length": best} if best else None, 0, findings)


def test_the_fits_own_findings_are_handed_on_once() -> None:
    own = Finding("fit", Level.STOP, "Too wide", "...")
    assert fits.check(asked("fit"), case(piece([SLAT]), fit=fit(False, own))) == (own,)


def test_a_misfit_without_a_stop_becomes_one_naming_the_reading_and_what_fits() -> None:
    found = fits.check(asked("fit"), case(piece([SLAT]), fit=fit(False, best=40 * INCH_NM)))
    assert [f.level for f in found] == [Level.STOP]
    assert "back wall at 36 in high" in found[0].detail
    assert found[0].mend == "Largest that fits: length 40 in."


def test_no_site_no_fit_finding() -> None:
    assert fits.check(asked("fit"), case(piece([SLAT]))) == ()


def test_clashes_stop_and_name_the_deepest_first() -> None:
    made = piece([SLAT], clashes=[Clash("A", "B", 10.0, 0.5), Clash("C", "D", 10.0, 2.0, 40.0)])
    (found,) = clashes.check(asked("clashes"), case(made))
    assert found.level is Level.STOP
    assert found.detail.startswith("C and D by 0.08 in with the lid at 40°; A and B")
    assert clashes.check(asked("clashes"), case(piece([SLAT])))[0].level is Level.OK
    many = piece([SLAT], clashes=[Clash(f"A{n}", f"B{n}", 10.0, 0.5) for n in range(8)])
    assert clashes.check(asked("clashes"), case(many))[0].detail.endswith("; and 3 more.")


@pytest.mark.parametrize(("treated", "durability", "surface", "level"), [
    ("UC4A", "", "soil", Level.NOTE), ("UC3B", "", "soil", Level.CAUTION), ("UC3B", "", "paving", Level.NOTE),
    ("", "resistant (heartwood)", "soil", Level.NOTE), ("", "moderately resistant", "grass", Level.CAUTION),
    ("", "slight or none", "gravel", Level.CAUTION), ("EN 335 use class 4", "", "soil", Level.NOTE)])
def test_feet_on_the_soil_want_uc4a_or_resistant_heartwood(treated: str, durability: str, surface: str,
                                                           level: Level) -> None:
    """AWPA: UC3B does not touch the ground, UC4A does (seen); resistant heartwoods by class (seen)."""
    wood = timber("wood", treated=treated, durability=durability)
    made = piece([box("Leg", (0, 0, 0), (40, 40, 400), along="z", kind=wood)])
    at = shop(timbers=[wood])
    site = Site(ground=Ground(surface=surface))
    found = ground_contact.check(asked("ground contact"), case(made, site, at))
    assert found[0].level is level


def screw(material: str) -> Goods:
    return Goods("S", "Screw", "screw", 100, "each", Money(100, "USD"), {}, material)


@pytest.mark.parametrize(("kind", "material", "level"), [
    (PINE, "stainless 304", Level.OK), (PINE, "hot-dip galvanised", Level.OK),
    (PINE, "zinc plated", Level.CAUTION),
    (CEDAR, "bright steel", Level.CAUTION)])
def test_metal_in_treated_and_tannin_wood_is_stainless_or_hot_dip(kind: Timber, material: str,
                                                                  level: Level) -> None:
    """IRC R317.3, IBC 2304.10.6: A153 hot-dip, stainless, silicon bronze, copper; seen."""
    members = [box("Slat", (0, 0, 0), (1000, 140, 19), kind=kind),
               box("Cleat", (0, 0, 19), (40, 140, 40), kind=kind)]
    made = case(piece(members, screwed=[("Slat", "Cleat")]), at=shop(goods=[screw(material)]))
    assert corrosion.check(asked("corrosion"), made)[0].level is level


def test_woods_that_ask_nothing_of_metal_get_no_finding() -> None:
    plain = timber("douglas-fir")
    made = piece([box("Slat", (0, 0, 0), (1000, 140, 19), kind=plain)])
    assert corrosion.check(asked("corrosion"), case(made, at=shop(timbers=[plain]))) == ()


@pytest.mark.parametrize(("moisture", "level"), [("wet", Level.CAUTION), ("dry", Level.OK)])
def test_wet_treated_stock_is_not_glued_as_delivered(moisture: str, level: Level) -> None:
    section = Section("1x6", "in", 0, 0, 0, 0, "", "")
    strip = box("Leg", (0, 0, 0), (1000, 140, 19), kind=PINE, section="1x6", glue_up="Corner leg")
    at = shop(boards=[stock(section, PINE, "Select Knotty", moisture)])
    assert wet_gluing.check(asked("wet gluing"), case(piece([strip]), at=at))[0].level is level


@pytest.mark.parametrize(("drop_in", "level"), [(8, Level.CAUTION), (30, Level.STOP), (48, Level.STOP)])
def test_a_drop_of_30_in_behind_needs_a_guard(drop_in: int, level: Level) -> None:
    """IRC R312.1; memory."""
    site = Site(ground=Ground(surface="deck", drop_behind_nm=drop_in * INCH_NM))
    (found,) = drop_behind.check(asked("drop behind"), case(piece([SLAT]), site))
    assert found.level is level and "36 in" in found.mend


def test_level_ground_has_no_drop_finding_and_notes_are_handed_on() -> None:
    assert drop_behind.check(asked("drop behind"), case(piece([SLAT]))) == ()
    (note,) = stand_ins.check(asked("stand-ins"), case(piece([SLAT], notes=["rows: ripped"])))
    assert note.level is Level.NOTE and note.detail == "rows: ripped" and not note.customer
