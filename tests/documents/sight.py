"""What is seen of a piece along a line of sight, by rays that meet the triangles of the geometry kernel.

Nothing of the drawing's own geometry is used: the triangles are the kernel's, and a lid is opened by scipy's
rotation. Feet alone, for which no member stands, are taken from the drawing's solids.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import Any

import numpy as np
from scipy.spatial.transform import Rotation

from yardwright.documents.drawing.projection import View
from yardwright.documents.drawing.solids import solids
from yardwright.domain.piece.model import Piece

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


def triangles_of(piece: Piece, opened: bool) -> Triangles:
    """All triangles of a piece, its lids shut or open."""
    found = [_turned(piece, number, opened) for number in range(len(piece.members))]
    feet = solids(piece, opened)[len(piece.members):]
    found += [np.array([[ring[0], ring[k], ring[k + 1]] for ring in foot for k in range(1, len(ring) - 1)])
              for foot in feet]
    corners = np.concatenate(found)
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    size = np.linalg.norm(across, axis=1)
    members = np.concatenate([np.full(len(t), n) for n, t in enumerate(found)])
    real = size > 1e-9
    return Triangles(corners[real], across[real] / size[real, None], members[real])


def _turned(piece: Piece, number: int, opened: bool) -> Array:
    member = piece.members[number]
    mesh = member.solid.kernel.to_mesh64()
    places = np.asarray(mesh.vert_properties)[:, :3]
    if opened and member.group in piece.moving:
        at, axis, degrees = piece.moving[member.group]
        turn = Rotation.from_rotvec(np.radians(degrees) * np.array(axis) / np.linalg.norm(axis))
        places = turn.apply(places - np.array(at)) + np.array(at)
    return places[np.asarray(mesh.tri_verts)]


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
