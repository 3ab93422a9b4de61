"""Sizes and cautions that hold for some choices only: read, worked out, shown or left away."""

from __future__ import annotations

from typing import Any

import pytest

from builders import demo_shop
from small_templates import trestle
from yardwright.domain.errors import BadTemplate
from yardwright.domain.piece import build
from yardwright.domain.template import read_template
from yardwright.domain.template.sizes import holding


def with_conditions() -> dict[str, Any]:
    data = trestle(cautions=["Sand it.", {"text": "Fingers!", "when": "lid == 'yes' and length > 30*inch"}])
    data["dimensions"]["reach"] = {"label": "Reach of the lid", "default": "6 in", "min": "4 in",
                                   "max": "8 in", "step": "1 in", "when": "lid == 'yes'"}
    return data


@pytest.mark.parametrize(("lid", "length_mm", "sizes", "cautions"), [
    ("yes", 1000, ["length", "height", "reach"], ["Sand it.", "Fingers!"]),
    ("yes", 700, ["length", "height", "reach"], ["Sand it."]),
    ("no", 1000, ["length", "height"], ["Sand it."]),
])
def test_only_what_applies_is_given(lid: str, length_mm: int, sizes: list[str], cautions: list[str]) -> None:
    template = read_template(with_conditions())
    asked = {"length": length_mm * 1_000_000, "height": 508_000_000, "reach": 152_400_000}
    assert [d.name for d in holding(template.dimensions, asked, {"lid": lid})] == sizes
    assert [c.text for c in holding(template.cautions, asked, {"lid": lid})] == cautions


@pytest.mark.parametrize(("condition", "said"), [
    ("lidd == 'yes'", "lid"), ("length", "truth"), ("under > 3*inch", "under"),
    ("post.width > 3*inch", "post"),
])
def test_a_condition_is_a_truth_by_sizes_and_choices_alone(condition: str, said: str) -> None:
    data = with_conditions()
    data["dimensions"]["reach"]["when"] = condition
    data["cautions"][1]["when"] = condition
    with pytest.raises(BadTemplate) as refused:
        read_template(data)
    told = {f.pointer: f.detail for f in refused.value.faults}
    assert said in told["/dimensions/reach/when"] and said in told["/cautions/1/when"]


def test_a_caution_without_words_or_with_unknown_entries_is_refused() -> None:
    data = trestle(cautions=[{"when": "lid == 'yes'"}, {"text": "x", "wenn": "true"}, 3])
    with pytest.raises(BadTemplate) as refused:
        read_template(data)
    assert {f.pointer for f in refused.value.faults} == {
        "/cautions/0/text", "/cautions/1/wenn", "/cautions/2/text"}


def test_a_bench_without_a_back_has_no_height_of_the_back() -> None:
    shop = demo_shop()
    bench = shop.templates["storage-bench"]
    plain, backed = (build(bench, {}, {"back": back}, shop, "in") for back in ("none", "curved"))
    assert "back_height" in backed.used_nm and "back_height" not in plain.used_nm
    assert plain.dimensions_nm.keys() == backed.dimensions_nm.keys()
    assert any("brackets" in line for line in backed.cautions)
    assert not any("brackets" in line for line in plain.cautions)
