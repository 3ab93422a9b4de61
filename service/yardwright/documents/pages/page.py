"""The page: size, frame, foot with page x of y, and the band that says the prices are a demonstration."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Any

from reportlab.lib.pagesizes import A4, LETTER
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate

from ..faces import REGULAR, SEMIBOLD, printable, register
from .words import ACCENT, INK, RULE, SOFT

DEMONSTRATION = "DEMONSTRATION PRICES"
MARGIN = 46.0
_FOOT = 50.0
_BAND = 17.0
_FOOT_PT = 9.0


@dataclass(frozen=True, slots=True)
class Paper:
    """What the frame of every page says. ``units`` "in" prints on Letter, "mm" on A4."""

    title: str
    author: str
    foot: str
    units: str
    demonstration: bool
    code: str = ""               # short code of the seal

    @property
    def size(self) -> tuple[float, float]:
        wide, high = LETTER if self.units == "in" else A4
        return float(wide), float(high)

    @property
    def width(self) -> float:
        """Width of what is printed between the margins, in points."""
        return self.size[0] - 2 * MARGIN


def build(paper: Paper, story: Sequence[Flowable]) -> bytes:
    """The PDF; the same paper and story give the same bytes."""
    register()
    out = BytesIO()
    wide, high = paper.size
    top = MARGIN + (_BAND if paper.demonstration else 0.0)
    frame = Frame(MARGIN, _FOOT, paper.width, high - _FOOT - top, 0, 0, 0, 0)
    document = BaseDocTemplate(out, pagesize=(wide, high), invariant=1, title=printable(paper.title),
                               author=printable(paper.author), lang="en", displayDocTitle=True)
    document.addPageTemplates([PageTemplate(frames=[frame])])
    document.build(list(story), canvasmaker=_counting(paper))
    return out.getvalue()


def _counting(paper: Paper) -> type[Canvas]:
    """A canvas that keeps its pages until their number is known, then prints foot and band on each."""

    class Counting(Canvas):  # type: ignore[misc]
        def __init__(self, *args: Any, **words: Any) -> None:
            super().__init__(*args, **{**words, "initialFontName": REGULAR})
            self.kept: list[dict[str, Any]] = []

        def showPage(self) -> None:
            self.kept.append(dict(self.__dict__))
            self._startPage()

        def save(self) -> None:
            for number, state in enumerate(self.kept, 1):
                self.__dict__.update(state)
                _furniture(self, paper, number, len(self.kept))
                super().showPage()
            super().save()

    return Counting


def _furniture(canvas: Canvas, paper: Paper, number: int, count: int) -> None:
    wide, high = paper.size
    canvas.saveState()
    canvas.setStrokeColor(RULE)
    canvas.setLineWidth(0.5)
    canvas.line(MARGIN, 38, wide - MARGIN, 38)
    canvas.setFillColor(SOFT)
    canvas.setFont(REGULAR, _FOOT_PT)
    code = f"   ·   seal {paper.code}" if paper.code else ""
    pages = f"Page {number} of {count}"
    room = paper.width - canvas.stringWidth(f"{code}{pages}    ", REGULAR, _FOOT_PT)
    canvas.drawString(MARGIN, 27, shortened(canvas, printable(paper.foot), room, _FOOT_PT) + printable(code))
    canvas.drawRightString(wide - MARGIN, 27, pages)
    if paper.demonstration:
        _band(canvas, wide, high)
    canvas.restoreState()


def shortened(canvas: Canvas, text: str, room: float, size: float) -> str:
    """The text cut to the room with an ellipsis."""
    if canvas.stringWidth(text, REGULAR, size) <= room:
        return text
    while text and canvas.stringWidth(text + "…", REGULAR, size) > room:
        text = text[:-1]
    return text + "…"


def _band(canvas: Canvas, wide: float, high: float) -> None:
    """Across the top of the page, in a frame that black-and-white print keeps."""
    low = high - 38.0
    canvas.setStrokeColor(INK)
    canvas.setFillGray(0.9)
    canvas.setLineWidth(0.9)
    canvas.rect(MARGIN, low, wide - 2 * MARGIN, _BAND, fill=1)
    canvas.setFillColor(ACCENT)
    canvas.setFont(SEMIBOLD, 9)
    told = f"{DEMONSTRATION}  –  not an offer: the shop has not set its own prices yet"
    canvas.drawCentredString(wide / 2, low + 5.2, told)
