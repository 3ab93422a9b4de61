"""What check prints: each kind of fault once, with the line of the template to look at."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from builders import DATA, INCH, demo_shop
from yardwright.domain.piece.points import Plan, Point
from yardwright.domain.piece.trial import TrialFault, TrialReport, trial
from yardwright.domain.template import read_template
from yardwright.files.templates import load
from yardwright.files.trial_report import report_lines, tried_words, whole_words

PLANTER = (DATA / "templates" / "planter-box.toml").read_text(encoding="utf-8")


def lines(tmp_path: Path, old: str, new: str) -> list[str]:
    assert old in PLANTER
    path = tmp_path / "spoilt.toml"
    path.write_text(PLANTER.replace(old, new, 1), encoding="utf-8")
    template = load(path)
    return report_lines(trial(template, demo_shop(), 4), template, path)


def test_a_size_that_is_not_kept_points_at_the_overall_size(tmp_path: Path) -> None:
    told = lines(tmp_path, '[overall]\nlength = "length"', '[overall]\nlength = "length + 3*inch"')
    number = PLANTER[:PLANTER.index("[overall]")].count("\n") + 2
    assert told[0].startswith(f"spoilt.toml:{number}  overall.length: says ")
    assert told[1].endswith(" (and at all the others of 54)") and told[1].startswith("    at length ")


def test_the_same_fault_at_many_points_is_told_once(tmp_path: Path) -> None:
    told = lines(tmp_path, 'name = "Corner post"', 'name = "Corner post"\nwidth = "9*inch"')
    heads = told[::2]
    assert len(heads) == len(set(heads)) and len(heads) < 12
    line = PLANTER[:PLANTER.index('name = "Corner post"')].count("\n")
    assert any(head.startswith(f"spoilt.toml:{line}") for head in heads)


TEMPLATE = read_template(tomllib.loads(PLANTER))
# forty sizes from 16 in on, every other with a mitred cap
POINTS = tuple(Point({"length": (16 + k) * INCH}, {"cap": cap}, "in")
               for k, cap in enumerate(("mitred", "none") * 20))


def found(*faults: TrialFault) -> list[str]:
    report = TrialReport("planter-box", Plan(POINTS, 0, 1, 1, 1, 1), faults, ())
    return report_lines(report, TEMPLATE, DATA / "templates" / "planter-box.toml")


@pytest.mark.parametrize(("points", "said"), [
    (POINTS, "(and at all the others of 40)"),
    (POINTS[::2], "(and at 19 more of 40, all with cap mitred)"),
    (POINTS[30:], "(and at 9 more of 40, all at length 46 in and more)"),
    (POINTS[4:8:2], "(and at 1 more of 40)"),
], ids=["all", "one choice", "the long ones", "two by chance"])
def test_what_the_faulty_points_share_is_told_where_chance_would_seldom_make_them(points: tuple[Point, ...],
                                                                                  said: str) -> None:
    """Two of forty share a choice that half have once in four times; twenty would once in a million."""
    lines_ = found(*(TrialFault(point, "/members/0", "Corner post 1 leans") for point in points))
    assert lines_[1].endswith(f" {said}"), lines_[1]


def test_kinds_that_differ_in_nothing_but_members_are_told_three_times_then_named() -> None:
    others = ("Long side board", "End board", "Middle post", "Bearer", "Tie")
    words = [f"Corner post 1 and {name} 2 overlap, {k}/16 in deep" for k, name in enumerate(others, 1)]
    lines_ = found(*(TrialFault(POINTS[0], "/members/0", one) for one in words))
    assert len(lines_) == 6
    assert lines_[0].endswith("Corner post 1 and Long side board 2 overlap, 1/16 in deep "
                              f"(Long side board: line {line_of('Long side board')})")
    assert lines_[5].endswith("    and 2 more kinds like these, of Bearer, Tie")


def line_of(member: str) -> int:
    return PLANTER[: PLANTER.index(f'name = "{member}"')].count("\n")


def test_a_fault_without_a_place_is_told_at_what_it_names_first() -> None:
    (head, _) = found(TrialFault(POINTS[0], "", "part Tie is 3 m long; no board gives it"))
    assert head.startswith(f"planter-box.toml:{line_of('Tie')}  part Tie is")


def test_the_last_line_tells_how_much_of_what_there_is_was_tried() -> None:
    few = TrialReport("t", Plan(POINTS, 2, 8, 8, 2, 2), (), ())
    many = TrialReport("t", Plan(POINTS, 2, 4, 512, 6, 96), (), ())
    assert tried_words(few) == ("40 points tried: 2 as offered, 8 corners with all 2 combinations of choices "
                                "each, 22 between")
    assert "4 of 512 corners with 6 of 96 combinations of choices each, 14 between" in tried_words(many)


def test_where_no_line_stands_before_it_a_fault_begins_with_the_path_of_its_entry() -> None:
    told = [whole_words(TrialFault(POINTS[0], pointer, "is 3 in; the piece needs 4 in."))
            for pointer in ("/fit/envelope/height", "/members/3")]
    assert told == ["fit.envelope.height: is 3 in; the piece needs 4 in", "is 3 in; the piece needs 4 in"]
