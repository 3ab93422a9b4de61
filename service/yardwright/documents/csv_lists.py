"""The cut list and the shopping list as CSV (RFC 4180), for a spreadsheet or the yard's e-mail.

A cell that a spreadsheet would run as a formula gets an apostrophe in front: a name typed by a customer
must not become a command on the shop's computer.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from io import StringIO
from typing import TYPE_CHECKING

from yardwright.domain.measure import Writer, to_mm

if TYPE_CHECKING:
    from yardwright.domain.quote import Quote

# First characters that spreadsheets take for a formula, a tab or line end before one included.
_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")


def cut_list_csv(quote: Quote) -> str:
    """One line a part, lengths in words and in mm."""
    writer = Writer(quote.job.units)
    head = ("mark", "part", "hand", "count", "timber", "section", "grade", "first cut", "length", "width",
            "thickness", "first cut mm", "length mm", "width mm", "thickness mm", "goes into", "work",
            "notes")
    rows = [(p.mark, p.name, p.hand, p.count, p.timber, p.section, p.grade,
             *(writer.length(nm) for nm in (p.rough_length_nm, p.length_nm, p.width_nm, p.thickness_nm)),
             *(_mm(nm) for nm in (p.rough_length_nm, p.length_nm, p.width_nm, p.thickness_nm)),
             p.made_of, "; ".join(p.shape), "; ".join(p.notes))
            for item in quote.items for p in item.parts]
    return _written(head, rows)


def shopping_list_csv(quote: Quote) -> str:
    """Stock first, then hardware; amounts as decimals, their currency beside them."""
    from .sheet.names import each, stock_name

    writer = Writer(quote.job.units)
    head = ("code", "name", "kind", "length", "length mm", "count", "of them spare", "each", "amount",
            "currency")
    rows: list[Sequence[object]] = [
        (s.stock.code, stock_name(s), "on hand" if s.on_hand else s.kind, writer.length(s.length_nm),
         _mm(s.length_nm), s.count, s.spares, each(s).text(), s.amount.text(), s.amount.currency)
        for s in quote.stock]
    rows += [(h.goods.code, h.goods.name, h.goods.kind, "", "", h.packs, "", h.goods.price.text(),
              h.goods.price.times(h.packs).text(), h.goods.price.currency) for h in quote.hardware]
    return _written(head, rows)


def _mm(nm: int) -> str:
    return f"{to_mm(nm):.1f}"


def _written(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    out = StringIO()
    table = csv.writer(out)
    table.writerow(head)
    table.writerows([harmless(cell) for cell in row] for row in rows)
    return out.getvalue()


def harmless(cell: object) -> str:
    """A cell as text that no spreadsheet runs; numbers, negative ones too, stay numbers."""
    text = str(cell)
    if not text.startswith(_STARTS):
        return text
    try:
        float(text)
    except ValueError:
        return f"'{text}"
    return text.strip()
