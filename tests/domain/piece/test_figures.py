"""A piece's figures alone: what checks that look at no solids find of them is what they find of the piece."""

from __future__ import annotations

import pytest

from builders import demo_shop
from yardwright.domain import checks, measure, piece
from yardwright.domain.site import Site

FIGURES = sorted(rule.name for rule in (*checks.RULES.values(), *checks.ALWAYS) if not rule.solids)


def test_these_rules_look_at_no_solids() -> None:
    assert FIGURES == ["armrest", "bed reach", "entrapment", "seat", "table"]


@pytest.mark.parametrize("name", sorted(demo_shop().templates))
@pytest.mark.parametrize("share", [0, 1, 0.5])
def test_rules_without_solids_find_the_same_of_figures_as_of_the_piece(name: str, share: float) -> None:
    shop, writer = demo_shop(), measure.Writer("in")
    template = shop.templates[name]
    asked = {d.name: d.least_nm + round((d.most_nm - d.least_nm) * share / 1_000_000) * 1_000_000
             for d in template.dimensions} if share < 1 else {}
    whole = piece.build(template, asked, {}, shop, "in")
    bare = piece.figures(template, asked, {}, shop, "in")
    assert not bare.members and bare.values == whole.values
    for rule in FIGURES:
        assert (checks.run(bare, None, Site(), shop, writer, rule)
                == checks.run(whole, None, Site(), shop, writer, rule))
