"""Hidden lines removed, exactly: each edge less the stretches where a face stands in front of it.

Along an edge, "inside the outline of a face" and "behind its plane" are both ends of linear functions, so
the hidden stretches are found by solving, not by sampling. Lines on top of each other are then merged.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import hypot

from .clipping import Span, gaps, inside, unions
from .merging import SHORTEST_MM, Segment, merged
from .model import Point
from .projection import Edge, Face, Ring, View, project

_BEHIND_MM = 0.05      # less far behind a face than this counts as in it: flush faces hide nothing
_BESIDE_MM = 0.2       # how far beside a line its two sides are looked at
_GAP_MM = 12.0         # a gap between boards narrower than this is no empty space worth a heavy line

_Boxed = tuple[float, float, float, float, float, Face]


def visible_lines(members: Sequence[Sequence[Ring]],
                  view: View) -> tuple[tuple[Segment, ...], tuple[Segment, ...]]:
    """What the viewer sees of the members: lines against empty space, and all other lines."""
    faces, edges = project(members, view)
    boxed = _boxes(faces)
    seen = [(_at(edge, a), _at(edge, b)) for edge in edges
            for a, b in _shown(edge, _hidden_spans(edge, boxed))]
    outline: list[Segment] = []
    inner: list[Segment] = []
    for segment in merged(seen):
        for a, b, against_nothing in _split_by_background(segment, boxed):
            (outline if against_nothing else inner).append((a, b))
    return tuple(outline), tuple(inner)


def _boxes(faces: Iterable[Face]) -> list[_Boxed]:
    """Faces with their box and nearest depth, nearest first: near ones hide most."""
    boxed = [(min(p[0] for p in f.points), max(p[0] for p in f.points), min(p[1] for p in f.points),
              max(p[1] for p in f.points), min(f.depths), f) for f in faces]
    return sorted(boxed, key=lambda b: b[4])


def _hidden_spans(edge: Edge, boxed: list[_Boxed]) -> list[Span]:
    """Stretches of the edge, as shares of its run, that some face hides."""
    (ax, ay), (bx, by) = edge.start, edge.end
    left, right = (ax, bx) if ax < bx else (bx, ax)
    low, high = (ay, by) if ay < by else (by, ay)
    far = max(edge.start_depth, edge.end_depth) - _BEHIND_MM
    spans: list[Span] = []
    for x0, x1, y0, y1, near, face in boxed:
        if near >= far:
            break
        if x0 < right and x1 > left and y0 < high and y1 > low:
            spans += _behind(edge, face)
            if _covers(spans):
                break
    return spans


def _covers(spans: list[Span]) -> bool:
    return any(a <= 0.0 and b >= 1.0 for a, b in spans)


def _behind(edge: Edge, face: Face) -> list[Span]:
    """Stretches of the edge inside the face's outline and behind its plane."""
    a, b, c = face.plane
    start = edge.start_depth - (a * edge.start[0] + b * edge.start[1] + c) - _BEHIND_MM
    end = edge.end_depth - (a * edge.end[0] + b * edge.end[1] + c) - _BEHIND_MM
    if start <= 0.0 and end <= 0.0:
        return []
    first, last = 0.0, 1.0
    if start < 0.0:
        first = start / (start - end)
    elif end < 0.0:
        last = start / (start - end)
    return [(max(first, s), min(last, t)) for s, t in inside(edge.start, edge.end, face)
            if min(last, t) > max(first, s)]


def _shown(edge: Edge, hidden: list[Span]) -> list[Span]:
    """What is left of an edge, less specks."""
    size = hypot(edge.end[0] - edge.start[0], edge.end[1] - edge.start[1])
    return [(a, b) for a, b in gaps(hidden) if (b - a) * size >= SHORTEST_MM]


def _at(edge: Edge, share: float) -> Point:
    (ax, ay), (bx, by) = edge.start, edge.end
    return (ax + (bx - ax) * share, ay + (by - ay) * share)


def _uncovered(segment: Segment, beside_mm: float, faces: list[Face]) -> list[Span]:
    """Stretches of a segment beside which, that far off, there is no face."""
    (ax, ay), (bx, by) = segment
    size = hypot(bx - ax, by - ay)
    nx, ny = -(by - ay) / size * beside_mm, (bx - ax) / size * beside_mm
    covered: list[Span] = []
    for face in faces:
        covered += inside((ax + nx, ay + ny), (bx + nx, by + ny), face)
        if _covers(covered):
            break
    return gaps(covered)


def _mostly(span: Span, others: list[Span]) -> bool:
    """Whether the others cover at least half of the span."""
    shared = sum(max(0.0, min(span[1], b) - max(span[0], a)) for a, b in others)
    return shared * 2 >= span[1] - span[0]


def _split_by_background(segment: Segment, boxed: list[_Boxed]) -> list[tuple[Point, Point, bool]]:
    """The segment cut where one of its two sides changes between a face and empty space."""
    (ax, ay), (bx, by) = segment
    size = hypot(bx - ax, by - ay)
    m = _GAP_MM
    left, right, low, high = min(ax, bx) - m, max(ax, bx) + m, min(ay, by) - m, max(ay, by) + m
    near = [f for x0, x1, y0, y1, _, f in boxed if x0 < right and x1 > left and y0 < high and y1 > low]
    open_spans: list[Span] = []
    for sign in (1.0, -1.0):
        for a, b in _uncovered(segment, sign * _BESIDE_MM, near):
            if (b - a) * size > 3 * _BESIDE_MM and _mostly((a, b), _uncovered(segment, sign * m, near)):
                open_spans.append((a, b))

    def at(share: float) -> Point:
        return (ax + (bx - ax) * share, ay + (by - ay) * share)

    outer = unions(open_spans, 1e-6)
    pieces = [(at(a), at(b), True) for a, b in outer]
    return pieces + [(at(a), at(b), False) for a, b in gaps(outer) if (b - a) * size >= SHORTEST_MM]
