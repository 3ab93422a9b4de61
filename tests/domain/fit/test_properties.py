"""What must hold for every space: mirrored alike, smaller fits where larger does, a worse tape no help."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

import fit_cases
import yards
from yardwright.domain.fit import Fit, fit
from yardwright.domain.measure import INCH, MM
from yardwright.domain.site import Corner, Measured, Obstruction, Site, Wall

SHOP = fit_cases.shop()
BENCH = fit_cases.template(fit_cases.VECTORS["templates"]["bench"])
KINDS = ("gas meter", "tap", "downpipe", "sill", "window", "other", "door")
MIRRORED = {"left": "right", "right": "left", "back": "back"}

lengths = st.integers(900, 3000).map(lambda mm: mm * MM)
sizes = st.builds(lambda a, b, c: {"length": a * INCH // 2, "depth": b * INCH // 2, "height": c * INCH // 2},
                  st.integers(48, 120), st.integers(28, 52), st.integers(32, 80))
places = st.none() | st.integers(0, 1500).map(lambda mm: mm * MM)
readings = st.lists(st.builds(Measured, lengths, places, places), min_size=1, max_size=4)
degrees = st.floats(80, 100)
corners = st.builds(lambda a, b: (Corner("left", a), Corner("right", b)), degrees, degrees)
leans = st.integers(-15, 15).map(lambda mm: mm * MM)


@st.composite
def sites(draw: Any, things: int = 0) -> Site:
    back = draw(readings)
    run = min(r.value_nm for r in back)
    found = []
    for _ in range(things):
        a, b = sorted((draw(st.integers(0, run)), draw(st.integers(0, run))))
        bottom = draw(st.integers(0, 1200)) * MM
        found.append(Obstruction(draw(st.sampled_from(KINDS)), a, b, draw(st.integers(0, 300)) * MM, bottom,
                                 bottom + draw(st.integers(10, 900)) * MM))
    walls = (Wall("back", tuple(back), draw(leans), 1000 * MM, tuple(found)),
             Wall("left", (), draw(leans), 1000 * MM), Wall("right", (), draw(leans), 1000 * MM))
    return Site("between walls", walls, draw(corners), (Measured(draw(lengths)),),
                draw(st.none() | lengths))


def answer(site: Site, dimensions: dict[str, int]) -> Fit:
    return fit(BENCH, dimensions, {}, site, SHOP, "mm")


def mirrored(site: Site) -> Site:
    """The same place seen in a mirror; things on the back wall are measured from its other end."""
    run = min(r.value_nm for r in site.walls[0].readings)
    walls = tuple(replace(w, side=MIRRORED[w.side], obstructions=tuple(
        replace(o, from_nm=run - o.to_nm, to_nm=run - o.from_nm) if w.side == "back" else o
        for o in w.obstructions)) for w in site.walls)
    return replace(site, walls=walls, corners=tuple(replace(c, at=MIRRORED[c.at]) for c in site.corners))


@settings(max_examples=40, deadline=None)
@given(sites(), sizes)
def test_a_mirrored_space_gives_the_mirrored_answer(site: Site, dimensions: dict[str, int]) -> None:
    one, other = answer(site, dimensions), answer(mirrored(site), dimensions)
    assert (one.fits, one.clearances, one.largest_nm, one.best_nm) == (
        other.fits, other.clearances, other.largest_nm, other.best_nm)
    assert [b - a for a, b in one.positions] == [b - a for a, b in reversed(other.positions)]


@settings(max_examples=40, deadline=None)
@given(st.integers(1000, 2600), st.integers(0, 2000), st.integers(10, 300), sizes)
def test_a_mirrored_thing_leaves_the_mirrored_places(
        run_mm: int, start_mm: int, wide_mm: int, dimensions: dict[str, int]) -> None:
    start, end = min(start_mm, run_mm - wide_mm) * MM, min(start_mm + wide_mm, run_mm) * MM
    wall = Wall("back", (Measured(run_mm * MM),), obstructions=(Obstruction("other", start, end, 400 * MM),))
    site = Site("between walls", (wall,), depths=(Measured(2000 * MM),))
    one, other = answer(site, dimensions), answer(mirrored(site), dimensions)
    right_end = run_mm * MM - dimensions["length"]
    turned = [(right_end - b, right_end - a) for a, b in reversed(other.positions)]
    off = 3 * one.uncertainty_nm                # the run and both ends of the thing, each taped from one end
    roomy = [p for p in one.positions if p[1] - p[0] > 2 * off]
    assert len(roomy) <= len(turned)
    for a, b in roomy:
        assert any(abs(a - c) <= off and abs(b - d) <= off for c, d in turned)


@settings(max_examples=40, deadline=None)
@given(sites(things=2), sizes)
def test_what_is_largest_and_best_does_fit(site: Site, dimensions: dict[str, int]) -> None:
    found = answer(site, dimensions)
    for name, nm in found.largest_nm.items():
        if nm:
            assert answer(site, {**dimensions, name: nm}).fits
            assert nm >= dimensions[name] or not found.fits
    if found.best_nm is not None:
        assert answer(site, dict(found.best_nm)).fits
        assert all(found.best_nm[n] <= dimensions[n] for n in dimensions)
    assert found.fits is (found.best_nm == dimensions)


@settings(max_examples=40, deadline=None)
@given(sites(things=2), sizes, st.integers(1, 50))
def test_a_smaller_piece_fits_where_a_larger_one_does(
        site: Site, dimensions: dict[str, int], less: int) -> None:
    if answer(site, dimensions).fits:
        for name in dimensions:
            smaller = {**dimensions, name: max(INCH, dimensions[name] - less * 5 * MM)}
            beyond = any((r.at_height_nm or 0) > smaller["height"] for r in site.walls[0].readings)
            if name == "height" and beyond:          # a reading beyond the piece is taken at its edge, so the
                continue                             # lower edge may stand a hair further from things
            assert answer(site, smaller).fits, name


@settings(max_examples=40, deadline=None)
@given(sites(things=1), sizes)
def test_a_worse_tape_never_makes_a_piece_fit(site: Site, dimensions: dict[str, int]) -> None:
    fine, coarse = (answer(replace(site, tape_class=c), dimensions) for c in ("I", "III"))
    assert fine.fits or not coarse.fits
    for one, other in zip(fine.clearances, coarse.clearances, strict=True):
        if one.side in ("along", "above"):
            assert other.clearance_nm <= one.clearance_nm


@settings(max_examples=40, deadline=None)
@given(sites(things=2), sizes)
def test_positions_keep_the_whole_piece_between_the_walls(site: Site, dimensions: dict[str, int]) -> None:
    run = min(r.value_nm for r in site.walls[0].readings if not r.at_height_nm and not r.at_depth_nm) if any(
        not r.at_height_nm and not r.at_depth_nm for r in site.walls[0].readings) else None
    previous = -1
    for low, high in answer(site, dimensions).positions:
        assert previous < low <= high
        assert run is None or high + dimensions["length"] + SHOP.fitting.allowance_nm < run
        previous = high


L = fit_cases.template(fit_cases.VECTORS["templates"]["corner"])


def in_a_yard(seed: int) -> tuple[Site, dict[str, int], str]:
    """An L in a yard drawn by lot, nothing on its back wall: what is there is taped from one end only."""
    chance = random.Random(f"L {seed}")
    true = yards.yard(chance)
    true = replace(true, things=tuple(t for t in true.things if t.wall != "back"))
    site = yards.measured(true, chance.choice(KINDS), SHOP.fitting.reading_nm, chance)
    sizes = {"length": chance.randrange(1000, 2400, 25) * MM, "wing": chance.randrange(900, 2000, 25) * MM,
             "seat": 500 * MM, "height": 850 * MM}
    return site, sizes, chance.choice(("left", "right"))


def l_answer(site: Site, dimensions: dict[str, int], wing: str, sized: bool = True) -> Fit:
    return fit(L, dimensions, {"side": wing, "lid": "full"}, site, SHOP, "mm", sized)


def test_an_l_in_a_mirror_is_answered_in_the_mirror() -> None:
    for seed in range(60):
        site, dimensions, wing = in_a_yard(seed)
        one = l_answer(site, dimensions, wing)
        other = l_answer(mirrored(site), dimensions, MIRRORED[wing])
        assert (one.fits, one.largest_nm, one.best_nm) == (other.fits, other.largest_nm, other.best_nm), seed
        assert [(c.side, c.clearance_nm, c.needed_nm) for c in one.clearances] == [
            (c.side, c.clearance_nm, c.needed_nm) for c in other.clearances]
        assert [b - a for a, b in one.positions] == [b - a for a, b in reversed(other.positions)]
        assert sorted(f.level for f in one.findings) == sorted(f.level for f in other.findings)


def test_the_largest_l_fits_and_the_next_step_does_not() -> None:
    tried = 0
    for seed in range(60):
        site, dimensions, wing = in_a_yard(seed)
        for d in L.dimensions:
            most, step = l_answer(site, dimensions, wing).largest_nm[d.name], d.step_nm["mm"]
            if most:
                assert l_answer(site, {**dimensions, d.name: most}, wing, sized=False).fits
            if most and most + step <= d.most_nm:
                tried += 1
                assert not l_answer(site, {**dimensions, d.name: most + step}, wing, sized=False).fits, seed
    assert tried > 20
