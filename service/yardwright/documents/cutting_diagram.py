"""Cutting diagrams: one board, sheet or roll to scale in both directions, its cuts numbered in order.

Parts are pale with their mark and length, waste is hatched, offcuts worth keeping are blank and say so. A
number stands at every place the blade runs: the number of the step that cuts there, so equal numbers are one
setting of stop or fence. Readable in black and white: nothing is told by colour.
"""

from __future__ import annotations

from collections.abc import Sequence

from yardwright.domain.cutting import set_ups
from yardwright.domain.cutting.model import CuttingPlan, Layout, Offcut, Placed
from yardwright.domain.measure import Writer, to_mm

from .drawing.model import Drawing, Line, Polygon, Shape, Text, text_width
from .drawing.shapes import dimension, fitted, hatched, rectangle

_WORDS = 0.012  # height of the words against the length of the stock
_WIDEST = 3.2  # length against width below which paper is filled by the width: words grow by it
_STAGES = {
    "trim the ends": "Trim ends by",
    "crosscut boards": "Crosscut, stop at",
    "trim edges": "Trim edges by",
    "rip": "Rip, fence at",
    "crosscut strips": "Crosscut strips, stop at",
}


def cutting_diagram(layout: Layout, writer: Writer) -> Drawing:
    """One layout as a drawing in mm, the length from left to right, to scale."""
    long, wide = to_mm(layout.length_nm), to_mm(layout.width_nm)
    words = _WORDS * max(long, _WIDEST * wide)
    outline = ((0.0, 0.0), (long, 0.0), (long, wide), (0.0, wide))
    shapes: list[Shape] = [*hatched(outline, 0.7 * words)]
    for offcut in layout.offcuts:
        shapes += _offcut(offcut, words, writer)
    for part in layout.parts:
        shapes += _part(part, words, writer)
    shapes.append(Line(outline, "outline", closed=True))
    shapes += _cuts(layout, words)
    size = f"{writer.length(layout.length_nm)} x {writer.length(layout.width_nm)}"
    shapes += dimension((0.0, 0.0), (long, 0.0), size, words, -2.0 * words)
    return Drawing(layout.code, tuple(shapes), described(layout, writer), "cutting", margin_mm=0.5 * words)


def described(layout: Layout, writer: Writer) -> str:
    """The layout in words, for those who cannot see it."""
    parts = ", ".join(
        f"{p.mark} {writer.length(p.length_nm)} x {writer.length(p.width_nm)}" for p in layout.parts
    )
    return f"{layout.code}, {writer.length(layout.length_nm)} x {writer.length(layout.width_nm)}: {parts}"


def sequence(plan: CuttingPlan, writer: Writer) -> list[str]:
    """The whole plan's cuts in words, one line for each setting of a saw, in the order to set them."""
    lines = []
    for step in set_ups(plan):
        times = "once" if step.times == 1 else f"{step.times} times"
        boards = ", ".join(str(number) for number in step.boards)
        marks = f": {', '.join(step.marks)}" if step.marks else ""
        where = f"board{'s' if len(step.boards) > 1 else ''} {boards}"
        lines.append(f"{_STAGES[step.stage]} {writer.length(step.setting_nm)}, {times}, {where}{marks}")
    return lines


def _part(part: Placed, words: float, writer: Writer) -> list[Shape]:
    x, y, long, wide = _place(part)
    shapes: list[Shape] = [rectangle(x, y, long, wide, 0.93, "visible")]
    room = long - 3.6 * words if long > 9 * words else 0.9 * long  # the numbers of cuts stand at the ends
    middle = (x + long / 2, y + wide / 2)
    for said in (
        f"{part.mark}: {writer.length(part.length_nm)} x {writer.length(part.width_nm)}",
        f"{part.mark}: {writer.length(part.length_nm)}",
        part.mark,
    ):
        height = fitted(said, room, wide * 0.85, words, words if said != part.mark else 0.0)
        if height:
            return [*shapes, Text(middle, said, height, bold=True)]
    return shapes


def _offcut(offcut: Offcut, words: float, writer: Writer) -> list[Shape]:
    if not offcut.kept:
        return []
    x, y, long, wide = _place(offcut)
    shapes: list[Shape] = [rectangle(x, y, long, wide, 1.0, "thin")]
    said = f"keep {writer.length(offcut.length_nm)}"
    height = fitted(said, long * 0.9, wide * 0.85, words, 0.5 * words)
    return [*shapes, Text((x + long / 2, y + wide / 2), said, height)] if height else shapes


def _cuts(layout: Layout, words: float) -> list[Shape]:
    """Dashed lines where the blade runs, each with its step's number beside it."""
    shapes: list[Shape] = []
    above: list[tuple[float, str]] = []
    rips: dict[float, int] = {}  # by where the segment starts: numbers stand one after another
    wide = to_mm(layout.width_nm)
    for number, step in enumerate(layout.steps, 1):
        for cut in step.cuts:
            x1, y1, x2, y2 = (to_mm(nm) for nm in cut)
            whole = cut[0] == cut[2] and cut[1] == 0 and cut[3] == layout.width_nm
            over = 0.5 * words if whole else 0.0
            shapes.append(Line(((x1, y1 - over), (x2, y2 + over)), "cut"))
            if whole:
                above.append((x1, str(number)))
            elif x1 == x2:
                shapes += _badge(
                    (x1, (y1 + y2) / 2), str(number), min(words, max(0.5 * words, 0.6 * (y2 - y1)))
                )
            else:
                rips[x1] = rips.get(x1, 0) + 1
                size = min(0.8 * words, max(0.45 * words, 0.45 * to_mm(step.setting_nm)))
                shapes += _badge((x1 + (2.0 * rips[x1] - 0.9) * words, y1), str(number), size)
    return shapes + _row_above(sorted(above), wide + 1.3 * words, words)


def _row_above(numbers: Sequence[tuple[float, str]], y: float, words: float) -> list[Shape]:
    """Numbers over their cuts; where two would touch, the later one stands a row higher."""
    shapes: list[Shape] = []
    ends: list[float] = []
    for x, number in numbers:
        half = _radius(number, words) * 1.05
        row = next((r for r, end in enumerate(ends) if x - half > end), len(ends))
        ends[row : row + 1] = [x + half]
        shapes += _badge((x, y + row * 1.7 * words), number, words)
    return shapes


def _badge(at: tuple[float, float], number: str, words: float) -> list[Shape]:
    """A number in a ring on white, so that it stands out from marks and hatching."""
    r = _radius(number, words)
    ring = tuple(
        (at[0] + r * dx, at[1] + 0.75 * words * dy)
        for dx, dy in ((1, 0.4), (0.7, 1), (-0.7, 1), (-1, 0.4), (-1, -0.4), (-0.7, -1), (0.7, -1), (1, -0.4))
    )
    return [Polygon(ring, 1.0, "thin"), Text(at, number, 0.8 * words, bold=True)]


def _radius(number: str, words: float) -> float:
    return max(0.75 * words, text_width(number, 0.8 * words, bold=True) / 2 + 0.3 * words)


def _place(one: Placed | Offcut) -> tuple[float, float, float, float]:
    return to_mm(one.x_nm), to_mm(one.y_nm), to_mm(one.length_nm), to_mm(one.width_nm)
