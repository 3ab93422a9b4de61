"""Room to sign, or the signature as it was drawn on the phone: strokes, name, place and time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import isfinite
from typing import Any

from reportlab.platypus import Flowable, KeepTogether, Spacer

from ..pages.fitting import FirstThatFits
from ..pages.tables import plain
from ..pages.words import FAINT, INK, LABEL, NOTICE, SECTION, SMALL, STRONG, amount, moment, para

Json = Mapping[str, Any]
Stroke = Sequence[tuple[float, float]]
_HIGH = 46.0
_CLOSE = 0.5                 # room at which name and place share a line


class Signed(Flowable):
    """Strokes scaled into a box, kept in shape; the phone counts y downwards."""

    def __init__(self, strokes: Sequence[Stroke], width: float, height: float = _HIGH) -> None:
        super().__init__()
        self.strokes, self.width, self.height = strokes, width, height

    def wrap(self, available_width: float, available_height: float) -> tuple[float, float]:
        return self.width, self.height

    def draw(self) -> None:
        points = [p for stroke in self.strokes for p in stroke]
        if not points:
            return
        left, top = min(p[0] for p in points), min(p[1] for p in points)
        wide = max(p[0] for p in points) - left
        high = max(p[1] for p in points) - top
        scale = min(self.width / max(wide, 1e-6), self.height / max(high, 1e-6), 1e6)
        self.canv.setStrokeColor(INK)
        self.canv.setLineWidth(1.1)
        self.canv.setLineCap(1)
        self.canv.setLineJoin(1)
        for stroke in self.strokes:
            path = self.canv.beginPath()
            at = [((x - left) * scale, self.height - (y - top) * scale) for x, y in stroke]
            path.moveTo(*at[0])
            for point in at[1:] or at:
                path.lineTo(*point)
            self.canv.drawPath(path)


def strokes_of(signature: Json | None) -> list[list[tuple[float, float]]]:
    """The strokes that can be drawn; points that are no finite numbers are left out."""
    found = []
    for stroke in (signature or {}).get("strokes") or ():
        points = [(float(p[0]), float(p[1])) for p in stroke if _drawable(p)]
        if points:
            found.append(points)
    return found


def _drawable(point: Any) -> bool:
    return (isinstance(point, Sequence) and not isinstance(point, str) and len(point) >= 2
            and all(isinstance(v, (int, float)) and isfinite(v) and abs(v) < 1e6 for v in point[:2]))


def closing(quote: Json, signature: Json | None, terms: Sequence[Flowable], width: float) -> list[Flowable]:
    """The terms and the acceptance under them on one page: nobody signs on a sheet that says nothing else.

    Roomy lines where the page has room for them, closer ones before a new page is begun.
    """
    blocks = [[*terms, *signing(quote, signature, width, room)] for room in (1.0, 0.8, 0.6, _CLOSE)]
    return [FirstThatFits(blocks, [*terms, KeepTogether(signing(quote, signature, width))])]


def signing(quote: Json, signature: Json | None, width: float, room: float = 1.0) -> list[Flowable]:
    """Acceptance: what is accepted, the right to cancel where it applies, customer and shop side by side."""
    half = (width - 28) / 2
    shop = str((quote.get("shop") or {}).get("name", ""))
    price = quote.get("price") or {}
    sum_ = amount(price.get("total", ""), str(price.get("currency", "")))
    accepted = (f"I order the work in this quote, reference {quote.get('reference') or '–'}, at the total of "
                f"{sum_} and on its terms.")
    block: list[Flowable] = [para("Acceptance", SECTION), para(accepted), Spacer(0, 4)]
    block += [para(line, NOTICE) for line in quote.get("cancellation") or ()]
    customer = _signed(signature, half) if signature else _blank("Customer", half, room)
    both = plain([[customer, "", _blank(shop or "Shop", half, room)]], (half, 28, half))
    return [*block, Spacer(0, 8 * room), both]


def _line(label: str, width: float, high: float) -> Flowable:
    return plain([[para("", SMALL)], [para(label, LABEL)]], (width,), (
        ("TOPPADDING", (0, 0), (-1, 0), high), ("LINEBELOW", (0, 0), (-1, 0), 0.6, INK),
        ("TOPPADDING", (0, 1), (-1, 1), 1)))


def _blank(who: str, width: float, room: float) -> list[Flowable]:
    if room > _CLOSE:
        return [para(who, STRONG), _line("Signature", width, 34 * room),
                _line("Name in capitals", width, 12 * room), _line("Place and date", width, 12 * room)]
    half = (width - 14) / 2
    name, place = _line("Name in capitals", half, 13), _line("Place and date", half, 13)
    return [para(who, STRONG), _line("Signature", width, 24), plain([[name, "", place]], (half, 14, half))]


def _signed(signature: Json, width: float) -> list[Flowable]:
    """The drawn signature over its line; a typed name alone stands in where nothing was drawn."""
    strokes = strokes_of(signature)
    above: Flowable = Signed(strokes, width * 0.8) if strokes else para("", SMALL)
    where = ", ".join(v for v in (str(signature.get("place") or ""), moment(signature.get("time"))) if v)
    told = "Signed on the screen" if strokes else "Accepted by typed name"
    line = plain([[above], [para("Signature", LABEL)]], (width,), (
        ("LINEBELOW", (0, 0), (-1, 0), 0.6, INK), ("TOPPADDING", (0, 1), (-1, 1), 1)))
    return [para("Customer", STRONG), Spacer(0, 4), line, para(signature.get("name", ""), STRONG),
            para(where, SMALL), para(told, FAINT)]
