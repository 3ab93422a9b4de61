"""Adapters out: drawings (SVG, PDF), the customer's paper, the workshop's sheet, lists as CSV.

Importing this package loads no PDF library: what needs one is imported when it is first asked for.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from .csv_lists import cut_list_csv, shopping_list_csv
from .drawing.draw import draw, paper_drawings
from .drawing.model import Drawing
from .drawing.svg import render as svg

if TYPE_CHECKING:
    from yardwright.domain.quote import Quote

    from .drawing.pdf import Drawn

__all__ = ["Drawing", "cut_list_csv", "draw", "paper_drawings", "pdf_flowable", "quote_pdf", "shop_sheet_pdf",
           "shopping_list_csv", "svg"]


def pdf_flowable(drawing: Drawing, width_pt: float, most_height_pt: float | None = None) -> Drawn:
    """The drawing as a reportlab flowable, ``width_pt`` wide and no higher than ``most_height_pt``."""
    from .drawing.pdf import pdf_flowable as flowable

    return flowable(drawing, width_pt, most_height_pt)


def quote_pdf(quote: Mapping[str, Any], drawings: Sequence[Drawing],
              signature: Mapping[str, Any] | None = None) -> bytes:
    """The customer's paper from the quote's JSON; ``drawings`` as ``paper_drawings`` gives them, each item's.

    ``signature``: {strokes: [[[x, y], ...], ...], name, place, time}, y downwards as on a screen.
    """
    from .paper.compose import quote_pdf as compose

    return compose(quote, drawings, signature)


def shop_sheet_pdf(quote: Quote, drawings: Sequence[Drawing]) -> bytes:
    """The workshop's packet of a quote: pictures, shopping, cutting, assembly, hours, checks, build-up."""
    from .sheet.compose import shop_sheet_pdf as compose

    return compose(quote, drawings)
