"""Sizes and choices: defaults filled in, ranges held, names nearly right told."""

from __future__ import annotations

import pytest

from small_templates import trestle
from yardwright.domain.errors import BadJob
from yardwright.domain.measure import INCH, MM
from yardwright.domain.template import read_template, sizes

TRESTLE = read_template(trestle())


def test_defaults_come_from_the_unit_system() -> None:
    inches, choices = sizes(TRESTLE, {}, {}, "in")
    metric, _ = sizes(TRESTLE, {}, {}, "mm")
    assert (inches["length"], metric["length"]) == (40 * INCH, 1000 * MM)
    assert choices == {"lid": "yes", "timber": "western-red-cedar", "finish": "none"}


def test_a_size_off_the_step_is_taken_as_asked() -> None:
    assert sizes(TRESTLE, {"length": 40 * INCH + 1}, {}, "in")[0]["length"] == 40 * INCH + 1


def test_both_ends_of_the_range_belong_to_it() -> None:
    for nm in (20 * INCH, 60 * INCH):
        assert sizes(TRESTLE, {"length": nm}, {}, "in")[0]["length"] == nm


@pytest.mark.parametrize(
    ("dimensions", "choices", "pointer", "said"),
    [
        ({"lenght": INCH}, {}, "/dimensions/lenght", "did you mean 'length'"),
        ({"length": 61 * INCH}, {}, "/dimensions/length", "outside 20 in to 60 in"),
        ({"length": 19 * INCH}, {}, "/dimensions/length", "outside"),
        ({}, {"lod": "yes"}, "/choices/lod", "did you mean 'lid'"),
        ({}, {"lid": "yep"}, "/choices/lid", "did you mean 'yes'"),
        ({}, {"timber": "western-red-ceder"}, "/choices/timber", "did you mean 'western-red-cedar'"),
        ({}, {"finish": "chrome"}, "/choices/finish", "not offered"),
    ],
)
def test_what_the_template_does_not_offer_is_refused_with_its_pointer(
    dimensions: dict[str, int], choices: dict[str, str], pointer: str, said: str
) -> None:
    with pytest.raises(BadJob) as refused:
        sizes(TRESTLE, dimensions, choices, "in")
    assert [(f.pointer, said in f.detail) for f in refused.value.faults] == [(pointer, True)]
