"""What a form may offer in one shop: only what can be built there."""

from __future__ import annotations

from dataclasses import replace

from yardwright.domain.piece.offer import offered
from yardwright.domain.shop import Shop
from yardwright.domain.template import Template


def named(template: Template, shop: Shop) -> dict[str, tuple[list[str], str]]:
    return {c.name: ([word for word, _ in c.options], c.default) for c in offered(template, shop)}


def test_timber_and_finish_come_last_as_the_template_allows_and_the_shop_sells(demo_shop: Shop) -> None:
    template: Template = demo_shop.templates["planter-box"]
    found = named(template, demo_shop)
    assert list(found)[-2:] == ["timber", "finish"]
    timbers, default = found["timber"]
    assert set(timbers) <= set(template.timbers) & {board.timber for board in demo_shop.market.boards}
    assert default == template.default_timber
    assert "teak" not in timbers, "no board of teak is in this list"


def test_a_timber_that_lacks_one_section_is_not_offered(demo_shop: Shop) -> None:
    template: Template = demo_shop.templates["planter-box"]
    needed = template.roles[0].sections
    boards = tuple(b for b in demo_shop.market.boards
                   if b.timber != "western-red-cedar" or b.section.id not in needed)
    poorer = replace(demo_shop, market=replace(demo_shop.market, boards=boards))
    timbers, default = named(template, poorer)["timber"]
    assert "western-red-cedar" not in timbers
    assert default == timbers[0], "the default moves to one that is sold"


def test_a_finish_the_shop_does_not_stock_is_not_offered(demo_shop: Shop) -> None:
    template: Template = demo_shop.templates["planter-box"]
    bare = replace(demo_shop, market=replace(demo_shop.market, finishes={}))
    assert named(template, bare)["finish"] == (["none"], "none")
