"""A board, sheet or roll with its parts: marks and sizes in them, offcuts to keep named, waste hatched.

Narrow boards are drawn wider than they are, so that marks can be read; lengths are to scale.
"""

from __future__ import annotations

from yardwright.domain.cutting.model import Layout, Offcut, Placed
from yardwright.domain.measure import Writer, to_mm

from ..drawing.model import Drawing, Line, Shape, Text
from ..drawing.shapes import fitted, hatched, rectangle

_NARROWEST = 1 / 20          # drawn width against length, at least
_WORDS = 0.0155              # height of the words against the length


def board_diagram(layout: Layout, writer: Writer) -> Drawing:
    """One layout as a picture, the length from left to right."""
    long, wide = to_mm(layout.length_nm), to_mm(layout.width_nm)
    stretch = max(1.0, long * _NARROWEST / wide)
    words = _WORDS * max(long, wide * stretch)
    board = ((0.0, 0.0), (long, 0.0), (long, wide * stretch), (0.0, wide * stretch))
    shapes: list[Shape] = [*hatched(board, 0.6 * words)]
    for offcut in layout.offcuts:
        shapes += _offcut(offcut, stretch, words, writer)
    for part in layout.parts:
        shapes += _part(part, stretch, words, writer)
    shapes.append(Line(board, "outline", closed=True))
    return Drawing(layout.code, tuple(shapes), _said(layout, writer), "cutting", margin_mm=0.2 * words)


def _part(part: Placed, stretch: float, words: float, writer: Writer) -> list[Shape]:
    """A part in a light tone: its mark, and its size where there is room."""
    x, y, long, wide = _place(part, stretch)
    shapes: list[Shape] = [rectangle(x, y, long, wide, 0.9, "visible")]
    middle = (x + long / 2, y + wide / 2)
    sized = f"{part.mark}   {writer.length(part.length_nm)}"
    if fitted(sized, long * 0.94, wide * 0.9, words, words):
        return [*shapes, Text(middle, sized, words, bold=True)]
    height = fitted(part.mark, long * 0.9, wide * 0.9, words)
    return [*shapes, Text(middle, part.mark, height, bold=True)]


def _offcut(offcut: Offcut, stretch: float, words: float, writer: Writer) -> list[Shape]:
    """An offcut worth keeping is blank with its length; the rest stays hatched."""
    if not offcut.kept:
        return []
    x, y, long, wide = _place(offcut, stretch)
    shapes: list[Shape] = [rectangle(x, y, long, wide, 1.0, "thin")]
    text = f"keep {writer.length(offcut.length_nm)}"
    height = fitted(text, long * 0.9, wide * 0.9, words, 0.6 * words)
    return [*shapes, Text((x + long / 2, y + wide / 2), text, height)] if height else shapes


def _place(one: Placed | Offcut, stretch: float) -> tuple[float, float, float, float]:
    return (to_mm(one.x_nm), to_mm(one.y_nm) * stretch, to_mm(one.length_nm), to_mm(one.width_nm) * stretch)


def _said(layout: Layout, writer: Writer) -> str:
    parts = ", ".join(f"{p.mark} {writer.length(p.length_nm)}" for p in layout.parts)
    return f"{layout.code}, {writer.length(layout.length_nm)} long: {parts}"
