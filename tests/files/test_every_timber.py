"""Whatever timber a shop sells, it also sells every screw, tin and hour that its templates need in it."""

import pytest

import builders as b
from yardwright.domain import hardware, labour, parts
from yardwright.domain.piece import build

CASES = [(name, shop, template, timber)
         for name, shop in (("in", b.demo_shop()), ("mm", b.demo_shop_metric()))
         for template in shop.templates.values()
         for timber in sorted({board.timber for board in shop.market.boards}) if timber in template.timbers]


@pytest.mark.parametrize(("name", "shop", "template", "timber"), CASES,
                         ids=[f"{case[0]}-{case[2].id}-{case[3]}" for case in CASES])
def test_a_template_in_every_timber_the_shop_sells(name, shop, template, timber):
    for finish in template.finishes:
        piece = build(template, {}, {"timber": timber, "finish": finish}, shop, name)
        asked = [(piece, 2)]
        goods = hardware.count(asked, shop)
        hours = labour.estimate(asked, parts.cut_list(asked, shop), (), goods, b.job(), shop)
        assert hours.hours > 4
        bought = {line.goods.kind for line in goods}
        assert ("finish" in bought) == (finish != "none")
        assert ("preservative" in bought) == bool(shop.market.timbers[timber].treated)
        metals = shop.market.timbers[timber].fasteners
        assert all(line.goods.material.startswith(metals) for line in goods if line.goods.kind == "screw")
