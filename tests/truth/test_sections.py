"""Cross-sections of cut boards against shapely (general-purpose plane geometry) and strips.

A hundred random boards, turned freely, with pockets and planes taken off: area, section modulus and depth of
what is left at a random place against the same outline made in shapely and summed in thin strips. Recomputed.
"""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, sin
from random import Random

import pytest
from shapely.affinity import translate
from shapely.geometry import Polygon, box

from handmade import box as board
from yardwright.domain.checks.notches import what_is_left
from yardwright.domain.piece.model import Frame, Member
from yardwright.domain.piece.solid import blank, prism, taken_out

STRIPS = 4000


def turned(rng: Random) -> Frame:
    """A frame turned freely."""
    a, b, c = (rng.uniform(0, 2 * pi) for _ in range(3))
    along = (cos(a) * cos(b), sin(a) * cos(b), sin(b))
    side = (-sin(a), cos(a), 0.0)
    up = (-cos(a) * sin(b), -sin(a) * sin(b), cos(b))
    wide = tuple(cos(c) * s + sin(c) * u for s, u in zip(side, up, strict=True))
    thick = tuple(-sin(c) * s + cos(c) * u for s, u in zip(side, up, strict=True))
    return Frame((rng.uniform(-500, 500), rng.uniform(-500, 500), 100.0), along, wide, thick)  # type: ignore[arg-type]


def strips(shape: Polygon) -> tuple[float, float, float]:
    """(area, section modulus about its level middle axis, depth) of an outline, depth along x."""
    low, _, high, _ = shape.bounds
    step = (high - low) / STRIPS
    found = []
    for n in range(STRIPS):
        strip = shape.intersection(box(low + n * step, -1e4, low + (n + 1) * step, 1e4))
        found.append((low + (n + 0.5) * step, strip.area))
    area = sum(a for _, a in found)
    middle = sum(x * a for x, a in found) / area
    inertia = sum((x - middle) ** 2 * a + a * step**2 / 12 for x, a in found)
    return area, inertia / max(high - middle, middle - low), high - low


@pytest.mark.parametrize("seed", range(20))
def test_what_is_left_of_a_random_cut_board_is_what_shapely_leaves(seed: int) -> None:
    rng = Random(seed)
    length, wide, thick = rng.uniform(400, 1500), rng.uniform(60, 200), rng.uniform(20, 60)
    frame = turned(rng)
    corners = [frame.to_world(u * length, v * wide, w * thick)
               for w in (0, 1) for v in (0, 1) for u in (0, 1)]
    at, body = rng.uniform(0.3, 0.7) * length, blank(corners)
    shape = box(0.0, 0.0, wide, thick)
    for _ in range(rng.randint(1, 3)):
        v, w = rng.uniform(-0.2, 0.8) * wide, rng.uniform(-0.2, 0.8) * thick
        dv, dw = rng.uniform(0.1, 0.4) * wide, rng.uniform(0.2, 0.5) * thick
        pocket = prism([(0.0, 0.0), (200.0, 0.0), (200.0, dv), (0.0, dv)], dw,
                       frame.to_world(at - 100, v, w), frame.along, frame.wide, frame.thick)
        body = taken_out(body, pocket)
        shape = shape.difference(translate(box(0.0, 0.0, dv, dw), v, w))
    member: Member = replace(board("Board", (0, 0, 0), (length, wide, thick)), frame=frame, solid=body,
                             volume_mm3=body.volume_mm3, length_mm=length, width_mm=wide, thickness_mm=thick)
    left = min(what_is_left(member, frame.wide, (at,)), key=lambda s: abs(s.at_mm - at))
    area, modulus, deep = strips(shape)
    assert left.area_mm2 == pytest.approx(area, rel=1e-3)
    assert left.modulus_mm3 == pytest.approx(modulus, rel=2e-3)
    assert left.deep_mm == pytest.approx(deep, abs=0.01)
