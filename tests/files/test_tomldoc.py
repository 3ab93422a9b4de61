"""Complaints about a TOML file name the line and what would be right."""

import pytest

from yardwright.domain.errors import BadData
from yardwright.files.tomldoc import line_of, parse, read

TEXT = '''\
name = "one"
[saw]
kerf = "1/8 in"
# a comment
"odd key" = 3
[[tax]]
rate = "0.07"
[[tax]]
rate = "seven"
[sections]
"1x6" = {thickness = "3/4 in", width = 5}
[a.b]
c.d = 1
'''


@pytest.mark.parametrize(("keys", "line"), [
    (("name",), 1), (("saw",), 2), (("saw", "kerf"), 3), (("saw", "odd key"), 5), (("tax", 0, "rate"), 7),
    (("tax", 1), 8), (("tax", 1, "rate"), 9), (("sections", "1x6", "width"), 11), (("a", "b", "c", "d"), 13),
    (("saw", "missing"), 2), (("nowhere",), 1)])
def test_the_line_of_an_entry_or_of_its_nearest_parent(keys, line):
    assert line_of(TEXT, keys) == line


@pytest.mark.parametrize(("asks", "said"), [
    (lambda top: top.at("nmae"), "shop.toml:1: 'nmae' is missing; is 'name' meant for it?"),
    (lambda top: top.table("name"), "shop.toml:1: name: a table is expected"),
    (lambda top: top.number("name"), "shop.toml:1: name: a number is expected"),
    (lambda top: top.table("saw").length("odd key"), "shop.toml:5: saw.odd key: a text in quotes is"),
    (lambda top: top.table("saw").only("kref", "odd key"),
     "shop.toml:3: saw.kerf: unknown key; did you mean 'kref'?"),
    (lambda top: top.rows("tax")[1].share("rate"), "shop.toml:9: tax.1.rate: 'seven' is no decimal share"),
    (lambda top: top.table("sections").table("1x6").length("width"), "shop.toml:11: sections.1x6.width"),
    (lambda top: top.one_of("name", ("two", "three")), "shop.toml:1: name: 'one' is none of 'two', 'three'"),
    (lambda top: top.truth("name"), "true or false is expected"),
    (lambda top: top.words("name"), "a list of texts is expected"),
    (lambda top: top.numbers("name"), "a list of numbers is expected"),
    (lambda top: top.rows("saw"), r"[[saw]] tables are expected here")])
def test_what_is_wrong_is_told_with_file_and_line(asks, said):
    with pytest.raises(BadData) as caught:
        asks(parse(TEXT, "shop.toml"))
    assert said in str(caught.value)


def test_a_bare_number_is_no_length():
    with pytest.raises(BadData, match="a length is written with its unit"):
        parse('kerf = "3"', "shop.toml").length("kerf")


def test_what_is_no_toml_says_where():
    with pytest.raises(BadData, match=r"shop\.toml:2: this is no TOML"):
        parse('a = 1\nb = = 2\n', "shop.toml")


def test_a_file_that_is_not_there_or_not_text(tmp_path):
    with pytest.raises(BadData, match="the file is missing"):
        read(tmp_path / "none.toml")
    (tmp_path / "odd.toml").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(BadData, match="cannot be read as UTF-8"):
        read(tmp_path / "odd.toml")


def test_a_unit_nobody_knows_is_named():
    entry = parse('load = {value = 3, unit = "furlbf"}', "limits.toml")
    with pytest.raises(BadData, match=r"limits.toml:1: load.unit: no unit is called 'furlbf'"):
        entry.quantity("load", "N")
    with pytest.raises(BadData, match="of another kind"):
        parse('load = {value = 3, unit = "ft"}', "limits.toml").quantity("load", "N")
