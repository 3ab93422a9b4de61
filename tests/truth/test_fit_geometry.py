"""Where a piece is said to stand is free by a geometry library's own reckoning.

Shapely (a general-purpose planar geometry library) draws the nook as it may truly be, within what the tape
may be off, and the piece as a rectangle in it.
"""

from __future__ import annotations

import math
from typing import Any

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

import fit_cases
from yardwright.domain.fit import envelope, fit
from yardwright.domain.measure import INCH, MM
from yardwright.domain.shop import Shop

SHOP: Shop = fit_cases.shop()
BENCH = fit_cases.template(fit_cases.VECTORS["templates"]["bench"])
CORNER = fit_cases.template(fit_cases.VECTORS["templates"]["corner"])
TOUCH_MM = 0.01

sizes = st.builds(lambda n, d: {"length": n * INCH // 2, "depth": d * INCH // 2, "height": 36 * INCH},
                  st.integers(48, 156), st.integers(28, 52))
angles = st.floats(84, 96)
pipes = st.lists(st.tuples(st.floats(0, 2500), st.floats(20, 300), st.floats(0, 300)), max_size=3)


def nook(run_mm: float, left_deg: float, right_deg: float) -> Polygon:
    """Back wall along x from 0, side walls 2 m out; y away from the wall."""
    out = 2000.0
    lean = [math.tan(math.radians(90 - a)) * out for a in (left_deg, right_deg)]
    return Polygon([(0, 0), (run_mm, 0), (run_mm - lean[1], out), (lean[0], out)])


def answer(run_mm: float, corners: tuple[float, float], things: list[tuple[float, float, float]],
           dimensions: dict[str, int]) -> Any:
    site = {"kind": "between walls", "depths": [{"value": "2 m"}], "walls": [{
        "side": "back", "readings": [{"value": {"mm": run_mm}}], "obstructions": [
            {"kind": "downpipe", "from": {"mm": a}, "to": {"mm": a + wide}, "projection": {"mm": out}}
            for a, wide, out in things]}],
        "corners": [{"at": "left", "angle": corners[0]}, {"at": "right", "angle": corners[1]}]}
    return fit(BENCH, dimensions, {}, fit_cases.site(site), SHOP, "mm")


@settings(max_examples=80, deadline=None)
@given(st.floats(600, 2600), angles, angles, pipes, sizes, st.floats(-1, 1), st.floats(-1, 1))
def test_every_place_a_piece_is_given_is_free(
        run_mm: float, left: float, right: float, things: list[tuple[float, float, float]],
        dimensions: dict[str, int], tape_error: float, angle_error: float) -> None:
    found = answer(run_mm, (left, right), things, dimensions)
    assume(found.positions)
    # the place as it truly is: the tape up to its class off, the angle up to half a mark
    off_mm = min(found.uncertainty_nm / MM, 0.3 + 0.2 * math.ceil(run_mm / 1000)) * tape_error
    true = nook(run_mm - off_mm, left - 0.25 * angle_error, right - 0.25 * angle_error).buffer(TOUCH_MM)
    gap = next(c.clearance_nm for c in found.clearances if c.side == "behind") / MM
    bodies = [box(a, 0, a + wide, out) for a, wide, out in things if out]
    for low, high in found.positions:
        for left_end in (low, (low + high) / 2, high):
            right_end = left_end + dimensions["length"]
            piece = box(left_end / MM, gap, right_end / MM, gap + dimensions["depth"] / MM)
            assert true.contains(piece)
            assert all(piece.intersection(body).area < TOUCH_MM for body in bodies)


@settings(max_examples=80, deadline=None)
@given(st.floats(600, 2600), angles, angles, sizes)
def test_a_piece_is_turned_away_only_where_it_would_not_go(
        run_mm: float, left: float, right: float, dimensions: dict[str, int]) -> None:
    """Too long means: with allowance, uncertainty and a millimetre less to ask for, it still would not go."""
    found = answer(run_mm, (left, right), [], dimensions)
    assume(not found.positions)
    spare_mm = 2 * SHOP.fitting.allowance_nm / MM + found.uncertainty_nm / MM + 1
    true = nook(run_mm, left, right)
    length, depth = dimensions["length"] / MM + spare_mm, dimensions["depth"] / MM
    slack = 2 * (depth + 25.4) * math.tan(math.radians(0.25)) * 1.1 + 2 * 25.4 * math.tan(math.radians(6))
    places = [box(x, 25.4, x + length + slack, 25.4 + depth) for x in range(0, int(run_mm), 5)]
    assert not any(true.contains(place) for place in places)


side_things = st.lists(st.tuples(st.floats(0, 1800), st.floats(20, 400), st.floats(5, 400)), max_size=2)


def on_the_side(at: str, run_mm: float, angle: float, start: float, wide: float, out: float) -> Polygon:
    """A box on a side wall, turned with it: from the corner out along the wall, standing off it square."""
    slant = math.radians(90 - angle)
    ahead, inward = (math.sin(slant), math.cos(slant)), (math.cos(slant), -math.sin(slant))
    points = [(s * ahead[0] + o * inward[0], s * ahead[1] + o * inward[1])
              for s, o in ((start, 0), (start + wide, 0), (start + wide, out), (start, out))]
    return Polygon([(x, y) if at == "left" else (run_mm - x, y) for x, y in points])


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(("left", "right")), st.floats(1400, 3200), st.floats(1300, 3000), angles, angles,
       side_things, side_things, st.integers(60, 200), st.floats(-1, 1), st.floats(-1, 1))
def test_every_place_an_l_is_given_is_free_of_both_walls_and_of_what_is_on_them(
        side: str, run_mm: float, out_mm: float, left: float, right: float,
        on_left: list[tuple[float, float, float]], on_right: list[tuple[float, float, float]], wing: int,
        tape_error: float, angle_error: float) -> None:
    kind = "downpipe"

    def wall(at: str, things: list[tuple[float, float, float]]) -> dict[str, Any]:
        return {"side": at, "readings": [{"value": {"mm": out_mm}}], "obstructions": [
            {"kind": kind, "from": {"mm": a}, "to": {"mm": a + wide}, "projection": {"mm": out}}
            for a, wide, out in things]}

    site = {"kind": "between walls", "depths": [{"value": {"mm": out_mm}}], "corners": [
        {"at": "left", "angle": left}, {"at": "right", "angle": right}], "walls": [
            {"side": "back", "readings": [{"value": {"mm": run_mm}}]}, wall("left", on_left),
            wall("right", on_right)]}
    sizes = {"length": 1000 * MM, "wing": wing * 10 * MM, "seat": 400 * MM, "height": 450 * MM}
    choices = {"side": side, "lid": "none"}
    found = fit(CORNER, sizes, choices, fit_cases.site(site), SHOP, "mm")
    assume(found.positions)
    piece = envelope(CORNER, sizes, choices)
    true_run = run_mm - (0.3 + 0.2 * math.ceil(run_mm / 1000)) * tape_error
    off = [left - 0.25 * angle_error, right - 0.25 * angle_error]
    free = nook(true_run, *off).buffer(TOUCH_MM)
    bodies = [on_the_side(at, true_run, angle, *thing) for at, angle, things in (
        ("left", off[0], on_left), ("right", off[1], on_right)) for thing in things]
    gap = next(c.clearance_nm for c in found.clearances if c.side == "behind") / MM
    deep = piece.whole_depth_nm / MM
    low_x, high_x = (v / MM for v in piece.wing_stretch)
    for place in (p for span in found.positions for p in (span[0], sum(span) / 2, span[1])):
        x = place / MM
        shape = box(x, gap, x + 1000, gap + 400).union(box(x + low_x, gap, x + high_x, gap + deep) if (
            piece.wing != "none") else Polygon())
        if deep + gap < 2000:        # the drawn nook is 2 m deep
            assert free.contains(shape)
        assert all(shape.intersection(body).area < TOUCH_MM for body in bodies)
