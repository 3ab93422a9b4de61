"""Balloons and what they point at: places that are really seen, leaders that never cross."""

from __future__ import annotations

from itertools import combinations
from random import Random

from documents.sample import bench, box
from yardwright.documents.drawing.balloons import ballooned
from yardwright.documents.drawing.callouts import Callout, crosses, crosses_box, placed
from yardwright.documents.drawing.model import Bounds, Drawing, Line, Text, text_box
from yardwright.documents.drawing.projection import VIEWS
from yardwright.documents.drawing.seen import best_places


def test_a_member_is_pointed_at_in_the_middle_of_what_is_seen_of_it() -> None:
    front, behind = box(0, 0, 0, 100, 50, 100), box(0, 60, 0, 100, 80, 300)
    best = best_places([front, behind], VIEWS["front"])
    (x, y), far = best[1]
    assert 100 + far <= y + 6 and y <= 300 - far + 6       # only above the front one
    assert 0 < x < 100 and far > 30


def test_a_member_wholly_hidden_is_not_pointed_at() -> None:
    assert set(best_places([box(0, 0, 0, 100, 50, 100), box(10, 60, 10, 90, 80, 90)], VIEWS["front"])) == {0}
    assert best_places([], VIEWS["front"]) == {}


def test_balloons_by_lot_keep_their_leaders_apart() -> None:
    lot = Random(7)
    for _ in range(20):
        anchors = {f"A{n}": (lot.uniform(10, 990), lot.uniform(10, 590)) for n in range(1, 18)}
        body = Drawing("", (Line(((0, 0), (1000, 0), (1000, 600), (0, 600)), "outline", True),
                            Text((-60, 300), "600 mm", 25)))
        drawing, shown = ballooned(body, anchors, 25)
        leaders = [(s.points[0], s.points[1]) for s in drawing.shapes
                   if isinstance(s, Line) and s.style == "leader"]
        words = [text_box(s) for s in drawing.shapes if isinstance(s, Text)]
        assert len(shown) >= 12 and len(leaders) == len(shown)
        assert not [pair for pair in combinations(leaders, 2) if crosses(*pair)]
        assert not [pair for pair in combinations(words, 2) if pair[0].overlaps(pair[1])]
        assert {leader[0] for leader in leaders} == {anchors[m] for m in shown}


def test_callouts_crowded_together_are_all_said_and_stand_apart() -> None:
    said = [Callout(f"callout number {n}", (100.0 + n, 50.0)) for n in range(9)]
    shapes = placed(said, Bounds((0, 0), (300, 100)), [Bounds((110, 110), (300, 140))], 12)
    words = [s for s in shapes if isinstance(s, Text)]
    assert {w.text for w in words} == {c.text for c in said}
    boxes = [*(text_box(w) for w in words), Bounds((110, 110), (300, 140))]
    assert not [pair for pair in combinations(boxes, 2) if pair[0].overlaps(pair[1])]


def test_strokes_cross_boxes_and_each_other_as_drawn_on_paper() -> None:
    square = Bounds((0, 0), (10, 10))
    assert crosses_box(((-5, 5), (15, 5)), square) and crosses_box(((2, 2), (3, 3)), square)
    assert not crosses_box(((-5, 11), (15, 11)), square) and not crosses_box(((11, 0), (11, 10)), square)
    assert crosses(((0, 0), (10, 10)), ((0, 10), (10, 0)))
    assert not crosses(((0, 0), (10, 0)), ((0, 1), (10, 1)))
    assert crosses(((0, 0), (10, 0)), ((5, 0), (20, 0))) and not crosses(((0, 0), (4, 0)), ((5, 0), (20, 0)))


def test_every_board_of_a_bench_that_is_seen_has_a_place() -> None:
    members = bench()
    best = best_places(members, VIEWS["isometric"])
    assert len(best) > len(members) / 2
    assert all(far > 0 for _, far in best.values())
