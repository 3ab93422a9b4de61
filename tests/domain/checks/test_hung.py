"""A table hung on a wall: its pull worked by hand, and nothing of it stands on its lowest edge."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import CEDAR, INCH, asked, box, case, piece, shop
from yardwright.domain.checks import hung, run
from yardwright.domain.checks.words import GRAVITY, LB_KG, LBF_N
from yardwright.domain.finding import Finding, Level
from yardwright.domain.fit.ground import levelling
from yardwright.domain.market import Goods
from yardwright.domain.measure import Writer
from yardwright.domain.money import Money
from yardwright.domain.piece.model import FittedHardware, Piece
from yardwright.domain.site import Ground, Site

UPRIGHT_TOP = 27.5


def table(anchors: float = 4.0, stands: str = "hung on a wall", to_wall: bool = True) -> Piece:
    """A top 40 x 22 in on two arms against two uprights, 8 to 27 1/2 in up, their backs 22 in behind."""
    back = 22.0 if to_wall else 21.0
    uprights = [box(f"Upright {n}", (x * INCH, (back - 5.5) * INCH, 8 * INCH),
                    (38, 5.5 * INCH, (UPRIGHT_TOP - 8) * INCH), along="z", thick="x")
                for n, x in enumerate((6.0, 32.5))]
    arms = [box(f"Arm {n}", (x * INCH + 38, 0, 22 * INCH), (38, back * INCH, 5.5 * INCH), along="y",
                thick="x")
            for n, x in enumerate((6.0, 32.5))]
    top = [box(f"Top {n}", (0, n * 5.5 * INCH, UPRIGHT_TOP * INCH), (40 * INCH, 5.5 * INCH, 38))
           for n in range(4)]
    made = piece([*uprights, *arms, *top], [
        asked("tip over", push_height=29 * INCH, anchored=True),
        asked("shelf load", [t.key for t in top], {"use": "table"})],
        screwed=[("Arm", "Upright"), ("Top", "Arm")],
        hardware=[FittedHardware("Wall anchors", "anchor", anchors, {}, {}, "")])
    return replace(made, template=replace(made.template, stands=stands))


def told(made: Piece, load_lbf: float = 0.0) -> tuple[Finding, ...]:
    size = {"load_n": load_lbf * LBF_N} if load_lbf else {}
    goods = [Goods("A", "Anchor", "anchor", 1, "each", Money(1, "USD"), size)]
    return hung.check(asked("hung on a wall"), case(made, at=shop([CEDAR], goods=goods)))


def each_lbf(made: Piece) -> float:
    """(250·22 + W·a)/(0.9·19.5 in) on two of four, and (W + 250)/4 down: hand calculation."""
    weight = made.mass_kg / LB_KG
    out = 22.0 - made.centre[1] / INCH
    return (250 * 22 + weight * out) / (0.9 * 19.5) / 2 + (weight + 250) / 4


def test_somebody_at_the_front_edge_pulls_at_the_upper_fixings() -> None:
    """250 lbf at 22 in alone: 5500/17.55 = 313 lbf; with the table's own weight near 330."""
    made = table()
    fixings, wall = told(made)
    assert fixings.level is Level.STOP and "no load is given" in fixings.detail
    assert fixings.measured == f"{each_lbf(made):.0f} lbf on each"
    assert 313 < (made.mass_kg / LB_KG * (22 - made.centre[1] / INCH) + 5500) / 17.55 < 345
    assert wall.level is Level.NOT_CHECKED and "wall" in wall.title


@pytest.mark.parametrize(("more", "level"), [(-1.0, Level.STOP), (1.0, Level.OK)])
def test_a_load_in_the_goods_list_decides_and_the_wall_stays_unknown(more: float, level: Level) -> None:
    made = table()
    fixings, wall = told(made, each_lbf(made) + more)
    assert fixings.level is level
    assert wall.level is Level.NOT_CHECKED


@pytest.mark.parametrize("made", [table(anchors=1.0), table(anchors=0.0)])
def test_without_two_anchors_nothing_holds_it(made: Piece) -> None:
    assert [(f.level, f.title) for f in told(made)] == [(Level.STOP, "Nothing holds it to the wall")]


def test_what_stands_on_the_ground_is_not_asked() -> None:
    assert told(table(stands="on the ground")) == ()


def test_a_hung_piece_has_no_feet_to_tip_rack_rot_or_level() -> None:
    made = table()
    site = Site(ground=Ground("soil", fall_along=0.05))
    rules = {f.rule for f in run(made, None, site, shop([CEDAR]), Writer("in"))}
    assert not rules & {"tip over", "climbing", "racking", "fall of the ground", "anchors"}
    assert levelling(made, site.ground, 1.0, 10.0, 20.0) is None
    ground = [f for f in run(made, None, site, shop([CEDAR]), Writer("in")) if f.rule == "ground contact"]
    assert not any("feet" in f.title.lower() for f in ground)
    standing = replace(made, template=replace(made.template, stands="on the ground"))
    rules = {f.rule for f in run(standing, None, site, shop([CEDAR]), Writer("in"))}
    assert rules >= {"tip over", "climbing", "racking", "fall of the ground"}


def test_a_hung_shelf_is_carried_by_what_lies_against_the_wall_only() -> None:
    def levels(made: Piece) -> set[Level]:
        return {f.level for f in run(made, None, Site(), shop([CEDAR]), Writer("in"), "shelf load")}

    assert levels(table()) == {Level.OK}
    away = table()
    gap = tuple(replace(m, frame=replace(m.frame, origin=(m.frame.origin[0], m.frame.origin[1] - 25.4,
                                                          m.frame.origin[2]))) for m in away.members
                if not m.key.startswith("Top 3"))
    last = away.member("Top 3")
    loose = replace(away, members=(*gap, last))
    assert Level.STOP in levels(loose)           # only a board of the top reaches the wall: it holds nothing


def test_an_arm_that_butts_on_the_wall_hangs_by_its_joint() -> None:
    """Its end takes no fixing: what lies on it goes through its two screws to the upright."""
    found = run(table(), None, Site(), shop([CEDAR]), Writer("in"), "joints")
    assert any("Arm to Upright" in f.title and f.level is Level.STOP for f in found)


def test_what_hangs_full_of_soil_weighs_that_too() -> None:
    """1 ft³ at 100 lb: in the middle of 22 in, with the table's own weight (moments, recomputed)."""
    made = table()
    filled = replace(made, checks=(*made.checks, asked("soil weight", soil_volume=(12 * INCH) ** 3)))
    soil = case(filled).limit("soil.density") * (0.3048 ** 3) / LB_KG
    more = soil * 11 / (0.9 * 19.5) / 2 + soil / 4
    dry, wet = (float(told(one)[0].measured.split()[0]) for one in (made, filled))
    assert wet - dry == pytest.approx(more, abs=1.0)


def test_the_weight_counts_in_newtons() -> None:
    made = table()
    assert f"{made.mass_kg * GRAVITY / LBF_N:.0f} lbf × " in told(made)[0].working
