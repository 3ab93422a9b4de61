"""What a PDF really prints, read back by a library that did not write it: words, place, size, width."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from math import hypot
from typing import Any

from pypdf import PdfReader
from reportlab.pdfbase import pdfmetrics

from yardwright.documents.faces import BOLD, REGULAR, SEMIBOLD, register


@dataclass(frozen=True, slots=True)
class Word:
    """A run of words on a page; the corners of its line from foot to end, in points."""

    page: int
    text: str
    size_pt: float
    ends: tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Printed:
    size: tuple[float, float]
    words: tuple[Word, ...]

    @property
    def text(self) -> str:
        return " ".join(" ".join(word.text for word in self.words).split())


def printed(pdf: bytes) -> Printed:
    """Every run of words of every page."""
    register()
    reader = PdfReader(BytesIO(pdf))
    found: list[Word] = []
    for number, page in enumerate(reader.pages, 1):
        def seen(text: str, cm: list[float], tm: list[float], font: dict[str, Any] | None, size: float,
                 number: int = number) -> None:
            if text.strip():
                found.append(_word(number, text.strip(), cm, tm, font or {}, size))
        page.extract_text(visitor_text=seen)
    box = reader.pages[0].mediabox
    return Printed((float(box.width), float(box.height)), tuple(found))


def _word(page: int, text: str, cm: list[float], tm: list[float], font: dict[str, Any], size: float) -> Word:
    a, b = tm[0] * cm[0] + tm[1] * cm[2], tm[0] * cm[1] + tm[1] * cm[3]
    x = tm[4] * cm[0] + tm[5] * cm[2] + cm[4]
    y = tm[4] * cm[1] + tm[5] * cm[3] + cm[5]
    long = pdfmetrics.stringWidth(text, _face(str(font.get("/BaseFont", ""))), size)
    return Word(page, text, round(size * hypot(a, b), 2), ((x, y), (x + a * long, y + b * long)))


def _face(name: str) -> str:
    return SEMIBOLD if "Semibold" in name else BOLD if "Bold" in name else REGULAR
