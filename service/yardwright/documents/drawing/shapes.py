"""Shapes made of simpler ones: rectangles, hatching, dimensions with their arrows, fitted words."""

from __future__ import annotations

from math import hypot

from .model import Line, Point, Polygon, Shape, Text, text_width


def rectangle(x: float, y: float, width: float, height: float, tone: float = 1.0,
              edge: str = "visible") -> Polygon:
    """A filled rectangle from its lower left corner."""
    return Polygon(((x, y), (x + width, y), (x + width, y + height), (x, y + height)), tone, edge)


def hatched(points: tuple[Point, ...], spacing_mm: float, style: str = "hatch") -> tuple[Line, ...]:
    """Strokes at 45° inside a closed shape, ``spacing_mm`` apart square to themselves.

    Even-odd crossing rule, so the shape may be concave.
    """
    step = spacing_mm * 2 ** 0.5
    sums = [y - x for x, y in points]
    first, last = int(min(sums) // step) + 1, int(max(sums) // step)
    lines: list[Line] = []
    for number in range(first, last + 1):
        xs = sorted(_crossings(points, number * step))
        lines += [Line(((a, a + number * step), (b, b + number * step)), style)
                  for a, b in zip(xs[::2], xs[1::2], strict=False) if b - a > 1e-6]
    return tuple(lines)


def _crossings(points: tuple[Point, ...], level: float) -> list[float]:
    """x where the line y = x + level crosses the outline; an end point counts for one edge only."""
    found = []
    for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
        a, b = y0 - x0 - level, y1 - x1 - level
        if (a < 0) != (b < 0):
            found.append(x0 + (x1 - x0) * a / (a - b))
    return found


def dimension(start: Point, end: Point, text: str, height_mm: float, off_mm: float = 0.0,
              gap_mm: float = 0.0, past: str = "far") -> tuple[Shape, ...]:
    """A level or upright dimension: the line, its witness lines, arrows and words.

    ``off_mm`` shifts the dimension line from the two measured points (up for a level one, left for an
    upright one; negative the other way); witness lines start ``gap_mm`` off the points. Words stand in
    the line where they fit; where not, past its "far" or "near" end, or "under" a level one.
    """
    level = abs(end[0] - start[0]) >= abs(end[1] - start[1])
    shift = (0.0, off_mm) if level else (-off_mm, 0.0)
    base = max(start[1], end[1]) if level and off_mm > 0 else min(start[1], end[1])
    side = min(start[0], end[0]) if off_mm > 0 else max(start[0], end[0])
    a = (start[0], base + shift[1]) if level else (side + shift[0], start[1])
    b = (end[0], base + shift[1]) if level else (side + shift[0], end[1])
    shapes: list[Shape] = []
    if off_mm:
        shapes += [_witness(start, a, gap_mm, height_mm), _witness(end, b, gap_mm, height_mm)]
    return (*shapes, *_measured(a, b, text, height_mm, level, past))


def _witness(point: Point, foot: Point, gap_mm: float, height_mm: float) -> Line:
    """From just off the measured point to just beyond the dimension line."""
    dx, dy = foot[0] - point[0], foot[1] - point[1]
    far = hypot(dx, dy) or 1.0
    ux, uy = dx / far, dy / far
    over = height_mm * 0.35
    return Line(((point[0] + ux * gap_mm, point[1] + uy * gap_mm),
                 (foot[0] + ux * over, foot[1] + uy * over)), "dimension")


def _measured(a: Point, b: Point, text: str, height_mm: float, level: bool, past: str) -> tuple[Shape, ...]:
    """The dimension line itself, broken for its words."""
    span = hypot(b[0] - a[0], b[1] - a[1])
    wide = text_width(text, height_mm) if level else height_mm * 1.1
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    arrow = min(height_mm * 0.8, span / 3)
    arrows = (_arrow(a, b, arrow), _arrow(b, a, arrow))
    if wide + 2.4 * height_mm > span:
        return (Line((a, b), "dimension"), *arrows, _beyond(a, b, text, height_mm, level, past))
    t = (span - wide - 0.6 * height_mm) / 2 / span
    cut_a = (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
    cut_b = (b[0] + (a[0] - b[0]) * t, b[1] + (a[1] - b[1]) * t)
    return (Line((a, cut_a), "dimension"), Line((cut_b, b), "dimension"), *arrows,
            Text(middle, text, height_mm))


def measured_at(said: Text, foot: Point, head: Point) -> tuple[Shape, ...]:
    """An upright dimension line with its words at a place of one's own choosing along it, or under it."""
    (x, low), (_, high) = foot, head
    half, arrow = 0.85 * said.height_mm, min(said.height_mm * 0.8, (high - low) / 3)
    arrows = (_arrow(foot, head, arrow), _arrow(head, foot, arrow))
    if said.at[1] < low:
        return (Line((foot, head), "dimension"), *arrows, said)
    below, above = (x, said.at[1] - half), (x, said.at[1] + half)
    return (Line((foot, below), "dimension"), Line((above, head), "dimension"), *arrows, said)


def beyond(text: str, span_mm: float, height_mm: float) -> bool:
    """Whether a level span is too short for its words to stand in its line."""
    return text_width(text, height_mm) + 2.4 * height_mm > span_mm


def _beyond(a: Point, b: Point, text: str, height_mm: float, level: bool, past: str) -> Text:
    """Words past one end of a span too short for them, or under its line."""
    if past == "under" and level:
        return Text(((a[0] + b[0]) / 2, a[1] - 0.95 * height_mm), text, height_mm)
    far = past == "far"
    pick = max if far else min
    if level:
        off = 0.5 * height_mm if far else -0.5 * height_mm
        return Text((pick(a[0], b[0]) + off, a[1]), text, height_mm, "start" if far else "end")
    off = 0.9 * height_mm if far else -0.9 * height_mm
    return Text((a[0], pick(a[1], b[1]) + off), text, height_mm)


def _arrow(tip: Point, towards: Point, size_mm: float) -> Polygon:
    far = hypot(towards[0] - tip[0], towards[1] - tip[1]) or 1.0
    ux, uy = (towards[0] - tip[0]) / far, (towards[1] - tip[1]) / far
    x, y = tip[0] + ux * size_mm, tip[1] + uy * size_mm
    half = size_mm * 0.18
    return Polygon((tip, (x - uy * half, y + ux * half), (x + uy * half, y - ux * half)), 0.15)


def broken(text: str, width_mm: float, height_mm: float) -> list[str]:
    """The words on lines no wider than ``width_mm``; a single word that is wider stands alone."""
    lines: list[str] = []
    for word in text.split(" "):
        if lines and text_width(f"{lines[-1]} {word}", height_mm) <= width_mm:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def fitted(text: str, width_mm: float, height_mm: float, most_mm: float, least_mm: float = 0.0) -> float:
    """The largest text height up to ``most_mm`` at which the words fit a box; 0 when under ``least_mm``."""
    if not text:
        return 0.0
    height = min(most_mm, height_mm / 1.1, width_mm / max(text_width(text, 1.0), 1e-9))
    return height if height >= least_mm else 0.0
