"""Roles: the first section the shop sells in the timber; what is lacking is told with what is sold."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builders import demo_shop, shop
from small_templates import one_member, trestle
from yardwright.domain.errors import NoStock
from yardwright.domain.measure import INCH, to_mm
from yardwright.domain.piece import build
from yardwright.domain.piece.stock import pick_stock, wide_enough
from yardwright.domain.template import read_template


def roles(**sections: list[str]) -> object:
    return read_template(trestle(boards={name: {"sections": s} for name, s in sections.items()}))


def test_the_first_section_that_is_sold_is_taken() -> None:
    template = read_template(
        trestle(boards={"post": {"sections": ["3x3", "4x4"]}, "top": {"sections": ["1x6", "1x4"]}})
    )
    picks = pick_stock(template, "western-red-cedar", shop().market)
    assert (picks["post"][0].code, picks["top"][0].code) == ("4x4", "1x6")
    assert picks["top"][0].width_mm == pytest.approx(139.7)


def test_sizes_are_those_delivered_wet_when_the_stock_is_wet() -> None:
    template = read_template(
        trestle(
            boards={"post": {"sections": ["2x4"]}, "top": {"sections": ["2x4"]}},
            timbers=["southern-pine-uc4a"],
        )
    )
    (pick,) = pick_stock(template, "southern-pine-uc4a", shop().market)["post"]
    section = shop().market.sections["2x4"]
    assert (
        pick.thickness_mm == pytest.approx(to_mm(section.green_thickness_nm)) != to_mm(section.thickness_nm)
    )


def test_every_role_that_nothing_can_be_made_of_is_told_with_what_is_sold() -> None:
    template = read_template(trestle(boards={"post": {"sections": ["6x6"]}, "top": {"sections": ["1x12"]}}))
    with pytest.raises(NoStock) as refused:
        pick_stock(template, "western-red-cedar", shop().market)
    assert [f.pointer for f in refused.value.faults] == ["/choices/timber", "/choices/timber"]
    assert "role 'post' wants 6x6 in western-red-cedar; the shop sells 1x4, 1x6, 2x4, 4x4 in it" in str(
        refused.value
    )


def test_a_timber_the_shop_does_not_sell_is_told() -> None:
    with pytest.raises(NoStock, match="sells none of it"):
        pick_stock(read_template(trestle()), "teak", shop().market)


def test_a_role_may_ask_for_a_grade() -> None:
    template = read_template(
        trestle(boards={"post": {"sections": ["4x4"], "grade": "Clear"}, "top": {"sections": ["1x6"]}})
    )
    with pytest.raises(NoStock, match="of grade Clear"):
        pick_stock(template, "western-red-cedar", shop().market)


def test_the_cheapest_grade_by_length_is_taken_where_none_is_asked() -> None:
    small = shop()
    dear = [
        replace(b, code=b.code + "-CLR", grade="Clear", price=b.price.times(3)) for b in small.market.boards
    ]
    market = replace(small.market, boards=(*dear, *small.market.boards))
    assert pick_stock(read_template(trestle()), "western-red-cedar", market)["post"][0].grade == "Knotty"


def test_a_roll_member_comes_from_the_narrowest_roll_that_covers_it() -> None:
    rolls = {"mesh": {"material": "mesh"}}
    data = (
        one_member().source,
        trestle(
            rolls=rolls,
            joints=[],
            groups={},
            hardware=[],
            checks=[],
            members=[
                {
                    "name": f"Mesh {word}",
                    "roll": "mesh",
                    "width": width,
                    "from": ["0*inch", "0*inch", z],
                    "to": ["40*inch", "0*inch", z],
                    "wide": "back",
                    "thick": "up",
                }
                for word, width, z in (("narrow", "20*inch", "0*inch"), ("wide", "30*inch", "5*inch"))
            ],
        ),
    )
    members = build(read_template(data[1]), {}, {}, demo_shop(), "in").members
    assert [m.section for m in members] == ["MESH-24", "MESH-36"]
    assert members[0].mass_kg == pytest.approx(20 * 40 * 0.0254**2 * 1.2)
    picks = pick_stock(read_template(data[1]), "western-red-cedar", demo_shop().market)["mesh"]
    assert wide_enough(picks, 60 * 25.4).code == "MESH-48"
    data[1]["members"][1]["width"] = "60*inch"           # rolls have no thickness that anybody saws
    with pytest.raises(NoStock, match="Mesh wide is 60 in; MESH-48 gives 48 in"):
        build(read_template(data[1]), {}, {}, demo_shop(), "in")


def test_a_sheet_gives_its_own_thickness() -> None:
    data = trestle(
        sheets={"shelf": {"material": "exterior plywood"}},
        joints=[],
        groups={},
        hardware=[],
        checks=[],
        members=[
            {
                "name": "Shelf",
                "sheet": "shelf",
                "width": "20*inch",
                "grain": "either",
                "from": ["0*inch", "0*inch", "0*inch"],
                "to": ["40*inch", "0*inch", "0*inch"],
                "wide": "back",
                "thick": "up",
            }
        ],
    )
    (shelf,) = build(read_template(data), {}, {}, demo_shop(), "in").members
    assert shelf.material == "sheet" and shelf.thickness_mm == pytest.approx(15 / 32 * 25.4)
    assert shelf.end_grain_mm2 == 0 and shelf.grain == "either"


def test_a_part_longer_than_any_board_is_for_the_cutting_to_refuse_and_the_trial_to_find() -> None:
    from yardwright.domain.piece import trial

    data = trestle()
    data["dimensions"]["length"]["max"] = "200 in"
    report = trial(read_template(data), demo_shop(), 0)
    assert any("the longest 1x6 gives" in f.detail for f in report.faults)
    assert 200 * INCH in {f.point.dimensions_nm["length"] for f in report.faults}


def test_each_price_list_is_asked_itself_however_many_were_asked_before() -> None:
    boards = {"post": {"sections": ["4x4"]}, "top": {"sections": ["1x6", "1x4"]}}
    template = read_template(trestle(boards=boards))
    market = shop().market
    for _ in range(12):
        narrow = replace(market, boards=tuple(b for b in market.boards if b.section.id != "1x6"))
        assert pick_stock(template, "western-red-cedar", market)["top"][0].code == "1x6"
        assert pick_stock(template, "western-red-cedar", narrow)["top"][0].code == "1x4"
