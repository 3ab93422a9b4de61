"""Posts, boards and feet of a screen in the wind: worked by hand, and what is not known is said."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import INCH, PINE, asked, box, case, piece
from yardwright.domain.checks import wind_frame
from yardwright.domain.checks.wind_posts import bent, pulled
from yardwright.domain.checks.words import LBF_N
from yardwright.domain.finding import Finding, Level
from yardwright.domain.piece.model import Piece
from yardwright.domain.site import Site

COAST = 0.613 * 37**2 * 1.5 * 1e-6                   # N/mm²


def screen(high: float = 72.0, deep: float = 3.5, feet: bool = True, fasteners: float = 4.0,
           slats: int = 10, rail_at: float | None = None, in_ground: float = 0.0) -> Piece:
    """60 in wide: two posts 1 1/2 in thick, slats on their back, a foot 16 in long beside each post."""
    low = -in_ground * INCH
    posts = [box(f"Post {n}", (x * INCH, (8 - deep) * INCH, low),
                 (1.5 * INCH, deep * INCH, high * INCH - low), along="z", thick="x", kind=PINE, grade="No.2")
             for n, x in enumerate((0.0, 58.5))]
    pitch = (high - 4) / slats
    boards = [box(f"Slat {n}", (0, 8 * INCH, (4 + n * pitch) * INCH), (60 * INCH, 19, (pitch - 0.5) * INCH),
                  thick="y", kind=PINE) for n in range(slats)]
    beside = [box(f"Foot {n}", (x * INCH, 0, 0), (1.5 * INCH, 16 * INCH, 3.5 * INCH), along="y", thick="x",
                  kind=PINE, grade="No.2") for n, x in enumerate((1.5, 57.0))] if feet else []
    across = [box(f"Rail {n}", (x * INCH, -20 * INCH, rail_at * INCH), (1.5 * INCH, 28 * INCH, 3.5 * INCH),
                  along="y", thick="x", kind=PINE) for n, x in enumerate((1.5, 57.0))] if rail_at else []
    made = piece([*posts, *boards, *beside, *across],
                 screwed=[("Slat", "Post"), *([("Foot", "Post")] if feet else []),
                          *([("Rail", "Post")] if rail_at else [])])
    joints = tuple(replace(j, fasteners=int(fasteners) * len(j.contacts)) if "Foot" in j.rule.name else j
                   for j in made.joints)
    stands = "posts in the ground" if in_ground else "on the ground"
    return replace(made, joints=joints, template=replace(made.template, stands=stands))


def blown(made: Piece, exposure: str = "coast") -> dict[str, Finding]:
    found = wind_frame.check(asked("wind on its frame"), case(made, Site(exposure=exposure)))
    return {f.title: f for f in found}


def test_a_post_on_a_foot_is_a_cantilever_by_hand() -> None:
    """789 lbf on 60 x 72 in, half on a post at 36 in: 14 200 in·lbf; S 1.5·3.5²/6 = 3.06 in³: 4637 psi."""
    force = COAST * 60 * 72 * INCH**2 / LBF_N
    assert force == pytest.approx(789, abs=0.5)
    found = blown(screen())["Post: too weak for the wind"]
    assert found.level is Level.STOP
    assert found.measured == f"bending {force / 2 * 36 / 3.0625:.0f} psi"
    assert abs(float(found.measured.split()[1]) - 4637) < 2
    assert found.limit == "bending 1760 psi"         # No.2 2x4 1100 x C_D 1.6, NDS 4B and 2.3.2 (memory)
    assert "Foot 409%" not in found.detail and "the bending of Foot 263%" in found.detail


def test_a_post_stays_weak_at_its_foot_however_deep_it_is() -> None:
    """Sections deep enough leave the four screws: a group 3 1/2 in long is no clamp."""
    found = blown(screen(deep=11.25))
    weak = next(f for title, f in found.items() if title.startswith("Post"))
    assert weak.level is Level.STOP and "its fixing" in weak.detail


def test_a_low_screen_in_shelter_bears_it() -> None:
    found = blown(screen(high=24.0, fasteners=40.0), "sheltered")
    assert found == {}                                       # too low for the wind check
    held = blown(screen(high=44.0, fasteners=60.0, deep=7.25), "sheltered")
    assert {f.level for f in held.values()} == {Level.OK}


def test_ties_at_two_heights_make_a_beam_of_the_post() -> None:
    """72 in at 5.48 lbf/in, tied at 0 and 57 3/4 in: w·g²/8 = 2283 in·lbf, over w·o²/2 = 556; the rail takes
    w·72·36/57.75 = 246 lbf. Three ties at 0, 30, 60: 1.25·w·(12 + 15)."""
    assert bent(5.48, 0.0, 72.0, [0.0, 57.75]) == pytest.approx(2284.6, abs=0.5)
    assert bent(5.48, 0.0, 72.0, [0.0, 30.0]) == pytest.approx(5.48 * 42**2 / 2)
    assert pulled(5.48, 0.0, 72.0, [0.0, 57.75]) == pytest.approx(246.0, abs=0.1)
    assert pulled(5.48, 0.0, 72.0, [0.0, 30.0, 60.0]) == pytest.approx(1.25 * 5.48 * 27)
    assert "Post: too weak for the wind" in blown(screen())
    assert not any(t.startswith("Post") for t in blown(screen(rail_at=56.0)))


def test_a_frame_tied_higher_up_is_kept_square_against_half_of_the_wind() -> None:
    """Rails that end in the air: 789 / 2 = 394 lbf at the top, against the turning of four small groups."""
    found = blown(screen(rail_at=56.0))["The wind racks its frame"]
    assert found.level is Level.STOP and found.measured == "394 lbf"
    assert "4 fastener groups" in found.detail and "0 braces" in found.detail
    assert "racks" not in " ".join(blown(screen()))          # a cantilever is judged at its foot


def test_a_screen_edge_on_meets_little_wind() -> None:
    """Posts 3 1/2 in and feet 3 1/2 x 16 in, of 16 x 72 in: its slats keep it square along."""
    found = blown(screen())["The wind does not rack its frame"]
    both = 2 * (3.5 * 72 + 16 * 3.5) * INCH**2
    assert found.level is Level.OK
    assert found.measured == f"{COAST * both / 2 / LBF_N:.0f} lbf"


def test_posts_that_nothing_ties_are_not_checked_by_name() -> None:
    found = blown(screen(feet=False))
    assert found["Parts in the wind: not checked"].level is Level.NOT_CHECKED
    assert "Post" in found["Parts in the wind: not checked"].detail
    assert not any(t.startswith("Post") for t in found)


def test_posts_in_the_ground_stand_as_cantilevers_from_its_face() -> None:
    found = blown(screen(feet=False, in_ground=24.0))
    assert found["Post: too weak for the wind"].measured == "bending 4636 psi"
    assert "stands in the ground" in found["Post: too weak for the wind"].detail
    assert "its fixing" not in found["Post: too weak for the wind"].detail


def test_slats_bend_between_the_posts() -> None:
    """6.3 in of slat in 26.3 lbf/ft²: w 1.15 lb/in over 58 1/2 in, M = w·L²/8 less 3/4 in past each post."""
    made = screen()
    slat = next(m for m in made.members if m.name == "Slat")
    only = replace(made, members=tuple(
        replace(m, thickness_mm=6.0, volume_mm3=m.volume_mm3 * 6 / 19) if m.name == "Slat" else m
        for m in made.members))
    found = blown(only)["Slat: too weak for the wind"]
    line = COAST * slat.width_mm
    moment = line * (58.5 * INCH) ** 2 / 8 - line * (0.75 * INCH) ** 2 / 2
    assert found.level is Level.STOP
    assert found.measured.startswith(f"bending {moment / (slat.width_mm * 36 / 6) * 145.0377:.0f} psi")
