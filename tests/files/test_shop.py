"""A shop's folder: the embedded ones are complete, and a fault in one is told with file and line."""

import shutil
from decimal import Decimal
from itertools import pairwise

import pytest

import builders as b
from yardwright.domain.errors import BadData
from yardwright.files.shop import read_bare_shop

SHOPS = [b.demo_shop, b.demo_shop_metric]


@pytest.fixture
def folder(tmp_path):
    return shutil.copytree(b.DATA / "demo_shop", tmp_path / "mine")


def change(folder, old, new, name="shop.toml"):
    text = (folder / name).read_text()
    assert old in text
    (folder / name).write_text(text.replace(old, new, 1))


@pytest.mark.parametrize("shop", SHOPS)
def test_every_template_has_its_timber_finish_and_default(shop):
    market = shop().market
    sold = {board.timber for board in market.boards}
    assert shop().templates
    for template in shop().templates.values():
        assert template.default_timber in sold
        assert set(template.timbers) <= set(market.timbers)
        assert set(template.finishes) <= {"none", *market.finishes}
        tins = {g.material for g in market.goods if g.kind == "finish"}
        assert set(template.finishes) <= {"none", *tins}


@pytest.mark.parametrize("shop", SHOPS)
def test_longer_boards_cost_more_and_not_in_step_with_their_length(shop):
    by_kind = {}
    for board in shop().market.boards:
        by_kind.setdefault((board.section.id, board.timber, board.grade), []).append(board)
    bent = 0
    for boards in by_kind.values():
        boards.sort(key=lambda line: line.length_nm)
        assert all(a.price.minor < c.price.minor for a, c in pairwise(boards))
        per_m = {round(line.price.minor / line.length_nm * 1e9) for line in boards}
        bent += len(per_m) > 1
    assert bent > len(by_kind) / 2


@pytest.mark.parametrize("shop", SHOPS)
def test_every_grade_has_a_share_of_spare_boards(shop):
    grades = {board.grade for board in shop().market.boards}
    assert grades == set(shop().prices.defect_spares)
    assert all(0 < Decimal(share) < 1 for share in shop().prices.defect_spares.values())


@pytest.mark.parametrize("shop", SHOPS)
def test_demonstration_prices_say_so(shop):
    assert shop().market.demonstration
    assert shop().market.as_of == "2026-11-02"


def test_versions_change_with_the_data_they_name(folder):
    before = read_bare_shop(folder, b.DATA).versions
    change(folder, "12", "13", "goods.csv")
    after = read_bare_shop(folder, b.DATA).versions
    assert {name for name in before if before[name] != after[name]} == {"prices"}


def test_the_shops_own_times_and_limits_replace_the_shared_ones(folder):
    (folder / "times").mkdir()
    (folder / "times" / "own.toml").write_text(
        '[crosscut]\nname = "Crosscut"\nphase = "cut"\nper = "cut"\neach = {value = 3, unit = "min"}\n'
        'source = "own log"\nstatus = "shop"\n')
    (folder / "limits").mkdir()
    (folder / "limits" / "hardware.toml").write_text(
        'glue_film = {value = 0.4, unit = "mm", source = "own", status = "shop"}\n')
    shop = read_bare_shop(folder, b.DATA)
    assert shop.times["crosscut"].minutes == 3.0
    assert shop.limits["hardware.glue_film"].value == 0.4
    assert shop.limits["hardware.tip_cover"] == b.bare_shop().limits["hardware.tip_cover"]


@pytest.mark.parametrize(("old", "new", "said"), [
    ('units = "in"', 'units = "inch"', "mine/shop.toml:3: units: 'inch' is none of 'in', 'mm'"),
    ('as_of = "2026-11-02"', 'as_of = "2.11.2026"', 'a date is written like "2026-11-02"'),
    ('crosscut_kerf = "1/8 in"', 'crosscut_kerf = "1/8"', "a length is written with its unit"),
    ('step = "1/16 in"', 'step = "0 in"', "step and longest_carry are above 0"),
    ('labour_rate = "30.00"', 'labour_rate = "thirty"', "is no amount of USD"),
    ('labour_rate = "30.00"', 'labour_rate = "-30"', "below zero"),
    ('uplift = "margin"', 'uplift = "profit"', "'profit' is none of 'margin', 'markup'"),
    ('uplift_rate = "0.20"', 'uplift_rate = "1.2"', "no share from 0 to below 1"),
    ('rate = "0.0725"', 'rate = "7.25"', '7.25 % is written "0.0725"'),
    ('by = "invoice"', 'by = "bill"', "'bill' is none of 'item', 'invoice'"),
    ("lead_weeks = [3, 5]", "lead_weeks = [5, 3]", "the least and the most weeks"),
    ("hours_per_day = 7.0", "hours_per_day = 30", "at most 24 hours"),
    ("valid_days = 21", "valid_day = 21", "did you mean 'valid_days'?"),
    ('second_person_over = {value = 50, unit = "kg"}', 'second_person_over = {value = 50, unit = "mi"}',
     "of another kind"),
    ('"No.1" = "0.06"\n', "", "grade 'No.1' of boards.csv has no share of spare boards here"),
    ('staple = "0.10"', 'staples = "0.10"', "waste.staples: unknown key; did you mean 'staple'?"),
    ('tape_class = "II"', 'tape_class = "2"', "'2' is none of 'I', 'II', 'III'")])
def test_a_fault_in_shop_toml_is_told(folder, old, new, said):
    change(folder, old, new)
    with pytest.raises(BadData, match=r"mine/shop\.toml:\d+") as caught:
        read_bare_shop(folder, b.DATA)
    assert said in str(caught.value)


def test_markup_may_be_more_than_the_cost(folder):
    change(folder, 'uplift = "margin"', 'uplift = "markup"')
    change(folder, 'uplift_rate = "0.20"', 'uplift_rate = "1.2"')
    assert read_bare_shop(folder, b.DATA).prices.uplift_rate == "1.2"


def test_taxes_inside_and_on_top_do_not_mix(folder):
    with (folder / "shop.toml").open("a") as file:
        file.write('\n[[tax]]\nname = "B"\nrate = "0.2"\nincluded = true\nby = "item"\non = "all"\n')
    with pytest.raises(BadData, match="either every tax is included"):
        read_bare_shop(folder, b.DATA)


@pytest.mark.parametrize("name", ["boards", "sheets", "rolls", "goods"])
def test_a_missing_price_list_is_named(folder, name):
    (folder / f"{name}.csv").unlink()
    with pytest.raises(BadData, match=f"mine/{name}.csv: the file is missing"):
        read_bare_shop(folder, b.DATA)


def test_a_spreadsheets_byte_order_mark_does_no_harm(folder):
    text = (folder / "goods.csv").read_text()
    (folder / "goods.csv").write_text("\ufeff" + text, encoding="utf-8")
    assert read_bare_shop(folder, b.DATA).market.goods == b.bare_shop().market.goods


def test_metric_shop_shows_prices_with_vat_inside():
    prices = b.demo_shop_metric().prices
    assert (prices.currency, [(t.rate, t.included) for t in prices.tax]) == ("EUR", [("0.20", True)])


def test_prices_of_cuts_and_of_pieces_on_hand_may_be_left_out(folder):
    read = read_bare_shop(folder, b.DATA)
    assert (read.prices.cut_prices, read.prices.on_hand_share, read.saw.sheet_trim_nm) == (None, "0", 0)
    assert (read.random_width_yield.value, read.random_width_yield.status) == (0.75, "common practice")


def test_prices_of_cuts_are_read_and_lines_left_out_are_nothing(folder):
    change(folder, "[fitting]", '[cut_prices]\ncrosscut = "0.85"\noffcut_credit_per_m = "0.60"\n'
                                '[on_hand]\nprice_share = "0.5"\n\n[fitting]')
    read = read_bare_shop(folder, b.DATA).prices
    assert (read.cut_prices.crosscut, read.cut_prices.offcut_credit_per_m) == (b.usd("0.85"), b.usd("0.60"))
    assert (read.cut_prices.rip_per_m, read.cut_prices.set_up) == (b.usd("0.00"), b.usd("0.00"))
    assert read.on_hand_share == "0.5"


@pytest.mark.parametrize(("given", "said"), [
    ('[cut_prices]\ncrosscut = "-1.00"', "below zero"),
    ('[cut_prices]\ncross_cut = "1.00"', "did you mean 'crosscut'"),
    ('[cut_prices]\noffcut_credit_per_m = "90.00"', "worth more than it costs"),
    ('[on_hand]\nprice_share = "half"', "no decimal share"),
])
def test_a_price_of_cuts_that_cannot_be_meant_is_refused(folder, given, said):
    change(folder, "[fitting]", given + "\n\n[fitting]")
    with pytest.raises(BadData, match=said):
        read_bare_shop(folder, b.DATA)


def test_a_yield_above_the_whole_is_refused(folder):
    change(folder, "yield = {value = 0.75", "yield = {value = 1.75")
    with pytest.raises(BadData, match="above 0 and at most 1"):
        read_bare_shop(folder, b.DATA)
