"""Whether the words of a drawing stand clear of each other, of its edge and of its measuring lines."""

from __future__ import annotations

from itertools import combinations

from yardwright.documents.drawing.callouts import crosses_box, grown
from yardwright.documents.drawing.model import Bounds, Drawing, Line, Text, text_box


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
