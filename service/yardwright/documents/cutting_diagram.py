"""Cutting diagrams: one board, sheet or roll to scale in both directions, its cuts numbered in order.

Parts are pale with their mark and length, waste is hatched, offcuts worth keeping are blank and say so. A
number stands where the blade runs: that of the step that cuts there, so equal numbers are one setting of stop
or fence; short segments ripped in one line share it. A part too narrow for its mark has it under the board,
led to it. Readable in black and white: nothing is told by colour.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from yardwright.domain.cutting import set_ups
from yardwright.domain.cutting.model import CuttingPlan, Layout, Offcut, Placed
from yardwright.domain.measure import Writer, to_mm

from .cutting_steps import runs, saw_steps
from .drawing.callouts import dot
from .drawing.model import Bounds, Drawing, Line, Polygon, Shape, Text, text_box, text_width
from .drawing.shapes import dimension, hatched, rectangle

_WORDS = 0.0185  # height of the words against the length of the stock
_WIDEST = 3.2  # length against width below which paper is filled by the width: words grow by it
_NUMBER = 0.95  # of a step's number, against the words
_LEAST = 0.78  # of a mark that hardly finds room, against the words
_WHERE = (0.5, 0.65, 0.35, 0.8, 0.2, 0.92, 0.08)  # along a part, where its leader may start
_SHORT = 6.0  # a segment shorter than so many words has no number at a rip that runs on from its neighbour
_STAGES = {
    "trim the ends": "Trim ends by",
    "crosscut boards": "Crosscut, stop at",
    "trim edges": "Trim edges by",
    "rip": "Rip, fence at",
    "crosscut strips": "Crosscut strips, stop at",
    "crosscut sheets": "Crosscut sheets, stop at",
    "rip sheets": "Rip sheets, fence at",
    "crosscut pieces": "Crosscut pieces, stop at",
    "rip pieces": "Rip pieces, fence at",
    "crosscut rolls": "Cut across the roll at",
    "rip rolls": "Cut along the roll at",
}
# Shears and a knife have no stop and no fence.
_SHEARS = {"crosscut pieces": "Cut pieces across at", "rip pieces": "Cut pieces along at"}


def cutting_diagram(layout: Layout, writer: Writer) -> Drawing:
    """One layout as a drawing in mm, the length from left to right, to scale."""

    def drawn(words: float) -> Drawing:
        return replace(_drawn(layout, writer, words), again=drawn)

    return drawn(_WORDS * max(to_mm(layout.length_nm), _WIDEST * to_mm(layout.width_nm)))


def _drawn(layout: Layout, writer: Writer, words: float) -> Drawing:
    long, wide = to_mm(layout.length_nm), to_mm(layout.width_nm)
    outline = ((0.0, 0.0), (long, 0.0), (long, wide), (0.0, wide))
    cuts, badges = _cuts(layout, words)
    shapes: list[Shape] = [*hatched(outline, 0.5 * words)]
    shapes += [rectangle(*_place(o), 1.0, "thin") for o in layout.offcuts if o.kept]
    shapes += [rectangle(*_place(part), 0.93, "visible") for part in layout.parts]
    shapes += [Line(outline, "outline", closed=True), *cuts, *badges]
    taken = [text_box(s) for s in badges if isinstance(s, Text)]
    below: list[Placed] = []
    for part in layout.parts:
        if (text := _inside(part, _part_words(part, writer), words, taken, bold=True)) is None:
            below.append(part)
        else:
            shapes.append(text)
    for offcut in (o for o in layout.offcuts if o.kept):
        text = _inside(offcut, (f"keep {writer.length(offcut.length_nm)}", "keep"), words, taken)
        shapes += [text] if text else []
    taken = [text_box(s) for s in shapes if isinstance(s, Text)]
    led, rows = _led(below, writer, words, taken)
    size = f"{writer.length(layout.length_nm)} x {writer.length(layout.width_nm)}"
    shapes += [*led, *dimension((0.0, 0.0), (long, 0.0), size, words, -(1.6 + 1.3 * rows) * words)]
    return Drawing(layout.code, tuple(shapes), described(layout, writer), "cutting", margin_mm=0.4 * words)


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
        marks = f": {', '.join(step.marks)}" if step.marks else ""
        where = f"{step.of}{'s' if len(step.boards) > 1 else ''} {runs(step.boards)}"
        words = (_SHEARS if step.of == "length" else {}).get(step.stage, _STAGES[step.stage])
        lines.append(f"{words} {writer.length(step.setting_nm)}, {times}, {where}{marks}")
    return lines


def _part_words(part: Placed, writer: Writer) -> tuple[str, ...]:
    long, wide = writer.length(part.length_nm), writer.length(part.width_nm)
    return (f"{part.mark}: {long} x {wide}", f"{part.mark}: {long}", part.mark)


def _inside(one: Placed | Offcut, said: Sequence[str], words: float, taken: Sequence[Bounds],
            bold: bool = False) -> Text | None:
    """The fullest words that stand in the piece clear of the numbers of the cuts; None where none do."""
    x, y, long, wide = _place(one)
    room = Bounds((x, y), (x + long, y + wide))
    smaller = [(said[-1], _LEAST * words)] if y > 0.0 or wide > long else []
    for text, height in (*((text, words) for text in said), *smaller):
        for turned in (0.0, 90.0) if wide > long else (0.0,):
            for share in (0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2):
                at = (x + long / 2, y + share * wide) if turned else (x + share * long, y + wide / 2)
                found = Text(at, text, height, turned_deg=turned, bold=bold)
                box = text_box(found)
                if _holds(room, box) and not any(box.overlaps(other) for other in taken):
                    return found
    return None


def _holds(room: Bounds, box: Bounds) -> bool:
    return all(room.low[i] <= box.low[i] and box.high[i] <= room.high[i] for i in (0, 1))


def _led(
    below: Sequence[Placed], writer: Writer, words: float, taken: Sequence[Bounds]
) -> tuple[list[Shape], int]:
    """Marks under the board with a leader each, in as many rows as keep them apart; and the rows."""
    shapes: list[Shape] = []
    ends: list[float] = []
    for part in sorted(below, key=lambda p: (p.x_nm, p.y_nm)):
        x, y, long, wide = _place(part)
        said = _part_words(part, writer)[1:]
        mark = next((text for text in said if text_width(text, words, bold=True) < long), part.mark)
        half = text_width(mark, words, bold=True) / 2 + 0.15 * words
        places = (x + long * share for share in _WHERE)
        at = next((a for a in places if _passes(a, y + wide / 2, taken)), x + long / 2)
        row = next((r for r, end in enumerate(ends) if at - half > end), len(ends))
        ends[row : row + 1] = [at + half]
        level = -(0.9 + 1.3 * row) * words
        shapes.append(Line(((at, y + wide / 2), (at, level + 0.55 * words)), "leader"))
        shapes.append(dot((at, y + wide / 2), 0.15 * words))
        shapes.append(Text((at, level), mark, words, bold=True, halo=True))
    return shapes, len(ends)


def _passes(x: float, high: float, taken: Sequence[Bounds]) -> bool:
    """Whether a stroke straight down from ``high`` keeps off all words."""
    return not any(box.low[0] <= x <= box.high[0] and box.low[1] <= high for box in taken)


def _cuts(layout: Layout, words: float) -> tuple[list[Shape], list[Shape]]:
    """Dashed lines where the blade runs, and the step's number beside each."""
    lines: list[Shape] = []
    badges: list[Shape] = []
    above: list[tuple[float, str]] = []
    rips: dict[float, int] = {}  # by where the segment starts: numbers stand one after another
    ends: dict[tuple[str, float], float] = {}  # where the last rip of a step ended, by its level
    long, wide = to_mm(layout.length_nm), to_mm(layout.width_nm)
    for number, (x1, y1, x2, y2) in _numbered(layout):
        whole = x1 == x2 and y1 == 0.0 and abs(y2 - wide) < 1e-6
        over = 0.5 * words if whole else 0.0
        lines.append(Line(((x1, y1 - over), (x2, y2 + over)), "cut"))
        if whole:
            above.append((x1, number))
            continue
        if x1 == x2:
            badges += _badge((x1, (y1 + y2) / 2), number, words)
            continue
        last, ends[number, y1] = ends.get((number, y1)), x2
        if last is None or x1 - last > words or x2 - x1 > _SHORT * words:
            rips[x1] = rips.get(x1, 0) + 1
            half = _radius(number, words)
            x = min(x1 + (2.0 * rips[x1] - 0.9) * words, max(x2 - half, x1 + half), long - half)
            badges += _badge((x, y1), number, words)
    return lines, badges + _row_above(sorted(above), wide + 1.3 * words, words)


def _numbered(layout: Layout) -> Iterator[tuple[str, tuple[float, float, float, float]]]:
    """Every run of the blade in mm with the number of its step."""
    for number, step in enumerate(saw_steps(layout), 1):
        for x1, y1, x2, y2 in step.cuts:
            yield str(number), (to_mm(x1), to_mm(y1), to_mm(x2), to_mm(y2))


def _row_above(numbers: Sequence[tuple[float, str]], y: float, words: float) -> list[Shape]:
    """Numbers over their cuts; where two would touch, the later one stands a row higher."""
    shapes: list[Shape] = []
    ends: list[float] = []
    for x, number in numbers:
        half = _radius(number, words) * 1.05
        row = next((r for r, end in enumerate(ends) if x - half > end), len(ends))
        ends[row : row + 1] = [x + half]
        shapes += _badge((x, y + row * 1.5 * words), number, words)
    return shapes


def _badge(at: tuple[float, float], number: str, words: float) -> list[Shape]:
    """A number in a ring on white, so that it stands out from marks and hatching."""
    r = _radius(number, words)
    ring = tuple(
        (at[0] + r * dx, at[1] + 0.62 * words * dy)
        for dx, dy in ((1, 0.4), (0.7, 1), (-0.7, 1), (-1, 0.4), (-1, -0.4), (-0.7, -1), (0.7, -1), (1, -0.4))
    )
    return [Polygon(ring, 1.0, "thin"), Text(at, number, _NUMBER * words, bold=True)]


def _radius(number: str, words: float) -> float:
    return max(0.65 * words, text_width(number, _NUMBER * words, bold=True) / 2 + 0.2 * words)


def _place(one: Placed | Offcut) -> tuple[float, float, float, float]:
    return to_mm(one.x_nm), to_mm(one.y_nm), to_mm(one.length_nm), to_mm(one.width_nm)
