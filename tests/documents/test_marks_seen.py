"""Every part mark of the workshop's pictures points at a part that carries it and is really seen there."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest

from documents.pieces import TEMPLATES, parts_of, random_piece
from documents.sight import Sight, Triangles, triangles_of
from yardwright.documents.drawing.marked import workshop_drawings
from yardwright.documents.drawing.model import Drawing, Line, Polygon, Text
from yardwright.documents.drawing.projection import VIEWS
from yardwright.documents.paper.views import words_mm
from yardwright.domain.errors import Refused

SEEDS = range(int(os.environ.get("PIECES", "2")))


def pointed(drawing: Drawing) -> Iterator[tuple[str, tuple[float, float]]]:
    """Each mark with the foot of its leader: leader, dot, disc and mark follow each other."""
    for a, b, c, d in zip(drawing.shapes, drawing.shapes[1:], drawing.shapes[2:], drawing.shapes[3:],
                          strict=False):
        if (isinstance(a, Line) and a.style == "leader" and isinstance(b, Polygon) and isinstance(c, Polygon)
                and isinstance(d, Text)):
            yield d.text, a.points[0]


def less(triangles: Triangles, members: set[int]) -> Triangles:
    kept = ~np.isin(triangles.members, list(members))
    return replace(triangles, corners=triangles.corners[kept], normals=triangles.normals[kept],
                   members=triangles.members[kept])


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("name", TEMPLATES)
def test_a_mark_points_at_its_own_part(name: str, seed: int) -> None:
    try:
        piece, units = random_piece(name, seed)
    except Refused:
        pytest.skip("this lot cannot be built")
    parts = {p.mark: p for p in parts_of(piece)}
    number = {m.key: n for n, m in enumerate(piece.members)}
    whole, gone, shown = triangles_of(piece, False), set[int](), 0
    for drawing in workshop_drawings(piece, tuple(parts.values()), units, 0,
                                     lambda views: words_mm(views, 520.0, 185.0)):
        inside = drawing.view == "inside"
        feet = set(range(len(piece.members), int(whole.members.max()) + 1))
        sight = Sight(less(whole, gone | feet) if inside else whole,
                      VIEWS["isometric" if inside else drawing.view])
        here: set[int] = set()
        for mark, at in pointed(drawing):
            own = {number[key] for key in parts[mark].keys}
            (seen,), _ = sight.nearest(np.array([at]))
            assert seen >= 0 and int(sight.members[seen]) in own, (drawing.view, mark, parts[mark].name)
            here |= own
            shown += 1
        gone |= here
    assert shown == len(parts)
