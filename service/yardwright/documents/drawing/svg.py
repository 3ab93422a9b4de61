"""A drawing as SVG: self-contained, no script, no style sheet, real text, black on white.

Presentation attributes only, so that a page with a strict content policy may show it inline; strokes keep
their weight at any size, so the lines hold on a phone and on paper.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from .model import Drawing, Line, Point, Polygon, Shape, Text

# style -> (colour, width in px, dashes in px)
PENS = {
    "outline": ("#111", 1.8, ""), "visible": ("#222", 1.1, ""), "thin": ("#555", 0.7, ""),
    "centre": ("#555", 0.7, "10 3 2 3"), "dimension": ("#444", 0.8, ""),
    "leader": ("#444", 0.8, ""), "cut": ("#000", 1.3, "6 3"),
    "hatch": ("#888", 0.6, ""), "site": ("#333", 1.4, ""), "open": ("#555", 0.9, "5 3"),
}
FACE = "'Source Sans 3','Source Sans Pro',system-ui,sans-serif"


def render(drawing: Drawing) -> str:
    """The drawing as one SVG document; every outside word in it is escaped."""
    bounds = drawing.bounds
    left, top = bounds.low[0], -bounds.high[1]
    view = " ".join(_number(v) for v in (left, top, bounds.width, bounds.height))
    described = f"<desc>{escaped(drawing.description)}</desc>" if drawing.description else ""
    body = "".join(_run(kind, list(shapes)) for kind, shapes in groupby(drawing.shapes, _kind))
    return (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{view}" role="img" '
            f'font-family="{FACE}" stroke-linejoin="round" stroke-linecap="round">'
            f"<title>{escaped(drawing.title)}</title>{described}"
            f'<rect x="{_number(left)}" y="{_number(top)}" width="{_number(bounds.width)}" '
            f'height="{_number(bounds.height)}" fill="#fff"/>{body}</svg>\n')


def escaped(text: str) -> str:
    """Text as XML content or attribute; characters that XML cannot carry are shown as U+FFFD."""
    clean = "".join(c if _allowed(ord(c)) else "\ufffd" for c in text)
    for bad, good in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;")):
        clean = clean.replace(bad, good)
    return clean


def _allowed(code: int) -> bool:
    """XML 1.0, production 2 (from memory): tab, line ends, and everything from space but surrogates."""
    return code in (9, 10, 13) or 0x20 <= code <= 0xD7FF or 0xE000 <= code <= 0xFFFD or code >= 0x10000


def _kind(shape: Shape) -> tuple[str, object]:
    if isinstance(shape, Line):
        return "line", shape.style
    if isinstance(shape, Polygon):
        return "polygon", (shape.tone, shape.edge)
    return "text", None


def _run(kind: tuple[str, object], shapes: list[Shape]) -> str:
    """Neighbouring shapes of one look share one element."""
    if kind[0] == "line":
        return f'<path fill="none"{_pen(str(kind[1]))} d="{_paths(shapes)}"/>'
    if kind[0] == "polygon":
        first = shapes[0]
        assert isinstance(first, Polygon)
        return f'<path fill="{grey(first.tone)}"{_pen(first.edge)} d="{_paths(shapes)}"/>'
    return "".join(_text(shape) for shape in shapes if isinstance(shape, Text))


def _pen(style: str) -> str:
    if style == "none":
        return ""
    colour, width, dashes = PENS[style]
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f' stroke="{colour}" stroke-width="{width}" vector-effect="non-scaling-stroke"{dashed}'


def grey(tone: float) -> str:
    """A tone from 0 (black) to 1 (white) as a colour."""
    level = round(max(0.0, min(1.0, tone)) * 255)
    return f"#{level:02x}{level:02x}{level:02x}"


def _paths(shapes: Iterable[Shape]) -> str:
    return "".join(_path(s.points, isinstance(s, Polygon) or s.closed)
                   for s in shapes if not isinstance(s, Text))


def _path(points: tuple[Point, ...], closed: bool) -> str:
    steps = " ".join(f"{_number(x)},{_number(-y)}" for x, y in points)
    return f"M{steps}{'Z' if closed else ''}"


def _text(text: Text) -> str:
    x, y = _number(text.at[0]), _number(-text.at[1])
    turned = f' transform="rotate({_number(-text.turned_deg)} {x} {y})"' if text.turned_deg else ""
    bold = ' font-weight="600"' if text.bold else ""
    size = _number(text.height_mm)
    halo = (f' stroke="#fff" stroke-width="{_number(text.height_mm * 0.3)}" paint-order="stroke"'
            if text.halo else "")
    # 0.35 of the height below the middle: digits and capitals then stand centred on the point.
    drop = _number(text.height_mm * 0.35)
    return (f'<text x="{x}" y="{y}" dy="{drop}" font-size="{size}" text-anchor="{text.anchor}" '
            f'fill="#111"{bold}{halo}{turned}>{escaped(text.text)}</text>')


def _number(value: float) -> str:
    """At most two decimals, no trailing zeros, never "-0"."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
