"""Questions that one check calls for: asked, or said to be open; our own templates leave none open."""

from __future__ import annotations

import pytest

from builders import demo_shop
from handmade import CEDAR, PINE, asked, box, case, piece
from yardwright.domain.checks import implied
from yardwright.domain.finding import Level
from yardwright.domain.market import Timber
from yardwright.domain.piece.build import build


def titles(*rules: str, kind: Timber = CEDAR, lid: bool = False) -> list[str]:
    board = box("Board", (0, 0, 0), (900, 140, 20), kind=kind)
    hinge = ((0.0, 140.0, 0.0), (1.0, 0.0, 0.0), -90.0) if lid else None
    found = implied.check(asked("implied"), case(piece([board], [asked(r) for r in rules], lid=hinge)))
    assert {f.level for f in found} <= {Level.NOT_CHECKED}
    return [f.mend.removeprefix("Ask for ").removesuffix(" in the template's checks.") for f in found]


@pytest.mark.parametrize(("rules", "left"), [
    (("seat load",), ["seat", "board gaps"]), (("seat load", "seat", "board gaps"), []),
    (("attached seats",), ["seat"]), (("back load",), ["lean back"]), (("back load", "lean back"), []),
    (("armrest",), ["arm load"]), (("table",), ["food contact"]), (("table", "food contact"), []), ((), [])])
def test_what_one_check_calls_for_is_asked_or_open(rules: tuple[str, ...], left: list[str]) -> None:
    assert titles(*rules) == left


def test_a_lid_without_a_chest_check_may_shut_a_child_in() -> None:
    assert titles("lid", lid=True) == ["chest"]
    assert titles("lid", "chest", lid=True) == []


def test_earth_in_treated_wood_asks_what_grows_there() -> None:
    assert titles("soil sides", kind=PINE) == ["growing food"]
    assert titles("soil sides", kind=CEDAR) == []
    assert titles("soil sides", "growing food", kind=PINE) == []


@pytest.mark.parametrize("name", ["storage-bench", "planter-box", "lounge-chair", "picnic-table",
                                  "corner-bench"])
def test_our_templates_leave_nothing_open(name: str) -> None:
    shop = demo_shop()
    made = build(shop.templates[name], {}, {}, shop, "in")
    assert implied.check(asked("implied"), case(made, at=shop)) == ()
