"""Tones of the three-quarter view: what is painted last at a place is the face that stands in front there."""

from __future__ import annotations

from random import Random

import pytest

from builders import demo_shop
from documents.sample import Ring, box, raked
from yardwright.documents.drawing.model import Point, Polygon
from yardwright.documents.drawing.projection import VIEWS, Face, project
from yardwright.documents.drawing.shading import shaded
from yardwright.documents.drawing.solids import solids
from yardwright.domain.piece import build

ISOMETRIC = VIEWS["isometric"]
CABINET = [box(0, 0, 0, 900, 20, 380), box(0, 430, 0, 900, 450, 380), box(0, 20, 0, 20, 430, 380),
           box(880, 20, 0, 900, 430, 380), box(20, 20, 30, 880, 430, 50),
           *(raked(box(0, 95.0 * i, 380, 900, 95.0 * i + 90, 400), -70, 470, 380) for i in range(5)),
           *(raked(box(x, 20, 360, x + 60, 450, 380), -70, 470, 380) for x in (150, 420, 690)),
           *(raked(box(30 + 100.0 * i, 480, 300, 110 + 100.0 * i, 500, 800), -8, 480, 300) for i in range(8))]


def inside(point: Point, points: tuple[Point, ...]) -> bool:
    x, y = point
    odd = False
    for (px, py), (qx, qy) in zip(points, points[1:] + points[:1], strict=True):
        if (py > y) != (qy > y) and x < px + (qx - px) * (y - py) / (qy - py):
            odd = not odd
    return odd


def depth_at(face: Face, point: Point) -> float:
    a, b, c = face.plane
    return a * point[0] + b * point[1] + c


def compare(members: list[list[Ring]], chance: Random) -> int:
    painted = shaded(members, ISOMETRIC)
    faces, _ = project(members, ISOMETRIC)
    xs = [p[0] for f in faces for p in f.points]
    ys = [p[1] for f in faces for p in f.points]
    compared = 0
    for _ in range(1500):
        at = (chance.uniform(min(xs), max(xs)), chance.uniform(min(ys), max(ys)))
        here = sorted((depth_at(f, at), f.tone) for f in faces if inside(at, f.points))
        if not here or (len(here) > 1 and here[1][0] - here[0][0] < 0.5):
            continue                                  # nothing there, or two faces in one plane
        top = [p for p in painted if inside(at, p.points)][-1]
        assert top.tone == here[0][1]
        compared += 1
    return compared


def test_an_open_chest_is_toned_as_it_stands() -> None:
    assert compare(CABINET, Random("chest")) > 500


def test_separate_random_boxes_are_toned_as_they_stand() -> None:
    chance = Random("boxes")
    for _ in range(5):
        cells = [(x, y, z) for x in range(3) for y in range(3) for z in range(3)]
        members = [box(100 * x + chance.uniform(0, 20), 100 * y + chance.uniform(0, 20),
                       100 * z + chance.uniform(0, 20), 100 * x + chance.uniform(40, 100),
                       100 * y + chance.uniform(40, 100), 100 * z + chance.uniform(40, 100))
                   for x, y, z in chance.sample(cells, 15)]
        assert compare(members, chance) > 300


def test_a_notched_face_is_toned_through_its_notch() -> None:
    ring = [(0.0, 0.0, 0.0), (100.0, 0.0, 0.0), (100.0, 0.0, 100.0), (60.0, 0.0, 100.0), (60.0, 0.0, 40.0),
            (40.0, 0.0, 40.0), (40.0, 0.0, 100.0), (0.0, 0.0, 100.0)]
    assert compare([[ring], box(45, 10, 45, 55, 30, 180)], Random("notch")) > 100


def test_tops_are_lightest_and_sides_darkest() -> None:
    tones = {round(p.tone, 2) for p in shaded([box(0, 0, 0, 10, 10, 10)], ISOMETRIC)}
    assert len(tones) == 3 and max(tones) == 1.0
    assert all(isinstance(p, Polygon) and p.edge == "none" for p in shaded(CABINET, ISOMETRIC))


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("name", ["corner-bench", "lounge-chair", "picnic-table", "planter-box"])
def test_our_pieces_are_toned_as_they_stand_where_faces_hide_each_other_in_rings(
        name: str, side: str) -> None:
    shop = demo_shop()
    choices = {"side": side} if name == "corner-bench" else {}
    piece = build(shop.templates[name], {}, choices, shop, "in")
    assert compare(solids(piece, False), Random(name + side)) > 400
