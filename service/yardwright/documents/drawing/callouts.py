"""Callouts: words off the picture with a leader to what they speak of, clear of all other words.

They stand in rows above the picture. One after the other takes the nearest place where its words meet no
others and no leader crosses words or another leader; those nearest to the middle choose first, so that the
outer ones pass them by.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import count, islice
from math import cos, radians, sin

from .model import PHONE_TEXT_SHARE, Bounds, Drawing, Line, Point, Polygon, Shape, Text, text_box

_ROW = 1.5                   # rows are this many text heights apart
_MOST_ROWS = 30
_FEW = 4                     # callouts for which every place is tried
_MOST_TRIED = 21_600         # _FEW squared times all places of one callout
_CLEAR = 0.25                # room around words, in text heights
# How far beside its place the foot of a leader may stand, in text heights.
_SHIFTS = (0.0, *(way * far for far in (1.0, 2.2, 4.0, 6.0, 8.5, 11.0, 14.0) for way in (1.0, -1.0)))


@dataclass(frozen=True, slots=True)
class Callout:
    """What is said, and the point it is said of."""

    text: str
    at: Point


def readable(drawn: Callable[[float], Drawing], height: float) -> Drawing:
    """The drawing with words that read on a phone; words need room, so it is tried a few times.

    ``drawn`` gives the drawing for a text height; ``height`` is a first guess.
    """
    drawing = drawn(height)
    for _ in range(8):
        share = height / drawing.bounds.width
        if PHONE_TEXT_SHARE * 0.98 <= share <= PHONE_TEXT_SHARE * 1.12:
            break
        height *= max(0.7, min(1.3, 1.04 * PHONE_TEXT_SHARE / share))
        drawing = drawn(height)
    return drawing


@dataclass(frozen=True, slots=True)
class _Place:
    text: Text
    leader: tuple[Point, Point]


def placed(callouts: Sequence[Callout], body: Bounds, taken: Sequence[Bounds],
           height: float) -> tuple[Shape, ...]:
    """The callouts above ``body``, clear of the ``taken`` boxes and of each other."""
    middle = (body.low[0] + body.high[0]) / 2
    boxes, leaders = list(taken), list[tuple[Point, Point]]()
    shapes: list[Shape] = []
    for callout in sorted(callouts, key=lambda c: (abs(c.at[0] - middle), c.at, c.text)):
        # An angle is never left unsaid: where no place is wholly clear its leader may cross another one,
        # at worst words; words never stand on words.
        place = next((p for stage, tries in enumerate(_tries(len(callouts)))
                      for p in islice(_places(callout, body, height), tries)
                      if _free(p, boxes, [] if stage else leaders, height, stage < 2)), None)
        if place is None:
            *_, place = _places(callout, body, height)
        boxes.append(text_box(place.text))
        leaders.append(place.leader)
        shapes += [Line(place.leader, "leader"), dot(callout.at, 0.16 * height), place.text]
    return tuple(shapes)


def _tries(callouts: int) -> tuple[int, int, int | None]:
    """Places tried with all clear, with leaders that may cross, with words clear alone.

    Many callouts leave few places wholly clear: the search for them is cut short, so that a board full of
    holes is drawn in the time of a board with a few.
    """
    wholly = _MOST_TRIED // max(callouts, _FEW) ** 2
    return wholly, wholly // 2, None


def _places(callout: Callout, body: Bounds, height: float) -> Iterator[_Place]:
    """Places in the order in which they are liked: low rows, and words over the picture, not beside it."""
    waiting: list[tuple[float, int, _Place]] = []
    number = count()
    for row in range(_MOST_ROWS):
        for dislike, place in _in_row(callout, body, height, row):
            heappush(waiting, (dislike, next(number), place))
        while waiting and waiting[0][0] <= _ROW * (row + 1):
            yield heappop(waiting)[2]
    while waiting:
        yield heappop(waiting)[2]


def _in_row(callout: Callout, body: Bounds, height: float, row: int) -> Iterator[tuple[float, _Place]]:
    """The places of one row, each with how little it is liked."""
    x, y = callout.at
    level = max(body.high[1], y) + (_ROW * row + 1.6) * height
    for shift in _SHIFTS:
        for anchor, off, up in (("start", 0.3 * height, 0.35), ("end", -0.3 * height, 0.35),
                                ("middle", 0.0, -0.65)):
            foot = (x + shift * height, level)
            text = Text((foot[0] + off, level), callout.text, height, anchor, halo=True)
            box = text_box(text)
            beside = max(body.low[0] - box.low[0], 0.0) + max(box.high[0] - body.high[0], 0.0)
            dislike = _ROW * row + 0.3 * abs(shift) + beside / height
            yield dislike, _Place(text, (callout.at, (foot[0], level + up * height)))


def _free(place: _Place, boxes: Sequence[Bounds], leaders: Sequence[tuple[Point, Point]],
          height: float, led_clear: bool = True) -> bool:
    """Whether its words stand clear, and its leader too where ``led_clear`` asks for that."""
    box = grown(text_box(place.text), _CLEAR * height)
    (left, low), (right, high) = box.low, box.high
    for b in boxes:              # asked of thousands of places: what Bounds.overlaps says, without the calls
        if b.low[0] < right and b.high[0] > left and b.low[1] < high and b.high[1] > low:
            return False
    return not led_clear or not (
        crosses_box(place.leader, text_box(place.text))
        or any(crosses_box(place.leader, grown(b, 0.15 * height)) for b in boxes)
        or any(crosses_box(other, box) for other in leaders)
        or any(crosses(place.leader, other) for other in leaders))


def grown(box: Bounds, by: float) -> Bounds:
    """The box with room around it."""
    return Bounds((box.low[0] - by, box.low[1] - by), (box.high[0] + by, box.high[1] + by))


def crosses(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    """Whether two strokes share a point."""
    (a, b), (c, d) = one, other
    first, second = _side(a, b, c), _side(a, b, d)
    third, fourth = _side(c, d, a), _side(c, d, b)
    if first == second == third == fourth == 0.0:
        return (min(a[0], b[0]) <= max(c[0], d[0]) and min(c[0], d[0]) <= max(a[0], b[0])
                and min(a[1], b[1]) <= max(c[1], d[1]) and min(c[1], d[1]) <= max(a[1], b[1]))
    return first * second <= 0.0 and third * fourth <= 0.0


def _side(a: Point, b: Point, p: Point) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def crosses_box(stroke: tuple[Point, Point], box: Bounds) -> bool:
    """Whether a stroke touches a box (clipped side by side)."""
    (ax, ay), (bx, by) = stroke
    first, last = 0.0, 1.0
    for start, run, low, high in ((ax, bx - ax, box.low[0], box.high[0]),
                                  (ay, by - ay, box.low[1], box.high[1])):
        if abs(run) < 1e-12:
            if not low <= start <= high:
                return False
            continue
        enter, leave = sorted(((low - start) / run, (high - start) / run))
        first, last = max(first, enter), min(last, leave)
    return first <= last


def dot(centre: Point, radius: float) -> Polygon:
    """A small black disc at the foot of a leader."""
    return Polygon(tuple((centre[0] + radius * cos(radians(a)), centre[1] + radius * sin(radians(a)))
                         for a in range(0, 360, 45)), 0.15)
