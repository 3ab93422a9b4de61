"""Price lists: a line for each thing, complaints with file and line."""

import pytest

import builders as b
from yardwright.domain.errors import BadData
from yardwright.files import prices

MARKET = b.bare_shop().market
BOARDS = '''\
# prices of last week
code,section,timber,grade,moisture,length,price,count

A,1x6,redwood,B Grade,dry,8 ft,12.50,
B,1x6,redwood,B Grade,wet,2.4 m,11.00,3
'''
GOODS = '''\
code,name,kind,size,per_pack,unit,material,mass,price
S,"Screw, 100",screw,gauge=8; length=1 1/4 in; diameter=4.2 mm,100,each,stainless,2.4 g,9.95
T,Stay,stay,torque=100 in lbf; load=20 lbf,1,each,,,25.00
F,Oil,finish,litres=0.946,0.946,L,clear-oil,,20.00
'''


def boards(text):
    return prices.read_boards(text, "boards.csv", "USD", MARKET.sections, MARKET.timbers)


def test_boards_with_comments_and_blank_lines():
    first, second = boards(BOARDS)
    assert (first.length_nm, first.price, first.count) == (8 * b.FOOT, b.usd("12.50"), None)
    assert (second.length_nm, second.count) == (2400 * b.MM, 3)
    assert second.width_nm > first.width_nm


@pytest.mark.parametrize(("old", "new", "line", "said"), [
    ("A,1x6", "A,1x66", 4, "section '1x66' is not known; did you mean '1x6'?"),
    ("redwood,B Grade,dry", "redwod,B Grade,dry", 4, "timber 'redwod' is not known; did you mean 'redwood'?"),
    ("dry", "damp", 4, "moisture 'damp' is not known; known: dry, green, wet"),
    ("8 ft", "8", 4, "write it with its unit"), ("8 ft", "-8 ft", 4, "length"),
    ("8 ft", "0 ft", 4, "above 0"),
    ("12.50", "12,50", 4, "9 cells where the header has 8"), ("12.50", "$12", 4, "no plain decimal"),
    ("12.50", "12.505", 4, "more decimals than USD has"), ("12.50", "0", 4, "not above 0"),
    ("12.50", "Infinity", 4, "not above 0"), ("11.00,3", "11.00,2.5", 5, "not whole"),
    ("11.00,3", "11.00,-1", 5, "below 0"), ("B,1x6", "A,1x6", 5, "code 'A' stands already in line 4"),
    ("A,1x6", ",1x6", 4, "code is empty"),
    ("price,count", "prise,count", 2, "missing or unknown: price, prise")])
def test_a_fault_in_a_board_line_is_told(old, new, line, said):
    with pytest.raises(BadData) as caught:
        boards(BOARDS.replace(old, new, 1))
    fault, = caught.value.faults
    assert fault.pointer == f"boards.csv:{line}"
    assert said in fault.detail


def test_an_empty_list_asks_for_its_header():
    with pytest.raises(BadData, match="the header is missing; it would be code,section"):
        boards("# nothing\n")


def test_goods_with_sizes_in_the_engines_units():
    screw, stay, oil = prices.read_goods(GOODS, "goods.csv", "USD")
    assert screw.size == {"gauge": 8, "length_nm": 31_750_000, "diameter_nm": 4_200_000}
    assert screw.mass_kg == pytest.approx(0.0024)
    assert stay.size == {"torque_nmm": pytest.approx(11_298.4829), "load_n": pytest.approx(88.96443)}
    assert (oil.per_pack, oil.unit, oil.material) == (0.946, "L", "clear-oil")


@pytest.mark.parametrize(("old", "new", "said"), [
    ("gauge=8", "gauge 8", "would be written name=value"), ("100 in lbf", "100 furlbf", "no length"),
    ("length=1 1/4 in; diameter=4.2 mm", "", "size lacks diameter and length"),
    ("2.4 g", "2.4 in", "mass"), ("100,each", "0,each", "per_pack is not above 0"),
    ("L,clear-oil", "pints,clear-oil", "unit 'pints' is not known")])
def test_a_fault_in_a_goods_line_is_told(old, new, said):
    with pytest.raises(BadData) as caught:
        prices.read_goods(GOODS.replace(old, new, 1), "goods.csv", "USD")
    assert said in str(caught.value)


ANCHORS = '''\
code,name,kind,size,per_pack,unit,material,mass,price,load_from
A,Wall anchor,anchor,length=2 in; load=120 lbf,2,each,stainless,60 g,8.95,maker's sheet 2026
B,Wall anchor,anchor,length=3 in,2,each,stainless,60 g,9.95,
'''


def test_an_anchor_s_load_comes_with_whose_word_it_is():
    rated, unknown = prices.read_goods(ANCHORS, "goods.csv", "USD")
    assert rated.size["load_n"] == pytest.approx(533.787) and rated.load_from == "maker's sheet 2026"
    assert "load_n" not in unknown.size and not unknown.load_from
    with pytest.raises(BadData, match="load_from does not say whose it is"):
        prices.read_goods(ANCHORS.replace("maker's sheet 2026", ""), "goods.csv", "USD")


def test_a_roll_is_sold_by_a_step_it_can_give():
    text = ("code,name,material,width,sold_by,longest,mass_kg_m2,price\n"
            "M,Mesh,mesh,24 in,1 ft,50 ft,1.2,3.00\n")
    roll, = prices.read_rolls(text, "rolls.csv", "USD")
    assert (roll.sold_by_nm, roll.longest_nm) == (b.FOOT, 50 * b.FOOT)
    with pytest.raises(BadData, match="longest is shorter than sold_by"):
        prices.read_rolls(text.replace("50 ft", "6 in"), "rolls.csv", "USD")


def test_sheets_carry_size_and_density():
    text = ("code,name,material,length,width,thickness,density,price,count\n"
            "P,Plywood,exterior plywood,8 ft,4 ft,23/32 in,560,60.00,\n")
    sheet, = prices.read_sheets(text, "sheets.csv", "USD")
    assert (sheet.thickness_nm, sheet.density_kg_m3) == (18_256_250, 560)
