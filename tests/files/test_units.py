"""Units at the edge: turned into the engine's own, or refused."""

import subprocess
import sys

import pytest

from yardwright.files.units import BadUnit, quantity, to_engine


@pytest.mark.parametrize(("value", "unit", "want"), [
    (1, "in", (25.4, "mm")), (2, "N/mm^2", (2.0, "N/mm2")), (7, "%", (7.0, "%")), (0.5, "1", (0.5, "1")),
    (90, "deg", (90.0, "deg")), (2, "h", (120.0, "min")), (1, "kN/m2", (0.001, "N/mm2"))])
def test_a_figure_in_the_engines_unit(value, unit, want):
    assert to_engine(value, unit) == pytest.approx(want[0]) or to_engine(value, unit)[1] == want[1]
    got, name = to_engine(value, unit)
    assert (pytest.approx(got), name) == want


def test_units_off_the_list_go_through_pint():
    assert to_engine(1, "stone")[1] == "kg"
    assert to_engine(1, "stone")[0] == pytest.approx(6.35029318)
    assert to_engine(1, "radian")[0] == pytest.approx(57.29577951)
    assert to_engine(20, "lux") == (20.0, "lux")


@pytest.mark.parametrize(("text", "unit", "value"), [
    ("12 km", "km", 12), ("8 mi", "km", 12.874752), ("1 1/2 mi", "km", 2.414016), ("2,4 g", "kg", 0.0024),
    ("1/2 gal", "L", 1.892705892), ("100 in lbf", "N*mm", 11298.482902761669), ("3 furlong", "km", 0.603504)])
def test_a_quantity_as_written(text, unit, value):
    assert quantity(text, unit) == pytest.approx(value, rel=1e-5)


@pytest.mark.parametrize("text", ["far", "12", "12 kg", "1/0 km", "", "-", "km 12", "1 zorkmid"])
def test_what_is_no_distance_is_refused(text):
    with pytest.raises(BadUnit):
        quantity(text, "km")


def test_reading_the_shop_does_not_wake_pint():
    # Pint takes some 0.4 s to start: data in units of the list must not need it.
    code = ("import sys, builders; builders.demo_shop(); builders.demo_shop_metric(); "
            "sys.exit('pint' in sys.modules)")
    assert subprocess.run([sys.executable, "-c", code], cwd="tests", check=False).returncode == 0
