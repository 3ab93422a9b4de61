"""A hundred random members, cut and turned freely, and a hundred random clashes, against other libraries.

Volumes and centres: areas of cross-sections by shapely (GEOS), summed through the thickness by Gauss-Legendre
between the heights where a section changes its kind. Surface areas: trimesh's own plane slicing, no boolean
kernel. Clash volumes: the half-spaces of both boxes given to Qhull through scipy. Agreement within 0.1 %.
shapely 2, trimesh 5 and scipy are general-purpose libraries. Status: recomputed.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from random import Random
from typing import Any

import numpy as np
import pytest
import shapely
import trimesh
from scipy.spatial import ConvexHull, HalfspaceIntersection

from builders import demo_shop
from small_templates import one_member
from yardwright.domain.piece import build, overlap_mm3
from yardwright.domain.piece.model import Member

SHARE = 1e-3                 # 0.1 %
WIDTH, THICKNESS = 139.7, 25.0
NODES, WEIGHTS = np.polynomial.legendre.leggauss(6)


@dataclass(frozen=True)
class Blank:
    """A board as asked: where it starts, its own axes, its length, and the cuts it gets."""

    start: np.ndarray
    axes: np.ndarray             # rows: along, wide, thick as asked
    length: float
    outline: list[tuple[float, float]]
    planes: list[tuple[np.ndarray, np.ndarray]]      # in its own coordinates: a point, the normal cut away
    pockets: list[tuple[np.ndarray, np.ndarray]]

    def world(self, local: np.ndarray) -> np.ndarray:
        return self.start + local @ self.axes

    def template(self) -> Any:
        def at(v: np.ndarray) -> list[str]:
            return [f"({x:.9f})*mm" if x >= 0 else f"-{-x:.9f}*mm" for x in v]

        def way(v: np.ndarray) -> list[str]:
            return [f"{x:.12f}" if x >= 0 else f"-{-x:.12f}" for x in v]

        cuts: list[dict[str, Any]] = []
        if self.outline:
            cuts.append({"kind": "outline", "points": [at(np.array(p)) for p in self.outline]})
        cuts += [{"kind": "pocket", "from": at(a), "to": at(b)} for a, b in self.pockets]
        cuts += [{"kind": "plane", "at": at(self.world(p)), "normal": way(n @ self.axes)}
                 for p, n in self.planes]
        return one_member(board="post", width=f"{WIDTH - 60}*mm", thickness=f"{THICKNESS}*mm",
                          **{"from": at(self.start), "to": at(self.world(np.array([self.length, 0, 0])))},
                          wide=way(self.axes[1]), thick=way(self.axes[2]), cuts=cuts)


WIDE = WIDTH - 60


def turned(random: Random) -> np.ndarray:
    """Three unit vectors square to each other, any way round and of either hand."""
    square, _ = np.linalg.qr(np.array([[random.gauss(0, 1) for _ in range(3)] for _ in range(3)]))
    return square


def drawn(seed: int, pockets: bool) -> Blank:
    random = Random(seed)
    length = random.uniform(300, 1200)
    outline = []
    if random.random() < 0.6:
        outline = [(random.uniform(-5, 60), random.uniform(-5, 20)),
                   (length - random.uniform(0, 60), random.uniform(-5, 30)),
                   (length + random.uniform(-30, 5), random.uniform(50, WIDE + 5)),
                   (length / 2, random.uniform(35, WIDE)), (random.uniform(0, 40), random.uniform(40, WIDE))]
    planes = []
    for end in (0.0, length)[:random.randint(0, 2)]:
        lean = np.array([1.0 if end else -1.0, random.uniform(-1, 1), random.uniform(-1, 1)])
        planes.append((np.array([abs(end - random.uniform(80, 120)), WIDE / 2, THICKNESS / 2]),
                       lean / np.linalg.norm(lean)))
    holes = []
    for _ in range(random.randint(1, 2) if pockets else 0):
        low = np.array([random.uniform(130, length - 150), random.uniform(-5, 40), random.uniform(-5, 15)])
        holes.append((low, low + np.array([random.uniform(10, 60), random.uniform(5, 30),
                                           random.uniform(8, 20)])))
    start = np.array([random.uniform(-500, 500) for _ in range(3)])
    return Blank(start, turned(random), length, outline, planes, holes)


def section(blank: Blank, w: float) -> Any:
    """The board's cross-section at a height through its thickness."""
    flat = shapely.box(0, 0, blank.length, WIDE)
    if blank.outline:
        flat = flat.intersection(shapely.Polygon(blank.outline))
    for point, normal in blank.planes:
        flat = flat.intersection(half_plane(normal[:2], point @ normal - normal[2] * w))
    for low, high in blank.pockets:
        if low[2] < w < high[2]:
            flat = flat.difference(shapely.box(low[0], low[1], high[0], high[1]))
    return flat


def half_plane(normal: np.ndarray, limit: float) -> Any:
    """Where u, v lie short of ``limit`` along a normal that need not be a unit."""
    size = np.linalg.norm(normal)
    along, across = normal / size, np.array([-normal[1], normal[0]]) / size
    edge = along * limit / size
    far = 5000.0
    return shapely.Polygon([edge + across * far, edge - across * far, edge - across * far - along * far,
                            edge + across * far - along * far])


def integrated(blank: Blank) -> tuple[float, np.ndarray]:
    """Volume and centre in world coordinates; fine steps, since a plane may pass a corner at any height."""
    steps = sorted({0.0, THICKNESS, *np.linspace(0, THICKNESS, 41),
                    *(z for pair in blank.pockets for z in (pair[0][2], pair[1][2]) if 0 < z < THICKNESS)})
    volume, moment = 0.0, np.zeros(3)
    for low, high in pairwise(steps):
        for node, weight in zip(NODES, WEIGHTS, strict=True):
            w = (low + high) / 2 + node * (high - low) / 2
            flat = section(blank, w)
            part = flat.area * weight * (high - low) / 2
            volume += part
            moment += part * np.array([flat.centroid.x, flat.centroid.y, w])
    return volume, blank.world(moment / volume)


def built(blank: Blank) -> Member:
    (member,) = build(blank.template(), {}, {}, demo_shop(), "in").members
    return member


@pytest.mark.parametrize("seed", range(100))
def test_a_random_member_has_the_volume_and_centre_its_sections_add_up_to(seed: int) -> None:
    blank = drawn(seed, pockets=seed % 2 == 0)
    member = built(blank)
    volume, centre = integrated(blank)
    assert member.volume_mm3 == pytest.approx(volume, rel=SHARE)
    assert np.allclose(member.centre, centre, atol=0.05)


@pytest.mark.parametrize("seed", range(50))
def test_a_random_member_has_the_surface_that_plane_slicing_leaves(seed: int) -> None:
    blank = drawn(seed, pockets=False)
    flat = shapely.box(0, 0, blank.length, WIDE)
    if blank.outline:
        flat = flat.intersection(shapely.Polygon(blank.outline))
    if flat.geom_type != "Polygon":
        pytest.skip("the outline falls in two")
    mesh = trimesh.creation.extrude_polygon(flat, THICKNESS)
    for point, normal in blank.planes:
        mesh = trimesh.intersections.slice_mesh_plane(mesh, -normal, point, cap=True)
    member = built(blank)
    assert member.surface_mm2 == pytest.approx(float(mesh.area), rel=SHARE)
    assert member.volume_mm3 == pytest.approx(float(mesh.volume), rel=SHARE)


def sides(blank: Blank) -> np.ndarray:
    """The six half-spaces of a board: normal and offset, inside where normal . x + offset <= 0."""
    rows = []
    for axis, size in zip(blank.axes, (blank.length, WIDE, THICKNESS), strict=True):
        rows.append([*axis, -(axis @ blank.start) - size])
        rows.append([*-axis, axis @ blank.start])
    return np.array(rows)


def common_volume(one: Blank, other: Blank) -> float:
    """Volume of what two boards share, by Qhull; 0 where they share nothing."""
    planes = np.vstack([sides(one), sides(other)])
    inside = deepest(planes)
    if inside is None:
        return 0.0
    return float(ConvexHull(HalfspaceIntersection(planes, inside).intersections).volume)


def deepest(planes: np.ndarray) -> np.ndarray | None:
    """The point furthest inside all of them (linear programming); None when there is none."""
    from scipy.optimize import linprog

    found = linprog([0, 0, 0, -1], np.hstack([planes[:, :3], np.ones((len(planes), 1))]), -planes[:, 3],
                    bounds=[(None, None)] * 3 + [(0, None)])
    return found.x[:3] if found.success and found.x[3] > 1e-6 else None


@pytest.mark.parametrize("seed", range(100))
def test_two_boards_turned_at_random_share_the_volume_of_their_half_spaces(seed: int) -> None:
    random = Random(1000 + seed)
    boards = []
    for _ in range(2):
        axes, length = turned(random), random.uniform(300, 800)
        middle = np.array([random.uniform(-25, 25) for _ in range(3)])
        start = middle - np.array([length, WIDE, THICKNESS]) / 2 @ axes
        boards.append(Blank(start, axes, length, [], [], []))
    want = common_volume(*boards)
    assert overlap_mm3(*(built(b) for b in boards)) == pytest.approx(want, rel=SHARE, abs=1.0)
