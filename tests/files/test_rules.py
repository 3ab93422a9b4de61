"""Limits by their address, room to keep clear, time standards."""

import pytest

import builders as b
from yardwright.domain.errors import BadData
from yardwright.files import rules

LIMIT = '{value = 2, unit = "in", source = "book", status = "seen"}'
CLEAR = '''\
["tap"]
label = "Outdoor tap"
sides = "6 in"
front = "12 in"
above = "0 in"
below = "12 in"
solid = true
level = "caution"
advice = "Leave room for the hose."
source = "practice"
status = "common practice"
'''
TIME = '''\
[crosscut]
name = "Crosscut"
phase = "cut"
per = "cut"
each = {value = 30, unit = "s"}
setup = {value = 0.2, unit = "h"}
source = "own log"
status = "shop"
'''


def test_a_limits_address_is_its_file_and_tables(tmp_path):
    (tmp_path / "gaps.toml").write_text(
        f"seat = {LIMIT}\n[floor]\nleast = {LIMIT}\n[floor.deep]\nmost = {LIMIT}\n")
    found = rules.read_limits(tmp_path)
    assert set(found) == {"gaps.seat", "gaps.floor.least", "gaps.floor.deep.most"}
    assert found["gaps.seat"].value == pytest.approx(50.8)


def test_a_limit_that_is_no_figure_is_refused(tmp_path):
    (tmp_path / "gaps.toml").write_text("seat = 3\n")
    with pytest.raises(BadData, match=r"gaps.toml:1: seat: a table is expected"):
        rules.read_limits(tmp_path)


def test_room_to_keep_clear(tmp_path):
    (tmp_path / "keep_clear.toml").write_text(CLEAR)
    tap = rules.read_keep_clear(tmp_path)["tap"]
    assert (tap.sides_nm, tap.above_nm, tap.level) == (6 * b.INCH, 0, "caution")
    assert rules.read_limits(tmp_path) == {}


@pytest.mark.parametrize(("old", "new", "said"), [
    ('"6 in"', '"-6 in"', "not negative"), ('"caution"', '"danger"', "'danger' is none of"),
    ("solid = true", "solid = 1", "true or false"), ("front", "fornt", "did you mean 'front'?")])
def test_a_keep_clear_fault_is_told(tmp_path, old, new, said):
    (tmp_path / "keep_clear.toml").write_text(CLEAR.replace(old, new))
    with pytest.raises(BadData) as caught:
        rules.read_keep_clear(tmp_path)
    assert said in str(caught.value)


def test_times_in_minutes(tmp_path):
    (tmp_path / "times.toml").write_text(TIME)
    crosscut = rules.read_times(tmp_path)["crosscut"]
    assert (crosscut.minutes, crosscut.setup_minutes) == (0.5, 12.0)


@pytest.mark.parametrize(("old", "new", "said"), [
    ('"cut"\nper', '"saw"\nper', "'saw' is none of"), ("value = 30", "value = -30", "never below 0"),
    ('unit = "s"', 'unit = "kg"', "of another kind")])
def test_a_time_fault_is_told(tmp_path, old, new, said):
    (tmp_path / "times.toml").write_text(TIME.replace(old, new))
    with pytest.raises(BadData) as caught:
        rules.read_times(tmp_path)
    assert said in str(caught.value)


def test_the_engines_own_standards_are_all_there():
    needed = {"fetch-board", "crosscut", "rip", "rip-piece", "bevel", "curve", "pocket", "drill", "rout",
              "glue-up", "spread-glue", "drive-screw", "drive-nail", "bolt", "staple", "assemble", "sand",
              "sand-edge", "coat", "clean-up", "preserve-cut", "line", "mesh", "fit", "measure-visit",
              "office", "load", "drive", "unload", "install"}
    assert needed <= set(b.bare_shop().times)
