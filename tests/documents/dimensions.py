"""The dimensions of a drawing read back: what is written, and from where to where its arrows reach."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from yardwright.documents.drawing.model import Drawing, Polygon, Text
from yardwright.domain.measure import read, to_mm

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Measured:
    """``said_mm`` is the figure written; the arrows' tips are in the drawing's mm."""

    text: str
    tips: tuple[Point, Point]

    @property
    def drawn_mm(self) -> float:
        (ax, ay), (bx, by) = self.tips
        return hypot(bx - ax, by - ay)

    @property
    def said_mm(self) -> float:
        return in_mm(self.text)


def in_mm(text: str) -> float:
    """The length a text begins with: ``109 1/2 in least`` is 2781.3."""
    unit = next(u for u in (" in", " mm") if u in text)
    return to_mm(read(text[:text.index(unit) + 3], None).nm)


def measured(drawing: Drawing) -> list[Measured]:
    """Every dimension: two arrows one after the other, then its words."""
    shapes, found = drawing.shapes, []
    for one, other, words in zip(shapes, shapes[1:], shapes[2:], strict=False):
        if _arrow(one) and _arrow(other) and isinstance(words, Text):
            assert isinstance(one, Polygon) and isinstance(other, Polygon)
            found.append(Measured(words.text, (one.points[0], other.points[0])))
    return found


def _arrow(shape: object) -> bool:
    return isinstance(shape, Polygon) and len(shape.points) == 3 and shape.tone == 0.15
