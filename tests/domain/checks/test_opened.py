"""A store stands with its door open and a child at its edge, its lid up in the wind: moments by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import CEDAR, asked, box, case, piece, shop
from yardwright.domain.checks import anchors, opened
from yardwright.domain.finding import Finding, Level
from yardwright.domain.market import Goods
from yardwright.domain.money import Money
from yardwright.domain.piece.model import FittedHardware, Piece
from yardwright.domain.site import Site

G = 9.80665


def store(body_kg: float, door_kg: float, high: float = 1200.0, opens: float = -90.0, lid: bool = False,
          fixed: float = 0.0) -> Piece:
    """A solid body 800 x 700; before it a door 700 wide on an upright hinge at its left, or on it a lid."""
    body = box("Body", (0, 0, 0), (800, 700, high), along="z", thick="y")
    leaf = (box("Lid", (0, 0, high), (800, 700, 20), group="lid") if lid else
            box("Door", (0, -20, 50), (700, 20, high - 100), along="z", thick="y", group="door"))
    parts = [replace(m, density_kg_m3=kg / (m.volume_mm3 * 1e-9))
             for m, kg in ((body, body_kg), (leaf, door_kg))]
    made = piece(parts, [asked("tip over", push_height=high, anchored=True)] if fixed else [],
                 hardware=[FittedHardware("Anchors", "anchor", fixed, {}, {}, "")] if fixed else [])
    hinge = ((0.0, 700.0, high + 20), (1.0, 0.0, 0.0)) if lid else ((0.0, 0.0, 0.0), (0.0, 0.0, 1.0))
    up = high + 700 if lid else high
    wide = replace(made.opened, high=(800.0, 720.0, up), low=(-20.0, -700.0, 0.0))
    return replace(made, moving={"lid" if lid else "door": (*hinge, opens)}, opened=wide)


def told(made: Piece, exposure: str = "", load_n: float = 0.0) -> dict[str, Finding]:
    size = {"load_n": load_n} if load_n else {}
    goods = [Goods("A", "Anchor", "anchor", 1, "each", Money(1, "USD"), size)]
    at = case(made, Site(exposure=exposure), shop([CEDAR], goods=goods))
    return {f.title: f for f in opened.check(asked("door or lid open"), at)}


@pytest.mark.parametrize(("body_kg", "level"), [(60.0, Level.OK), (55.0, Level.STOP)])
def test_a_child_hangs_at_the_edge_of_an_open_door(body_kg: float, level: Level) -> None:
    """25 kg 700 mm out: 17 500 kg·mm. The body holds 350 mm from its front, the door of 8 kg acts 350 before
    it: body·350 - 2800 >= 17 500 from 58 kg on; by hand."""
    (found,) = told(store(body_kg, 8.0)).values()
    assert found.level is level
    assert found.measured == f"factor {(body_kg * 350 - 8 * 350) / 17500:.2f}"
    assert "27 9/16 in past the feet at the front" in found.detail


def test_an_anchored_store_is_held_by_its_anchors() -> None:
    """40 kg: 11 200 of 17 500 kg·mm; 61.8 N·m over 700 mm are 88 N on one of two, at 1200 mm 51 / 2."""
    loose = told(store(40.0, 8.0, fixed=2))
    assert loose["Only its fixing holds a child at its open door"].level is Level.CAUTION
    assert "20 lbf on each of its 2 anchors" in loose["Only its fixing holds a child at its open door"].detail
    low = replace(store(80.0, 50.0, high=1000.0, fixed=2),
                  checks=(asked("tip over", push_height=1.0, anchored=True),))
    (told_of,) = anchors.check(asked("anchors"), case(low))
    assert told_of.level is Level.NOT_CHECKED and "under a child at its open door" in told_of.detail
    assert {f.level for f in told(store(40.0, 8.0, fixed=2), load_n=89.0).values()} == {Level.OK}
    assert {f.level for f in told(store(40.0, 8.0, fixed=2), load_n=87.0).values()} == {Level.STOP}


def test_a_heavy_door_moves_the_weight_over_the_feet() -> None:
    """Body 60, door 30 kg: shut 60·350 - 30·10 = 20 700 kg·mm of the push's 11.34 kg x 1200 = 13 608: 1.52;
    open 60·350 - 30·350 = 10 500: 0.77."""
    found = told(store(60.0, 30.0))["Tips with its door open"]
    assert found.level is Level.CAUTION and found.measured == "factor 0.77"
    assert "shut 1.52" in found.working
    assert not any(t.startswith("Tips") for t in told(store(60.0, 10.0)))


def test_a_lid_left_up_adds_its_wind() -> None:
    """Sheltered 574.7 N/m2: on 800 x 1220 shut 561 N x 610 = 342 N·m; the lid 800 x 700 above 322 N x 1570 =
    505 more. 200 kg hold 0.6·200·g·0.35 = 412: shut it stands, up it falls; 600 kg hold. By hand."""
    (found,) = (f for f in told(store(200.0, 10.0, lid=True, opens=-90.0), "sheltered").values()
                if "Wind" in f.title)
    assert found.title == "Wind blows it over with its lid up" and found.level is Level.CAUTION
    q = 1.5 * 0.613 * 25**2 * 1e-6
    rise = 700.0
    more = q * 800 * rise * (1220 + rise / 2) / 1000
    assert found.measured == f"{(q * 800 * 1220 * 610 / 1000 + more) / 0.1129848:.0f} in·lbf"
    assert not told(store(600.0, 10.0, lid=True, opens=-90.0), "sheltered")
    assert not told(store(200.0, 10.0, lid=True, opens=-90.0))           # no exposure: the wind check says so


def test_a_low_chest_is_not_climbed_and_what_does_not_move_is_not_asked() -> None:
    assert told(store(20.0, 4.0, high=500.0)) == {}
    still = store(55.0, 8.0)
    assert told(replace(still, moving={})) == {}
    assert told(replace(still, template=replace(still.template, stands="hung on a wall"))) == {}
