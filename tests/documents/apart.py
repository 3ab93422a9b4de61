"""Whether the words of a drawing stand clear of each other, of its edge and of its measuring lines."""

from __future__ import annotations

from itertools import combinations

from documents.dimensions import Measured, measured
from yardwright.documents.drawing.callouts import crosses_box, grown
from yardwright.documents.drawing.model import Bounds, Drawing, Line, Text, text_box


def boxes(drawing: Drawing) -> list[tuple[str, Bounds]]:
    return [(s.text, text_box(s)) for s in drawing.shapes if isinstance(s, Text)]


def apart(drawing: Drawing) -> None:
    """No words on words, none beyond the edge, no dimension line or leader through words or on another."""
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
    sizes = measured(drawing)
    assert not [(a, b) for a, b in combinations(sizes, 2) if share_a_line(a, b)], drawing.title


def share_a_line(one: Measured, other: Measured) -> bool:
    """Whether two dimension lines lie on each other over more than a point."""
    for across in (0, 1):
        along = 1 - across
        levels = [t[across] for m in (one, other) for t in m.tips]
        if max(levels) - min(levels) < 1.0:
            (a, b), (c, d) = (sorted(t[along] for t in m.tips) for m in (one, other))
            return min(b, d) - max(a, c) > 0.5
    return False
