"""Boards that are cut away: judged by what is left of them, worked by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import CEDAR, asked, box, case, piece
from yardwright.domain.checks import notches, seat_load
from yardwright.domain.checks.strength import strength
from yardwright.domain.finding import Finding, Level
from yardwright.domain.piece.model import Member, Piece, Vector
from yardwright.domain.piece.solid import blank, cut_off, prism, taken_out

DOWN: Vector = (0.0, 0.0, -1.0)


def solid(member: Member) -> Member:
    """The member with a solid of its own, a whole blank."""
    f, size = member.frame, (member.length_mm, member.width_mm, member.thickness_mm)
    corners = [f.to_world(u * size[0], v * size[1], w * size[2]) for w in (0, 1) for v in (0, 1)
               for u in (0, 1)]
    if _turns(f.along, f.wide, f.thick) < 0:
        corners = [corners[i ^ 4] for i in range(8)]
    return replace(member, solid=blank(corners))


def _turns(a: Vector, b: Vector, c: Vector) -> float:
    return (a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0])
            + a[2] * (b[0] * c[1] - b[1] * c[0]))


def out_of(member: Member, low: Vector, size: Vector) -> Member:
    """The member less an upright box."""
    x, y, z = size
    body = prism([(0.0, 0.0), (x, 0.0), (x, y), (0.0, y)], z, low, (1.0, 0.0, 0.0), (0.0, 1.0, 0.0),
                 (0.0, 0.0, 1.0))
    cut = taken_out(member.solid, body)
    return replace(member, solid=cut, volume_mm3=cut.volume_mm3)


RAIL = solid(box("Rail", (0, 0, 300), (1000, 38, 140), along="x", thick="y"))


def bench(deep: float, at: str = "ends", under: bool = True) -> Piece:
    """A seat board along a rail on two posts; the rail notched ``deep`` over its posts or in its middle."""
    z = 300.0 if under else 440.0 - deep
    rail = RAIL
    for x in ((-1.0, 939.0) if at == "ends" else (470.0,)):
        if deep:
            rail = out_of(rail, (x, -1.0, z), (62.0, 40.0, deep))
    posts = [solid(box(f"Post {n}", (x, 0, 0), (38, 38, 300), along="z", thick="y"))
             for n, x in enumerate((0.0, 962.0))]
    other = solid(box("Bearer", (0, 250, 300), (1000, 38, 140), along="x", thick="y"))
    posts += [solid(box(f"Post {n}", (x, 250, 0), (38, 38, 300), along="z", thick="y"))
              for n, x in ((2, 0.0), (3, 962.0))]
    seats = [solid(box(f"Seat {n}", (x, 0, 440), (140, 288, 38), along="y"))
             for n, x in enumerate((0, 150, 300, 450, 600, 750, 860))]
    return piece([rail, other, *posts, *seats], [asked("seat load", [s.key for s in seats])],
                 screwed=[("Seat", "Rail")])


def rail_used(made: Piece, supports: tuple[float, ...] = (19.0, 981.0)) -> tuple[float, str]:
    from yardwright.domain.checks.verdict import Loading, sag_limit
    looked = case(made)
    verdict = notches.judge_cut(looked, looked.member("Rail"), supports, DOWN,
                                [Loading("a sitter", "", 1112.0, 140.0)], sag_limit(looked))
    return verdict.used, verdict.cut


def test_a_whole_rail_is_judged_as_before() -> None:
    assert rail_used(bench(0.0))[1] == ""


def test_a_notch_over_its_post_splits_a_rail_long_before_it_bends() -> None:
    """d 140, d_n 80: 2/3·F_v·38·80·(80/140)² = 662·F_v; V 1112·(1 - (140 + 70)/962) = 869 N."""
    looked = case(bench(60.0))
    shear = strength(looked, looked.member("Rail"), False, False, "people").shear
    used, cut = rail_used(bench(60.0))
    assert "notched at a support to 3 1/8 in of 5 1/2 in" in cut
    assert used == pytest.approx(869 / (2 / 3 * shear * 38 * 80 * (80 / 140) ** 2), rel=0.01)


def test_the_same_notch_on_top_costs_less() -> None:
    assert rail_used(bench(60.0, under=False))[0] < 0.7 * rail_used(bench(60.0))[0]


def test_a_notch_in_the_middle_bends_at_what_is_left() -> None:
    """S = 38·70²/6 = 31 033 mm³; the moment in the middle 1112·(962/4 - 140/8) = 248 N·m: 7.99 N/mm²."""
    looked = case(bench(70.0, "middle"))
    bending = strength(looked, looked.member("Rail"), False, False, "people").bending
    used, cut = rail_used(bench(70.0, "middle"))
    assert used == pytest.approx(1112 * (962 / 4 - 140 / 8) / (38 * 70**2 / 6) / bending, rel=0.01)
    assert cut.startswith("cut to 2 3/4 in deep")


def seat(made: Piece) -> list[Finding]:
    return [f for f in seat_load.check(made.checks[0], case(made)) if f.level is Level.STOP]


def test_the_seat_load_stops_a_deeply_notched_rail_and_says_to_cut_less() -> None:
    assert seat(bench(0.0)) == []
    found = seat(bench(80.0))
    assert [f.title for f in found] == ["Rail: too weak for its load"] and "Cut less away" in found[0].mend


def test_a_bevelled_end_is_no_notch() -> None:
    made = bench(0.0)
    rail = made.members[0]
    cut = cut_off(rail.solid, (1000.0, 0.0, 440.0), (0.9, 0.0, -0.43))
    slanted = replace(rail, solid=cut, volume_mm3=cut.volume_mm3)
    assert notches.whole_ends(slanted)[1] < 960
    assert rail_used(replace(made, members=(slanted, *made.members[1:])), (19.0, 900.0))[1] == ""


def test_a_taper_is_judged_where_it_is_thinnest_under_load() -> None:
    """A cantilever post tapering from 140 to 40 is weakest where M/S is greatest, not where M is."""
    post = solid(box("Post", (0, 0, 0), (38, 140, 1000), along="z", thick="x", kind=CEDAR))
    cut = cut_off(post.solid, (0.0, 140.0, 0.0), (0.0, 1.0, 0.1))
    tapered = replace(post, solid=cut, volume_mm3=cut.volume_mm3)
    left = notches.what_is_left(tapered, (0.0, 1.0, 0.0), (0.0, 300.0))
    assert left[-1].deep_mm == pytest.approx(40, abs=1)
    assert left[-1].modulus_mm3 == pytest.approx(38 * 40**2 / 6, rel=0.03)
