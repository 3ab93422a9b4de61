"""A figure that the limits leave out is *not checked*, by name and file; nothing grave turns fine or is lost.

Every piece is built once; then each figure that its checks look up is taken away, and each file of them.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator, Mapping
from dataclasses import replace

import pytest

from builders import INCH, MM, demo_shop, demo_shop_metric
from yardwright.domain import hardware
from yardwright.domain.checks import rule as rule_module
from yardwright.domain.checks import run
from yardwright.domain.checks.catalogue import ALWAYS
from yardwright.domain.errors import BadData
from yardwright.domain.finding import Finding, Level
from yardwright.domain.market import Figure
from yardwright.domain.measure import Writer
from yardwright.domain.piece.build import build
from yardwright.domain.piece.model import Piece
from yardwright.domain.shop import Limits, Shop
from yardwright.domain.site import Ground, Site

GRAVE = (Level.STOP, Level.CAUTION)
# A raised place open to the sea in a dry town, and pieces that give cause to a stop or a caution there.
HARD = Site(kind="open", ground=Ground("balcony", 0.03, 0.02, 900 * MM, 1.5), exposure="coast",
            region="Phoenix")
SOFT = Site(kind="open", ground=Ground("soil", 0.03), exposure="coast", region="Nowhere")
CASES: dict[str, tuple[str, str, dict[str, int], dict[str, str], Site]] = {
    "a bench that falls back": ("storage-bench", "in", {"length": 72 * INCH},
                                {"back": "straight", "fixing": "free", "timber": "southern-pine-uc4a"}, HARD),
    "a metric bench": ("storage-bench", "mm", {}, {"fixing": "free"}, SOFT),
    "a planter of wet pine": ("planter-box", "in", {"height": 30 * INCH, "length": 72 * INCH},
                              {"timber": "southern-pine-uc4a", "grows": "food"}, HARD),
    "a chair for a child": ("lounge-chair", "in", {}, {"users": "older"}, SOFT),
    "a table": ("picnic-table", "in", {"length": 96 * INCH}, {"timber": "southern-pine-uc4a"}, HARD),
    "a corner bench": ("corner-bench", "in", {}, {"users": "older"}, HARD),
}


class Watched(dict[str, Figure]):
    """Limits that remember which figures were asked for."""

    def __init__(self, figures: Mapping[str, Figure]) -> None:
        super().__init__(figures)
        self.asked: set[str] = set()

    def __getitem__(self, name: str) -> Figure:
        self.asked.add(name)
        return super().__getitem__(name)

    def __contains__(self, name: object) -> bool:
        self.asked.add(str(name))
        return super().__contains__(name)


@functools.cache
def made(name: str) -> tuple[Piece, Shop, str, Site]:
    template, units, sizes, words, site = CASES[name]
    shop = demo_shop() if units == "in" else demo_shop_metric()
    known = {d.name for d in shop.templates[template].dimensions}
    assert set(sizes) <= known
    return build(shop.templates[template], sizes, words, shop, units), shop, units, site


def judged(name: str, limits: Mapping[str, Figure], only: str = "") -> tuple[Finding, ...]:
    piece, shop, units, site = made(name)
    return run(piece, None, site, replace(shop, limits=limits), Writer(units), only)


def rules(name: str) -> list[str]:
    return list(dict.fromkeys([c.rule.rule for c in made(name)[0].checks] + [r.name for r in ALWAYS]))


def asked_by(name: str, rule: str, monkeypatch: pytest.MonkeyPatch) -> set[str]:
    """The figures that a rule looks up for a piece."""
    seen: list[Watched] = []

    class Watching(Watched, Limits):
        def __init__(self, figures: Mapping[str, Figure]) -> None:
            super().__init__(figures)
            seen.append(self)

    with monkeypatch.context() as patch:
        patch.setattr(rule_module, "Limits", Watching)
        judged(name, made(name)[1].limits, rule)
    return {asked for limits in seen for asked in limits.asked if asked in made(name)[1].limits}


def lost(before: tuple[Finding, ...], after: tuple[Finding, ...]) -> Iterator[str]:
    """What was grave and no longer is, with no *not checked* of its rule in its place."""
    unchecked = {f.rule for f in after if f.level is Level.NOT_CHECKED}
    still = {(f.rule, f.title) for f in after if f.level in GRAVE}
    for finding in before:
        if finding.level in GRAVE and (finding.rule, finding.title) not in still | {
                (rule, finding.title) for rule in unchecked}:
            yield f"{finding.rule}: {finding.title}"


@pytest.mark.parametrize("name", CASES)
def test_a_figure_left_out_is_named_with_its_file_and_hides_nothing(name: str,
                                                                     monkeypatch: pytest.MonkeyPatch) -> None:
    limits = made(name)[1].limits
    tried = 0
    for rule in rules(name):
        before = judged(name, limits, rule)
        for figure in sorted(asked_by(name, rule, monkeypatch)):
            after = judged(name, {k: v for k, v in limits.items() if k != figure}, rule)
            tried += 1
            assert list(lost(before, after)) == [], (rule, figure)
            unchecked = [f.detail for f in after if f.level is Level.NOT_CHECKED]
            file, _, short = figure.partition(".")
            named = any(short in detail and f"limits/{file}.toml" in detail for detail in unchecked)
            assert named or {(f.level, f.title) for f in after} == {(f.level, f.title) for f in before}, (
                rule, figure)
    assert tried > 60


@pytest.mark.parametrize("name", CASES)
def test_a_whole_file_left_out_hides_nothing(name: str) -> None:
    limits = made(name)[1].limits
    before = judged(name, limits)
    assert any(f.level in GRAVE for f in before)
    for file in sorted({k.partition(".")[0] for k in limits}):
        after = judged(name, {k: v for k, v in limits.items() if not k.startswith(f"{file}.")})
        assert list(lost(before, after)) == [], file


def test_without_any_limits_every_rule_that_needs_one_is_not_checked() -> None:
    for name in CASES:
        after = judged(name, {})
        assert [f.title for f in after if f.level is Level.OK and f.rule not in FREE] == []


FREE = {"clashes", "corrosion", "food contact", "growing food"}      # they ask for no figure


@pytest.mark.parametrize("name", CASES)
def test_a_figure_of_the_timber_left_out_hides_nothing(name: str) -> None:
    piece, shop, units, site = made(name)
    before = run(piece, None, site, shop, Writer(units))
    timbers = shop.market.timbers
    used = {m.timber for m in piece.members if m.material == "board"}
    for figure in {figure for timber in used for figure in timbers[timber].figures}:
        lacking = {k: replace(t, figures={n: f for n, f in t.figures.items() if n != figure})
                   for k, t in timbers.items()}
        other = replace(shop, market=replace(shop.market, timbers=lacking))
        assert list(lost(before, run(piece, None, site, other, Writer(units)))) == [], figure


def test_what_is_counted_by_a_figure_left_out_is_refused_by_its_name_and_file() -> None:
    piece, shop, _, _ = made("a bench that falls back")
    known = {k: v for k, v in shop.limits.items() if k != "hardware.least_thread"}
    with pytest.raises(BadData, match=r"least_thread is not in limits/hardware\.toml"):
        hardware.count(((piece, 1),), replace(shop, limits=Limits(known)))
