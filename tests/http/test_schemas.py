"""JSON to the domain and back: what is read, what is refused, what is echoed."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from yardwright.domain.cutting.model import EFFORTS
from yardwright.domain.finding import Finding, Level
from yardwright.domain.job import Discount, Job
from yardwright.domain.money import Money
from yardwright.domain.shop import Shop
from yardwright.http.quantities import Speaking, Voice
from yardwright.http.schemas import cutting
from yardwright.http.schemas.base import BadShape, load
from yardwright.http.schemas.fit import for_customer, for_shop
from yardwright.http.schemas.job import Job as JobSchema
from yardwright.http.schemas.site import Site as SiteSchema

SEEDS = sorted((Path(__file__).parents[2] / "seed_scenarios").glob("*/job.json"))
TODAY = date(2026, 11, 25)
LEAST: dict[str, Any] = {"units": "in", "items": [{"template": "storage-bench"}]}


@pytest.fixture(autouse=True)
def voice(demo_shop: Shop) -> Iterator[None]:
    with Voice(Speaking(demo_shop, "in", TODAY)):
        yield


def read(**members: Any) -> Job:
    job: Job = load(JobSchema(), LEAST | members)
    return job


def refused(**members: Any) -> dict[str, str]:
    with pytest.raises(BadShape) as caught:
        read(**members)
    return {fault.pointer: fault.detail for fault in caught.value.faults}


def item(**members: Any) -> dict[str, Any]:
    return {"items": [{"template": "storage-bench", **members}]}


def test_what_is_left_out_takes_its_default() -> None:
    job = read()
    assert (job.date, job.items[0].quantity, job.customer.name, job.site.kind) == (TODAY, 1, "", "open")


@pytest.mark.parametrize("said", [
    "44 in", "3' 8\"", "3 ft 8 in", "44\"", "1117.6 mm", "111,76 cm", {"mm": 1117.6},
    {"mm": 1117.6, "text": "44 in"}])
def test_a_length_is_read_as_people_and_programs_write_it(said: Any) -> None:
    assert read(**item(dimensions={"length": said})).items[0].dimensions["length"] == 44 * 25_400_000


@pytest.mark.parametrize(("said", "says"), [
    (44, "44 in"), (44.5, "44.5 mm"), ("44", "in"), ("5-3 1/2", "mean"), ("tall", ""), ("", ""),
    (None, "unit"), ({"mm": -1}, "from 0"), ({"mm": 2_000_000}, "1000000 mm"), ({"mm": "44"}, "number"),
    ({"in": 44}, "number"), ({"mm": True}, "number"), (True, "unit"), (["44 in"], "unit"),
    ("4" * 200 + " in", ""),
])
def test_what_is_no_length_is_refused_in_words(said: Any, says: str) -> None:
    found = refused(**item(dimensions={"length": said}))
    assert list(found) == ["/items/0/dimensions/length"]
    assert says in found["/items/0/dimensions/length"]


@pytest.mark.parametrize(("quantity", "good"), [
    (3, True), (3.0, True), (3.7, False), ("3", False), (True, False), (0, False), (201, False),
    (None, False), ([3], False)])
def test_a_quantity_is_a_whole_number(quantity: Any, good: bool) -> None:
    if good:
        assert read(**item(quantity=quantity)).items[0].quantity == 3
    else:
        assert list(refused(**item(quantity=quantity))) == ["/items/0/quantity"]


@pytest.mark.parametrize("amount", ["12.345", "1e3", "1,50", 12, 12.5, "NaN", "", "9" * 12, " 1.00", "+1.00"])
def test_money_is_decimal_text_and_nothing_else(amount: Any) -> None:
    assert "/extras/0/amount" in refused(extras=[{"text": "step", "amount": amount}])


def test_money_is_exact() -> None:
    assert read(extras=[{"text": "step", "amount": "1234.5"}]).extras[0].amount == Money(123450, "USD")


def test_a_discount_is_a_share_or_an_amount() -> None:
    assert read(discount={"share": "0.05", "reason": "x"}).discount == Discount(share="0.05", reason="x")
    assert list(refused(discount={"reason": "x"})) == ["/discount"]
    assert list(refused(discount={"share": "0.05", "amount": "5.00"})) == ["/discount"]
    for share in (0.05, "5%", "1.5", "-0.1", ".05"):
        assert list(refused(discount={"share": share})) == ["/discount/share"]


@pytest.mark.parametrize(("said", "fall"), [
    ("1/4 in per ft", 1 / 48), ("20 mm per m", 0.02), ("2 %", 0.02), ("2%", 0.02), ("1:80", 1 / 80),
    (0.02, 0.02), ("1,5 %", 0.015), (-0.01, -0.01)])
def test_a_fall_is_read_as_people_say_it(said: Any, fall: float) -> None:
    assert read(site={"ground": {"fall_away": said}}).site.ground.fall_away == pytest.approx(fall)


@pytest.mark.parametrize("said", ["steep", "1:0", 2, "1/4 per ft", "1/4 in per", True, "300 %", None])
def test_what_is_no_fall_is_refused(said: Any) -> None:
    assert list(refused(site={"ground": {"fall_away": said}})) == ["/site/ground/fall_away"]


@pytest.mark.parametrize(("said", "km"), [("12 km", 12), ("12km", 12), ("8 mi", 12.874752), ("2,5 km", 2.5)])
def test_a_distance_by_road_has_its_unit(said: str, km: float) -> None:
    assert read(delivery={"distance": said}).delivery.distance_km == pytest.approx(km)


@pytest.mark.parametrize("said", [12, "12", "12 m", "far", "-3 km", "3000 km"])
def test_a_distance_without_a_road_unit_is_refused(said: Any) -> None:
    assert list(refused(delivery={"distance": said})) == ["/delivery/distance"]


@pytest.mark.parametrize("day", [
    "2026-02-29", "25.11.2026", "2026-1-1", "1999-12-31", 20261125, "2026-11-25T10:00"])
def test_a_day_is_a_day_of_the_calendar(day: Any) -> None:
    assert list(refused(date=day)) == ["/date"]


def test_text_is_tidied_bounded_and_kept_as_it_is() -> None:
    job = read(customer={"name": "  Zoe\u0308 <b>O'Hara</b> & Co ", "address": "1 Lane\r\nTown"})
    assert job.customer.name == "Zo\u00eb <b>O'Hara</b> & Co"
    assert job.customer.address == "1 Lane\nTown"
    assert list(refused(customer={"name": "x" * 121})) == ["/customer/name"]
    assert list(refused(customer={"name": 7})) == ["/customer/name"]


def test_every_fault_is_named_at_once_and_near_misses_are_offered() -> None:
    found = refused(site={"wals": [], "walls": [{"readings": [{"valu": "1 in"}]}]}, colour="red",
                    customer={"nmae": "x"})
    assert "did you mean 'walls'" in found["/site/wals"]
    assert "did you mean 'value'" in found["/site/walls/0/readings/0/valu"]
    assert found["/site/walls/0/readings/0/value"] == "this must be given"
    assert "known here" in found["/colour"]
    assert "did you mean 'name'" in found["/customer/nmae"]


def test_a_leaning_wall_says_over_what_height() -> None:
    wall = {"side": "left", "out_of_plumb": "3/8 in"}
    assert list(refused(site={"walls": [wall]})) == ["/site/walls/0/plumb_over"]
    leaning = read(site={"walls": [wall | {"plumb_over": "4 ft"}]}).site.walls[0]
    assert leaning.plumb_over_nm == 48 * 25_400_000


@pytest.mark.parametrize("seed", SEEDS, ids=lambda path: path.parent.name)
def test_a_site_is_echoed_so_that_it_reads_back_the_same(seed: Path) -> None:
    asked = json.loads(seed.read_text(encoding="utf-8"))
    job = load(JobSchema(), asked)
    echoed = SiteSchema().dump(job.site)
    assert load(SiteSchema(), json.loads(json.dumps(echoed))) == job.site


def test_the_planners_efforts_are_the_contracts() -> None:
    assert cutting.EFFORTS == EFFORTS


def test_lists_are_bounded() -> None:
    assert "/items" in refused(items=LEAST["items"] * 21)
    assert "/items" in refused(items=[])
    assert "/site/walls" in refused(site={"walls": [{}] * 4})


def test_a_stop_and_what_was_not_checked_are_never_hidden_from_the_customer() -> None:
    found = tuple(Finding(str(level), level, "", "", customer=False) for level in Level)
    assert {finding.level for finding in for_customer(found)} == {Level.STOP, Level.NOT_CHECKED}
    assert {finding.level for finding in for_shop(found)} == set(Level) - {Level.STOP, Level.NOT_CHECKED}
