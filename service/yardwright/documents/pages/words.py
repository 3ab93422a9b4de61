"""Words, amounts and dates as papers print them.

Every word from outside passes ``say``: paragraph markup in it is printed, not obeyed (a name may not
embed a file or break the page), and a character the faces lack shows as a box.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from decimal import Decimal, InvalidOperation
from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib.colors import Color, HexColor, white
from reportlab.lib.enums import TA_CENTER, TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph

from ..faces import BOLD, REGULAR, SEMIBOLD, printable

INK: Color = HexColor("#1b1d1b")
SOFT: Color = HexColor("#4a504b")
RULE: Color = HexColor("#c8cdc8")
WASH: Color = HexColor("#f1f3f0")
ACCENT: Color = HexColor("#274536")

_SIGNS = {"USD": "$", "EUR": "€", "GBP": "£"}
_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
           "November", "December")


def _style(name: str, size: float, leading: float, face: str = REGULAR, colour: Color = INK,
           **more: Any) -> ParagraphStyle:
    return ParagraphStyle(name, fontName=face, fontSize=size, leading=leading, textColor=colour,
                          splitLongWords=1, bulletFontName=REGULAR, bulletFontSize=size, **more)


BODY = _style("body", 9.5, 12.7)
SMALL = _style("small", 9, 11.4)
FAINT = _style("faint", 9, 11.4, colour=SOFT)
LABEL = _style("label", 9, 11.4, SEMIBOLD, SOFT)
HEAD_RIGHT = _style("head right", 9, 11.4, SEMIBOLD, SOFT, alignment=TA_RIGHT)
STRONG = _style("strong", 9.5, 12.7, SEMIBOLD)
RIGHT = _style("right", 9.5, 12.7, alignment=TA_RIGHT)
RIGHT_STRONG = _style("right strong", 9.5, 12.7, SEMIBOLD, alignment=TA_RIGHT)
RIGHT_FAINT = _style("right faint", 9, 11.4, colour=SOFT, alignment=TA_RIGHT)
RIGHT_SMALL = _style("right small", 9, 11.4, alignment=TA_RIGHT)
CAPTION = _style("caption", 9, 11.4, colour=SOFT, alignment=TA_CENTER)
TITLE = _style("title", 24, 28, SEMIBOLD, ACCENT)
SHOP = _style("shop", 15, 18, SEMIBOLD, ACCENT)
TOTAL = _style("total", 19, 23, SEMIBOLD)
SECTION = _style("section", 12.5, 16, SEMIBOLD, ACCENT, spaceBefore=12, spaceAfter=5)
ITEM = _style("item", 11, 14, SEMIBOLD, spaceAfter=2)
BULLET = _style("bullet", 9.5, 12.7, leftIndent=11, bulletIndent=1, spaceAfter=1.5)
FINE = _style("fine", 9, 11.6, leftIndent=10, bulletIndent=1, spaceAfter=0.8)
NOTICE = _style("notice", 10.2, 13.4, BOLD)
BADGE = _style("badge", 9, 10.4, SEMIBOLD, alignment=TA_CENTER)
BADGE_DARK = _style("badge dark", 9, 10.4, SEMIBOLD, white, alignment=TA_CENTER)


def say(text: object) -> str:
    """Outside words made safe for a paragraph; line ends stay line ends."""
    lines = str("" if text is None else text).replace("\r\n", "\n").replace("\r", "\n").split("\n")
    return "<br/>".join(escape(printable(line)) for line in lines)


def para(text: object, style: ParagraphStyle = BODY) -> Paragraph:
    """A paragraph of outside words."""
    return Paragraph(say(text), style)


def bullet(text: object, style: ParagraphStyle = BULLET) -> Paragraph:
    """One point of a list."""
    return Paragraph(say(text), style, bulletText="–")


def amount(value: object, currency: str) -> str:
    """A decimal amount with its sign and thousands: ``$1,234.50``, ``−€20.00``, ``1,200.00 PLN``."""
    try:
        exact = Decimal(str(value))
        digits = f"{abs(exact):,f}"
    except (InvalidOperation, ValueError):
        return str(value)
    minus = "−" if exact < 0 else ""
    sign = _SIGNS.get(currency)
    return f"{minus}{sign}{digits}" if sign else f"{minus}{digits} {currency}"


def percent(rate: object) -> str:
    """A share as per cent: ``0.0725`` is ``7.25 %``."""
    try:
        share = (Decimal(str(rate)) * 100).normalize()
    except (InvalidOperation, ValueError):
        return str(rate)
    return f"{share:f} %"


def day(value: object) -> str:
    """An ISO date with the month in words, which no reader takes for another: ``25 November 2026``."""
    try:
        when = value if isinstance(value, date) else date.fromisoformat(str(value)[:10])
    except ValueError:
        return str(value)
    return f"{when.day} {_MONTHS[when.month - 1]} {when.year}"


def moment(value: object) -> str:
    """A time as ``25 November 2026, 16:10 (UTC+01:00)``; what is no time of ISO 8601 as it is."""
    try:
        when = datetime.fromisoformat(str(value or ""))
    except ValueError:
        return str(value or "")
    zone = f" ({when.tzname()})" if when.tzinfo else ""
    return f"{day(when.date())}, {when:%H:%M}{zone}"


def length(value: object) -> str:
    """A length of the JSON in its own words: ``{"mm": 1117.6, "text": "44 in"}`` is ``44 in``."""
    if isinstance(value, Mapping):
        return str(value.get("text") or f"{value.get('mm', '')} mm")
    return str("" if value is None else value)
