"""Heavier sections of a board and what a choice is about, as a template says them."""

from __future__ import annotations

from typing import Any

import pytest

from planted import plank_bench
from yardwright.domain.errors import BadJob, BadTemplate
from yardwright.domain.template import read_template, sizes


def bench() -> dict[str, Any]:
    return plank_bench("14 in", "48 in", "48 in", closer=4, heavier=("2x6", "45x145"))


def test_a_choice_is_about_looks_unless_it_says_what_it_is_about() -> None:
    data = bench()
    assert [c.about for c in read_template(data).choices] == ["make"]
    del data["choices"]["supports"]["about"]
    assert [c.about for c in read_template(data).choices] == ["look"]
    data["choices"]["supports"]["about"] = "taste"
    with pytest.raises(BadTemplate) as refused:
        read_template(data)
    assert [f.pointer for f in refused.value.faults] == ["/choices/supports/about"]


def test_a_heavier_section_is_chosen_by_its_board() -> None:
    template = read_template(bench())
    _, usual = sizes(template, {}, {}, "in")
    _, same = sizes(template, {}, {"seat_section": "usual"}, "in")
    _, thick = sizes(template, {}, {"seat_section": "2x6"}, "in")
    assert usual == same and "seat_section" not in usual
    assert thick == {**usual, "seat_section": "2x6"}
    with pytest.raises(BadJob) as refused:
        sizes(template, {}, {"seat_section": "2x8"}, "in")
    assert [f.pointer for f in refused.value.faults] == ["/choices/seat_section"]


def test_a_board_without_heavier_sections_has_no_such_choice() -> None:
    with pytest.raises(BadJob):
        sizes(read_template(bench()), {}, {"bearer_section": "2x6"}, "in")


def test_the_name_of_that_choice_is_not_free_for_another() -> None:
    data = bench()
    data["choices"]["seat_section"] = data["choices"]["supports"]
    with pytest.raises(BadTemplate) as refused:
        read_template(data)
    assert "/boards/seat/heavier" in [f.pointer for f in refused.value.faults]
