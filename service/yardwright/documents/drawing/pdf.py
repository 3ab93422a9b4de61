"""A drawing as a reportlab flowable, drawn as vectors with the embedded face.

Only modules that make a PDF import this one: reportlab is slow to load.
"""

from __future__ import annotations

from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject
from reportlab.platypus import Flowable

from ..faces import BOLD, REGULAR, printable
from .model import Drawing, Line, Point, Polygon, Text, picture, worded

# style -> (grey, width in pt, dashes in pt)
PENS: dict[str, tuple[float, float, tuple[float, ...]]] = {
    "outline": (0.05, 1.0, ()), "visible": (0.12, 0.55, ()), "thin": (0.35, 0.35, ()),
    "centre": (0.35, 0.35, (7, 2, 1.5, 2)), "dimension": (0.3, 0.4, ()),
    "leader": (0.3, 0.4, ()), "cut": (0.0, 0.8, (4, 2)),
    "hatch": (0.35, 0.35, ()), "site": (0.2, 0.8, ()), "open": (0.35, 0.5, (3, 2)),
}


WORDS_PT = 9.5               # of words in drawings on paper; marks in balloons are a little smaller
MOST_SHARE = 0.12            # of the picture that words may be high, however small it prints
_TRIES = 12


def legible(drawing: Drawing, width_pt: float, most_height_pt: float) -> Drawing:
    """The drawing with words that print ``WORDS_PT`` high in this room; larger words take room themselves."""
    seen, before = picture(drawing), 0.0
    for _ in range(_TRIES):
        scale = min(width_pt / drawing.bounds.width, most_height_pt / drawing.bounds.height)
        height = min(WORDS_PT / scale, MOST_SHARE * max(seen.width, seen.height))
        if drawing.again is None or abs(height - before) < 0.01 * height:
            break
        drawing, before = worded(drawing, height), height
    return drawing


class Drawn(Flowable):
    """A drawing scaled to ``width_pt`` (and no higher than ``most_height_pt``), centred in its room."""

    def __init__(self, drawing: Drawing, width_pt: float, most_height_pt: float | None = None,
                 align: str = "CENTER") -> None:
        super().__init__()
        bounds = drawing.bounds
        self.drawing = drawing
        self.scale = width_pt / max(bounds.width, 1e-9)
        if most_height_pt is not None:
            self.scale = min(self.scale, most_height_pt / max(bounds.height, 1e-9))
        self.width = bounds.width * self.scale
        self.height = bounds.height * self.scale
        self.hAlign = align

    def wrap(self, available_width: float, available_height: float) -> tuple[float, float]:
        return self.width, self.height

    def draw(self) -> None:
        paint(self.canv, self.drawing, self.scale)


def pdf_flowable(drawing: Drawing, width_pt: float, most_height_pt: float | None = None) -> Drawn:
    """The drawing as a flowable ``width_pt`` wide."""
    return Drawn(drawing, width_pt, most_height_pt)


def paint(canvas: Canvas, drawing: Drawing, scale: float) -> None:
    """Draw every shape with the drawing's lower left corner at the canvas origin."""
    low = drawing.bounds.low

    def place(point: Point) -> Point:
        return (point[0] - low[0]) * scale, (point[1] - low[1]) * scale

    canvas.saveState()
    canvas.setLineJoin(1)
    canvas.setLineCap(1)
    for shape in drawing.shapes:
        if isinstance(shape, Text):
            _text(canvas, shape, place(shape.at), scale)
        elif isinstance(shape, Line):
            _outline(canvas, [place(p) for p in shape.points], shape.style, shape.closed)
        else:
            _fill(canvas, [place(p) for p in shape.points], shape)
    canvas.restoreState()


def _pen(canvas: Canvas, style: str) -> None:
    grey, width, dashes = PENS[style]
    canvas.setStrokeGray(grey)
    canvas.setLineWidth(width)
    canvas.setDash(list(dashes))


def _outline(canvas: Canvas, points: list[Point], style: str, closed: bool) -> None:
    _pen(canvas, style)
    canvas.drawPath(_path(canvas, points, closed), stroke=1, fill=0)


def _fill(canvas: Canvas, points: list[Point], shape: Polygon) -> None:
    canvas.setFillGray(max(0.0, min(1.0, shape.tone)))
    if shape.edge != "none":
        _pen(canvas, shape.edge)
    canvas.drawPath(_path(canvas, points, True), stroke=int(shape.edge != "none"), fill=1)


def _path(canvas: Canvas, points: list[Point], closed: bool) -> PDFPathObject:
    path = canvas.beginPath()
    path.moveTo(*points[0])
    for point in points[1:]:
        path.lineTo(*point)
    if closed:
        path.close()
    return path


def _text(canvas: Canvas, text: Text, at: Point, scale: float) -> None:
    size = text.height_mm * scale
    face = BOLD if text.bold else REGULAR
    words = printable(text.text)
    wide = canvas.stringWidth(words, face, size)
    back = {"start": 0.0, "middle": wide / 2, "end": wide}[text.anchor]
    canvas.saveState()
    canvas.translate(*at)
    canvas.rotate(text.turned_deg)
    if text.halo:
        canvas.setFillGray(1.0)
        canvas.rect(-back - size * 0.15, -size * 0.5, wide + size * 0.3, size, stroke=0, fill=1)
    canvas.setFillGray(0.07)
    canvas.setFont(face, size)
    canvas.drawString(-back, -size * 0.33, words)
    canvas.restoreState()
