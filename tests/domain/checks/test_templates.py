"""The templates that come with the engine, judged as a maker would before offering them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builders import demo_shop, demo_shop_metric
from yardwright.domain.checks import run, validate
from yardwright.domain.finding import Finding, Level
from yardwright.domain.measure import Writer
from yardwright.domain.piece.build import build
from yardwright.domain.piece.model import Piece
from yardwright.domain.site import Ground, Site

TEMPLATES = ("storage-bench", "planter-box", "lounge-chair", "picnic-table", "corner-bench")
SERIOUS = (Level.STOP, Level.CAUTION, Level.NOT_CHECKED)
LOADS = ("seat load", "back load", "shelf load", "soil sides", "soil floor")


def findings(name: str, dimensions: dict[str, int], choices: dict[str, str], units: str = "in",
             site: Site = Site()) -> list[Finding]:  # noqa: B008
    shop = demo_shop() if units == "in" else demo_shop_metric()
    made = build(shop.templates[name], dimensions, choices, shop, units)
    return list(run(made, None, site, shop, Writer(units)))


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("name", TEMPLATES)
def test_a_default_piece_has_no_stop_no_caution_and_nothing_unchecked(name: str, units: str) -> None:
    """But for what nobody can know here: what the brackets of a fixed piece hold."""
    expected = {"Stands a push by its fixing alone", "What its anchors hold: not checked"}
    assert {f.title for f in findings(name, {}, {}, units) if f.level in SERIOUS} == (
        expected if name == "storage-bench" else set())


@pytest.mark.parametrize("name", TEMPLATES)
def test_templates_ask_for_known_checks_only(name: str) -> None:
    assert validate(demo_shop().templates[name]) == ()


@pytest.mark.parametrize("name", TEMPLATES)
def test_largest_and_smallest_pieces_carry_their_loads_in_every_timber_sold(name: str) -> None:
    """Strength, found from the supports in the contacts, holds over the range customers may choose."""
    shop = demo_shop()
    template = shop.templates[name]
    sold = {b.timber for b in shop.market.boards if b.section.id == "5/4x6"}
    for timber in (t for t in template.timbers if t in sold):
        for most in (False, True):
            size = {d.name: d.most_nm if most else d.least_nm for d in template.dimensions}
            found = findings(name, size, {"timber": timber})
            weak = [(timber, f.title, f.measured, f.limit) for f in found
                    if f.rule in LOADS and f.level is not Level.OK]
            assert weak == [], size
            assert {f.rule for f in found} & set(LOADS)


def test_a_corner_bench_turned_over_for_the_left_is_judged_as_the_right_one() -> None:
    def told(side: str) -> list[tuple[str, Level, str]]:
        size = {"length": 80 * 25_400_000, "wing_length": 60 * 25_400_000}
        return sorted((f.rule, f.level, f.title) for f in findings("corner-bench", size, {"side": side}))

    assert told("left") == told("right")


def test_a_free_standing_bench_with_a_back_is_stopped_and_a_fixed_one_is_not() -> None:
    free = findings("storage-bench", {}, {"fixing": "free"})
    assert ("tip over", Level.STOP) in {(f.rule, f.level) for f in free}
    fixed = findings("storage-bench", {}, {"fixing": "brackets"})
    assert ("tip over", Level.STOP) not in {(f.rule, f.level) for f in fixed}


def test_treated_pine_brings_its_cautions() -> None:
    bench = findings("storage-bench", {}, {"timber": "southern-pine-uc4a"})
    assert "wet gluing" in {f.rule for f in bench if f.level is Level.CAUTION}
    bed = findings("planter-box", {}, {"timber": "southern-pine-uc4a", "grows": "food"})
    assert "growing food" in {f.rule for f in bed if f.level is Level.CAUTION}


def test_a_planter_on_a_balcony_is_not_checked_and_one_over_the_allowed_load_stopped() -> None:
    def level(allowed: float | None) -> Level:
        site = Site(ground=Ground(surface="balcony", allowed_load_kn_m2=allowed))
        found = findings("planter-box", {}, {}, site=site)
        return next(f.level for f in found if f.rule == "allowed load")

    assert [level(None), level(1.5), level(15.0)] == [Level.NOT_CHECKED, Level.STOP, Level.OK]


def test_every_finding_says_where_its_limit_comes_from() -> None:
    for name in TEMPLATES:
        for f in findings(name, {}, {}):
            assert f.source, f.title
            assert f.title and f.detail
            if f.level in (Level.STOP, Level.CAUTION):
                assert f.mend, f.title


def without(made: Piece, *names: str) -> Piece:
    """The piece as if members of these names had been forgotten."""
    gone = {m.key for m in made.members if m.name in names}
    return replace(
        made, members=tuple(m for m in made.members if m.key not in gone),
        contacts=tuple(c for c in made.contacts if not {c.first, c.second} & gone),
        joints=tuple(replace(j, contacts=tuple(c for c in j.contacts if not {c.first, c.second} & gone))
                     for j in made.joints),
        checks=tuple(replace(c, members=tuple(k for k in c.members if k not in gone)) for c in made.checks))


@pytest.mark.parametrize(("name", "forgotten", "rule"), [
    ("storage-bench", ("Lid cleat",), "seat load"),
    ("storage-bench", ("Front floor ledger",), "shelf load"),
    ("storage-bench", ("Lower back rail",), "back load"),
    ("planter-box", ("Floor ledger", "Bearer"), "soil floor"),
    ("planter-box", ("Corner post", "Middle post"), "soil sides"),
])
def test_forgetting_what_carries_the_boards_is_noticed(name: str, forgotten: tuple[str, ...],
                                                       rule: str) -> None:
    shop = demo_shop()
    made = build(shop.templates[name], {}, {}, shop, "in")
    assert {m.name for m in made.members} >= set(forgotten)
    found = run(without(made, *forgotten), None, Site(), shop, Writer("in"))
    assert Level.STOP in {f.level for f in found if f.rule == rule}


def test_cleats_that_no_longer_lie_on_ledgers_hang_by_their_screws() -> None:
    shop = demo_shop()
    made = build(shop.templates["storage-bench"], {}, {}, shop, "in")
    found = run(without(made, "Front cleat ledger", "Rear cleat ledger"), None, Site(), shop, Writer("in"))
    assert {f.level for f in found if f.rule == "seat load"} & {Level.STOP, Level.CAUTION}


def test_the_front_board_of_a_lid_laps_the_cleats_that_hold_it_by_an_inch() -> None:
    """A lid's cleats begin behind the front panel; a narrow front board would hang by its rear edge."""
    for shop, units in ((demo_shop(), "in"), (demo_shop_metric(), "mm")):
        for depth in (20.0, 21.5, 24.0, 30.0):
            size = {"depth": round(depth * 25_400_000)}
            made = build(shop.templates["storage-bench"], size, {}, shop, units)
            cleat = next(m for m in made.members if m.name == "Lid cleat")
            front = min((m for m in made.members if m.name == "Seat board"), key=lambda m: m.centre[1])
            assert front.solid.box[1][1] - cleat.solid.box[0][1] >= 25.4, (units, depth)
