"""The cut list: one line for each distinct part, rounded once, marked by item."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

import builders as b
from yardwright.domain import measure, parts
from yardwright.domain.piece.model import ShapeWork
from yardwright.domain.template.model import GlueUp
from yardwright.files.shop import read_bare_shop

SHOP = b.shop()
STEP = SHOP.saw.step_nm


def lines(*members, quantity=1, **changes):
    return parts.cut_list([(b.piece(members, **changes), quantity)], SHOP)


def test_equal_members_are_one_line_with_their_number():
    line, = lines(b.member("Slat 1", 1000, name="Slat"), b.member("Slat 2", 1000, name="Slat"))
    assert (line.mark, line.count, line.keys) == ("A1", 2, ("Slat 1", "Slat 2"))


def test_the_quantity_of_an_item_multiplies_the_count_but_not_the_keys():
    line, = lines(b.member("Slat", 1000), quantity=3)
    assert (line.count, line.keys) == (3, ("Slat",))


def test_left_and_right_are_two_lines():
    assert [p.hand for p in lines(b.member("Leg L", 400, name="Leg", hand="left"),
                                  b.member("Leg R", 400, name="Leg", hand="right"))] == ["left", "right"]


def test_different_shape_work_is_another_line():
    bevel = ShapeWork("bevel", "bevel 8 deg about the width", "end")
    assert len(lines(b.member("Rail 1", 900, name="Rail"),
                     b.member("Rail 2", 900, name="Rail", shape=[bevel]))) == 2


def test_the_same_bevel_at_the_other_end_is_the_same_part():
    ends = [ShapeWork("bevel", "bevel 8 deg about the width", end) for end in ("start", "end")]
    assert len(lines(*(b.member(f"Rail {w.end}", 900, name="Rail", shape=[w]) for w in ends))) == 1


def test_boards_come_before_sheets_and_rolls_and_long_before_short():
    marks = lines(b.member("Mesh", 1200, 600, 1, material="roll", section="MESH"),
                  b.member("Short", 500), b.member("Long", 900),
                  b.member("Post", 400, 88.9, 88.9, section="4x4", stock_width_mm=88.9),
                  b.member("Floor", 700, 400, 18, material="sheet", section="PLY"))
    assert [(p.mark, p.name) for p in marks] == [
        ("A1", "Post"), ("A2", "Long"), ("A3", "Short"), ("A4", "Floor"), ("A5", "Mesh")]


def test_each_item_has_its_own_letter():
    piece = b.piece([b.member("Slat", 1000)])
    assert [p.mark for p in parts.cut_list([(piece, 1), (piece, 2)], SHOP)] == ["A1", "B1"]
    assert parts.letter(27) == "AB"


def test_sizes_are_rounded_down_once_to_the_working_step():
    line, = lines(b.member("Slat", 1117.0, 60.0))
    assert measure.write(line.length_nm, "in") == "43 15/16 in"
    assert line.width_nm % STEP == 0
    assert not line.full_width


def test_noise_of_floating_point_does_not_cost_a_step():
    line, = lines(b.member("Slat", 44 * 25.4 - 1e-9))
    assert line.length_nm == 44 * b.INCH


def test_an_unripped_board_keeps_its_width_as_delivered():
    line, = lines(b.member("Slat", 1000, 120.0, 28.0, section="28x120", stock_width_mm=120.0))
    assert (line.full_width, line.width_nm, line.thickness_nm) == (True, 120 * b.MM, 28 * b.MM)


def test_end_work_and_glue_ups_get_the_finishing_allowance():
    bevel = ShapeWork("bevel", "bevel 8 deg", "end")
    rounded = ShapeWork("round over", "round over the top edges 1/4 in")
    glue_up = GlueUp("Corner leg", "L", ("Strip",), matched=True)
    got = {p.name: p for p in lines(b.member("Bevelled", 900, shape=[bevel]),
                                    b.member("Rounded", 900, shape=[rounded]),
                                    b.member("Strip", 900, 60, glue_up="Corner leg", glue_up_no=1),
                                    glue_ups=[glue_up])}
    allowance = SHOP.saw.finished_allowance_nm
    assert got["Bevelled"].rough_length_nm - got["Bevelled"].length_nm == allowance > 0
    assert got["Rounded"].rough_length_nm == got["Rounded"].length_nm
    assert got["Strip"].rough_length_nm - got["Strip"].length_nm == allowance
    strip = got["Strip"]
    assert (strip.made_of, strip.glue_up_kind, strip.matched) == ("Corner leg", "L", True)
    assert any("one board" in note for note in got["Strip"].notes)


def test_a_part_too_short_to_hold_says_so():
    line, = lines(b.member("Block", 50.0))
    assert any("short" in note for note in line.notes)


@pytest.mark.parametrize("step_nm", [b.INCH // 16, b.MM])
@given(st.floats(10, 4000))
def test_a_finished_size_never_exceeds_the_asked_one_nor_loses_a_step(step_nm, mm):
    got = parts.finished(mm, step_nm)
    assert mm * 1e6 - step_nm < got <= mm * 1e6 + parts.NOISE_NM


def test_how_the_shop_rounds_follows_the_shop_and_not_the_display():
    metric = replace(SHOP, saw=read_bare_shop(b.DATA / "demo_shop_metric", b.DATA).saw)
    line, = parts.cut_list([(b.piece([b.member("Slat", 1117.6)]), 1)], metric)
    assert line.length_nm == 1117 * b.MM
