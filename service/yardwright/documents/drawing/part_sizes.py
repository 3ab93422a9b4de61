"""The sizes of a part around its views: along under the edge, across beside the face, the thickness."""

from __future__ import annotations

from .features import SAME_MM
from .model import Shape, text_width
from .part_sheet import Sheet
from .shapes import beyond, dimension

_ROW = 1.9


def sizes(sheet: Sheet) -> list[Shape]:
    """All of them; each row and column keeps clear of the next."""
    return [*_along(sheet), *_across(sheet), *_right_end(sheet), *_thickness(sheet)]


def _along(sheet: Sheet) -> list[Shape]:
    """Under the edge view: shoulders and holes from the nearer end, short edges, the whole length."""
    whole, h, down, length = sheet.found.size[0], sheet.height, sheet.down, sheet.size[0]
    places = [*sheet.found.along_mm, *(hole.centre[0] for hole in sheet.found.holes)]
    spans = {(0.0, round(p, 1)) if p <= whole / 2 else (round(p, 1), whole) for p in places}
    spans |= {(round(min(a.start[0], a.end[0]), 1), round(max(a.start[0], a.end[0]), 1))
              for a in sheet.found.arcs if SAME_MM < abs(a.end[0] - a.start[0]) < whole - 1.0}
    words = [*((s, sheet.writer.mm(s[1] - s[0])) for s in spans), *sheet.short_edges()]
    shapes: list[Shape] = []
    off = 0.5 * h
    for (first, last), text in sorted(words, key=lambda w: (w[0][1] - w[0][0], w[0])):
        off += _ROW * h
        a, b = sheet.short(first), sheet.short(last)
        past = "near" if first == 0.0 else "far" if last > whole - 1.0 else "under"
        shapes += dimension((a, down), (b, down), text, h, off_mm=-off, gap_mm=0.4 * h, past=past)
        if past == "under" and beyond(text, b - a, h):
            off += 0.6 * h
    text = sheet.writer.length(sheet.part.length_nm)
    return [*shapes, *dimension((0.0, down), (length, down), text, h, off_mm=-off - _ROW * h, gap_mm=0.4 * h)]


def _across(sheet: Sheet) -> list[Shape]:
    """Left of the face: shoulders, holes and the feet of curves from the nearer edge, the whole width."""
    width, h = sheet.size[1], sheet.height
    feet = {round(p[1], 1) for arc in sheet.found.arcs for p in (arc.start, arc.end)}
    places = {round(p, 1) for p in (*sheet.found.across_mm, *(o.centre[1] for o in sheet.found.holes), *feet)
              if SAME_MM < p < width - SAME_MM}
    spans = [(0.0, p) if p <= width / 2 or p in feet else (p, width) for p in places]
    spans = [*sheet.narrowed(sheet.found.left_end), *sorted(spans, key=lambda s: (s[1] - s[0], s))]
    words = [(low, high, sheet.writer.mm(high - low)) for low, high in spans]
    shapes: list[Shape] = []
    off = 0.0
    for low, high, text in [*words, (0.0, width, sheet.writer.length(sheet.part.width_nm))]:
        off += text_width(text, h) / 2 + (1.2 * h if not off else 0.5 * h)
        shapes += dimension((0.0, low), (0.0, high), text, h, off_mm=off, gap_mm=0.4 * h,
                            past="far" if low > 0.0 else "near")
        off += text_width(text, h) / 2 + 0.5 * h
    return shapes


def _right_end(sheet: Sheet) -> list[Shape]:
    """Right of the face: the width of that end where it is narrower than the part."""
    h, x, off = sheet.height, sheet.size[0], 0.0
    shapes: list[Shape] = []
    for (low, high), text in sheet.right_words:
        off += text_width(text, h) / 2 + 1.2 * h
        shapes += dimension((x, low), (x, high), text, h, off_mm=-off, gap_mm=0.4 * h, past="near")
        off += text_width(text, h) / 2
    return shapes


def _thickness(sheet: Sheet) -> list[Shape]:
    """Left of the edge view."""
    h, down = sheet.height, sheet.down
    text = sheet.writer.length(sheet.part.thickness_nm)
    off = text_width(text, h) / 2 + 1.2 * h
    return list(dimension((0.0, down), (0.0, down + sheet.size[2]), text, h, off_mm=off, gap_mm=0.4 * h,
                          past="near"))
