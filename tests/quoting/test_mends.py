"""The change that would mend a finding: found in the template's own range, proven, priced, nearest first."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from builders import INCH, demo_shop
from mends_proven import proven, serious
from planted import plank_bench, shop_with
from yardwright.domain.finding import Finding
from yardwright.domain.job import Customer, Item, Job
from yardwright.domain.quote import Quote
from yardwright.domain.shop import Shop
from yardwright.domain.site import Corner, Ground, Measured, Site, Wall
from yardwright.quoting import effort, make_quote, mends, trials, with_mends

HEAVIER = ("2x6",)


def job(dimensions: dict[str, int], choices: dict[str, str], template: str = "storage-bench", *,
        site: Site = Site(), asked: bool | None = None) -> Job:  # noqa: B008
    item = Item(template, dimensions, choices)
    return Job("M-1", "in", date(2026, 11, 9), Customer(), site, (item,), mends=asked)


def mended(asked: Job, rule: str, shop: Shop) -> tuple[Finding, Quote]:
    before = make_quote(asked, shop)
    quote = with_mends(before, shop)
    return next(f for f in serious(quote).values() if f.rule == rule), before


@pytest.mark.parametrize(("planted", "dimensions", "choices"), [
    (plank_bench("70 in", "72 in", "72 in", closer=9), (), (("supports", "closer"),)),
    (plank_bench("26 in", "28 in", "28 in", heavier=HEAVIER), (), (("seat_section", "2x6"),)),
    (plank_bench("14 in", "48 in", "48 in"), (("length", 18 * INCH),), ()),
    (plank_bench("20 in", "22 in", "22 in", timbers=("western-red-cedar", "redwood", "white-oak")), (),
     (("timber", "white-oak"),)),
    (plank_bench("71 in", "72 in", "72 in", closer=4, heavier=HEAVIER), (),
     (("supports", "closer"), ("seat_section", "2x6"))),
], ids=["more supports", "a thicker section", "a shorter span", "a stronger timber", "two at once"])
def test_a_span_too_long_is_mended_by(planted: dict[str, Any], dimensions: Any, choices: Any) -> None:
    shop, asked = shop_with(planted), job({}, {}, "plank-bench")
    finding, before = mended(asked, "seat load", shop)
    mend = proven(asked, finding, before, shop)
    assert (mend.dimensions, mend.choices) == (dimensions, choices)
    assert mend.measured and mend.limit


def test_the_shortened_span_is_the_longest_that_carries() -> None:
    shop, asked = shop_with(plank_bench("14 in", "48 in", "48 in")), job({}, {}, "plank-bench")
    (name, size), = mended(asked, "seat load", shop)[0].mends[0].dimensions
    served, longer = (make_quote(job({name: nm}, {}, "plank-bench"), shop) for nm in (size, size + INCH))
    assert "seat load" not in {rule for rule, _ in serious(served)}
    assert "seat load" in {rule for rule, _ in serious(longer)}


def test_where_nothing_in_range_mends_it_that_is_said() -> None:
    asked, shop = job({}, {}, "plank-bench"), shop_with(plank_bench("71 in", "72 in", "72 in"))
    finding, _ = mended(asked, "seat load", shop)
    assert finding.searched == "nothing" and not finding.mends
    assert finding.mend.endswith("deep."), "how it was looked for is no customer's"


def test_a_low_seat_is_raised_to_the_least_that_suits() -> None:
    asked = job({"seat_height": 14 * INCH}, {})
    finding, before = mended(asked, "seat", demo_shop())
    assert proven(asked, finding, before, demo_shop()).dimensions == (("seat_height", 16 * INCH),)
    assert "make Seat height 16 in" in finding.mend and "USD; then seat height: suits" in finding.mend


FIXED, NO_BACK = (("fixing", "brackets"),), (("back", "none"),)


def test_a_bench_that_tips_is_fixed_or_loses_its_back_and_what_stops_the_paper_says_so() -> None:
    asked = job({}, {"fixing": "free"})
    finding, before = mended(asked, "tip over", demo_shop())
    assert proven(asked, finding, before, demo_shop()).choices in (FIXED, NO_BACK)
    quote = with_mends(before, demo_shop())
    assert len(serious(quote)) >= 2
    for f in serious(quote).values():
        proven(asked, f, before, demo_shop())
    assert all(f.mends for f in quote.stopped_by)
    assert with_mends(before, demo_shop()).items[0].findings == quote.items[0].findings


def test_what_a_mend_leaves_to_be_minded_is_told_and_comes_after_what_leaves_nothing() -> None:
    goods = tuple(replace(g, size={k: v for k, v in g.size.items() if k != "load_n"})
                  for g in demo_shop().market.goods)
    unrated = replace(demo_shop(), market=replace(demo_shop().market, goods=goods))
    asked = job({}, {"fixing": "free"}, asked=True)
    finding, before = mended(asked, "tip over", unrated)
    proven(asked, finding, before, unrated)
    fixed = next(m for m in finding.mends if m.choices == FIXED)
    assert finding.mends[0].choices != FIXED and "What its anchors hold: not checked" in fixed.after
    assert f"then {fixed.after[0].lower()}{fixed.after[1:]}" in finding.mend


def test_a_lid_too_heavy_for_one_hand_is_made_lighter() -> None:
    asked = job({"length": 76 * INCH, "depth": 27 * INCH}, {"back": "none", "timber": "robinia"})
    finding, before = mended(asked, "lid", demo_shop())
    proven(asked, finding, before, demo_shop())


def test_a_wing_at_the_end_without_a_wall_is_put_at_the_other_but_not_for_the_seat() -> None:
    left = Site("corner", (Wall("back", (Measured(120 * INCH),)), Wall("left", (Measured(100 * INCH),))),
                (Corner("left", 90.0),), (Measured(140 * INCH),), ground=Ground("paving"))
    asked = job({"seat_height": 14 * INCH}, {"side": "right"}, "corner-bench", site=left)
    before = make_quote(asked, demo_shop())
    found = serious(with_mends(before, demo_shop()))
    wing = next(f for f in found.values() if f.title == "Its wing is at the end without a wall")
    assert proven(asked, wing, before, demo_shop()).choices == (("side", "left"),)
    low = next(f for f in found.values() if f.rule == "seat")
    assert proven(asked, low, before, demo_shop()).choices == ()


def test_a_job_that_asks_gets_other_ways_too() -> None:
    asked = job({}, {"fixing": "free"}, asked=True)
    finding, before = mended(asked, "tip over", demo_shop())
    assert 1 < len(finding.mends) <= mends.MOST_MENDS
    names = [{name for name, _ in (*m.dimensions, *m.choices)} for m in finding.mends]
    assert all(a != b for i, a in enumerate(names) for b in names[:i])
    proven(asked, replace(finding, mends=finding.mends[1:]), before, demo_shop())


def test_who_sits_there_is_never_changed_to_suit_the_seat() -> None:
    asked = job({"seat_height": 14 * INCH}, {"users": "older"}, asked=True)
    finding, _ = mended(asked, "seat", demo_shop())
    assert finding.mends and not any("users" in dict(m.choices) for m in finding.mends)


@pytest.mark.parametrize(("dimensions", "choices", "template"), [
    ({"length": 51 * INCH, "depth": 28 * INCH}, {"users": "older", "fixing": "free"}, "storage-bench"),
    ({"length": 16 * INCH, "height": 27 * INCH}, {"lining": "fabric", "grows": "food"}, "planter-box"),
    ({"seat_height": 16 * INCH, "height": 28 * INCH}, {"users": "older", "timber": "western-red-cedar"},
     "picnic-table"),
    ({"seat_depth": 22 * INCH, "seat_height": 14 * INCH}, {"users": "older", "recline": "upright"},
     "lounge-chair"),
])
def test_no_mend_opens_another_finding(dimensions: dict[str, int], choices: dict[str, str],
                                       template: str) -> None:
    asked = job(dimensions, choices, template)
    before = make_quote(asked, demo_shop())
    found = serious(with_mends(before, demo_shop()))
    assert found and any(f.mends for f in found.values())
    for finding in found.values():
        if finding.mends:
            proven(asked, finding, before, demo_shop())
        else:
            assert finding.searched in ("nothing", "stopped")


def test_the_work_is_counted_and_a_search_that_was_stopped_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    before = make_quote(job({}, {"fixing": "free"}), demo_shop())
    spent: list[int] = []
    spend = effort.Effort.spend
    monkeypatch.setattr(effort.Effort, "spend", lambda self, work: spent.append(
        work if (done := spend(self, work)) else 0) or done)
    monkeypatch.setattr(mends, "TIMES_QUOTE", 0)
    for most in (0, 300):
        spent.clear()
        monkeypatch.setattr(mends, "MOST_WORK", most)
        found = serious(with_mends(before, demo_shop()))
        assert sum(spent) <= most
        if most == 0:
            assert {f.searched for f in found.values()} == {"stopped"}


@pytest.mark.parametrize("asked", [
    job({}, {}, "planter-box"), job({}, {"fixing": "free"}, asked=False),
    job({}, {}, "planter-box", site=Site(ground=Ground(surface="deck", drop_behind_nm=40 * INCH))),
], ids=["a sound piece", "a job that wants none", "what the place does"])
def test_nothing_is_built_for(asked: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    quote = make_quote(asked, demo_shop())
    monkeypatch.setattr(trials.Trials, "_make", lambda *of: pytest.fail("nothing is to be built"))
    assert with_mends(quote, demo_shop()) is quote


def test_a_template_that_came_with_the_job_is_searched_only_when_asked() -> None:
    planted = plank_bench("14 in", "48 in", "48 in")
    asked = job({}, {}, "plank-bench")
    inline = replace(asked, items=(replace(asked.items[0], inline=planted),))
    before = make_quote(inline, demo_shop())
    assert {f.searched for f in serious(with_mends(before, demo_shop())).values()} == {""}
    wanted = replace(before, job=replace(before.job, mends=True))
    assert "found" in {f.searched for f in serious(with_mends(wanted, demo_shop())).values()}


def test_the_work_is_shared_out_so_that_one_finding_nothing_mends_leaves_enough_for_the_next() -> None:
    left = effort.Effort(90)
    left.begin(3)
    assert left.spend(30) and not left.spend(1) and left.stopped
    left.begin(2)
    assert not left.stopped and left.spend(8)            # 22 of its 30 are left over
    left.begin(1)
    assert left.spend(52) and not left.spend(1)


def test_a_share_is_enough_for_one_proof_while_there_is_work_left() -> None:
    left = effort.Effort(90)
    left.begin(9, least=40)
    assert left.spend(40) and not left.spend(1)
    left.begin(8, least=60)
    assert left.spend(50) and not left.spend(1)
