"""The change that would mend a finding: found in the template's own range, nearest first, and priced."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from builders import INCH, demo_shop
from yardwright.domain import piece
from yardwright.domain.finding import Finding, Level
from yardwright.domain.job import Customer, Item, Job
from yardwright.domain.site import Ground, Site
from yardwright.quoting import changes, make_quote, mends, piece_of, with_mends


def job(dimensions: dict[str, int], choices: dict[str, str], site: Site = Site()) -> Job:  # noqa: B008
    item = Item("storage-bench", dimensions, choices)
    return Job("M-1", "in", date(2026, 11, 9), Customer(), site, (item,), mends=True)


def found(asked: Job, rule: str) -> Finding:
    quote = with_mends(make_quote(asked, demo_shop()), demo_shop())
    return next(f for f in quote.items[0].findings if f.rule == rule and f.level in mends.SERIOUS)


def test_a_low_seat_is_raised_to_the_least_that_suits_and_priced() -> None:
    asked = job({"seat_height": 14 * INCH}, {})
    finding = found(asked, "seat")
    mend = finding.mends[0]
    assert mend.dimensions == (("seat_height", 16 * INCH),)
    assert "make Seat height 16 in" in finding.mend and "USD" in finding.mend
    again = make_quote(replace(asked, items=(replace(asked.items[0], dimensions=dict(mend.dimensions)),)),
                       demo_shop())
    assert mend.difference == again.price.total - make_quote(asked, demo_shop()).price.total
    assert not [f for f in again.items[0].findings if f.rule == "seat" and f.level in mends.SERIOUS]
    shorter = make_quote(job({"seat_height": 16 * INCH - INCH // 2}, {}), demo_shop())
    assert [f for f in shorter.items[0].findings if f.rule == "seat" and f.level in mends.SERIOUS]


def test_a_bench_that_falls_is_fixed_or_loses_its_back(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(mends, "MOST_BUILT", 6)
    finding = found(job({}, {"fixing": "free"}), "tip over")
    assert finding.level is Level.STOP
    assert {m.choices for m in finding.mends} == {(("back", "none"),), (("fixing", "brackets"),)}
    assert finding.mend.endswith(").")


def test_the_work_is_counted_and_a_spent_count_finds_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    built: list[Any] = []
    monkeypatch.setattr(mends, "piece_of", lambda *of: built.append(of) or piece_of(*of))
    for most in (0, 3):
        built.clear()
        monkeypatch.setattr(mends, "MOST_BUILT", most)
        quote = make_quote(job({}, {"fixing": "free"}), demo_shop())
        with_mends(quote, demo_shop())
        assert len(built) <= most


def test_a_quote_without_stops_is_left_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    quote = make_quote(job({}, {}), demo_shop())
    assert not [f for f in quote.items[0].findings if f.level in mends.SERIOUS]
    monkeypatch.setattr(mends, "piece_of", lambda *of: pytest.fail("nothing is to be built"))
    assert with_mends(quote, demo_shop()) is quote


def test_what_the_place_does_is_not_mended_by_the_piece(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(mends, "piece_of", lambda *of: pytest.fail("nothing is to be built"))
    drop = Site(ground=Ground(surface="deck", drop_behind_nm=40 * INCH))
    quote = make_quote(job({}, {}, drop), demo_shop())
    assert quote.stopped_by
    assert with_mends(quote, demo_shop()) is quote


def test_changes_are_one_thing_at_a_time_and_stay_in_range() -> None:
    shop = demo_shop()
    made = piece.build(shop.templates["storage-bench"], {}, {}, shop, "in")
    item = Item("storage-bench", {}, {})
    for change in changes.options(made, shop):
        asked = change.of(item, made)
        assert [k for k, v in asked.choices.items() if made.choices[k] != v] == [change.name]
        assert dict(asked.dimensions) == dict(made.dimensions_nm)
    for way in changes.ways(made, "in"):
        for steps in (1, way.most_steps, way.most_steps + 3):
            size = way.change(steps, "in").size_nm
            assert size is not None and way.dimension.least_nm <= size <= way.dimension.most_nm
            assert size != made.dimensions_nm[way.dimension.name]


def test_the_least_number_of_steps_is_found_by_halving() -> None:
    shop = demo_shop()
    made = piece.build(shop.templates["storage-bench"], {}, {}, shop, "in")
    way = next(w for w in changes.ways(made, "in") if w.dimension.name == "length" and w.step_nm > 0)
    tried: list[int] = []

    def from_50_in(change: changes.Change) -> bool:
        tried.append(1)
        return (change.size_nm or 0) >= 50 * INCH

    least = mends._least(way, "in", from_50_in)
    assert least is not None and least.size_nm == 50 * INCH
    assert len(tried) <= 10
    assert mends._least(way, "in", lambda change: False) is None
