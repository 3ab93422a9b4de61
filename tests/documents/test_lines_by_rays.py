"""Lines of whole pieces against rays: a line is drawn where what is seen changes, and nowhere else.

The rays meet the triangles of the geometry kernel, not the faces the drawing is made from, and a lid is
opened by scipy's rotation. On either side of a place the nearest triangle along the line of sight is looked
up: the two belong to different members, or stand at different depths, or meet at an angle, where a line must
be.
"""

from __future__ import annotations

import os
from dataclasses import dataclass
from functools import cache
from itertools import product
from random import Random
from typing import Any

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from documents.pieces import TEMPLATES, random_piece
from yardwright.documents.drawing.projection import VIEWS, View
from yardwright.documents.drawing.solids import solids
from yardwright.documents.drawing.visible import visible_lines
from yardwright.domain.errors import Refused
from yardwright.domain.piece.model import Piece

FIRST = int(os.environ.get("FIRST", "0"))
SEEDS = range(FIRST, FIRST + int(os.environ.get("PIECES", "1")))
SAMPLES = 250
ASIDE = (0.15, 0.6)          # mm to either side, and so far along from a place, that must all say the same
ALONG_MM = 2.0
FAR_MM = 1e6
GRAZING = 0.1                # cosine to the line of sight
SHARP, SMOOTH = 0.90, 0.95   # cosine between faces: surely an edge, surely one curved surface
JUMP_MM = 0.35
Array = Any                  # of numpy


@dataclass(frozen=True)
class Triangles:
    """Corners (n, 3, 3), outward normals and members of all triangles of a piece."""

    corners: Array
    normals: Array
    members: Array


@cache
def case(name: str, seed: int, opened: bool) -> tuple[Piece, Triangles] | None:
    try:
        piece, _ = random_piece(name, seed)
    except Refused:
        return None
    if opened and not piece.moving:
        return None
    found = [_turned(piece, number, opened) for number in range(len(piece.members))]
    feet = solids(piece, opened)[len(piece.members):]
    found += [np.array([[ring[0], ring[k], ring[k + 1]] for ring in foot for k in range(1, len(ring) - 1)])
              for foot in feet]
    corners = np.concatenate(found)
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    size = np.linalg.norm(across, axis=1)
    members = np.concatenate([np.full(len(t), n) for n, t in enumerate(found)])
    real = size > 1e-9
    return piece, Triangles(corners[real], across[real] / size[real, None], members[real])


def _turned(piece: Piece, number: int, opened: bool) -> Array:
    member = piece.members[number]
    mesh = member.solid.kernel.to_mesh64()
    places = np.asarray(mesh.vert_properties)[:, :3]
    if opened and member.group in piece.moving:
        at, axis, degrees = piece.moving[member.group]
        turn = Rotation.from_rotvec(np.radians(degrees) * np.array(axis) / np.linalg.norm(axis))
        places = turn.apply(places - np.array(at)) + np.array(at)
    return places[np.asarray(mesh.tri_verts)]


def views(lot: Random) -> list[View]:
    """The four of the drawings, and one from any side."""
    frame = Rotation.from_euler("zx", [lot.uniform(0, 360), lot.uniform(-60, 60)], degrees=True).as_matrix()
    right, up, towards = (tuple(float(c) for c in axis) for axis in frame.T)
    return [*VIEWS.values(), View("any", right, up, towards)]  # type: ignore[arg-type]


class Sight:
    """What is seen at places of a picture: the nearest triangle there."""

    def __init__(self, triangles: Triangles, view: View) -> None:
        axes = np.array([view.right, view.up, view.towards])
        flat = triangles.corners @ axes.T
        looking = triangles.normals @ axes[2] > 1e-3
        self.members, self.normals = triangles.members[looking], triangles.normals[looking]
        flat = flat[looking]
        self.a, self.b, self.c = flat[:, 0], flat[:, 1], flat[:, 2]
        self.area = self._cross(self.b - self.a, self.c - self.a)
        across = self.normals[:, None, :] @ axes.T
        self.rise = -across[:, 0, :2] / across[:, 0, 2:]
        self.grazing = across[:, 0, 2] < GRAZING

    @staticmethod
    def _cross(p: Array, q: Array) -> Array:
        return p[..., 0] * q[..., 1] - p[..., 1] * q[..., 0]

    def nearest(self, places: Array) -> tuple[Array, Array]:
        """The number of the nearest triangle at each place, -1 for none, and how near it is."""
        p = places[:, None, :]
        u = self._cross(self.b[None, :, :2] - p, self.c[None, :, :2] - p)
        v = self._cross(self.c[None, :, :2] - p, self.a[None, :, :2] - p)
        w = self.area[None, :] - u - v
        inside = (u >= 0) & (v >= 0) & (w >= 0)
        near = (u * self.a[None, :, 2] + v * self.b[None, :, 2] + w * self.c[None, :, 2]) / self.area[None, :]
        near = np.where(inside, near, -FAR_MM)
        best = near.argmax(axis=1)
        reach = near[np.arange(len(places)), best]
        return np.where(reach > -FAR_MM, best, -1), reach

    def changes(self, places: Array, across: Array) -> Array:
        """1 where what is seen changes from one side of a place to the other, 0 where not, -1 unsure."""
        said = []
        onward = np.stack([across[:, 1], -across[:, 0]], axis=1) * ALONG_MM
        for aside, on in product(ASIDE, (0.0, 1.0, -1.0)):
            one, other = (places + on * onward + way * aside * across for way in (1.0, -1.0))
            seen = zip(*self.nearest(one), *self.nearest(other), one, other, strict=True)
            said.append(np.array([self._differ(i, j, near, far, q - p) for i, near, j, far, p, q in seen]))
        return np.where([len(set(column)) == 1 for column in zip(*said, strict=True)], said[0], -1)

    def _differ(self, i: int, j: int, near: float, far: float, apart: Array) -> int:
        if i < 0 or j < 0:
            return int(i >= 0 or j >= 0)
        if self.members[i] != self.members[j]:
            return 1
        cosine = float(self.normals[i] @ self.normals[j])
        if cosine > SHARP and (self.grazing[i] or self.grazing[j]):
            return -1                # a curve seen along it: its chords fall away by more than a jump
        jump = abs(near + float(self.rise[i] @ apart) - far)     # off the plane of the first
        if cosine < SHARP or jump > 6 * JUMP_MM:
            return 1
        return 0 if cosine > SMOOTH and jump < JUMP_MM else -1


def along(segments: Array, count: int, lot: Random) -> tuple[Array, Array]:
    """Places drawn by lot on segments (n, 2, 2), the longer the likelier, and the way across each."""
    runs = segments[:, 1] - segments[:, 0]
    size = np.linalg.norm(runs, axis=1)
    picks = lot.choices(range(len(segments)), weights=list(size), k=count)
    share = np.array([lot.uniform(0.02, 0.98) for _ in picks])[:, None]
    across = np.stack([-runs[:, 1], runs[:, 0]], axis=1)[picks] / size[picks][:, None]
    return segments[picks, 0] + share * runs[picks], across


def drawn_at(segments: Array, places: Array, across: Array, beside_mm: float, turned_by: float) -> Array:
    """Whether a drawn segment of about the same direction passes each place so near."""
    runs = segments[:, 1] - segments[:, 0]
    size = np.linalg.norm(runs, axis=1)
    ways = runs / size[:, None]
    off = places[:, None, :] - segments[None, :, 0]
    on = (off * ways[None]).sum(axis=2)
    beside = np.abs(off[..., 0] * ways[None, :, 1] - off[..., 1] * ways[None, :, 0])
    turned = np.abs(across @ ways.T)
    return ((beside < beside_mm) & (on > -0.35) & (on < size[None] + 0.35) & (turned < turned_by)).any(axis=1)


def edges(triangles: Triangles, view: View) -> Array:
    """Every side of every triangle in the picture, those too short to ask about left out."""
    axes = np.array([view.right, view.up])
    flat = triangles.corners @ axes.T
    sides = np.concatenate([flat[:, [0, 1]], flat[:, [1, 2]], flat[:, [2, 0]]])
    return sides[np.linalg.norm(sides[:, 1] - sides[:, 0], axis=1) > 3.0]


@pytest.mark.parametrize("opened", [False, True])
@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("name", TEMPLATES)
def test_lines_are_drawn_where_what_is_seen_changes_and_nowhere_else(name: str, seed: int,
                                                                     opened: bool) -> None:
    found = case(name, seed, opened)
    if found is None:
        pytest.skip("nothing to open, or this lot cannot be built")
    piece, triangles = found
    lot = Random(f"{name} {seed} {opened}")
    for view in views(lot):
        outline, inner = visible_lines(solids(piece, opened), view)
        segments = np.array([*outline, *inner])
        sight = Sight(triangles, view)
        places, across = along(segments, SAMPLES, lot)
        changes = sight.changes(places, across)
        assert not (changes == 0).any(), (view.name, "drawn, but nothing changes", places[changes == 0][:3])
        assert (changes == 1).mean() > 0.8, view.name
        places, across = along(edges(triangles, view), 2 * SAMPLES, lot)
        changes = sight.changes(places, across)
        lost = (changes == 1) & ~drawn_at(segments, places, across, ASIDE[0] + 0.05, 0.08)
        assert not lost.any(), (view.name, "not drawn", places[lost][:3])
        asked = ((changes == 1).sum(), (changes == 0).sum())
        assert asked[0] > 20 and asked[1] > 20, (view.name, asked)
        extra = (changes == 0) & drawn_at(segments, places, across, 0.06, 0.01)
        assert not extra.any(), (view.name, "drawn, but nothing changes", places[extra][:3])
