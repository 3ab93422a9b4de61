"""Words that never meet, in every view and part drawing of every template at sizes drawn by lot."""

from __future__ import annotations

import os
from itertools import combinations

import pytest

from documents.apart import apart, boxes
from documents.pieces import TEMPLATES, parts_of, random_piece
from yardwright.documents.drawing.callouts import crosses
from yardwright.documents.drawing.draw import draw
from yardwright.documents.drawing.marked import workshop_drawings
from yardwright.documents.drawing.model import Drawing, Line, Text
from yardwright.documents.drawing.part_drawing import part_drawing, worth_drawing
from yardwright.documents.drawing.pdf import legible
from yardwright.documents.paper.views import fitted, words_mm
from yardwright.documents.sheet.parts import in_room
from yardwright.domain.errors import Refused
from yardwright.domain.measure import Writer
from yardwright.domain.piece.model import Piece

SEEDS = range(int(os.environ.get("PIECES", "4")))
VIEWS = ("front", "side", "plan", "isometric")
ROOMS = ((520.0, 250.0), (251.0, 170.0))     # a row of a page to itself, and half of one


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


def smallest_px(drawing: Drawing) -> float:
    """Height of the smallest words when the drawing is 360 px wide."""
    return min(s.height_mm for s in drawing.shapes if isinstance(s, Text)) / drawing.bounds.width * 360


def smallest_pt(drawing: Drawing, room: tuple[float, float]) -> float:
    """Height of the smallest words when the drawing is printed into this room."""
    scale = min(room[0] / drawing.bounds.width, room[1] / drawing.bounds.height)
    return min(s.height_mm for s in drawing.shapes if isinstance(s, Text)) * scale


def test_lots_give_pieces_of_every_template() -> None:
    assert {piece.template.id for piece, _ in PIECES} == set(TEMPLATES)
    assert len(PIECES) >= 2 * len(TEMPLATES)


@pytest.mark.parametrize("view", VIEWS)
def test_words_of_the_views_stand_clear_and_read_on_a_phone(view: str) -> None:
    for piece, units in PIECES:
        for opened in {False, bool(piece.moving)}:
            drawing = draw(piece, view, units, opened)
            apart(drawing)
            assert view == "isometric" or smallest_px(drawing) >= 10, drawing.title


@pytest.mark.parametrize("view", VIEWS)
def test_words_of_the_views_stand_clear_on_paper_in_inches_and_mm(view: str) -> None:
    for piece, _ in PIECES:
        for units in ("in", "mm"):
            drawing = draw(piece, view, units, text_mm=20.0)
            for room in ROOMS:
                on_paper = legible(drawing, *room)
                apart(on_paper)
                assert view == "isometric" or smallest_pt(on_paper, room) >= 9, drawing.title


def test_words_of_three_views_in_one_row_stand_clear_on_paper() -> None:
    for piece, units in PIECES:
        rows, scale = fitted([draw(piece, v, units, text_mm=20.0) for v in VIEWS[:3]], 520.0, 170.0, True)
        for drawing in rows[0]:
            apart(drawing)
            # Three abreast leave the least room; there words are at most an eighth of a view high.
            assert min(s.height_mm for s in drawing.shapes if isinstance(s, Text)) * scale >= 8.5


def test_words_of_part_drawings_stand_clear_and_read_on_a_phone() -> None:
    for piece, units in PIECES:
        for part in parts_of(piece):
            if worth_drawing(part):
                drawing = part_drawing(piece, part, Writer(units))
                apart(drawing)
                assert smallest_px(drawing) >= 10, drawing.title
                on_paper, drawn = in_room(drawing, 251.0, 520.0)
                apart(on_paper)
                assert smallest_pt(on_paper, (drawn.width, drawn.height)) >= 9, drawing.title
                assert drawn.width >= 200 and drawn.height <= 330, drawing.title


def test_every_mark_stands_in_one_balloon_and_no_leader_meets_another() -> None:
    for piece, units in PIECES:
        parts = parts_of(piece)
        drawn = workshop_drawings(piece, parts, units, 0, lambda views: words_mm(views, 520.0, 185.0))
        shown = [text for d in drawn for text, _ in boxes(d) if text in {p.mark for p in parts}]
        assert sorted(shown) == sorted(p.mark for p in parts), piece.template.name
        for drawing in drawn:
            apart(drawing)
            leaders = [(s.points[0], s.points[1]) for s in drawing.shapes
                       if isinstance(s, Line) and s.style == "leader"]
            assert not [pair for pair in combinations(leaders, 2) if crosses(*pair)], drawing.title
