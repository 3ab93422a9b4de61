"""Strips glued to one blank, cut through: which strip lies where, and how large it comes out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations
from typing import TYPE_CHECKING

from yardwright.domain.measure import Writer

from .callouts import Callout, placed, readable
from .model import Bounds, Drawing, Line, Point, Shape, Text, text_box, text_width
from .shapes import dimension, hatched

if TYPE_CHECKING:
    from yardwright.domain.parts import Part
    from yardwright.domain.piece.model import Member, Piece, Vector

_ROW = 1.9
_FIRST_TRY = 0.1             # text height as a share of the section, before the room for words is known
_TOUCH_MM = 0.1
_SAME_WAY = 0.9999           # cosine between the grain of strips


def glue_up_drawings(piece: Piece, parts: Sequence[Part], writer: Writer) -> tuple[Drawing, ...]:
    """The cross-section of each kind of glue-up of the piece, its strips with their marks.

    Strips whose grain does not run the same way have no cross-section in common, and no drawing.
    """
    marks = {key: part for part in parts for key in part.keys}
    found: list[Drawing] = []
    for name in dict.fromkeys(m.glue_up for m in piece.members if m.glue_up):
        made: dict[int, list[Member]] = {}
        for member in (m for m in piece.members if m.glue_up == name):
            made.setdefault(member.glue_up_no, []).append(member)
        strips = next(iter(made.values()))
        if any(abs(_dot(m.frame.along, strips[0].frame.along)) < _SAME_WAY for m in strips):
            continue
        number = marks[strips[0].key].count // len(marks[strips[0].key].keys)
        told = _how_many([m[0] for m in made.values()], strips, number)
        found.append(_section(name, strips, [marks[m.key].mark for m in strips], told, writer))
    return tuple(found)


def _how_many(firsts: Sequence[Member], strips: Sequence[Member], pieces: int) -> str:
    """How many to make; with ends off square the mirror images are a kind of their own."""
    turned = sum(_left_handed(m) for m in firsts) * pieces
    count = len(firsts) * pieces
    if not turned or turned == count or not any(m.shape for m in strips):
        return f"{count} to make"
    drawn = turned if _left_handed(firsts[0]) else count - turned
    return f"{count} to make: {drawn} as drawn, {count - drawn} the other hand"


def _left_handed(member: Member) -> bool:
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = member.frame.along, member.frame.wide, member.frame.thick
    return (ay * bz - az * by) * cx + (az * bx - ax * bz) * cy + (ax * by - ay * bx) * cz < 0.0


def _section(name: str, strips: Sequence[Member], marks: Sequence[str], told: str, writer: Writer) -> Drawing:
    """Looking at the end of the glued blank, its first strip lying flat."""
    boxes = _boxes(strips)
    whole = Bounds((0.0, 0.0), (max(b.high[0] for b in boxes), max(b.high[1] for b in boxes)))

    def drawn(height: float) -> Drawing:
        shapes: list[Shape] = [s for n, box in enumerate(boxes) for s in _strip(box, n % 2 == 1)]
        shapes += _sizes(boxes, whole, writer, height)
        said = [Callout(mark, _middle(box)) for mark, box in zip(marks, boxes, strict=True)]
        said += [Callout("glued", at) for a, b in combinations(boxes, 2) if (at := _joint(a, b))]
        taken = [text_box(s) for s in shapes if isinstance(s, Text)]
        shapes += placed(said, whole, taken, height)
        size = f"{writer.mm(whole.width)} × {writer.mm(whole.height)}"
        return Drawing(f"{name}, glued up from {' and '.join(marks)}", tuple(shapes),
                       f"{name}, cut through: {', '.join(marks)}, {size}.", "glue up",
                       margin_mm=0.3 * height, notes=(told,), again=drawn)

    return readable(drawn, _FIRST_TRY * max(whole.width, whole.height))


def _boxes(strips: Sequence[Member]) -> list[Bounds]:
    """The strips across their grain, in the axes of the first, from the corner of the whole."""
    right, up = strips[0].frame.wide, strips[0].frame.thick
    found = []
    for m in strips:
        ends = [m.frame.to_world(m.length_mm / 2, v, w) for v in (0.0, m.width_mm)
                for w in (0.0, m.thickness_mm)]
        xs, ys = [_dot(p, right) for p in ends], [_dot(p, up) for p in ends]
        found.append(Bounds((min(xs), min(ys)), (max(xs), max(ys))))
    x, y = min(b.low[0] for b in found), min(b.low[1] for b in found)
    return [Bounds((b.low[0] - x, b.low[1] - y), (b.high[0] - x, b.high[1] - y)) for b in found]


def _dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _strip(box: Bounds, leaning: bool) -> list[Shape]:
    """A strip's end, hatched the other way than its neighbour's."""
    (x0, y0), (x1, y1) = box.low, box.high
    ring = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    lines = hatched(ring, min(box.width, box.height) / 4)
    if leaning:
        lines = tuple(replace(s, points=tuple((x0 + x1 - x, y) for x, y in s.points)) for s in lines)
    return [*lines, Line(ring, "outline", closed=True)]


def _sizes(boxes: Sequence[Bounds], whole: Bounds, writer: Writer, height: float) -> list[Shape]:
    """Every strip and the whole: along below, upwards at the left, the shortest nearest."""
    shapes: list[Shape] = []
    along = {(round(b.low[0], 1), round(b.high[0], 1)) for b in (*boxes, whole)}
    off = 0.5 * height
    for a, b in sorted(along, key=lambda s: (s[1] - s[0], s)):
        off += _ROW * height
        shapes += dimension((a, 0.0), (b, 0.0), writer.mm(b - a), height, off_mm=-off, gap_mm=0.4 * height,
                            past="far" if b > whole.width - 1.0 else "near")
    upward = {(round(b.low[1], 1), round(b.high[1], 1)) for b in (*boxes, whole)}
    off = 0.0
    for a, b in sorted(upward, key=lambda s: (s[1] - s[0], s)):
        half = text_width(writer.mm(b - a), height) / 2
        off += half + (1.2 if not off else 0.5) * height
        shapes += dimension((0.0, a), (0.0, b), writer.mm(b - a), height, off_mm=off, gap_mm=0.4 * height,
                            past="far" if a > 0.0 else "near")
        off += half + 0.5 * height
    return shapes


def _middle(box: Bounds) -> Point:
    return (box.low[0] + box.high[0]) / 2, (box.low[1] + box.high[1]) / 2


def _joint(a: Bounds, b: Bounds) -> Point | None:
    """Where two strips touch along a side, off its middle: the leader of a mark may pass there."""
    low = tuple(max(a.low[k], b.low[k]) for k in (0, 1))
    high = tuple(min(a.high[k], b.high[k]) for k in (0, 1))
    wide, tall = high[0] - low[0], high[1] - low[1]
    if min(wide, tall) < -_TOUCH_MM or min(wide, tall) > _TOUCH_MM or max(wide, tall) < 1.0:
        return None
    return low[0] + 0.8 * wide, low[1] + 0.8 * tall
