"""Heights and gaps are those of the solids, whatever a template gives its checks."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builders import demo_shop, demo_shop_metric
from handmade import INCH, asked, box, case, piece, shop
from yardwright.domain.checks import run
from yardwright.domain.checks.as_built import as_built
from yardwright.domain.checks.between import gaps_between
from yardwright.domain.finding import Finding, Level
from yardwright.domain.measure import Writer
from yardwright.domain.piece.build import build
from yardwright.domain.piece.model import AskedCheck, Member, Piece
from yardwright.domain.site import Site

SEAT = ["Seat 0", "Seat 1"]


def bench(*checks: AskedCheck, gap: float = 6.0) -> Piece:
    """A seat 17 in high of two boards on two ends."""
    ends = [box(f"End {n}", (x, 0, 0), (40, 300, 17 * INCH - 38), along="z", thick="x")
            for n, x in enumerate((0, 800))]
    seat = [box(key, (0, n * (140 + gap), 17 * INCH - 38), (840, 140, 38)) for n, key in enumerate(SEAT)]
    return piece([*ends, *seat], [asked("seat load", SEAT), *checks])


def told(made: Piece, rule: str = "declared") -> list[Finding]:
    return list(run(made, None, Site(), shop(), Writer("in"), rule))


def test_a_seat_is_as_high_as_its_boards_lie() -> None:
    lied = bench(asked("seat", height=20 * INCH))
    (finding,) = told(lied)
    assert finding.level is Level.STOP and (finding.measured, finding.limit) == ("17 in", "20 in")
    assert [f.measured for f in told(lied, "seat")] == ["17 in"], "judged at 17 in"
    assert told(bench(asked("seat", height=17 * INCH))) == []
    assert told(bench(asked("seat", height=17 * INCH + 1.5))) == [], "a working step is 1/16 in"


def test_heights_count_from_the_ground_whatever_is_dug_in() -> None:
    """Posts 24 in deep under a seat 17 in up."""
    posts = [box(f"Post {n}", (x, 100, -24 * INCH), (89, 89, 41 * INCH - 38), along="z", thick="y")
             for n, x in enumerate((0, 750))]
    above = bench(asked("seat", height=17 * INCH))
    dug = replace(above, members=(*posts, *(m for m in above.members if m.key in SEAT)))
    stands = replace(dug.template, stands="posts in the ground")
    dug = replace(piece(dug.members, dug.checks), template=stands)
    assert told(dug) == []
    assert [f.measured for f in told(dug, "seat")] == ["17 in"]


@pytest.mark.parametrize(("check", "measured"), [
    (asked("table", height=29 * INCH, seat_height=15 * INCH), "17 in"),
    (asked("lean back", SEAT, seat_height=12 * INCH), "17 in"),
    (asked("tip over", SEAT, push_height=5 * INCH), "17 in"),
    (asked("board gaps", SEAT, gap=0.25 * INCH), "1 1/2 in"),
])
def test_every_height_and_gap_is_held_against_the_boards(check: AskedCheck, measured: str) -> None:
    found = told(bench(check, gap=1.5 * INCH))
    assert [(f.level, f.measured) for f in found] == [(Level.STOP, measured)]


def test_a_wide_gap_is_judged_as_it_is_built() -> None:
    lied = bench(asked("board gaps", SEAT, gap=0.25 * INCH), gap=1.5 * INCH)
    assert "Gaps of the seat: wide" in {f.title for f in told(lied, "board gaps") if f.level is Level.CAUTION}


def test_what_is_pushed_higher_than_it_stands_stays_so() -> None:
    assert told(bench(asked("tip over", SEAT, push_height=40 * INCH))) == []


def tower(*checks: AskedCheck) -> Piece:
    """A light block 1 m high and 250 mm deep that falls over when it is pushed."""
    return piece([box("Body", (0, 0, 0), (600, 250, 1000), along="z", thick="y")],
                 [asked("shelf load", ["Body"], {"use": "box"}), *checks])


@pytest.mark.parametrize("kind", ["chair", "planter"])
def test_what_has_no_seat_is_no_chair_and_what_has_no_soil_no_planter(kind: str) -> None:
    """A chair would be forgiven that it falls over empty, a planter weighed with 2 m³ of soil."""
    lied = tower(asked("tip over", words={"kind": kind}, push_height=1000.0, soil_volume=2e9))
    assert [(f.level, f.title) for f in told(lied, "tip over")] == [(Level.STOP, "Falls over easily")]
    assert [f.title for f in told(lied)] == [f"The template is wrong about its being a {kind}"]


def test_a_planter_holds_no_more_soil_than_its_boards() -> None:
    made = build(demo_shop().templates["planter-box"], {}, {}, demo_shop(), "in")
    heaped = replace(made, checks=tuple(
        replace(c, values={**c.values, "soil_volume": 10 * float(c.values["soil_volume"])})
        if c.rule.rule == "tip over" else c for c in made.checks))
    held = as_built(case(heaped, at=demo_shop()))
    assert [d.what for d in held.declared] == ["the soil it holds"]
    (over,) = (c for c in held.piece.checks if c.rule.rule == "tip over")
    assert over.values["soil_volume"] == pytest.approx(made.values["soil_volume"], rel=0.02)


def test_gaps_lie_between_neighbours_in_one_plane() -> None:
    rows: list[Member] = [box(f"Front {n}", (0, 106.0 * n, 0), (900, 100, 20)) for n in range(3)]
    rows += [box(f"Rear {n}", (0, 1000 + 110.0 * n, 0), (900, 100, 20)) for n in range(2)]
    assert gaps_between(rows, rows) == pytest.approx((6.0, 10.0)), "between the rows lies no gap of theirs"
    above = box("Above", (0, 0, 60), (900, 100, 20))
    assert gaps_between([above, rows[0]], [above, rows[0]]) is None
    filled = box("Batten", (0, 95, -20), (900, 40, 20))
    assert gaps_between([*rows, filled], rows) == pytest.approx((6.0, 10.0))
    closed = box("Post", (0, 1100, 0), (900, 10, 20))
    assert gaps_between([*rows, closed], rows) == pytest.approx((6.0, 6.0)), "filled by a board along it"


@pytest.mark.parametrize("metric", [False, True])
@pytest.mark.parametrize("name", [
    "storage-bench", "planter-box", "lounge-chair", "picnic-table", "corner-bench"])
def test_our_own_templates_say_what_their_boards_show(name: str, metric: bool) -> None:
    at = demo_shop_metric() if metric else demo_shop()
    for most in (False, True):
        size = {d.name: d.most_nm if most else d.least_nm for d in at.templates[name].dimensions}
        held = as_built(case(build(at.templates[name], size, {}, at, at.units), at=at))
        assert (held.declared, held.called_for, held.unseen) == ((), (), ())
