"""The pipeline: one job, one whole answer, or every refusal at once with its pointer."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

import yardwright
from yardwright import quoting
from yardwright.domain.errors import BadJob, Refused, TooMuch
from yardwright.domain.finding import Finding, Level
from yardwright.domain.job import Customer, Delivery, Discount, Item, Job, OnHand, Override
from yardwright.domain.measure import FOOT, INCH
from yardwright.domain.money import Money
from yardwright.domain.quote import Quote
from yardwright.domain.shop import Shop
from yardwright.domain.site import Ground, Measured, Site, Wall
from yardwright.quoting.answer import gravest_first, stopped_by

DATA = Path(yardwright.__file__).parent / "data"
BENCH = Item("storage-bench", {"length": 44 * INCH}, {})
DROP = Site("open", walls=(Wall("back", (Measured(10 * FOOT),)),),
            ground=Ground("deck", drop_behind_nm=40 * INCH))


def job(*items: Item, **changes: object) -> Job:
    plain = Job("T-1", "in", date(2026, 11, 25), Customer(), Site(), items or (BENCH,), delivery=Delivery())
    return replace(plain, **changes)  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def quote(demo_shop: Shop) -> Quote:
    return quoting.make_quote(job(BENCH, replace(BENCH, quantity=2)), demo_shop)


def refused(asked: Job, shop: Shop) -> list[tuple[str, str]]:
    with pytest.raises(Refused) as caught:
        quoting.make_quote(asked, shop)
    return [(fault.pointer, fault.detail) for fault in caught.value.faults]


def test_refusals_of_all_items_are_collected_with_their_pointers(demo_shop: Shop) -> None:
    wrong = job(BENCH, Item("storage-bnech", {}, {}), Item("planter-box", {"length": INCH}, {"cap": "tin"}))
    assert [pointer for pointer, _ in refused(wrong, demo_shop)] == [
        "/items/1/template", "/items/2/dimensions/length", "/items/2/choices/cap"]


def test_a_near_miss_of_a_template_is_named_and_a_far_one_gets_the_list(demo_shop: Shop) -> None:
    assert "did you mean 'planter-box'" in refused(job(Item("planter-bx", {}, {})), demo_shop)[0][1]
    said = refused(job(Item("gazebo", {}, {})), demo_shop)[0][1]
    assert "planter-box" in said and "storage-bench" in said


@pytest.mark.parametrize(("items", "pointer"), [
    ((BENCH,) * 21, "/items"),
    ((replace(BENCH, quantity=201),), "/items/0/quantity"),
    ((replace(BENCH, quantity=0),), "/items/0/quantity"),
    ((replace(BENCH, quantity=200),) * 3, "/items"),
])
def test_more_than_one_job_may_ask_for_is_refused_before_any_work(demo_shop: Shop, items: tuple[Item, ...],
                                                                  pointer: str) -> None:
    with pytest.raises(TooMuch) as caught:
        quoting.make_quote(job(*items), demo_shop)
    assert caught.value.faults[0].pointer == pointer


def test_an_inline_template_is_read_and_its_faults_point_into_the_job(demo_shop: Shop) -> None:
    found = refused(job(Item("own", {}, {}, inline={"id": "own", "nmae": "Own"})), demo_shop)
    assert found and all(pointer.startswith("/items/0/template") for pointer, _ in found)


def test_a_piece_at_hand_that_nobody_knows_is_refused_not_ignored(demo_shop: Shop) -> None:
    nothing = Money(0, "USD")
    known = OnHand("1x6", "western-red-cedar", 8 * FOOT, 1, nothing)
    odd = OnHand("1x16", "western-red-ceder", 8 * FOOT, 1, nothing)
    found = dict(refused(job(on_hand=(known, odd)), demo_shop))
    assert list(found) == ["/on_hand/1/section", "/on_hand/1/timber"]
    assert "did you mean 'western-red-cedar'" in found["/on_hand/1/timber"]


def inline(change: str, to: str) -> Item:
    """The planter sent along with the job, one thing in it changed."""
    text = (DATA / "templates" / "planter-box.toml").read_text(encoding="utf-8")
    assert change in text
    return Item("planter-box", {}, {}, inline=tomllib.loads(text.replace(change, to)))


def test_a_sound_inline_template_is_quoted_as_ours_is(demo_shop: Shop) -> None:
    ours = quoting.make_quote(job(Item("planter-box", {}, {})), demo_shop)
    theirs = quoting.make_quote(job(inline("revision = 1", "revision = 2")), demo_shop)
    assert theirs.price.total == ours.price.total


def test_an_inline_template_whose_solids_are_not_as_asked_is_refused(demo_shop: Shop) -> None:
    found = refused(job(inline('low = "lift + 1*inch"', 'low = "lift - 2*inch"')), demo_shop)
    assert found
    assert all(pointer.startswith("/items/0/template/") for pointer, _ in found)


def test_parts_hours_and_price_of_the_items_make_up_the_job(quote: Quote) -> None:
    assert [part.item for item in quote.items for part in item.parts] == sorted(
        part.item for item in quote.items for part in item.parts)
    assert sum(item.hours for item in quote.items) == pytest.approx(quote.labour.hours, abs=0.02)
    for item, line in zip(quote.items, quote.price.lines, strict=False):
        assert line.kind == "item"
        assert item.quantity == line.quantity
    for one, two in zip(quote.items[0].parts, quote.items[1].parts, strict=True):
        assert (one.name, one.length_nm, 2 * one.count) == (two.name, two.length_nm, two.count)


def test_two_of_a_kind_cost_no_more_than_twice_one(demo_shop: Shop) -> None:
    one, two = (quoting.make_quote(job(replace(BENCH, quantity=n)), demo_shop).price for n in (1, 2))
    assert two.items[0].cost.minor <= 2 * one.items[0].cost.minor


def test_the_same_job_in_inches_and_millimetres_costs_the_same(demo_shop: Shop) -> None:
    sized = Item("planter-box", {"length": 48 * INCH, "depth": 18 * INCH, "height": 20 * INCH}, {})
    inches, metric = (quoting.make_quote(job(sized, units=units), demo_shop) for units in ("in", "mm"))
    assert inches.price.total == metric.price.total
    assert [part.length_nm for part in inches.items[0].parts] == [p.length_nm for p in metric.items[0].parts]


def test_a_job_without_a_reference_gets_one_from_its_content(demo_shop: Shop) -> None:
    asked = [quoting.make_quote(job(Item("planter-box", {"length": n * INCH}, {}), reference=""), demo_shop)
             for n in (48, 48, 49)]
    references = [made.job.reference for made in asked]
    assert references[0] == references[1] != references[2]
    assert references[0].startswith("Y-")


def test_a_stop_holds_the_paper_until_it_is_overridden_by_its_rule(demo_shop: Shop) -> None:
    held = quoting.make_quote(job(site=DROP), demo_shop)
    assert "drop behind" in {finding.rule for finding in held.stopped_by}
    wrong = Override("fit", "", "not the one that stops it")
    assert quoting.make_quote(job(site=DROP, overrides=(wrong,)), demo_shop).stopped_by == held.stopped_by
    answered = tuple(Override(f.rule, "", "a guard of 42 in stands there") for f in held.stopped_by)
    free = quoting.make_quote(job(site=DROP, overrides=answered), demo_shop)
    assert free.stopped_by == ()
    assert free.items[0].findings == held.items[0].findings, "an override never hides the finding"


def test_the_gravest_finding_comes_first_and_only_stops_stop() -> None:
    found = [Finding("a", level, "", "") for level in Level]
    assert [f.level for f in gravest_first(found)] == [
        Level.STOP, Level.CAUTION, Level.NOT_CHECKED, Level.NOTE, Level.OK]
    assert [f.level for f in stopped_by(found, ())] == [Level.STOP]


def test_nothing_measured_means_no_fit_and_never_an_ok(quote: Quote) -> None:
    assert all(item.fit is None for item in quote.items)
    of_fit = [f.level for item in quote.items for f in item.findings if f.rule == "fit"]
    assert Level.OK not in of_fit


def test_every_quoted_figure_has_its_working(quote: Quote) -> None:
    what = [row.what for row in quote.working]
    for figure in ("Overall size of", "Weight of", "Hours for", "Price of", "Stock", "Cutting",
                   "Hours in all", "Sales tax", "Total", "Deposit"):
        assert any(name.startswith(figure) for name in what), figure
    assert {line.goods.name for line in quote.hardware} <= set(what)
    assert {operation.name for operation in quote.labour.operations} <= set(what)
    assert all(row.rule and row.result and row.source for row in quote.working)


def test_the_customers_working_shows_no_cost_of_the_shop(quote: Quote) -> None:
    shown = [row for row in quote.working if row.customer]
    assert shown
    costs = {f"{row.amount.text()}" for row in quote.price.build_up[:7]}
    assert not [row for row in shown if any(cost in row.numbers + row.result for cost in costs)]


def test_what_cannot_be_measured_is_refused_as_one_kind(demo_shop: Shop) -> None:
    with pytest.raises(BadJob):
        quoting.make_quote(job(Item("planter-box", {"lenght": INCH}, {})), demo_shop)


def test_an_inline_template_that_asks_for_an_unknown_check_is_refused(demo_shop: Shop) -> None:
    found = refused(job(inline('rule = "soil sides"', 'rule = "soil sight"')), demo_shop)
    pointer, detail = found[0]
    assert pointer.startswith("/items/0/template/checks/")
    assert "there is no check 'soil sight'" in detail


def test_a_job_sold_below_its_cost_says_so_to_the_shop_alone(demo_shop: Shop) -> None:
    asked = job(Item("planter-box", {}, {}), discount=Discount(share="0.60", reason="a neighbour"))
    found = [f for f in quoting.make_quote(asked, demo_shop).findings if f.rule == "below cost"]
    assert [(f.level, f.customer) for f in found] == [(Level.CAUTION, False)]
