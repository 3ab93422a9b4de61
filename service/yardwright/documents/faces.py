"""The faces a PDF is set in: Source Sans from its package, embedded; and what they can print.

Source Sans has fractions, Latin, Greek and Cyrillic. A character it lacks is replaced by one that shows
something is missing, never dropped and never an error.
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from unicodedata import normalize

import font_source_sans_pro
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

REGULAR, SEMIBOLD, BOLD = "Yard-Regular", "Yard-Semibold", "Yard-Bold"
_FILES = {REGULAR: "SourceSansPro-Regular.ttf", SEMIBOLD: "SourceSansPro-Semibold.ttf",
          BOLD: "SourceSansPro-Bold.ttf"}

# Signs with a near neighbour in the face; anything else that is missing becomes MISSING.
_NEAR = {"⌀": "Ø", "\u2011": "-", "\u00ad": "", "\u202f": "\u00a0", "\u2009": " ", "\u200b": "", "\ufeff": "",
         "\t": " ", "\r": " ", "\n": " "}
MISSING = "\u2610"


@lru_cache(maxsize=1)
def register() -> frozenset[int]:
    """Make the faces known to reportlab, once a process; answers the characters all of them have."""
    folder = Path(next(iter(font_source_sans_pro.__path__))) / "files"
    known: set[int] | None = None
    for name, file in _FILES.items():
        face = TTFont(name, str(folder / file))
        pdfmetrics.registerFont(face)
        glyphs = set(face.face.charToGlyph)
        known = glyphs if known is None else known & glyphs
    pdfmetrics.registerFontFamily(REGULAR, normal=REGULAR, bold=SEMIBOLD, italic=REGULAR, boldItalic=BOLD)
    return frozenset(known or ())


def printable(text: str) -> str:
    """The text with every character that the faces lack replaced by a near one or by a visible box."""
    known = register()
    return "".join(c if ord(c) in known and ord(c) >= 32 else _NEAR.get(c, MISSING)
                   for c in normalize("NFC", text))
