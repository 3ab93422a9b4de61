"""The drawing model: lines, filled shapes and texts in mm, y up, no paper and no pixels in it.

Text heights are in the drawing's own mm, so whoever makes a drawing decides how large its words are
against what it shows; ``Drawing.again`` draws the same with words of another height, for a paper that knows
how large it prints. Line weights belong to the renderers: a style is a word.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache

Point = tuple[float, float]

# Style words. "outline" is the edge against empty space, "visible" an edge between faces, "cut" a saw
# line, "hatch" shading, "site" what stands in the yard, "open" a lid or door in its open position.
STYLES = ("outline", "visible", "thin", "centre", "dimension", "leader", "cut", "hatch", "site", "open",
          "none")

# Text that is this share of a drawing's width is 11 px high on a phone 360 px wide.
PHONE_TEXT_SHARE = 0.032

# Advance widths as shares of the text height, on the wide side of the usual sans-serif faces: a box that
# is too large only costs room, one that is too small lets words overlap.
_NARROW = frozenset(" .,:;'|!ijlIt()[]/′″’-·")
_WIDE = frozenset("MWmw@%&—½¼¾⅛⅜⅝⅞")


@dataclass(frozen=True, slots=True)
class Line:
    """A run of straight strokes through ``points``; ``closed`` joins the last to the first."""

    points: tuple[Point, ...]
    style: str = "visible"
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Polygon:
    """A filled shape. ``tone`` 0 is black and 1 paper white; ``edge`` is the style of its outline."""

    points: tuple[Point, ...]
    tone: float = 1.0
    edge: str = "none"


@dataclass(frozen=True, slots=True)
class Text:
    """Words at a point: ``anchor`` "start", "middle" or "end" along the line, centred across it.

    ``turned_deg`` turns the words counter-clockwise about the point. ``halo`` leaves paper around them
    where they stand on lines.
    """

    at: Point
    text: str
    height_mm: float
    anchor: str = "middle"
    turned_deg: float = 0.0
    bold: bool = False
    halo: bool = False


@dataclass(frozen=True, slots=True)
class Bounds:
    """An upright box from its lower left to its upper right corner."""

    low: Point
    high: Point

    @property
    def width(self) -> float:
        return self.high[0] - self.low[0]

    @property
    def height(self) -> float:
        return self.high[1] - self.low[1]

    def overlaps(self, other: Bounds, by_mm: float = 0.0) -> bool:
        """Whether the two share room, more than ``by_mm`` in both directions."""
        return (min(self.high[0], other.high[0]) - max(self.low[0], other.low[0]) > by_mm
                and min(self.high[1], other.high[1]) - max(self.low[1], other.low[1]) > by_mm)


Shape = Line | Polygon | Text


@dataclass(frozen=True)
class Drawing:
    """Shapes in drawing order (later ones over earlier ones), with words for those who cannot see it."""

    title: str
    shapes: tuple[Shape, ...]
    description: str = ""
    view: str = ""               # "front" | "side" | "plan" | "isometric" | "site" | "cutting"
    margin_mm: float = 0.0
    item: int = 0                # which item of the job it shows
    opened: bool = False
    notes: tuple[str, ...] = ()  # what the numbers in it mean, for a paper that prints words beside it
    again: Callable[[float], Drawing] | None = field(default=None, compare=False, repr=False)

    @cached_property
    def bounds(self) -> Bounds:
        """The box that holds every shape and text, with the margin around it."""
        points = [p for shape in self.shapes for p in _reach(shape)] or [(0.0, 0.0), (1.0, 1.0)]
        m = self.margin_mm
        return Bounds((min(p[0] for p in points) - m, min(p[1] for p in points) - m),
                      (max(p[0] for p in points) + m, max(p[1] for p in points) + m))


def picture(drawing: Drawing) -> Bounds:
    """The box of what is drawn, without the words and sizes around it."""
    lines = tuple(s for s in drawing.shapes if isinstance(s, Line) and s.style in ("outline", "visible"))
    return Drawing("", lines).bounds


def worded(drawing: Drawing, height_mm: float) -> Drawing:
    """The same picture with words of that height; as it is where it has none to set."""
    if drawing.again is None:
        return drawing
    return replace(drawing.again(height_mm), item=drawing.item, again=drawing.again)


def text_width(text: str, height_mm: float, bold: bool = False) -> float:
    """How wide the words come out at most, in mm, in a common sans-serif face."""
    return _ems(text) * height_mm * (1.06 if bold else 1.0)


@lru_cache(maxsize=4096)
def _ems(text: str) -> float:
    return sum(0.32 if c in _NARROW else 0.92 if c in _WIDE else 0.60 if c.islower() or c.isdigit() else 0.70
               for c in text)


def text_box(text: Text) -> Bounds:
    """The box of a text, turned by quarter turns as it is drawn (other turns take the wider box)."""
    wide, high = text_width(text.text, text.height_mm, text.bold), text.height_mm * 1.1
    back = {"start": 0.0, "middle": wide / 2, "end": wide}[text.anchor]
    x, y = text.at
    quarter = round(text.turned_deg / 90) % 4 if text.turned_deg % 90 == 0 else None
    if quarter == 0:
        return Bounds((x - back, y - high / 2), (x - back + wide, y + high / 2))
    if quarter == 1:
        return Bounds((x - high / 2, y - back), (x + high / 2, y - back + wide))
    if quarter == 2:
        return Bounds((x + back - wide, y - high / 2), (x + back, y + high / 2))
    if quarter == 3:
        return Bounds((x - high / 2, y + back - wide), (x + high / 2, y + back))
    reach = max(back, wide - back) + high / 2
    return Bounds((x - reach, y - reach), (x + reach, y + reach))


def _reach(shape: Shape) -> tuple[Point, ...]:
    if isinstance(shape, Text):
        box = text_box(shape)
        return (box.low, box.high)
    return shape.points
