"""L-shaped pieces in corners: both parts against both walls, and what must hold for every corner."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import fit_cases
from yardwright.domain.errors import BadFormula
from yardwright.domain.finding import Level
from yardwright.domain.fit import Clearance, Fit, envelope, fit
from yardwright.domain.measure import INCH, MM
from yardwright.domain.site import Corner, Measured, Obstruction, Site, Wall

SHOP = fit_cases.shop()          # 1/4 in allowance, 1 in of air, class II tape, 1/16 in marks
BENCH = fit_cases.template(fit_cases.VECTORS["templates"]["corner"])
OTHER = {"left": "right", "right": "left", "none": "none", "back": "back"}
SIZES = {"length": 1800 * MM, "wing": 1500 * MM, "seat": 500 * MM, "height": 850 * MM}
OFF = 300_000 + 400_000 + INCH // 32        # what a reading between 1 and 2 m may be off


def nook(at: str = "left", run_mm: int = 2400, out_mm: int = 1900, depth_mm: int = 3000, angle: float = 90.0,
         *things: Obstruction, **more: Any) -> Site:
    walls = (Wall("back", (Measured(run_mm * MM),)),
             Wall(at, (Measured(out_mm * MM),), obstructions=things, **more))
    return Site("corner", walls, (Corner(at, angle),), (Measured(depth_mm * MM),))


def answer(site: Site, side: str = "left", lid: str = "none", **sizes: int) -> Fit:
    return fit(BENCH, SIZES | sizes, {"side": side, "lid": lid}, site, SHOP, "mm")


def clearance(found: Fit, side: str) -> Clearance:
    return next(c for c in found.clearances if c.side == side)


def titles(found: Fit, level: Level) -> list[str]:
    return [f.title for f in found.findings if f.level is level]


def pipe(start_mm: int, end_mm: int, out_mm: int, kind: str = "other", bottom_mm: int = 0) -> Obstruction:
    return Obstruction(kind, start_mm * MM, end_mm * MM, out_mm * MM, bottom_mm * MM)


def test_the_wing_is_held_against_the_run_of_its_own_wall() -> None:
    wing = clearance(answer(nook(out_mm=1900)), "wing")
    slant = math.hypot(1, math.tan(math.radians(0.25)))      # half a mark of the angle finder
    assert wing.clearance_nm == pytest.approx((1900 * MM - OFF) / slant - INCH - 1500 * MM, abs=2000)
    assert wing.binding == "left wall, 1900 mm"
    assert not answer(nook(out_mm=1520)).fits, "1500 mm and 25.4 mm of air behind do not go on 1520 mm"


def test_the_way_past_the_wings_end_is_a_caution_until_there_is_none() -> None:
    narrow = answer(nook(depth_mm=2300))
    assert clearance(narrow, "wing").needed_nm == 36 * INCH
    assert titles(narrow, Level.CAUTION) == ["Little room to walk past its wing"]
    assert "Its wing is too long for the space" in titles(answer(nook(depth_mm=1500)), Level.STOP)


def test_the_wings_back_keeps_air_from_its_wall_as_the_other_back_does() -> None:
    found, plain = answer(nook()), answer(nook(), side="none")
    assert clearance(found, "along").needed_nm == INCH
    assert clearance(plain, "along").needed_nm == INCH // 4
    assert clearance(answer(nook(), lid="lid"), "along").needed_nm == 40 * MM, "what opens behind comes first"


def test_a_corner_closing_in_takes_its_tangent_over_the_whole_wing() -> None:
    found = answer(nook(angle=86.0))
    taken = (1500 * MM + INCH) * math.tan(math.radians(4.25))
    assert found.positions[0][0] == pytest.approx(taken + INCH, abs=2000)
    less = (500 * MM + INCH) * math.tan(math.radians(4.25))
    without = answer(nook(angle=86.0), side="none")
    assert without.positions[0][0] == pytest.approx(less + INCH // 4, abs=2000)


@pytest.mark.parametrize(("angle", "level", "where"), [
    (86.0, Level.CAUTION, "its back"), (94.0, Level.CAUTION, "the end of its wing"),
    (89.7, Level.NOTE, "its back"), (90.1, None, "")])
def test_the_wedge_a_corner_leaves_along_the_wing_is_told_by_how_wide_it_is(
        angle: float, level: Level | None, where: str) -> None:
    found = [f for f in answer(nook(angle=angle)).findings if f.title == "The left corner is off square"]
    assert [f.level for f in found] == ([level] if level else [])
    if level is not None:
        middle = (math.tan(math.radians(90.25 - angle)) + math.tan(math.radians(89.75 - angle))) / 2
        assert found[0].measured == f"{round(abs(middle) * 1500)} mm"
        assert f"at {where} than" in found[0].detail


def test_a_leaning_wall_takes_from_the_wing_up_to_its_open_lid() -> None:
    leaning = nook(out_of_plumb_nm=20 * MM, plumb_over_nm=1000 * MM)
    straight, shut, opened = (answer(site, lid=lid).positions[0][0] for site, lid in (
        (nook(), "none"), (leaning, "none"), (leaning, "lid")))
    assert shut - straight == 17 * MM, "20 mm in 1 m over 850 mm"
    lid = 22 * MM + 40 * MM - INCH       # over 1100 mm, and 40 mm behind in place of the air
    assert opened - straight == pytest.approx(lid, abs=0.1 * MM)


def test_a_run_that_shortens_further_out_binds_the_wing_that_reaches_there() -> None:
    site = nook()
    back = replace(site.walls[0], readings=(Measured(2400 * MM), Measured(1700 * MM, at_depth_nm=1000 * MM)))
    short = replace(site, walls=(back, site.walls[1]))
    assert answer(short, side="none").fits and not answer(short).fits
    assert clearance(answer(short), "along").binding.startswith("back wall, 1700 mm at 1000 mm out")


def test_a_thing_on_the_side_wall_moves_the_wing_only_where_the_wing_reaches() -> None:
    clear = answer(nook()).positions[0][0]
    behind = answer(nook("left", 2400, 1900, 3000, 90.0, pipe(1300, 1400, 100)))
    assert behind.positions[0][0] > clear
    beyond = answer(nook("left", 2400, 1900, 3000, 90.0, pipe(1600, 1700, 100)))
    assert beyond.positions[0][0] == clear
    above = answer(nook("left", 2400, 1900, 3000, 90.0, pipe(1300, 1400, 100, bottom_mm=900)))
    assert above.positions[0][0] == clear
    alone = answer(nook("left", 2400, 1900, 3000, 90.0, pipe(1300, 1400, 100)), side="none")
    assert alone.positions[0][0] < clear


def test_a_thing_that_keeps_the_wing_far_from_its_corner_is_told() -> None:
    far = answer(nook("left", 2800, 1900, 3000, 90.0, pipe(900, 1400, 400)))
    assert far.fits and "It cannot stand in its corner" in titles(far, Level.CAUTION)


def test_a_box_on_the_far_wall_meets_the_wing_where_the_seat_passes_before_it() -> None:
    site = nook(run_mm=2400)
    reaching = 1700
    far = Wall("right", (), obstructions=(pipe(900, 1300, reaching),))
    both = replace(site, kind="between walls", walls=(*site.walls, far))
    found = answer(both)
    right = 2400 * MM - (700_000 + 200_000 + INCH // 32)     # 2.4 m is read to 0.9 mm and half a mark
    room = SHOP.keep_clear["other"].front_nm
    assert found.positions[-1][1] == right - reaching * MM - OFF - room - 500 * MM
    assert answer(both, side="none").positions[-1][1] == right - INCH // 4 - 1800 * MM, "the seat passes it"


def test_a_wing_at_the_end_without_a_wall_is_told_with_the_hand_to_choose() -> None:
    wrong = [f for f in answer(nook("left"), side="right").findings if f.level is Level.CAUTION]
    assert [f.mend for f in wrong] == ["Choose the piece with its wing at the left."]


def test_a_side_wall_nobody_measured_is_not_called_long_enough() -> None:
    site = nook()
    bare = replace(site, walls=(site.walls[0], Wall("left", ())))
    assert "Length of the left wall: not checked" in titles(answer(bare), Level.NOT_CHECKED)


def test_a_wing_no_longer_than_the_seat_is_deep_is_none_and_a_wrong_word_is_refused() -> None:
    short = envelope(BENCH, SIZES | {"wing": 500 * MM}, {"side": "left", "lid": "none"})
    assert (short.wing, short.whole_depth_nm) == ("none", 500 * MM)
    long = envelope(BENCH, SIZES, {"side": "right", "lid": "none"})
    assert (long.wing, long.whole_depth_nm, long.wing_stretch) == ("right", 1500 * MM, (1300 * MM, 1800 * MM))
    with pytest.raises(BadFormula, match="left, right, none"):
        envelope(BENCH, SIZES, {"side": "middle", "lid": "none"})


mm = st.integers
things = st.lists(st.builds(
    lambda kind, a, wide, out, low: Obstruction(kind, a * MM, (a + wide) * MM, out * MM, low * MM),
    st.sampled_from(("gas meter", "tap", "downpipe", "sill", "window", "other", "door")), mm(0, 2500),
    mm(10, 600), mm(0, 500), mm(0, 1200)), max_size=2).map(tuple)
side_walls = st.builds(lambda runs, lean, what: ("", tuple(Measured(r * MM) for r in runs), lean * MM,
                                                 1000 * MM, what),
                       st.lists(mm(1000, 3200), max_size=1), mm(-15, 15), things)
wanted = st.fixed_dictionaries({"length": mm(100, 260).map(lambda n: n * 10 * MM),
                                "wing": mm(60, 260).map(lambda n: n * 10 * MM),
                                "seat": st.just(500 * MM), "height": mm(40, 95).map(lambda n: n * 10 * MM)})


@st.composite
def places(draw: Any) -> Site:
    ends = [Wall(side, *draw(side_walls)[1:]) for side in ("left", "right") if draw(st.booleans())]
    corners = tuple(Corner(wall.side, draw(st.floats(82, 98))) for wall in ends if draw(st.booleans()))
    kind = draw(st.sampled_from(("corner", "between walls", "against a wall")))
    if kind == "corner" and not ends:
        kind = "between walls"
    back = Wall("back", (Measured(draw(mm(1000, 4000)) * MM),), draw(mm(-15, 15)) * MM, 1000 * MM)
    return Site(kind, (back, *ends), corners, (Measured(draw(mm(1500, 4000)) * MM),))


def mirrored(site: Site) -> Site:
    return replace(site, walls=tuple(replace(w, side=OTHER[w.side]) for w in site.walls),
                   corners=tuple(replace(c, at=OTHER[c.at]) for c in site.corners))


def plain(found: Fit, turned: bool) -> tuple[Any, ...]:
    spans = reversed(found.positions) if turned else found.positions
    words = sorted((str(f.level), f.title) for f in found.findings)
    if turned:
        words = sorted((level, " ".join(OTHER.get(w, w) for w in title.split())) for level, title in words)
    return (found.fits, [(c.side, c.clearance_nm, c.needed_nm) for c in found.clearances], found.largest_nm,
            found.best_nm, [b - a for a, b in spans], words)


@settings(max_examples=25, deadline=None)
@given(places(), wanted, st.sampled_from(("left", "right", "none")), st.sampled_from(("none", "lid")))
def test_a_mirrored_place_gives_the_mirrored_answer_to_the_mirrored_piece(
        site: Site, sizes: dict[str, int], side: str, lid: str) -> None:
    one = answer(site, side, lid, **sizes)
    assert plain(one, False) == plain(answer(mirrored(site), OTHER[side], lid, **sizes), True)


@settings(max_examples=25, deadline=None)
@given(places(), wanted, st.sampled_from(("left", "right")))
def test_where_an_l_fits_its_part_along_the_wall_would_fit_alone(
        site: Site, sizes: dict[str, int], side: str) -> None:
    if answer(site, side, **sizes).fits:
        assert answer(site, "none", **sizes).fits


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_corner_that_nothing_says_the_end_of_is_where_the_wing_is(side: str) -> None:
    vague = Site("corner", (Wall("back", (Measured(2400 * MM),)),), (), (Measured(3000 * MM),))
    found = answer(vague, side)
    assert titles(found, Level.CAUTION) == [] and found.fits
    assert f"The {side} corner: not checked" in titles(found, Level.NOT_CHECKED)


def test_a_wall_that_leans_away_leaves_its_wedge_at_the_top() -> None:
    away, plumb = (answer(nook(out_of_plumb_nm=20 * MM * n, plumb_over_nm=1000 * MM, leans="away"))
                   for n in (1, 0))
    less = clearance(plumb, "along").clearance_nm - clearance(away, "along").clearance_nm
    assert less == 17 * MM, "the reading may have been taken at the top: 850 mm up 20 mm in 1 m"
    (wedge,) = [f for f in away.findings if f.title == "The left wall is out of plumb"]
    assert "17 mm further off the left wall at its top" in wedge.detail
