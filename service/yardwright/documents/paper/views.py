"""Measured views set in rows: one scale for all of an item's views, captions under them."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable, KeepTogether, Spacer

from ..drawing.model import Drawing, Text
from ..drawing.pdf import Drawn
from ..pages.tables import plain
from ..pages.words import CAPTION, para

_CAPTIONS = {"front": "Front", "side": "Right side", "plan": "From above", "isometric": "Open",
             "inside": "With the parts marked so far taken off"}
_GAP = 16.0
_TALLEST, _TALLEST_COMPACT = 270.0, 170.0
_WORDS_PT = 8.7              # largest height of the words in a view


def view_rows(drawings: Sequence[Drawing], width: float, compact: bool = False) -> list[Flowable]:
    """Front and side in one row, plan and an open view in the next; compact: the first three in one row."""
    return [KeepTogether([Spacer(0, 4), row]) for row in view_tables(
        drawings, width, _TALLEST_COMPACT if compact else _TALLEST, compact)]


def view_tables(drawings: Sequence[Drawing], width: float, tallest: float,
                compact: bool = False) -> list[Flowable]:
    """The rows of views as tables, no row higher than ``tallest`` points."""
    def find(view: str, opened: bool) -> list[Drawing]:
        return [d for d in drawings if d.view == view and d.opened == opened][:1]

    front = find("front", False) + find("side", False)
    plan, opened = find("plan", False), find("side", True) or find("isometric", True)
    rows = [row for row in ([front + plan, opened] if compact else [front, plan + opened]) if row]
    measured = [d for row in rows for d in row if d.view != "isometric"]
    if not measured:
        return []
    scale = min(*(_row_scale(row, width, tallest) for row in rows), *(_word_scale(d) for d in measured))
    return [_row(row, scale, width) for row in rows]


def _row_scale(row: Sequence[Drawing], width: float, tallest_pt: float) -> float:
    """Points for a mm at which the row fills the page, no higher than is allowed."""
    wide = sum(d.bounds.width for d in row)
    high = max(d.bounds.height for d in row)
    return min((width - _GAP * (len(row) - 1)) / wide, tallest_pt / high)


def _word_scale(drawing: Drawing) -> float:
    heights = [s.height_mm for s in drawing.shapes if isinstance(s, Text)]
    return _WORDS_PT / max(heights) if heights else 1e9


def _row(row: Sequence[Drawing], scale: float, width: float) -> Flowable:
    sizes = [d.bounds.width * scale for d in row]
    spare = (width - sum(sizes)) / len(row)
    cells = [[Drawn(d, size), Spacer(0, 2), para(_caption(d), CAPTION)]
             for d, size in zip(row, sizes, strict=True)]
    return plain([cells], [s + spare for s in sizes],
                 (("VALIGN", (0, 0), (-1, -1), "BOTTOM"), ("ALIGN", (0, 0), (-1, -1), "CENTER")))


def _caption(drawing: Drawing) -> str:
    said = _CAPTIONS.get(drawing.view, drawing.title)
    return f"{said}, open" if drawing.opened and drawing.view != "isometric" else said
