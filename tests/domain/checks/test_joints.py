"""Loads followed down to the ground, joint by joint."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builders import demo_shop
from handmade import PINE, UNNAMED, asked, box, case, piece
from yardwright.domain.checks import Unknown, joints, run
from yardwright.domain.checks.fixings import glued_force, one_fastener
from yardwright.domain.checks.load_path import Path
from yardwright.domain.checks.supports import DOWN, footing
from yardwright.domain.checks.words import LBF_N
from yardwright.domain.finding import Finding, Level
from yardwright.domain.measure import Writer
from yardwright.domain.piece.build import build
from yardwright.domain.piece.model import Member, Piece
from yardwright.domain.site import Site

CHECK = asked("joints")


def bench(rails_on_legs: bool, screws: float = 2, fasten: str = "screws", glue: bool = False) -> Piece:
    """Three seat boards on two rails 40 x 90 that lie on four legs, or are screwed to their inner sides."""
    boards = [box(f"Seat {n}", (0, n * 140, 430), (1000, 139, 25)) for n in range(3)]
    rails, legs = [], []
    for n, x in enumerate((0.0, 920.0)):
        rail_x = x if rails_on_legs else x + 40 if n == 0 else x
        leg_x = x if rails_on_legs or n == 0 else x + 40
        rails.append(box(f"Rail {n}", (rail_x, 0, 340), (40, 419, 90), along="y", thick="x"))
        top = 340 if rails_on_legs else 430
        legs += [box(f"Leg {n}{m}", (leg_x, y, 0), (40, 90, top), along="z", thick="x")
                 for m, y in enumerate((0.0, 329.0))]
    made = piece([*boards, *rails, *legs], [asked("seat load", [b.key for b in boards])],
                 screwed=[("Rail", "Leg"), ("Seat", "Rail")])
    rules = tuple(replace(j, fasteners=round(screws * len(j.contacts)),
                          rule=replace(j.rule, fasten=fasten, glue=glue)) for j in made.joints)
    return replace(made, joints=rules)


def told(made: Piece) -> list[Finding]:
    return list(joints.check(CHECK, case(made)))


def test_rails_that_lie_on_legs_ask_nothing_of_their_screws() -> None:
    assert [f for f in told(bench(True)) if f.level is not Level.OK] == []


def test_a_rail_hung_by_one_screw_a_leg_stops_and_by_many_it_holds() -> None:
    levels = {n: {f.level for f in told(bench(False, n))} for n in (1, 2, 9)}
    assert Level.STOP in levels[1]
    assert Level.STOP not in levels[2] and Level.CAUTION in levels[2]
    assert levels[9] == {Level.OK}


def test_the_mend_says_how_many_screws_and_they_do() -> None:
    worst = next(f for f in told(bench(False, 2)) if f.level is Level.CAUTION)
    wanted = int(worst.mend.split()[1])
    assert wanted > 2
    assert {f.level for f in told(bench(False, wanted + 1))} == {Level.OK}


def test_staples_carry_nothing() -> None:
    assert Level.STOP in {f.level for f in told(bench(False, 20, "staples"))}


def test_glue_on_side_grain_carries_and_end_grain_glue_does_not() -> None:
    glued = case(bench(False, 0, glue=True))
    rail, touch = glued.member("Rail 0"), next(
        t for t in glued.touches["Rail 0"] if t.other.startswith("Leg"))
    assert glued_force(glued, rail, touch) > 1000
    end = replace(rail, frame=replace(rail.frame, along=rail.frame.thick, thick=rail.frame.along))
    assert glued_force(glued, end, touch) == 0.0


def test_the_whole_load_arrives() -> None:
    made = case(bench(False))
    boards = frozenset(f"Seat {n}" for n in range(3))
    path = Path(made, footing(made, boards))
    for at in (20.0, 333.0, 980.0):
        taken = path.demands([("Seat 1", at, 500.0)])
        legs = sum(force for (_, other, _), force in taken.items() if other.startswith("Leg"))
        assert legs == pytest.approx(500.0, abs=3.0)


def test_loads_that_stand_together_add_up() -> None:
    made = case(bench(False))
    path = Path(made, footing(made, frozenset({"Seat 0", "Seat 1", "Seat 2"})))
    one, other = path.demands([("Seat 0", 100.0, 200.0)]), path.demands([("Seat 2", 900.0, 300.0)])
    both = path.demands([("Seat 0", 100.0, 200.0), ("Seat 2", 900.0, 300.0)])
    assert both == pytest.approx({k: one.get(k, 0.0) + other.get(k, 0.0) for k in {*one, *other}})


@pytest.mark.parametrize(("screws", "level"), [(1, Level.STOP), (9, Level.OK)])
def test_short_posts_that_stand_on_a_hung_rail_load_its_joints(screws: int, level: Level) -> None:
    seat = box("Seat", (0, 0, 430), (1000, 90, 38))
    posts = [box(f"Post {n}", (x, 0, 300), (40, 90, 130), along="z", thick="x")
             for n, x in enumerate((200, 760))]
    rail = box("Rail", (40, 0, 200), (920, 40, 100), thick="y")
    legs = [box(f"Leg {n}", (x, 40, 0), (90, 40, 300), along="z", thick="y") for n, x in enumerate((40, 870))]
    made = piece([seat, *posts, rail, *legs], [asked("seat load", ["Seat"])], screwed=[("Rail", "Leg")])
    few = tuple(replace(j, fasteners=screws * len(j.contacts)) for j in made.joints)
    found = told(replace(made, joints=few))
    assert {f.level for f in found if "Rail" in f.title or f.level is Level.OK} == {level}


def hung(end_grain: bool) -> tuple[Member, Piece]:
    """A strip pulled off the underside of a beam, or off the end of a post, by two screws."""
    low = box("Strip", (0, 0, 0), (200, 90, 19))
    above = (box("Post", (0, 0, 19), (90, 90, 400), along="z", thick="y") if end_grain
             else box("Beam", (0, 0, 19), (200, 90, 90)))
    return low, piece([low, above], screwed=[("Strip", above.name)])


@pytest.mark.parametrize("end_grain", [True, False])
def test_nothing_is_hung_from_end_grain(end_grain: bool) -> None:
    strip, made = hung(end_grain)
    found = one_fastener(case(made), strip, case(made).touches["Strip"][0], DOWN)
    assert (found.allowed_n == 0.0) is end_grain


def test_a_shallow_screw_counts_less() -> None:
    """3/4 in cedar on 1 in: 0.875 in deep is 0.89 of six diameters; 1 1/2 in takes a longer one."""
    def sideways(thick: float) -> float:
        board = box("Board", (0, 0, 0), (500, 19.05, 90), thick="y")
        leg = box("Leg", (0, 19.05, 0), (90, thick, 90), along="z", thick="y")
        made = case(piece([board, leg], screwed=[("Board", "Leg")]))
        return one_fastener(made, board, made.touches["Board"][0], DOWN).allowed_n / LBF_N

    assert 20 < sideways(25.4) < sideways(38.1) < 50


def test_a_timber_without_gravity_is_unknown() -> None:
    board = box("Board", (0, 0, 0), (500, 19, 90), thick="y", kind=UNNAMED)
    leg = box("Leg", (0, 19, 0), (90, 40, 90), along="z", thick="y")
    made = case(piece([board, leg], screwed=[("Board", "Leg")]))
    with pytest.raises(Unknown):
        one_fastener(made, board, made.touches["Board"][0], DOWN)


@pytest.mark.parametrize(("name", "weakened"), [
    ("storage-bench", "Front panel board, top"), ("planter-box", "Long side board")])
def test_a_screw_for_every_three_is_noticed(name: str, weakened: str) -> None:
    """A screw at each place of a joint that had several, or none of its glue."""
    shop = demo_shop()
    made = build(shop.templates[name], {}, {}, shop, "in")
    few = tuple(replace(j, fasteners=len(j.contacts), each=()) if weakened in (*j.rule.of, *j.rule.to) else j
                for j in made.joints)
    found = run(replace(made, joints=few), None, Site(), shop, Writer("in"), "joints")
    assert {f.level for f in found} & {Level.CAUTION, Level.STOP}
    whole = run(made, None, Site(), shop, Writer("in"), "joints")
    assert {f.level for f in whole} == {Level.OK}


@pytest.mark.parametrize("name", ["storage-bench", "planter-box"])
def test_joints_hold_over_the_range_in_every_timber_sold(name: str) -> None:
    """Never a stop; the smallest, with nothing but a lining between its posts, among them."""
    shop = demo_shop()
    template = shop.templates[name]
    sold = {b.timber for b in shop.market.boards if b.section.id == "5/4x6"}
    for timber in (t for t in template.timbers if t in sold):
        for most in (False, True):
            size = {d.name: d.most_nm if most else d.least_nm for d in template.dimensions}
            made = build(template, size, {"timber": timber}, shop, "in")
            found = run(made, None, Site(), shop, Writer("in"), "joints")
            assert [(timber, f.title) for f in found if f.level is not Level.OK] == []


def test_a_rail_on_lag_screws_holds_more_than_on_screws() -> None:
    """2x6 on the 3 1/2 in of a 4x4: lag screws of 3/8 in in southern pine against No. 10 screws."""
    rail = box("Rail", (0, 0, 300), (1000, 38.1, 140), thick="y", kind=PINE)
    leg = box("Leg", (0, 38.1, 0), (90, 89, 440), along="z", thick="y", kind=PINE)
    plain = piece([rail, leg], screwed=[("Rail", "Leg")])
    held = {}
    for fasten in ("screws", "lags"):
        made = case(replace(plain, joints=tuple(replace(j, rule=replace(j.rule, fasten=fasten))
                                                for j in plain.joints)))
        held[fasten] = [one_fastener(made, rail, made.touches["Rail"][0], way)
                        for way in (DOWN, (0.0, -1.0, 0.0))]
    assert "in lag screw sideways, 1 1/2 in held, 2 in in" in held["lags"][0].working
    assert held["lags"][0].allowed_n > 1.05 * held["screws"][0].allowed_n
    assert held["lags"][1].allowed_n > 1.2 * held["screws"][1].allowed_n


def test_a_lag_screw_in_end_grain_holds_three_quarters_unless_its_washer_gives_first() -> None:
    low, made = hung(True)
    lags = replace(made, joints=tuple(replace(j, rule=replace(j.rule, fasten="lags")) for j in made.joints))
    end = one_fastener(case(lags), low, case(lags).touches["Strip"][0], DOWN)
    assert end.allowed_n > 0 and "lag screw pulled in end grain" in end.working
