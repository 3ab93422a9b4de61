"""What can be carried round a turn, up stairs and through an opening, by brute force and by textbook results.

Shapely (a general-purpose planar geometry library) moves rectangles through corridors drawn as polygons.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import Polygon, box

from yardwright.domain.fit.access import ROOM_NM, STEEP, carried, longest_round, rectangle_in
from yardwright.domain.measure import MM
from yardwright.domain.site import Access

FAR = 20_000.0
widths = st.integers(500, 1500).map(float)


def place(kind: str, width_mm: float, height_mm: float | None = None,
          after_mm: float | None = None) -> Access:
    """A narrow place whose free opening, less the room to spare, is as said."""
    def opening(mm: float | None) -> int | None:
        return None if mm is None else round(mm * MM) + ROOM_NM

    return Access(kind, round(width_mm * MM) + ROOM_NM, opening(height_mm), opening(after_mm))


@pytest.mark.parametrize(("wide", "onward"), [(1.0, 1.0), (1.0, 8.0), (8.0, 27.0), (2.7, 1.3)])
def test_a_rod_goes_round_as_far_as_the_textbook_says(wide: float, onward: float) -> None:
    # (a^(2/3) + b^(2/3))^(3/2): the longest rod, or ladder, round a square corner; a worked example of maxima
    # and minima in textbooks of calculus (memory, recomputed here). 8 and 27 give 13^(3/2) = 46.872.
    longest = (wide ** (2 / 3) + onward ** (2 / 3)) ** 1.5
    assert longest_round(wide, onward, 0.0) == pytest.approx(longest, rel=1e-9)


def test_equal_passages_have_a_closed_answer() -> None:
    # By symmetry the tightest is at 45 degrees: 2 (sqrt 2 w - c) (geometry, recomputed).
    assert longest_round(900.0, 900.0, 400.0) == pytest.approx(2 * (math.sqrt(2) * 900 - 400), rel=1e-9)


def corridor(wide: float, onward: float) -> Polygon:
    """One passage along y, ``wide`` in x, into one along x, ``onward`` in y; the outer walls are at 0."""
    return Polygon([(0, 0), (FAR, 0), (FAR, onward), (wide, onward), (wide, FAR), (0, FAR)])


def pushed_round(wide: float, onward: float, length: float, across: float) -> bool:
    """A rectangle slid with its long side's ends on both outer walls through every half degree."""
    free = corridor(wide, onward).buffer(0.01)
    for tenth in range(1, 1800):
        t = math.radians(tenth / 20)
        foot, head = (length * math.cos(t), 0.0), (0.0, length * math.sin(t))
        inward = (math.sin(t) * across, math.cos(t) * across)
        if not free.contains(Polygon([foot, head, (head[0] + inward[0], head[1] + inward[1]),
                                      (foot[0] + inward[0], foot[1] + inward[1])])):
            return False
    return True


@settings(max_examples=10, deadline=None)
@given(widths, widths, st.floats(0.1, 0.9))
@example(600.0, 1500.0, 0.95)
def test_the_longest_that_turns_does_and_a_longer_does_not(wide: float, onward: float, share: float) -> None:
    across = share * min(wide, onward)
    longest = longest_round(wide, onward, across)
    assert pushed_round(wide, onward, longest - 0.5, across)
    assert not pushed_round(wide, onward, longest * 1.002 + 1, across)


@settings(max_examples=40, deadline=None)
@given(st.integers(100, 1400), st.integers(100, 1400), st.integers(300, 1200), st.integers(300, 1200))
@example(1400, 100, 1200, 900)
def test_a_rectangle_in_a_rectangle_agrees_with_trying_every_angle(p: int, q: int, a: int, b: int) -> None:
    def spare(angle: float) -> float:
        x0, y0, x1, y1 = affinity.rotate(box(0, 0, p, q), angle).bounds
        return min(a - (x1 - x0), b - (y1 - y0))

    middle = max(range(0, 91, 2), key=spare)
    best = max(spare(middle + tenth / 10) for tenth in range(-20, 21))
    if abs(best) > 3.0:          # within a tenth of a degree of the best one, a side moves no more than this
        assert rectangle_in(p, q, a, b) is (best > 0)


@pytest.mark.parametrize(("length", "across", "height", "high"), [
    (2000.0, 1200.0, 300.0, 1000.0), (1800.0, 1000.0, 100.0, 900.0), (1800.0, 1500.0, 100.0, 400.0)])
def test_a_box_too_wide_to_stand_turns_where_the_best_of_all_tilts_does(
        length: float, across: float, height: float, high: float) -> None:
    def raised(side: float) -> float:
        tilts = (n * math.pi / 20000 for n in range(10001))
        return min(side * math.cos(t) + height * math.sin(t) for t in tilts
                   if side * math.sin(t) + height * math.cos(t) <= high)

    wide = min(raised(length) + 2 * across, length + 2 * raised(across)) / (2 * math.sqrt(2))
    sizes = (round(length * MM), round(across * MM), round(height * MM))
    assert carried(sizes, place("turn", wide + 2, high)) == "upright, tilted"
    assert carried(sizes, place("turn", wide - 2, high)) is None


def under_stairs(length: float, height: float, tilt: float) -> float:
    """The vertical headroom that a box at a tilt needs on an endless slope as steep as stairs."""
    corners = [(x * math.cos(tilt) - y * math.sin(tilt), x * math.sin(tilt) + y * math.cos(tilt))
               for x in (0.0, length) for y in (0.0, height)]
    over = [y - x * STEEP for x, y in corners]
    return max(over) - min(over)


@pytest.mark.parametrize(("length", "height"), [(1200.0, 500.0), (300.0, 900.0), (2400.0, 60.0)])
def test_headroom_over_stairs_is_what_the_best_tilt_needs(length: float, height: float) -> None:
    need = min(under_stairs(length, height, n * math.pi / 36000) for n in range(9001))
    sizes = (round(length * MM), round(800 * MM), round(height * MM))
    assert carried(sizes, place("stairs", 800, need + 0.5)) == "upright"
    assert carried(sizes, place("stairs", 800, need - 0.5)) != "upright"


def test_nothing_larger_passes_where_something_smaller_does_not() -> None:
    for kind in ("gate", "passage", "stairs", "turn"):
        for high in (None, 700.0, 2000.0):
            opening = place(kind, 800, high, 900 if kind == "turn" else None)
            passed = [carried((length * MM, 500 * MM, 600 * MM), opening) is not None
                      for length in range(200, 4000, 50)]
            assert passed == sorted(passed, reverse=True), (kind, high)
