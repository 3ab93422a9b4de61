"""The piece is as large as the customer asked, whatever the template says of itself."""

from __future__ import annotations

import copy
import tomllib
from typing import Any

import pytest

from builders import DATA, INCH, demo_shop
from small_templates import changed, trestle
from yardwright.domain.errors import BadTemplate
from yardwright.domain.piece import build, faults_of
from yardwright.domain.piece.extents import asked_mm
from yardwright.domain.template import read_template, sizes


def told(data: dict[str, Any], units: str = "", **nm: int) -> list[tuple[str, str]]:
    piece = build(read_template(data), nm, {}, demo_shop(), "in")
    return [(fault.pointer, fault.detail) for fault in faults_of(piece, demo_shop(), units)]


def longer(by: str) -> dict[str, Any]:
    """A trestle that is built longer than asked, and whose overall size says so frankly."""
    data = trestle()
    for member in data["members"][1:]:
        member["to"][0] += f" + {by}"
    data["members"][0]["mirror"][0]["at"] = f"(length + {by})/2"
    data["overall"]["length"] = f"length + {by}"
    data["fit"]["envelope"]["length"] = f"length + {by}"
    return data


def test_solids_that_agree_with_a_template_that_says_more_than_was_asked_are_told() -> None:
    """44 in asked, the template's own overall length is 49 in and so are the solids: by hand, 5 in over."""
    found = told(longer("5*inch"), length=44 * INCH)
    said, out = (detail for pointer, detail in found if pointer == "/overall/length")
    assert said.startswith("says 49 in where the customer asks for a length of 44 in: let it say \"length\"")
    assert out.startswith("the piece comes out 49 in long where 44 in is asked, 5 in too much, from Post 1")
    assert len(found) == 2


def test_a_sixteenth_less_than_asked_is_the_working_step_and_more_is_not() -> None:
    assert demo_shop().saw.step_nm == INCH // 16
    assert told(longer("-1/16*inch")) == []
    assert len(told(longer("-1/15*inch"))) == 2 and len(told(longer("1/64*inch"))) == 2


def test_less_than_any_rule_shows_is_told_as_less_than_its_finest_mark() -> None:
    assert any("less than 1/64 in too much" in detail for _, detail in told(longer("1/10*mm")))
    assert any("0.1 mm too much" in detail for _, detail in told(longer("1/10*mm"), "mm"))


def test_a_dimension_may_tell_openly_that_it_measures_something_else() -> None:
    data = longer("5*inch")
    data["dimensions"]["length"]["measures"] = "the beam between the posts' inner faces"
    assert told(data) == []
    piece = build(read_template(data), {}, {}, demo_shop(), "in")
    assert list(asked_mm(piece)) == ["height"]


def test_only_a_size_with_the_name_of_an_overall_size_can_measure_something_else() -> None:
    data = trestle()
    data["dimensions"]["shelf"] = {**data["dimensions"]["height"], "measures": "the shelf"}
    with pytest.raises(BadTemplate, match="measures: is for dimensions named length, depth or height"):
        read_template(data)


def test_a_size_that_does_not_apply_is_not_asked() -> None:
    data = trestle()
    data["dimensions"]["height"]["when"] = "lid == 'yes'"
    data["overall"]["height"] = "height - 2*inch"
    made = read_template(data)
    with_lid, without = (build(made, {}, {"lid": lid}, demo_shop(), "in") for lid in ("yes", "no"))
    assert "height" in asked_mm(with_lid) and "height" not in asked_mm(without)


def test_faults_are_in_the_shops_units_unless_others_are_asked_for() -> None:
    data = changed("overall/depth", "post.width")
    assert "5 1/2 in deep where 3 1/2 in is asked, 2 in too much" in told(data)[0][1]
    assert "139.7 mm deep where 88.9 mm is asked, 50.8 mm too much" in told(data, "mm")[0][1]


@pytest.mark.parametrize("side", ["left", "right"])
def test_an_l_keeps_out_of_the_quarter_that_its_fit_says_is_free(side: str) -> None:
    bench = tomllib.loads((DATA / "templates" / "corner-bench.toml").read_text(encoding="utf-8"))

    def faults(data: dict[str, Any]) -> list[str]:
        made, shop = read_template(data), demo_shop()
        piece = build(made, *sizes(made, {}, {"side": side}, "in"), shop, "in")
        return [fault.detail for fault in faults_of(piece, shop)]

    assert faults(bench) == []
    spoilt = copy.deepcopy(bench)
    spoilt["fit"]["envelope"]["wing_depth"] = "depth - 4*inch"
    assert any("the place beside the wing is free; Wing seat board 1 reaches 4 in into it" in f
               for f in faults(spoilt))
    del bench["dimensions"]["depth"]["measures"]
    assert any("a depth of" in f for f in faults(bench))


def test_posts_in_the_ground_count_from_the_ground_up() -> None:
    """Posts that go 8 in down leave a height of 20 in above the ground."""
    data = trestle(stands="posts in the ground")
    data["members"][0]["from"][2] = "-8*inch"
    assert told(data) == []
    assert any("reaches to z = -8 in" in detail for _, detail in told({**data, "stands": "on the ground"}))
