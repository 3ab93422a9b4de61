"""Parts in pictures: the views with every part's mark, and each part that has shape work by itself."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable, KeepTogether, Spacer

from yardwright.domain.measure import Writer
from yardwright.domain.quote import QuotedItem

from ..drawing.marked import workshop_drawings
from ..drawing.model import Drawing
from ..drawing.part_drawing import part_drawing, worth_drawing
from ..drawing.pdf import Drawn
from ..pages.tables import plain, section, subhead
from ..pages.words import CAPTION, FAINT, STRONG, para
from ..paper.views import view_rows

_ACROSS = 2                  # part drawings in a row
_GAP = 18.0
_TALLEST, _TALLEST_INSIDE = 150.0, 230.0


def marked_views(item: QuotedItem, number: int, units: str, opened: Sequence[Drawing],
                 width: float) -> list[Flowable]:
    """The measured views with balloons, the open ones, then the inside layer by layer, two in a row."""
    drawn = workshop_drawings(item.piece, item.parts, units, number)
    story = view_rows([*(d for d in drawn if d.view != "inside"), *opened], width)
    insides = [d for d in drawn if d.view == "inside"]
    each = (width - _GAP) / 2
    for start in range(0, len(insides), 2):
        cells: list[Flowable | Sequence[Flowable] | str] = [
            [Drawn(d, each, _TALLEST_INSIDE), Spacer(0, 2),
             para("With the parts marked so far taken off", CAPTION)] for d in insides[start:start + 2]]
        story.append(KeepTogether([Spacer(0, 6), _row(cells, each)]))
    return story


def part_sheets(items: Sequence[QuotedItem], names: Sequence[str], writer: Writer,
                width: float) -> list[Flowable]:
    """Every part with shape work as it is marked out: face, edge, end, all its sizes and angles."""
    story: list[Flowable] = []
    each = (width - _GAP) / _ACROSS
    for item, name in zip(items, names, strict=True):
        cells: list[Flowable | Sequence[Flowable] | str] = []
        for part in item.parts:
            if worth_drawing(part):
                drawing = part_drawing(item.piece, part, writer)
                cells.append([para(f"{drawing.title}, {part.count} to make", STRONG),
                              para("; ".join(part.shape), FAINT), Spacer(0, 3),
                              Drawn(drawing, each, _TALLEST, align="LEFT")])
        if cells and len(items) > 1:
            story += subhead(name, 180.0)
        for start in range(0, len(cells), _ACROSS):
            story.append(KeepTogether([_row(cells[start:start + _ACROSS], each), Spacer(0, 9)]))
    told = ("Looked at on the face with most work; under it the lower edge, to its right the right end. "
            "Lengths are long point to long point; angles are off square as the saw is set. Long plain "
            "parts are drawn short.")
    if not story:
        return []
    return [*section("Parts with work on them", 220.0), para(told, FAINT), Spacer(0, 6), *story]


def _row(cells: Sequence[Flowable | Sequence[Flowable] | str], each: float) -> Flowable:
    count = 2
    filled = [*cells, *[""] * (count - len(cells))]
    return plain([[filled[0], "", filled[1]]], (each, _GAP, each), (("VALIGN", (0, 0), (-1, -1), "TOP"),))
