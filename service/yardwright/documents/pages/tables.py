"""Tables: quiet rules, numbers to the right, rows that may break over a page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TypeAlias

from reportlab.platypus import CondPageBreak, Flowable, Table

from ..faces import REGULAR
from .words import ACCENT, HEAD_RIGHT, ITEM, LABEL, RULE, SECTION, SMALL, para

_FACE = ("FONTNAME", (0, 0), (-1, -1), REGULAR)

Cell: TypeAlias = Flowable | Sequence[Flowable] | str


class Rows(Table):  # type: ignore[misc]
    """A table that breaks between rows; a row breaks only where no page is high enough for it."""

    _PAGE_PT = 500.0             # with less than this left a row that does not fit waits for the next page

    def split(self, available_width: float, available_height: float) -> list[Flowable]:
        """First between rows; inside one only on a page that is nearly empty."""
        self.splitInRow = 0
        parts: list[Flowable] = super().split(available_width, available_height)
        if not parts and available_height > self._PAGE_PT:
            self.splitInRow = 1
            parts = super().split(available_width, available_height)
        return parts


def plain(rows: Sequence[Sequence[Cell]], widths: Sequence[float], more: Sequence[tuple[Any, ...]] = (),
          pad: float = 0.0) -> Table:
    """Cells side by side, no rules."""
    table = Table([list(r) for r in rows], colWidths=list(widths), hAlign="LEFT", splitInRow=1)
    table.setStyle([("VALIGN", (0, 0), (-1, -1), "TOP"), _FACE, ("LEFTPADDING", (0, 0), (-1, -1), pad),
                    ("RIGHTPADDING", (0, 0), (-1, -1), pad), ("TOPPADDING", (0, 0), (-1, -1), pad),
                    ("BOTTOMPADDING", (0, 0), (-1, -1), pad), *more])
    return table


def ruled(head: Sequence[str], rows: Sequence[Sequence[Cell]], widths: Sequence[float],
          right: Sequence[int] = (), more: Sequence[tuple[Any, ...]] = (),
          together: Sequence[int] = ()) -> Table:
    """A headed table with a thin rule under every row; ``right`` names the columns set to the right.

    A row named in ``together``, counted from 0, stays on the page of the row after it.
    """
    heads = [[para(word, HEAD_RIGHT if i in right else LABEL) for i, word in enumerate(head)]]
    table = Rows([*heads, *(list(r) for r in rows)], colWidths=list(widths), hAlign="LEFT", repeatRows=1)
    kept = [("NOSPLIT", (0, row + 1), (-1, row + 2)) for row in together]
    table.setStyle([
        ("VALIGN", (0, 0), (-1, -1), "TOP"), _FACE, ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 6), ("RIGHTPADDING", (-1, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), 3), ("BOTTOMPADDING", (0, 0), (-1, -1), 3.4),
        ("LINEBELOW", (0, 0), (-1, 0), 0.8, ACCENT), ("LINEBELOW", (0, 1), (-1, -1), 0.35, RULE),
        *kept, *more])
    return table


def section(title: str, room_pt: float = 90.0) -> list[Flowable]:
    """A section's heading, on the next page where less than ``room_pt`` is left under it."""
    return [CondPageBreak(room_pt), para(title, SECTION)]


def subhead(name: str, room_pt: float = 60.0) -> list[Flowable]:
    """A smaller heading inside a section, kept off the foot of the page in the same way."""
    return [CondPageBreak(room_pt), para(name, ITEM)]


def facts(pairs: Sequence[tuple[str, object]], width: float, label: float = 78.0) -> Table:
    """Small label, then the fact, one a row; facts without words are left out."""
    rows = [[para(name, LABEL), para(value, SMALL)] for name, value in pairs if str(value or "").strip()]
    return plain(rows or [["", ""]], (label, width - label), (("BOTTOMPADDING", (0, 0), (-1, -1), 1.6),))
