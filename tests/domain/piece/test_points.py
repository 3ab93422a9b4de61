"""Which sizes and choices are tried: every corner, every option, no timber tied to one end of a size."""

from __future__ import annotations

from itertools import product
from random import Random

from builders import INCH, MM, demo_shop, demo_shop_metric
from small_templates import trestle
from yardwright.domain.piece.points import plan
from yardwright.domain.template import read_template

WOODS = ["western-red-cedar", "redwood"]


def test_every_corner_and_every_combination_is_tried_where_they_are_few() -> None:
    template = read_template(trestle())
    made = plan(template, demo_shop(), WOODS[:1], 0, 6, Random(1))
    seen = {(p.dimensions_nm["length"], p.dimensions_nm["height"], p.choices["lid"]) for p in made.points[2:]}
    ends = [(d.least_nm, d.most_nm) for d in template.dimensions]
    assert seen == set(product(*ends, ["yes", "no"]))
    assert (made.corners, made.all_corners, made.at_corner, made.combinations) == (4, 4, 2, 2)


def test_each_timber_is_tried_at_both_ends_of_every_size_and_each_finish_somewhere() -> None:
    """Timbers that went round with the corners' numbers would keep to one end of the last size."""
    template = demo_shop().templates["planter-box"]
    made = plan(template, demo_shop(), WOODS, 0, 6, Random(1))
    for d in template.dimensions:
        seen = {(p.choices["timber"], p.dimensions_nm[d.name]) for p in made.points[2:]}
        assert seen == set(product(WOODS, (d.least_nm, d.most_nm)))
    assert {p.choices["finish"] for p in made.points} == set(template.finishes)


def test_first_it_is_tried_as_it_is_offered_in_both_systems_the_shops_own_first() -> None:
    template = demo_shop().templates["storage-bench"]
    inches, millimetres = plan(template, demo_shop(), WOODS, 0, 6, Random(1)).points[:2]
    assert (inches.units, millimetres.units) == ("in", "mm")
    assert inches.dimensions_nm["length"] == 44 * INCH and millimetres.dimensions_nm["length"] == 1120 * MM
    assert inches.choices["timber"] == template.default_timber and "panel_section" not in inches.choices
    metric = plan(template, demo_shop_metric(), ["european-larch"], 0, 6, Random(1)).points[0]
    assert metric.units == "mm" and metric.choices["timber"] in demo_shop_metric().market.timbers


def test_points_between_keep_the_steps_of_both_systems_and_the_range() -> None:
    template = read_template(trestle())
    made = plan(template, demo_shop(), WOODS[:1], 40, 6, Random(2)).points[10:]
    assert len(made) == 40 and {p.units for p in made} == {"in", "mm"}
    for point in made:
        for d in template.dimensions:
            assert d.least_nm <= point.dimensions_nm[d.name] <= d.most_nm
            assert point.dimensions_nm[d.name] % d.step_nm[point.units] == 0


def test_without_a_timber_nothing_is_tried() -> None:
    made = plan(read_template(trestle()), demo_shop(), [], 40, 6, Random(2))
    assert made.points == () and made.corners == 0
