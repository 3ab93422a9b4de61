"""What would hold the paper of a piece as it is offered is told when its template is tried."""

from __future__ import annotations

import pytest

from builders import INCH, demo_shop, demo_shop_metric
from planted import plank_bench
from yardwright.domain.piece import build, trial
from yardwright.domain.piece.points import usual_points
from yardwright.domain.shop import Shop
from yardwright.domain.template import read_template
from yardwright.quoting.held import held


def test_a_bench_too_weak_as_it_is_offered_is_told_at_the_check_that_it_asks_for() -> None:
    """Boards of 1 in over 42 in from bearer to bearer; `tests/quoting/test_mends.py` mends the same bench."""
    template = read_template(plank_bench("14 in", "60 in", "48 in"))
    (fault, *more) = held(build(template, {"length": 48 * INCH}, {}, demo_shop(), "in"), demo_shop())
    assert fault.pointer == "/checks/0" and fault.detail.startswith("its quote would be held by seat load: ")
    assert "Add bearers" in fault.detail and not more


def test_only_as_it_is_offered_not_at_every_size_that_another_choice_would_mend() -> None:
    template = read_template(plank_bench("14 in", "60 in", "17 in"))
    assert trial(template, demo_shop(), 5, usually=held).faults == ()
    long = build(template, {"length": 60 * INCH}, {}, demo_shop(), "in")
    assert list(held(long, demo_shop()))


@pytest.mark.parametrize("shop", [demo_shop(), demo_shop_metric()], ids=["inches", "metric"])
def test_nothing_holds_the_five_templates_as_they_are_offered(shop: Shop) -> None:
    for template in shop.templates.values():
        for point in usual_points(template, shop):
            piece = build(template, point.dimensions_nm, point.choices, shop, point.units)
            assert list(held(piece, shop)) == [], template.id
