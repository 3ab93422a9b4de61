"""The trial finds what would not fit, touch, hold or be workable, and says at which sizes."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest

from builders import DATA, demo_shop, demo_shop_metric
from small_templates import changed, trestle
from yardwright.domain.piece import build, faults_of, trial
from yardwright.domain.template import read_template, sizes


def details(data: dict[str, Any], points: int = 4) -> set[str]:
    return {f.detail for f in trial(read_template(data), demo_shop(), points).faults}


def test_a_sound_template_passes_at_every_corner_and_between() -> None:
    report = trial(read_template(trestle()), demo_shop(), 10)
    assert report.faults == () and report.good
    assert report.points == 4 * 2 + 10


def test_a_timber_nobody_sells_is_told_and_no_point_tried_is_no_pass() -> None:
    report = trial(read_template(trestle(timbers=["teak"])), demo_shop(), 5)
    assert report.unsold == ("teak",) and report.points == 0 and not report.good
    assert not trial(read_template(trestle()), demo_shop_metric(), 5).good


@pytest.mark.parametrize(
    ("path", "value", "said"),
    [
        ("overall/length", "length + 1*inch", "short of"),
        ("overall/height", "height - 1*mm", "more than"),
        ("members/1/ends", ["square", {"angle": "5*deg"}], "share"),
        ("members/0/to/2", "under - 6*inch", "Beam touches none of Post"),
        ("members/0/to/2", "under - 6*inch", "Post 1 is held by nothing"),
        ("fit/envelope/open_height", "height", "fit.envelope.open_height"),
        ("fit/envelope/depth", "3*inch", "fit.envelope.depth"),
        ("groups/lid/opens", "90*deg", "with the lid or door at"),
        ("groups/lid/along", "height", "no fit can tell"),
        ("boards/top/sections", ["1x60"], ""),
        ("members/0/from/0", "-1*inch", "before nothing in length"),
        ("members/0/width", "1/2*inch", "too small to work"),
        ("members/0/width", "5*inch", "4x4 gives"),
    ],
)
def test_what_is_wrong_is_found(path: str, value: Any, said: str) -> None:
    if not said:
        assert not trial(read_template(changed(path, value)), demo_shop(), 2).good
    else:
        assert any(said in d for d in details(changed(path, value))), details(changed(path, value))


def test_the_same_seed_tries_the_same_points() -> None:
    data = changed("overall/length", "length + 1*inch")
    first, again = (trial(read_template(data), demo_shop(), 6, seed=3) for _ in range(2))
    assert [f.point.words() for f in first.faults] == [f.point.words() for f in again.faults]
    assert "length 20 in" in first.faults[0].point.words()


@pytest.mark.parametrize("side", ["left", "right"])
def test_an_l_keeps_out_of_the_quarter_that_its_fit_says_is_free(side: str) -> None:
    bench = tomllib.loads((DATA / "templates" / "corner-bench.toml").read_text(encoding="utf-8"))

    def faults() -> list[str]:
        made, shop = read_template(bench), demo_shop()
        return list(faults_of(build(made, *sizes(made, {}, {"side": side}, "in"), shop, "in"), shop))

    assert faults() == []
    bench["fit"]["envelope"]["wing_depth"] = "depth - 4*inch"
    assert any("the place beside the wing is free; Wing seat board 1 reaches 101.60 mm into it" in f
               for f in faults())
