"""The cutting of a whole job: groups, the rack, spare boards, glue-ups, amounts."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builders import FOOT, INCH, MM, market, price_rules, shop, usd
from yardwright.domain.cutting import plan_job
from yardwright.domain.errors import NoStock
from yardwright.domain.job import OnHand
from yardwright.domain.parts import Part
from yardwright.domain.shop import CutPrices

WIDE = round(5.5 * INCH)


def part(mark: str, length_in: float, count: int, **more: object) -> Part:
    width = int(more.pop("width_in", 5.5) * INCH)  # type: ignore[operator]
    plain: dict[str, object] = {
        "mark": mark,
        "name": f"Board {mark}",
        "item": 0,
        "count": count,
        "hand": "",
        "material": "board",
        "timber": "western-red-cedar",
        "section": "1x6",
        "grade": "Knotty",
        "length_nm": int(length_in * INCH),
        "width_nm": width,
        "thickness_nm": 3 * INCH // 4,
        "rough_length_nm": int(length_in * INCH),
        "full_width": width == WIDE,
        "made_of": "",
        "glue_up_kind": "",
        "grain": "along",
        "shape": (),
        "notes": (),
        "keys": (),
    }
    return Part(**(plain | more))  # type: ignore[arg-type]


def test_parts_are_grouped_by_timber_thickness_and_grade() -> None:
    pine = part("B", 40, 2, timber="southern-pine-uc4a", section="2x4", grade="No.1", width_in=3.5625)
    _, groups = plan_job([part("A", 40, 2), pine, part("C", 20, 1, section="1x4", width_in=3.5)], shop())
    assert [group.material for group in groups] == ["western-red-cedar", "southern-pine-uc4a"]
    assert "1x6, 1x4" in groups[0].name


def test_amounts_are_exact_and_spares_for_defects_are_whole_boards() -> None:
    stock, groups = plan_job([part("A", 46, 2)], shop())
    (line,) = stock
    # one 8 ft board at 12.00 by the plan; 10 % of one board for defects, rounded up: one more
    assert groups[0].plan.cost == 1200
    assert (line.count, line.spares, line.amount) == (2, 1, usd("24.00"))
    assert "1 by the cutting plan, 1 more for defects (10 % of 1 1x6 boards" in line.working


def test_no_spare_is_added_where_the_grade_needs_none() -> None:
    clear = shop(prices=price_rules(defect_spares={}))
    (line,) = plan_job([part("A", 46, 2)], clear)[0]
    assert (line.count, line.spares) == (1, 0)


def test_spares_are_of_the_longest_length_bought() -> None:
    stock, _ = plan_job([part("A", 130, 1), part("B", 80, 1)], shop())
    assert {line.stock.code: line.spares for line in stock} == {"C-1x6-8": 0, "C-1x6-12": 1}


def test_full_width_parts_come_from_their_own_section() -> None:
    (line, *_), _ = plan_job([part("A", 80, 1, section="1x4", width_in=3.5, full_width=True)], shop())
    assert line.stock.code == "C-1x4-8"


def test_a_full_width_part_is_ripped_from_wider_only_where_its_own_section_is_too_short() -> None:
    short = tuple(b for b in market().boards if b.code != "C-1x4-12")
    few = shop(market=replace(market(), boards=short))
    stock, _ = plan_job([part("A", 130, 1, section="1x4", width_in=3.5, full_width=True)], few)
    assert stock[0].stock.code == "C-1x6-12"


def test_rough_lengths_are_what_is_cut() -> None:
    long = part("A", 95, 1, rough_length_nm=96 * INCH)
    (line,), _ = plan_job([long], shop(prices=price_rules(defect_spares={})))
    assert line.stock.code == "C-1x6-12"


def test_the_rack_is_used_and_never_twice() -> None:
    rack = [OnHand("1x6", "western-red-cedar", 60 * INCH, 1, usd("0.00"))]
    grades = [part("A", 50, 1), part("B", 50, 1, grade="Clear")]
    clear = tuple(replace(b, code=b.code + "-CLEAR", grade="Clear") for b in market().boards)
    both = shop(market=replace(market(), boards=market().boards + clear))
    stock, _ = plan_job(grades, both, rack)
    assert sum(line.count for line in stock if line.on_hand) == 1
    assert sum(line.count - line.spares for line in stock if not line.on_hand) == 1


def test_matched_strips_come_from_one_board() -> None:
    strips = [
        part("W", 40, 2, width_in=3.0625, made_of="Leg", glue_up_kind="L", matched=True),
        part("N", 40, 2, width_in=2.3125, made_of="Leg", glue_up_kind="L", matched=True),
    ]
    _, groups = plan_job(strips, shop())
    for layout in groups[0].plan.layouts:
        marks = [p.mark for p in layout.parts]
        assert marks.count("W") == marks.count("N")


def test_edges_that_are_glued_are_trimmed_first() -> None:
    glued = part("A", 40, 1, width_in=5.25, glue_up_kind="edge", made_of="Panel", full_width=False)
    trimming = shop()
    trimming = replace(trimming, saw=replace(trimming.saw, edge_trim_nm=INCH // 16))
    (placed,) = plan_job([glued], trimming)[1][0].plan.layouts[0].parts
    assert placed.y_nm == INCH // 16


def test_sheets_and_rolls_are_bought_by_sheet_and_length() -> None:
    sheet = part(
        "S", 40, 1, material="sheet", section="PLY", timber="", grade="", width_in=20, grain="either"
    )
    mesh = part("M", 40, 1, material="roll", section="mesh", timber="", grade="", width_in=17, grain="either")
    stock, groups = plan_job([sheet, mesh], shop())
    assert [(line.kind, line.count, line.length_nm) for line in stock] == [
        ("sheet", 1, 8 * FOOT),
        ("roll", 1, 4 * FOOT),
    ]
    assert stock[1].amount == usd("12.00")
    assert [group.plan.status for group in groups] == ["optimal", "optimal"]


def test_a_part_no_stock_gives_is_put_to_its_item_by_name() -> None:
    with pytest.raises(NoStock) as refusal:
        plan_job([part("A", 40, 1), part("B", 200, 1, item=1)], shop())
    (fault,) = refusal.value.faults
    assert fault.pointer == "/items/1/dimensions"
    assert "Board B" in fault.detail
    assert "200 in" in fault.detail


def test_a_timber_the_shop_does_not_sell_is_refused() -> None:
    with pytest.raises(NoStock, match="no stock"):
        plan_job([part("A", 40, 1, timber="teak")], shop())


def test_one_millimetre_shops_cut_alike() -> None:
    metric = part("A", 1, 1, length_nm=1200 * MM, rough_length_nm=1200 * MM)
    assert plan_job([metric], shop())[1][0].plan.layouts[0].parts[0].length_nm == 1200 * MM


def cut_prices(**changes: str) -> CutPrices:
    names = ("crosscut", "rip_per_m", "set_up", "offcut_credit_per_m")
    return CutPrices(*(usd(changes.get(name, "0.00")) for name in names))


def test_the_shops_prices_of_cuts_choose_the_plan_and_are_in_no_amount() -> None:
    parts = [part("A", 90, 1)]
    wide = replace(market(), boards=tuple(b for b in market().boards if b.section.id == "1x6"))
    prices = price_rules(defect_spares={}, cut_prices=cut_prices(offcut_credit_per_m="4.80"))
    credited = shop(prices=prices, market=wide)
    plain, _ = plan_job(parts, shop(prices=price_rules(defect_spares={})))
    stock, (group,) = plan_job(parts, credited)
    assert (plain[0].stock.code, stock[0].stock.code) == ("C-1x6-8", "C-1x6-12")
    assert stock[0].amount == usd("18.00")  # the whole board; the credit is not given away
    assert group.plan.boards_cost == 1800
    assert group.plan.cost < group.plan.boards_cost


def test_a_dear_crosscut_is_in_the_plans_cost_only() -> None:
    dear = shop(prices=price_rules(defect_spares={}, cut_prices=cut_prices(crosscut="5.00", set_up="1.00")))
    (line,), (group,) = plan_job([part("A", 40, 2)], dear)
    trim = dear.saw.end_trim_nm > 0
    assert group.plan.cost == line.amount.minor + (2 + trim) * 500 + 100


def test_a_piece_on_hand_without_a_price_costs_the_shops_share_of_the_same_length() -> None:
    rack = [OnHand("1x6", "western-red-cedar", 60 * INCH, 1, None)]
    free, _ = plan_job([part("A", 50, 1)], shop(), rack)
    assert (free[0].on_hand, free[0].amount) == (True, usd("0.00"))
    sharing = shop(prices=price_rules(on_hand_share="0.5"))
    half, _ = plan_job([part("A", 50, 1)], sharing, rack)
    assert half[0].amount == usd("3.75")  # 5 ft at 1.50 a foot, half of it
    asked = [OnHand("1x6", "western-red-cedar", 60 * INCH, 1, usd("2.00"))]
    named, _ = plan_job([part("A", 50, 1)], sharing, asked)
    assert named[0].amount == usd("2.00")


def test_no_part_of_a_quote_lies_on_a_blocked_zone_of_the_rack() -> None:
    zone = (20 * INCH, 24 * INCH)
    rack = [OnHand("1x6", "western-red-cedar", 60 * INCH, 1, usd("0.00"), (zone,))]
    _, (group,) = plan_job([part("A", 30, 1), part("B", 18, 1)], shop(), rack)
    (layout,) = group.plan.layouts
    assert all(p.x_nm + p.length_nm <= zone[0] or p.x_nm >= zone[1] for p in layout.parts)


def test_sheets_are_trimmed_where_the_shop_says_so() -> None:
    sheet = part("S", 40, 1, material="sheet", section="PLY", timber="", grade="", width_in=20)
    trimmed = shop()
    trimmed = replace(trimmed, saw=replace(trimmed.saw, sheet_trim_nm=INCH // 4))
    (placed,) = plan_job([sheet], trimmed)[1][0].plan.layouts[0].parts
    assert (placed.x_nm, placed.y_nm) == (INCH // 4, INCH // 4)
