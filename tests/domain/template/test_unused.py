"""What a template declares and does not use is told with its place; what it uses anywhere is not."""

from __future__ import annotations

from typing import Any

import pytest

from builders import demo_shop, demo_shop_metric
from small_templates import trestle
from yardwright.domain.template import read_template
from yardwright.domain.template.unused import unused
from yardwright.domain.template.within import formulas

SIZE = {"label": "Shelf", "default": "12 in", "min": "10 in", "max": "14 in", "step": "1 in"}
FINISH = {"label": "Feet", "options": [{"id": "flat", "label": "Flat"}]}
HINGE = {"along": "length", "at": ["0*inch", "0*inch", "0*inch"], "opens": "90*deg"}


def places(data: dict[str, Any]) -> list[str]:
    return [fault.pointer for fault in unused(read_template(data))]


@pytest.mark.parametrize(("part", "name", "value", "where"), [
    ("dimensions", "shelf", SIZE, "/dimensions/shelf"),
    ("choices", "feet", FINISH, "/choices/feet"),
    ("values", "spare", "length/2", "/values/spare"),
    ("boards", "rail", {"sections": ["2x4"]}, "/boards/rail"),
    ("groups", "door", HINGE, "/groups/door"),
])
def test_what_nothing_uses_is_told(part: str, name: str, value: Any, where: str) -> None:
    data = trestle()
    data[part] = {**data[part], name: value}
    assert places(data) == [where]


def test_a_fit_value_that_nothing_uses_is_told() -> None:
    data = trestle()
    data["fit"]["values"] = {"reach": "length"}
    assert places(data) == ["/fit/values/reach"]


@pytest.mark.parametrize(("path", "formula"), [
    (("members", 0, "from", 2), "min(shelf, 0*inch)"),
    (("members", 2, "when"), "lid == 'yes' and shelf > 0*inch"),
    (("groups", "lid", "at", 0), "shelf"),
    (("joints", 0, "per_contact"), "round(shelf/shelf)"),
    (("hardware", 0, "length"), "shelf"),
    (("checks", 0, "reach"), "shelf"),
    (("fit", "envelope", "open_front"), "shelf"),
    (("overall", "height"), "max(height, shelf)"),
])
def test_a_size_used_anywhere_is_used(path: tuple[Any, ...], formula: str) -> None:
    data = trestle()
    data["dimensions"]["shelf"] = SIZE
    place: Any = data
    for step in path[:-1]:
        place = place[step]
    place[path[-1]] = formula
    assert places(data) == []


def test_the_templates_that_come_along_use_all_that_they_declare() -> None:
    for shop in (demo_shop(), demo_shop_metric()):
        for name, template in shop.templates.items():
            assert [fault.pointer for fault in unused(template)] == [], name


def test_walking_a_template_meets_every_formula_that_was_counted_in_its_text() -> None:
    """As many as there are texts in the TOML's formula entries, counted by hand on the trestle."""
    texts = [made.text for made in formulas(read_template(trestle()))]
    assert texts.count("length - post.width") == 1 and texts.count("lid == 'yes'") == 3
    assert texts.count("post.width") >= 1 and "-90*deg" in texts and "5.5*inch" in texts
