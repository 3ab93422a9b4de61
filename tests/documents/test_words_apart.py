"""Words that never meet, in every view and part drawing of every template at sizes drawn by lot."""

from __future__ import annotations

from itertools import combinations

import pytest

from documents.pieces import TEMPLATES, parts_of, random_piece
from yardwright.documents.drawing.callouts import crosses, crosses_box, grown
from yardwright.documents.drawing.draw import draw
from yardwright.documents.drawing.marked import workshop_drawings
from yardwright.documents.drawing.model import Bounds, Drawing, Line, Text, text_box
from yardwright.documents.drawing.part_drawing import part_drawing, worth_drawing
from yardwright.domain.errors import Refused
from yardwright.domain.measure import Writer
from yardwright.domain.piece.model import Piece

SEEDS = range(4)


def pieces() -> list[tuple[Piece, str]]:
    found = []
    for name in TEMPLATES:
        for seed in SEEDS:
            try:
                found.append(random_piece(name, seed))
            except Refused:
                continue
    return found


PIECES = pieces()


def boxes(drawing: Drawing) -> list[tuple[str, Bounds]]:
    return [(s.text, text_box(s)) for s in drawing.shapes if isinstance(s, Text)]


def apart(drawing: Drawing) -> None:
    """No words on words, none beyond the edge, no dimension line or leader through words."""
    words = boxes(drawing)
    assert not [(a, b) for (a, x), (b, y) in combinations(words, 2) if x.overlaps(y)], drawing.title
    rim = drawing.bounds
    assert all(rim.low[0] <= b.low[0] and b.high[0] <= rim.high[0] and rim.low[1] <= b.low[1]
               and b.high[1] <= rim.high[1] for _, b in words)
    for shape in drawing.shapes:
        if isinstance(shape, Line) and shape.style in ("dimension", "leader") and len(shape.points) == 2:
            struck = [t for t, b in words if crosses_box((shape.points[0], shape.points[1]),
                                                         grown(b, -0.2 * (b.high[1] - b.low[1])))]
            assert not struck, (drawing.title, struck)


def smallest_px(drawing: Drawing) -> float:
    """Height of the smallest words when the drawing is 360 px wide."""
    return min(s.height_mm for s in drawing.shapes if isinstance(s, Text)) / drawing.bounds.width * 360


def test_lots_give_pieces_of_every_template() -> None:
    assert {piece.template.id for piece, _ in PIECES} == set(TEMPLATES)
    assert len(PIECES) >= 2 * len(TEMPLATES)


@pytest.mark.parametrize("view", ["front", "side", "plan"])
def test_words_of_the_views_stand_clear_and_read_on_a_phone(view: str) -> None:
    for piece, units in PIECES:
        for opened in {False, bool(piece.moving)}:
            drawing = draw(piece, view, units, opened)
            apart(drawing)
            assert smallest_px(drawing) >= 10, drawing.title


def test_words_of_part_drawings_stand_clear_and_read_on_a_phone() -> None:
    for piece, units in PIECES:
        for part in parts_of(piece):
            if worth_drawing(part):
                drawing = part_drawing(piece, part, Writer(units))
                apart(drawing)
                assert smallest_px(drawing) >= 10, drawing.title


def test_every_mark_stands_in_one_balloon_and_no_leader_meets_another() -> None:
    for piece, units in PIECES:
        parts = parts_of(piece)
        drawn = workshop_drawings(piece, parts, units)
        shown = [text for d in drawn for text, _ in boxes(d) if text in {p.mark for p in parts}]
        assert sorted(shown) == sorted(p.mark for p in parts), piece.template.name
        for drawing in drawn:
            apart(drawing)
            leaders = [(s.points[0], s.points[1]) for s in drawing.shapes
                       if isinstance(s, Line) and s.style == "leader"]
            assert not [pair for pair in combinations(leaders, 2) if crosses(*pair)], drawing.title
