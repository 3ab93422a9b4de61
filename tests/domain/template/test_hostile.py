"""A hostile template costs little and gets a clear answer; the cases are in hostile_templates.py."""

from __future__ import annotations

import pytest

from bench.hostile import cost_ms, reference_ms
from builders import demo_shop
from hostile_templates import ESCAPES, collection, with_value
from small_templates import trestle
from yardwright.domain import piece
from yardwright.domain.errors import Refused
from yardwright.domain.template import read_template

CASES = collection()
MOST_OF_REFERENCE = 3.0      # times half a million turns of a loop: near 1.3 on a quiet machine
BUILT = {"code for a text", "two hundred hinges", "a plane a hair off the face"}    # that do no harm


@pytest.mark.parametrize("name", CASES)
def test_a_hostile_template_is_refused_in_words_or_has_faults(name: str) -> None:
    try:
        made = piece.build(read_template(CASES[name]()), {}, {}, demo_shop(), "in", piece.INLINE)
    except Refused as refused:
        assert refused.faults and all(0 < len(f.detail) < 1000 for f in refused.faults)
    else:
        assert name in BUILT or list(piece.faults_of(made, demo_shop())), f"{name} is taken for a good piece"


@pytest.mark.parametrize("name", ESCAPES)
def test_nothing_but_arithmetic_on_declared_names_is_a_formula(name: str) -> None:
    with pytest.raises(Refused) as refused:
        read = read_template(with_value(ESCAPES[name]))
        piece.build(read, {}, {}, demo_shop(), "in", piece.INLINE)
    assert refused.value.faults[0].pointer.startswith("/values/extra") or "extra" in str(refused.value)


def test_the_worst_of_them_costs_no_more_than_a_small_share_of_a_second() -> None:
    reference, costs = reference_ms(), {name: cost_ms(make, 1)[0] for name, make in CASES.items()}
    dear = {name: cost_ms(CASES[name], 3)[0] for name, ms in costs.items() if ms > 2 * reference}
    assert {name: ms for name, ms in dear.items() if ms > MOST_OF_REFERENCE * reference} == {}


def test_work_is_counted_before_it_is_done_so_that_a_tenth_of_the_steps_costs_a_fraction() -> None:
    with pytest.raises(Refused, match="more work than one template may ask for"):
        piece.build(read_template(trestle()), {}, {}, demo_shop(), "in", piece.Allowance(100))


@pytest.mark.parametrize("name", ["storage-bench", "planter-box"])
def test_an_honest_piece_of_ours_fits_in_what_a_template_sent_with_a_job_may_cost(name: str) -> None:
    shop = demo_shop()
    assert piece.build(shop.templates[name], {}, {}, shop, "in", piece.INLINE).members


def test_reading_stops_at_the_fortieth_fault() -> None:
    with pytest.raises(Refused) as refused:
        read_template(trestle() | {f"unknown{k}": 1 for k in range(500)})
    assert len(refused.value.faults) == 40
