"""A convex body cut by a plane without the kernel, held against the kernel's own cut."""

from __future__ import annotations

from random import Random

import pytest

from yardwright.domain.piece.flat_faces import clipped
from yardwright.domain.piece.solid import Solid, blank, cut_off
from yardwright.domain.piece.vectors import Vector, dot, scaled, turner, unit


def board(random: Random) -> Solid:
    """A board of random size, turned at random or not at all."""
    length, width, thick = random.uniform(50, 2000), random.uniform(20, 200), random.uniform(10, 90)
    axis = unit((random.random(), random.random(), random.random() + 0.01))
    turn = turner((0.0, 0.0, 0.0), axis, random.choice((0.0, random.uniform(0, 360))))
    return blank([turn((x, y, z)) for z in (0.0, thick) for y in (0.0, width) for x in (0.0, length)])


@pytest.mark.parametrize("seed", range(150))
def test_a_plane_cuts_a_convex_solid_as_the_kernel_does(seed: int) -> None:
    random = Random(seed)
    solid = board(random)
    for _ in range(3):
        low, high = solid.box
        within: Vector = (random.uniform(low[0], high[0]), random.uniform(low[1], high[1]),
                          random.uniform(low[2], high[2]))
        at = random.choice((within, random.choice(solid.corners)))
        normal = unit((random.choice((0.0, 1.0, random.uniform(-1, 1))), random.uniform(-1, 1),
                       random.choice((0.0, random.uniform(-1, 1)))))
        made, away = cut_off(solid, at, normal), scaled(normal, -1.0)
        kernels = solid.kernel.trim_by_plane(away, dot(away, at))
        assert made.volume_mm3 == pytest.approx(float(kernels.volume()), rel=1e-9, abs=1e-3)
        if made.volume_mm3 < 1:
            return
        assert made.area_mm2 == pytest.approx(float(kernels.surface_area()), rel=1e-9)
        assert [*made.box[0], *made.box[1]] == pytest.approx(list(kernels.bounding_box()), abs=1e-6)
        solid = made


def test_a_cut_that_misses_leaves_the_solid_and_one_that_takes_all_leaves_nothing() -> None:
    solid = board(Random(1))
    far = solid.box[1][0]
    assert len(clipped(solid.faces, (1.0, 0.0, 0.0), far + 10) or []) == 6
    assert clipped(solid.faces, (1.0, 0.0, 0.0), solid.box[0][0] - 10) == []


def test_a_corner_a_hair_off_the_plane_is_left_to_the_kernel() -> None:
    solid = blank([(x, y, z) for z in (0.0, 20.0) for y in (0.0, 90.0) for x in (0.0, 500.0)])
    assert clipped(solid.faces, (1.0, 0.0, 0.0), 500.0 - 1e-5) is None
