"""Measured views set in rows: one scale for all of an item's views, captions under them."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable, KeepTogether, Spacer

from ..drawing.model import Drawing, picture, worded
from ..drawing.pdf import MOST_SHARE, WORDS_PT, Drawn
from ..pages.tables import plain
from ..pages.words import CAPTION, para

_CAPTIONS = {"front": "Front", "side": "Right side", "plan": "From above", "isometric": "Open",
             "inside": "With the parts marked so far taken off"}
_GAP = 16.0
_TALLEST, _TALLEST_COMPACT = 270.0, 170.0
_TRIES = 12


def view_rows(drawings: Sequence[Drawing], width: float, compact: bool = False) -> list[Flowable]:
    """Front and side in one row, plan and an open view in the next; compact: the first three in one row."""
    return [KeepTogether([Spacer(0, 4), row]) for row in view_tables(
        drawings, width, _TALLEST_COMPACT if compact else _TALLEST, compact)]


def view_tables(drawings: Sequence[Drawing], width: float, tallest: float,
                compact: bool = False) -> list[Flowable]:
    """The rows of views as tables, no row higher than ``tallest`` points."""
    rows, scale = fitted(drawings, width, tallest, compact)
    return [_row(row, scale, width) for row in rows]


def words_mm(drawings: Sequence[Drawing], width: float, tallest: float) -> float:
    """How high the words of these views must be in the drawings' own mm to read in their rows."""
    rows, scale = fitted(drawings, width, tallest)
    return _height(rows, scale)


def fitted(drawings: Sequence[Drawing], width: float, tallest: float,
           compact: bool = False) -> tuple[list[list[Drawing]], float]:
    """The views in rows with words that read at the scale at which all of them find room, and that scale."""
    rows = _in_rows(drawings, compact)
    before, scale = 0.0, min((_row_scale(row, width, tallest) for row in rows), default=1.0)
    for _ in range(_TRIES if rows else 0):
        if abs(scale - before) < 0.01 * scale:
            break
        rows = [[worded(d, _height(rows, scale)) for d in row] for row in rows]
        before, scale = scale, min(_row_scale(row, width, tallest) for row in rows)
    return rows, scale


def _height(rows: Sequence[Sequence[Drawing]], scale: float) -> float:
    """Of words that read at this scale, in the drawings' own mm."""
    seen = [picture(d) for row in rows for d in row]
    return min(WORDS_PT / scale, MOST_SHARE * max((max(s.width, s.height) for s in seen), default=1e9))


def _in_rows(drawings: Sequence[Drawing], compact: bool) -> list[list[Drawing]]:
    def find(view: str, opened: bool) -> list[Drawing]:
        return [d for d in drawings if d.view == view and d.opened == opened][:1]

    front = find("front", False) + find("side", False)
    plan, opened = find("plan", False), find("side", True) or find("isometric", True)
    rows = [row for row in ([front + plan, opened] if compact else [front, plan + opened]) if row]
    return rows if front or plan else []


def _row_scale(row: Sequence[Drawing], width: float, tallest_pt: float) -> float:
    """Points for a mm at which the row fills the page, no higher than is allowed."""
    wide = sum(d.bounds.width for d in row)
    high = max(d.bounds.height for d in row)
    return min((width - _GAP * (len(row) - 1)) / wide, tallest_pt / high)


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
