"""Timbers, sections and finishes: every figure carries its source, nothing impossible gets in."""

import pytest

import builders as b
from yardwright.domain.errors import BadData
from yardwright.files import trade

TIMBER = '''\
id = "ash"
name = "Ash"
botanical = "Fraxinus"
kind = "hardwood"
durability = "not durable"
moisture = {value = 19, unit = "%", source = "yard", status = "common practice"}
[figures]
density = {value = 44, unit = "lb/ft3", source = "book", status = "seen"}
rupture = {value = 15000, unit = "psi", source = "book", status = "seen"}
'''
SECTION = '''\
system = "in"
source = "table"
status = "seen"
[sections]
"1x6" = {thickness = "3/4 in", width = "5 1/2 in", green_thickness = "25/32 in", green_width = "5 5/8 in"}
'''
FINISH = '''\
id = "oil"
name = "Oil"
coats = 2
dry = {value = 24, unit = "h"}
source = "tin"
status = "seen"
coverage = {by_coat = [200, 250], unit = "ft2/gal"}
labour = {by_coat = [0.8], unit = "h/m2"}
'''


def write(folder, name, text, *swap):
    for old, new in zip(swap[::2], swap[1::2], strict=True):
        assert old in text
        text = text.replace(old, new)
    (folder / name).write_text(text)
    return folder


def test_a_timber_in_the_engines_units(tmp_path):
    ash = trade.read_timbers(write(tmp_path, "ash.toml", TIMBER))["ash"]
    assert ash.value("density_kg_m3") == pytest.approx(704.8, abs=0.1)
    assert ash.value("rupture_mpa") == pytest.approx(103.4, abs=0.1)
    assert ash.figures["density_kg_m3"].source == "book"
    assert not ash.known("side_hardness_n")


@pytest.mark.parametrize(("old", "new", "said"), [
    ('id = "ash"', 'id = "oak"', "ash.toml:1: id: 'oak' is not the file's name"),
    ('unit = "psi"', 'unit = "kg"', "'kg' cannot be turned into N/mm2"),
    ('value = 44', 'value = -44', "a figure of a timber is above 0"),
    ('source = "book", status = "seen"}\nrup', 'source = "", status = "seen"}\nrup', "source is empty"),
    ('status = "seen"}\nrupture', 'status = "sure"}\nrupture', "'sure' is none of 'seen', 'memory'"),
    ("density =", "weight =", "unknown key; known here: density"),
    ("rupture =", "ruptur =", "did you mean 'rupture'?")])
def test_a_timber_file_with_a_fault_is_refused(tmp_path, old, new, said):
    with pytest.raises(BadData, match=r"ash\.toml:") as caught:
        trade.read_timbers(write(tmp_path, "ash.toml", TIMBER, old, new))
    assert said in str(caught.value)


def test_a_timber_without_density_cannot_be_weighed(tmp_path):
    line = next(line for line in TIMBER.splitlines() if line.startswith("density"))
    with pytest.raises(BadData, match="nothing can be weighed"):
        trade.read_timbers(write(tmp_path, "ash.toml", TIMBER, line, ""))


def test_a_section_gives_its_size_as_delivered(tmp_path):
    section = trade.read_sections(write(tmp_path, "some.toml", SECTION))["1x6"]
    assert section.as_delivered("dry") == (19_050_000, 139_700_000)
    assert section.as_delivered("wet") == section.as_delivered("green") == (19_843_750, 142_875_000)


def test_green_wood_smaller_than_dry_is_refused(tmp_path):
    for green, smaller in (("25/32 in", "23/32 in"), ("5 5/8 in", "5 3/8 in")):
        with pytest.raises(BadData, match=r"some.toml:5: sections.1x6: green wood is never smaller"):
            trade.read_sections(write(tmp_path, "some.toml", SECTION, green, smaller))


def test_a_section_in_two_files_is_refused(tmp_path):
    write(tmp_path, "one.toml", SECTION)
    with pytest.raises(BadData, match=r"two.toml:5: sections.1x6: section '1x6' stands in two files"):
        trade.read_sections(write(tmp_path, "two.toml", SECTION))


def test_coverage_and_labour_are_turned_by_their_units(tmp_path):
    oil = trade.read_finishes(write(tmp_path, "oil.toml", FINISH))["oil"]
    assert oil.coverage_m2_l == pytest.approx((4.908, 6.136), abs=1e-3)     # 100 ft2/gal is 2.45 m2/L
    assert (oil.minutes_m2, oil.dry_hours) == (pytest.approx((48.0,)), 24.0)


@pytest.mark.parametrize(("old", "new", "said"), [
    ('"ft2/gal"', '"ft2"', "a unit like 'm2/L' is expected"), ('"ft2/gal"', '"kg/gal"', "of its kind"),
    ("[200, 250]", "[200, 0]", "every number here must be above 0"), ("coats = 2", "coats = 1.5", "whole"),
    ("coats = 2", "coats = 0", "less than 1")])
def test_a_finish_with_a_fault_is_refused(tmp_path, old, new, said):
    with pytest.raises(BadData, match=r"oil\.toml:") as caught:
        trade.read_finishes(write(tmp_path, "oil.toml", FINISH, old, new))
    assert said in str(caught.value)


def test_every_published_figure_says_where_from_and_how_sure():
    shop = b.bare_shop()
    figures = [f for timber in shop.market.timbers.values() for f in timber.figures.values()]
    figures += [*shop.limits.values(), shop.allowance]
    assert len(figures) > 100
    assert all(figure.source and figure.status in trade.STATUSES for figure in figures)
    assert all(s.source and s.status in trade.STATUSES for s in shop.times.values())
    assert all(s.source and s.status in trade.STATUSES for s in shop.market.sections.values())
    assert all(f.source and f.status in trade.STATUSES for f in shop.market.finishes.values())


def test_enough_timbers_in_both_kinds():
    timbers = b.bare_shop().market.timbers.values()
    assert len(timbers) >= 8
    assert {timber.kind for timber in timbers} == {"softwood", "hardwood"}
    assert all(timber.cautions and timber.fasteners for timber in timbers)
    assert all(timber.cautions[0].startswith("Wear") for timber in timbers)
