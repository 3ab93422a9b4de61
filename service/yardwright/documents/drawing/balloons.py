"""Part marks in balloons around a picture, each with a leader to its part; leaders never cross.

Balloons stand on a ring beyond everything drawn. Which takes which place is settled by exchange until no
swap shortens the leaders: where two leaders crossed, swapping their balloons would. A mark that finds no
place clear of the dimension words is given back, to be shown in another view.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import combinations
from math import cos, hypot, inf, radians, sin

from .callouts import crosses, crosses_box, dot, grown
from .model import Bounds, Drawing, Line, Point, Polygon, Shape, Text, text_box
from .shapes import fitted

Stroke = tuple[Point, Point]

_RADIUS = 1.15               # of a balloon, in text heights
_APART = 2.5                 # balloon to balloon along the ring, in radii
_STEEPEST = sin(radians(27))  # a leader flatter to its side of the ring would touch the next balloon


def ballooned(drawing: Drawing, anchors: Mapping[str, Point], height: float) -> tuple[Drawing, set[str]]:
    """The drawing with a balloon for each mark that finds its place, and the marks shown."""
    radius = _RADIUS * height
    texts = [grown(text_box(s), 0.15 * height) for s in drawing.shapes if isinstance(s, Text)]
    ring = grown(replace(drawing, margin_mm=0.0).bounds, 1.5 * radius)
    slots = _slots(ring, _APART * radius)
    marks = sorted(anchors, key=lambda mark: (anchors[mark], mark))
    others = [(s.points[0], s.points[1]) for s in drawing.shapes
              if isinstance(s, Line) and s.style == "leader"]
    cost = {(mark, slot): _cost(anchors[mark], at, side, (texts, others), radius)
            for mark in marks for slot, (at, side) in enumerate(slots)}
    taken = _settled(marks, len(slots), cost)
    leaders = {mark: (anchors[mark], _rim(anchors[mark], slots[slot][0], radius))
               for mark, slot in taken.items()}
    shown = _uncrossed(leaders, {m: slots[s][0] for m, s in taken.items()}, radius)
    shapes: list[Shape] = []
    for mark in sorted(shown):
        centre = slots[taken[mark]][0]
        shapes += [Line(leaders[mark], "leader"), dot(anchors[mark], 0.2 * height), _disc(centre, radius),
                   Text(centre, mark, fitted(mark, 1.7 * radius, 1.7 * radius, 0.95 * height), bold=True)]
    return replace(drawing, shapes=(*drawing.shapes, *shapes), again=None), shown


def _slots(ring: Bounds, apart: float) -> list[tuple[Point, Point]]:
    """Places around the ring, corners left out, each with the direction square to its side."""
    (x0, y0), (x1, y1) = ring.low, ring.high
    found: list[tuple[Point, Point]] = []
    across, up = (1, 0), (0, 1)
    for start, run, along, inward in (((x0, y1), x1 - x0, across, (0, -1)), ((x0, y0), x1 - x0, across, up),
                                      ((x0, y0), y1 - y0, up, across), ((x1, y0), y1 - y0, up, (-1, 0))):
        count = int(run // apart) - 1
        first = (run - (count - 1) * apart) / 2
        found += [((start[0] + along[0] * (first + k * apart), start[1] + along[1] * (first + k * apart)),
                   inward) for k in range(max(count, 0))]
    return found


def _cost(anchor: Point, at: Point, inward: Point, drawn: tuple[Sequence[Bounds], Sequence[Stroke]],
          radius: float) -> float:
    """Length of the leader; without end where it would cross words or a leader, or run too flat."""
    texts, others = drawn
    dx, dy = anchor[0] - at[0], anchor[1] - at[1]
    far = hypot(dx, dy)
    if far < radius or (dx * inward[0] + dy * inward[1]) < _STEEPEST * far:
        return inf
    if any(crosses_box((anchor, at), box) for box in texts):
        return inf
    if any(crosses((anchor, at), other) for other in others):
        return inf
    return far


def _settled(marks: Sequence[str], slots: int, cost: Mapping[tuple[str, int], float]) -> dict[str, int]:
    """A place for each mark: nearest first, then moves and swaps while they shorten the leaders."""
    taken: dict[str, int] = {}
    for mark in sorted(marks, key=lambda m: (min((cost[m, s] for s in range(slots)), default=inf), m)):
        free = [s for s in range(slots) if s not in taken.values() and cost[mark, s] < inf]
        if free:
            taken[mark] = min(free, key=lambda s: (cost[mark, s], s))
    for _ in range(60):
        if not (_moved(taken, slots, cost) or _swapped(taken, cost)):
            break
    return taken


def _moved(taken: dict[str, int], slots: int, cost: Mapping[tuple[str, int], float]) -> bool:
    moved = False
    for mark, now in list(taken.items()):
        free = [s for s in range(slots) if s not in taken.values()]
        best = min(free, key=lambda s: (cost[mark, s], s), default=now)
        if cost[mark, best] < cost[mark, now] - 1e-9:
            taken[mark], moved = best, True
    return moved


def _swapped(taken: dict[str, int], cost: Mapping[tuple[str, int], float]) -> bool:
    swapped = False
    for one, other in combinations(sorted(taken), 2):
        a, b = taken[one], taken[other]
        if cost[one, b] + cost[other, a] < cost[one, a] + cost[other, b] - 1e-9:
            taken[one], taken[other], swapped = b, a, True
    return swapped


def _uncrossed(leaders: Mapping[str, tuple[Point, Point]], centres: Mapping[str, Point],
               radius: float) -> set[str]:
    """The marks whose leaders meet no other leader, balloon or foot that is kept; the shortest first."""
    kept: list[str] = []
    for mark in sorted(leaders, key=lambda m: (hypot(leaders[m][0][0] - leaders[m][1][0],
                                                     leaders[m][0][1] - leaders[m][1][1]), m)):
        if not any(crosses(leaders[mark], leaders[k]) or _touches(leaders[mark], centres[k], radius)
                   or _touches(leaders[k], centres[mark], radius) for k in kept):
            kept.append(mark)
    return set(kept)


def _touches(stroke: tuple[Point, Point], centre: Point, radius: float) -> bool:
    """Whether a stroke comes nearer to a balloon's middle than its radius."""
    (ax, ay), (bx, by) = stroke
    run = (bx - ax) ** 2 + (by - ay) ** 2
    t = 0.0 if run < 1e-12 else ((centre[0] - ax) * (bx - ax) + (centre[1] - ay) * (by - ay)) / run
    t = max(0.0, min(1.0, t))
    return hypot(ax + t * (bx - ax) - centre[0], ay + t * (by - ay) - centre[1]) < radius


def _rim(anchor: Point, centre: Point, radius: float) -> Point:
    """Where the leader meets the balloon."""
    dx, dy = anchor[0] - centre[0], anchor[1] - centre[1]
    far = hypot(dx, dy)
    return (centre[0] + dx / far * radius, centre[1] + dy / far * radius)


def _disc(centre: Point, radius: float) -> Polygon:
    return Polygon(tuple((centre[0] + radius * cos(radians(a)), centre[1] + radius * sin(radians(a)))
                         for a in range(0, 360, 15)), 1.0, "visible")
