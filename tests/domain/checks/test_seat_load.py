"""Boards that people sit on, and what carries them."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from handmade import INCH, PINE, UNNAMED, asked, box, case, piece, shop
from yardwright.domain.checks import seat_load
from yardwright.domain.checks.running import run
from yardwright.domain.finding import Finding, Level
from yardwright.domain.market import Timber
from yardwright.domain.measure import Writer
from yardwright.domain.piece.model import Member
from yardwright.domain.site import Site


def bench(span_in: float, thick_in: float = 1.5, boards: int = 3, kind: Timber = PINE,
          grade: str = "No.2") -> list[Member]:
    """Boards 5 1/2 in wide over two stout bearers, ``span_in`` from middle to middle."""
    length = span_in * INCH + 40
    depth = boards * 150.0
    slats = [box(f"Slat {n}", (0, n * 150, 400), (length, 5.5 * INCH, thick_in * INCH), kind=kind,
                 grade=grade)
             for n in range(boards)]
    bearers = [box(f"Bearer {i}", (x, 0, 260), (40, depth, 140), along="y", thick="x", kind=PINE,
                   grade="No.2")
               for i, x in enumerate((0, length - 40))]
    legs = [box(f"Leg {i}{j}", (x, y, 0), (40, 40, 260), along="z", kind=PINE, thick="y")
            for i, x in enumerate((0, length - 40)) for j, y in enumerate((0, depth - 40))]
    return [*slats, *bearers, *legs]


def inches_in(match: re.Match[str] | None) -> float:
    """``14 3/4`` as a number."""
    assert match is not None
    return sum(float(Fraction(part)) for part in match.group(1).split())


def found(members: list[Member]) -> dict[str, Finding]:
    keys = [m.key for m in members if m.name == "Slat"]
    made = case(piece(members, screwed=[("Bearer", "Leg")]))
    return {f.title: f for f in seat_load.check(asked("seat load", keys), made)}


def test_a_lone_2x6_of_48_in_fails_the_250_lbf_load() -> None:
    """Worked case B8: 1454.5 psi against 1150 (NDS values, memory); the patch of 4 in takes off 1/24."""
    finding = found(bench(48, boards=1))["Slat: too weak for its load"]
    assert finding.level is Level.STOP
    assert finding.measured.startswith(f"bending {1454.5 * (1 - 4 / 96):.0f} psi")
    assert "bending 1150 psi" in finding.limit
    assert "250 lbf on this one board" in finding.detail


def test_the_mend_names_a_span_that_then_passes() -> None:
    mend = found(bench(48, boards=1))["Slat: too weak for its load"].mend
    span = inches_in(re.search(r"apart than (.+?) in", mend))
    assert 24 < span < 48
    assert "Seat load: carried" in found(bench(span, boards=1))
    assert "Slat: too weak for its load" in found(bench(span + 0.5, boards=1))


def test_a_deeper_board_as_the_mend_says_passes() -> None:
    mend = found(bench(48, boards=1))["Slat: too weak for its load"].mend
    thick = inches_in(re.search(r"make it (.+?) in deep", mend))
    assert 1.5 < thick < 2.5
    assert list(found(bench(48, thick_in=thick, boards=1))) == ["Seat load: carried"]


def test_short_spans_pass_and_say_what_was_measured_against_what() -> None:
    finding = found(bench(16, thick_in=1.0))["Seat load: carried"]
    assert finding.level is Level.OK and finding.mend == ""
    assert "psi" in finding.measured and "psi" in finding.limit and "903.6" in finding.source


def test_bearers_are_judged_too() -> None:
    members = bench(16)
    thin = [box(m.key, m.frame.origin, (40, m.length_mm, 20), along="y", kind=PINE, grade="No.2")
            if m.name == "Bearer" else m for m in members]
    low = [box(m.key, (*m.frame.origin[:2], 380.0), (40, m.length_mm, 20), along="y", kind=PINE, grade="No.2")
           if m.name == "Bearer" else m for m in thin]
    tall = [box(m.key, m.frame.origin, (40, 40, 380), along="z", thick="y", kind=PINE)
            if m.name.startswith("Leg") else m for m in low]
    assert "Bearer: too weak for its load" in found(tall)


def test_a_board_on_nothing_is_stopped() -> None:
    members = [m for m in bench(16) if m.key != "Bearer 1"]
    finding = found(members)["Slat: not carried"]
    assert finding.level is Level.STOP
    assert "one place only" in finding.detail


def test_a_long_overhang_fails_where_the_same_board_between_supports_passes() -> None:
    over = [box(m.key, m.frame.origin, (m.length_mm + 500, m.width_mm, m.thickness_mm), kind=PINE,
                grade="No.2") if m.name == "Slat" else m for m in bench(20)]
    assert list(found(bench(20))) == ["Seat load: carried"]
    finding = found(over)["Slat: too weak for its load"]
    assert "overhanging" in finding.detail


def test_a_timber_without_data_is_not_checked() -> None:
    members = bench(16, kind=UNNAMED)
    keys = tuple(m.key for m in members if m.name == "Slat")
    made = case(piece(members, checks=[asked("seat load", keys)]))
    findings = run(made.piece, None, Site(), made.shop, Writer("in"))
    assert any(f.rule == "seat load" and f.level is Level.NOT_CHECKED for f in findings)
    assert not any(f.rule == "seat load" and f.level is Level.OK for f in findings)


def test_a_missing_limit_is_not_checked() -> None:
    members = bench(16)
    keys = tuple(m.key for m in members if m.name == "Slat")
    made = piece(members, checks=[asked("seat load", keys)])
    findings = run(made, None, Site(), shop(without=["structure.seat_load"]), Writer("in"))
    told = [f for f in findings if f.rule == "seat load"]
    assert [f.level for f in told] == [Level.NOT_CHECKED]
    assert "seat_load" in told[0].detail and "limits/structure.toml" in told[0].detail


@pytest.mark.parametrize("units", ["in", "mm"])
def test_the_finding_speaks_the_units_of_the_job(units: str) -> None:
    members = bench(48, boards=1)
    keys = [m.key for m in members if m.name == "Slat"]
    finding = seat_load.check(asked("seat load", keys), case(piece(members, screwed=[("Bearer", "Leg")]),
                              units=units))[0]
    text = f"{finding.detail} {finding.measured} {finding.limit} {finding.mend} {finding.working}"
    assert ("psi" in text and "lbf" in text and " mm" not in text) if units == "in" else (
        "N/mm²" in text and " in " not in text.replace(" in one", "") and "lbf" not in text)


@pytest.mark.parametrize("span_in", [20.0, 60.0])
def test_bearers_named_as_boards_are_judged_as_what_carries_them(span_in: float) -> None:
    members = bench(span_in)
    right = found(members)
    keys = [m.key for m in members if m.name in ("Slat", "Bearer")]
    wrong = seat_load.check(asked("seat load", keys), case(piece(members, screwed=[("Bearer", "Leg")])))
    note = "Bearer: judged as what carries the boards"
    assert [f.level for f in wrong if f.title == note] == [Level.NOTE]
    assert {f.title: f.level for f in wrong if f.title != note} == {t: f.level for t, f in right.items()}
