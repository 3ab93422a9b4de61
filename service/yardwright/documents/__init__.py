"""Adapters out: drawings (SVG, PDF), the customer's paper, the workshop's sheet, lists as CSV.

Importing this package loads no PDF library: what needs one is imported when it is first asked for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from .drawing.draw import draw, paper_drawings
from .drawing.model import Drawing
from .drawing.svg import render as svg

if TYPE_CHECKING:
    from .drawing.pdf import Drawn

__all__ = ["Drawing", "draw", "paper_drawings", "pdf_flowable", "svg"]


def pdf_flowable(drawing: Drawing, width_pt: float, most_height_pt: float | None = None) -> Drawn:
    """The drawing as a reportlab flowable, ``width_pt`` wide and no higher than ``most_height_pt``."""
    from .drawing.pdf import pdf_flowable as flowable

    return flowable(drawing, width_pt, most_height_pt)
