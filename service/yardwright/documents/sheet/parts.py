"""Parts in pictures: the views with every part's mark, and each part that has shape work by itself."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable, KeepTogether, Spacer

from yardwright.domain.measure import Writer
from yardwright.domain.quote import QuotedItem

from ..drawing.glue_up import glue_up_drawings
from ..drawing.marked import workshop_drawings
from ..drawing.model import Drawing, picture
from ..drawing.part_drawing import part_drawing, worth_drawing
from ..drawing.pdf import Drawn, legible
from ..pages.tables import plain, section, subhead
from ..pages.words import CAPTION, FAINT, STRONG, para
from ..paper.views import view_tables, words_mm

_ACROSS = 2                  # part drawings in a row
_GAP = 18.0
_FILLED = 0.42               # of its half of the page: a part drawn smaller gets the whole width
_TALLEST_WHOLE = 330.0
_TALLEST, _TALLEST_INSIDE, _TALLEST_ROW = 180.0, 230.0, 185.0


def marked_views(item: QuotedItem, number: int, units: str, opened: Sequence[Drawing],
                 width: float) -> list[Flowable]:
    """The measured views with balloons, the open ones, then the inside layer by layer, two in a row."""
    drawn = workshop_drawings(item.piece, item.parts, units, number,
                              lambda views: words_mm([*views, *opened], width, _TALLEST_ROW))
    views = [*(d for d in drawn if d.view != "inside"), *opened]
    story: list[Flowable] = [KeepTogether([Spacer(0, 4), row])
                             for row in view_tables(views, width, _TALLEST_ROW)]
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
        half: list[Sequence[Flowable]] = [
            [para(f"{d.title}, {d.notes[0]}", STRONG), para("Cut through, looking at its end", FAINT),
             Spacer(0, 3), Drawn(legible(d, each, _TALLEST), each, _TALLEST, align="LEFT")]
            for d in glue_up_drawings(item.piece, item.parts, writer)]
        whole: list[Sequence[Flowable]] = []
        for part in item.parts:
            if worth_drawing(part):
                drawing, drawn = in_room(part_drawing(item.piece, part, writer), each, width)
                kept = half if drawn.width < each + 1.0 else whole
                kept.append([para(f"{drawing.title}, {part.count} to make", STRONG),
                             para("; ".join(part.shape), FAINT), Spacer(0, 3), drawn])
        if (half or whole) and len(items) > 1:
            story += subhead(name, 180.0)
        for start in range(0, len(half), _ACROSS):
            story.append(KeepTogether([_row(half[start:start + _ACROSS], each), Spacer(0, 9)]))
        story += [KeepTogether([*cell, Spacer(0, 9)]) for cell in whole]
    told = ("Looked at on the face with most work; under it the lower edge, to its right the right end. "
            "Lengths are long point to long point, with both ends cut before notches and tapers; angles are "
            "off square as the saw is set; the grain runs along. Long plain parts are drawn short.")
    if not story:
        return []
    return [*section("Parts with work on them", 320.0), para(told, FAINT), Spacer(0, 6), *story]


def in_room(drawing: Drawing, half_pt: float, whole_pt: float) -> tuple[Drawing, Drawn]:
    """A part half a page wide; where its many sizes would leave the part itself small, on the whole width."""
    narrow = legible(drawing, half_pt, _TALLEST)
    drawn = Drawn(narrow, half_pt, _TALLEST, align="LEFT")
    if picture(narrow).width * drawn.scale >= _FILLED * half_pt:
        return narrow, drawn
    wide = legible(drawing, whole_pt, _TALLEST_WHOLE)
    return wide, Drawn(wide, whole_pt, _TALLEST_WHOLE, align="LEFT")


def _row(cells: Sequence[Flowable | Sequence[Flowable] | str], each: float) -> Flowable:
    count = 2
    filled = [*cells, *[""] * (count - len(cells))]
    return plain([[filled[0], "", filled[1]]], (each, _GAP, each), (("VALIGN", (0, 0), (-1, -1), "TOP"),))
