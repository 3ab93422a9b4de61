"""Engine units as they are written, against the exact conversions of NIST SP 811 (1 lb, 1 lbf, 1 in)."""

from __future__ import annotations

from yardwright.domain.checks.words import Words
from yardwright.domain.measure import Writer

INCHES, METRIC = Words(Writer("in")), Words(Writer("mm"))


def test_densities_pressures_and_plans_are_written_in_the_units_of_the_job() -> None:
    """1 lb/ft³ = 16.01846 kg/m³, 1 lbf/ft² = 47.88026 N/m², 1 ft² = 0.09290304 m²; NIST SP 811 app. B."""
    assert INCHES.density(1601.846) == "100 lb/ft³" and METRIC.density(1601.846) == "1602 kg/m³"
    assert INCHES.pressure(478.8026e-6) == "10.0 lbf/ft²" and METRIC.pressure(478.8026e-6) == "479 N/m²"
    assert INCHES.plan(929030.4) == "10.0 ft²" and METRIC.plan(929030.4) == "0.93 m²"


def test_a_length_against_its_bounds_says_where_it_lies() -> None:
    assert INCHES.held(17 * 25.4, 16 * 25.4, 19 * 25.4) == "16 in ≤ 17 in ≤ 19 in"
    assert INCHES.held(20 * 25.4, 16 * 25.4, 19 * 25.4) == "20 in > 19 in"
    assert METRIC.held(390.0, 400.0, None) == "390 mm < 400 mm"
    assert METRIC.held(399.0, 400.0, None, 1.0) == "399 mm, within 1.0 mm of 400 mm"


def test_what_is_more_than_it_may_never_prints_as_the_same_figure() -> None:
    """1 lbf = 4.4482216 N (NIST SP 811)."""
    assert INCHES.forces(31.2 * 4.4482216, 31.0 * 4.4482216) == ("31.2 lbf", "31.0 lbf")
    assert INCHES.forces(31.0 * 4.4482216, 31.2 * 4.4482216) == ("31 lbf", "31 lbf"), "less holds as it is"
    assert METRIC.forces(140.0, 120.0) == ("140 N", "120 N")
    assert [METRIC.used(share) for share in (0.999, 1.0, 1.004, 1.0002, 1.2)] == [
        "100%", "100%", "100.4%", "100.02%", "120%"]
