"""Lines of whole pieces against rays: a line is drawn where what is seen changes, and nowhere else.

On either side of a place the nearest triangle along the line of sight is looked up: the two belong to
different members, or stand at different depths, or meet at an angle, where a line must be.
"""

from __future__ import annotations

import os
from functools import cache
from random import Random

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from documents.pieces import TEMPLATES, random_piece
from documents.sight import ASIDE, Array, Sight, Triangles, triangles_of
from yardwright.documents.drawing.projection import VIEWS, View
from yardwright.documents.drawing.solids import solids
from yardwright.documents.drawing.visible import visible_lines
from yardwright.domain.errors import Refused
from yardwright.domain.piece.model import Piece

FIRST = int(os.environ.get("FIRST", "0"))
SEEDS = range(FIRST, FIRST + int(os.environ.get("PIECES", "1")))
SAMPLES = 250


@cache
def case(name: str, seed: int, opened: bool) -> tuple[Piece, Triangles] | None:
    try:
        piece, _ = random_piece(name, seed)
    except Refused:
        return None
    return None if opened and not piece.moving else (piece, triangles_of(piece, opened))


def views(lot: Random) -> list[View]:
    """The four of the drawings, and one from any side."""
    frame = Rotation.from_euler("zx", [lot.uniform(0, 360), lot.uniform(-60, 60)], degrees=True).as_matrix()
    right, up, towards = (tuple(float(c) for c in axis) for axis in frame.T)
    return [*VIEWS.values(), View("any", right, up, towards)]  # type: ignore[arg-type]


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
