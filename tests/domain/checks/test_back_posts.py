"""Posts that a back hangs on, as cantilevers above what ties them; worked by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import asked, box, case, piece
from yardwright.domain.checks import back_load, back_posts
from yardwright.domain.checks.strength import strength
from yardwright.domain.finding import Finding, Level
from yardwright.domain.piece.model import Piece, Vector

BACK: Vector = (0.0, 1.0, 0.0)
FORCE = 0.75 * 100 * 4.4482216           # three quarters of 100 lbf


def bench(deep: float = 90.0, screws: int = 8, ties: tuple[float, ...] = (300.0, 60.0),
          heel: bool = False) -> Piece:
    """Boards on two posts; beside each post runs a bearer at the seat and a foot rail, both back to front."""
    boards = [box(f"Slat {n}", (0, 100, 460 + 120 * n), (1000, 20, 100), thick="y") for n in range(3)]
    posts = [box(f"Post {n}", (x, 120, 0), (40, deep, 820), along="z", thick="x")
             for n, x in enumerate((0, 960))]
    across = [box(f"Tie {n}{i}", (x, -300, z), (40, 420 + deep, 90), along="y", thick="x")
              for n, x in enumerate((40, 920)) for i, z in enumerate(ties)]
    made = [*boards, *posts, *across]
    if heel:
        made += [box(f"Sill {n}", (x, -300, 20), (40, 420, 40), along="y", thick="x")
                 for n, x in enumerate((0, 960))]
    found = piece(made, [asked("back load", [b.key for b in boards])],
                  screwed=[("Slat", "Post"), ("Tie", "Post")])
    return replace(found, joints=tuple(replace(j, fasteners=screws * len(j.contacts)) if "Tie" in j.rule.name
                                       else j for j in found.joints))


def posts(made: Piece) -> list[Finding]:
    looked = case(made)
    boards = [m for m in made.members if m.name == "Slat"]
    return list(back_posts.posts_stand(looked, "back load", boards, BACK))


def post(made: Piece) -> back_posts._Post:
    looked = case(made)
    return next(back_posts._posts(looked, [m for m in made.members if m.name == "Slat"], BACK))


def test_the_load_stands_in_the_top_foot_and_bends_the_post_about_its_highest_tie() -> None:
    """Top 800, load at 647.6; tie up to 390: M = 333.6·257.6 = 85.9 N·m; S = 40·90²/6 = 54 000 mm³."""
    found = post(bench())
    assert found.lever_mm == pytest.approx(647.6 - 390, abs=0.1)
    assert found.bending == pytest.approx(FORCE * 257.6 / 54_000, rel=1e-3)


def test_the_worst_screw_takes_push_and_couple() -> None:
    """16 screws at 345 and 105, each group 90 long (reach 31.5): middle 225; I = 16·(120² + 31.5²) = 246 276;
    F/16 + F·(647.6 - 225)·151.5/I = 20.9 + 86.7 N."""
    found = post(bench())
    assert found.on_fixing_n == pytest.approx(FORCE / 16 + FORCE * 422.6 * 151.5 / 246_276, rel=1e-3)


def test_a_post_that_bears_on_a_backed_heel_turns_about_it() -> None:
    """About the sill's middle at 40: I = 8·(305² + 31.5²) + 8·(65² + 31.5²); a top screw F·607.6·336.5/I."""
    found = post(bench(heel=True))
    inertia = 8 * (305**2 + 31.5**2) + 8 * (65**2 + 31.5**2)
    assert found.on_fixing_n == pytest.approx(FORCE * 607.6 * 336.5 / inertia, rel=1e-3)


def test_a_stout_post_well_fixed_holds() -> None:
    assert posts(bench()) == []


def test_a_thin_post_breaks_and_one_on_two_screws_turns() -> None:
    thin = posts(bench(deep=28.0))
    assert [f.level for f in thin if "too weak for" in f.title] == [Level.STOP]
    loose = posts(bench(screws=2, ties=(60.0,)))
    assert [f.level for f in loose if "too weakly fixed" in f.title] == [Level.STOP]


def test_the_mend_of_a_weak_post_holds() -> None:
    """Tied as much higher as the mend says, the wood is just used up."""
    made = bench(deep=28.0)
    found, looked = post(made), case(made)
    allowed = strength(looked, found.post, False, False, "people").bending
    higher = found.lever_mm * (1 - allowed / found.bending)
    assert FORCE * (found.lever_mm - higher) / (40 * 28**2 / 6) == pytest.approx(allowed, rel=1e-6)


def test_a_rail_tied_by_an_arm_loads_no_post_and_upright_slats_are_no_posts() -> None:
    rail = box("Rail", (0, 120, 700), (1000, 40, 60), thick="y")
    slats = [box(f"Slat {n}", (200 * n, 100, 400), (90, 20, 400), along="z", thick="y") for n in range(5)]
    legs = [box(f"Leg {n}", (x, 160, 0), (40, 40, 760), along="z", thick="x") for n, x in enumerate((0, 960))]
    arms = [box(f"Arm {n}", (x, -300, 760), (90, 500, 30), along="y") for n, x in enumerate((0, 910))]
    sides = [box(f"Side {n}", (x, -300, 200), (20, 500, 90), along="y", thick="x")
             for n, x in enumerate((40, 940))]
    made = piece([rail, *slats, *legs, *arms, *sides], [asked("back load", [s.key for s in slats])],
                 screwed=[("Slat", "Rail"), ("Rail", "Leg"), ("Side", "Leg"), ("Arm", "Rail")])
    if made.contacts:
        assert posts(made) == []
    free = piece([rail, *slats, *legs, *sides], [asked("back load", [s.key for s in slats])],
                 screwed=[("Slat", "Rail"), ("Rail", "Leg"), ("Side", "Leg")])
    assert {f.title.split(":")[0] for f in posts(free)} == {"Leg"}


def test_back_load_tells_of_its_posts() -> None:
    made = bench(deep=28.0)
    found = back_load.check(made.checks[0], case(made))
    assert any(f.title.startswith("Post: too weak") for f in found)
