"""Hidden lines removed, exactly: each edge less the stretches where a face stands in front of it.

Along an edge, "inside the outline of a face" and "behind its plane" are both ends of linear functions, so
the hidden stretches are found by solving, not by sampling. Lines on top of each other are then merged.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import atan2, cos, hypot, pi, sin

from .model import Point
from .projection import Edge, Face, Ring, View, project

Span = tuple[float, float]
Segment = tuple[Point, Point]

_TOUCH_MM = 0.02       # nearer to an outline than this counts as on it, not inside
_BEHIND_MM = 0.05      # less far behind a face than this counts as in it: flush faces hide nothing
_SHORTEST_MM = 0.3     # a shorter visible stretch is a speck, not a line
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
        if x0 < right and x1 > left or left == right and x0 < left < x1:
            if not (y0 < high and y1 > low or low == high and y0 < low < y1):
                continue
            spans += _behind(edge, face)
            if spans and _covers(spans):
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
    return [(max(first, s), min(last, t)) for s, t in _inside(edge.start, edge.end, face)
            if min(last, t) > max(first, s)]


def _inside(start: Point, end: Point, face: Face) -> list[Span]:
    """Stretches of a line inside a face's outline."""
    return _inside_convex(start, end, face.points) if face.convex else _inside_any(start, end, face.points)


def _inside_convex(start: Point, end: Point, points: tuple[Point, ...]) -> list[Span]:
    """Clipped against each side in turn (the outline is counter-clockwise)."""
    first, last = 0.0, 1.0
    (ax, ay), (bx, by) = start, end
    px, py = points[-1]
    for qx, qy in points:
        dx, dy = qx - px, qy - py
        size = hypot(dx, dy)
        if size > 1e-9:
            a = (dx * (ay - py) - dy * (ax - px)) / size
            b = (dx * (by - py) - dy * (bx - px)) / size
            if a <= _TOUCH_MM and b <= _TOUCH_MM:
                return []
            if a < 0.0:
                first = max(first, a / (a - b))
            elif b < 0.0:
                last = min(last, a / (a - b))
            if first >= last:
                return []
        px, py = qx, qy
    return [(first, last)]


def _inside_any(start: Point, end: Point, points: tuple[Point, ...]) -> list[Span]:
    """Cut where the outline is crossed; each stretch is in or out as its middle is (even-odd rule)."""
    (ax, ay), (bx, by) = start, end
    dx, dy = bx - ax, by - ay
    size = hypot(dx, dy)
    if size < 1e-9:
        return []
    cuts = {0.0, 1.0}
    px, py = points[-1]
    for qx, qy in points:
        p = (dx * (py - ay) - dy * (px - ax)) / size
        q = (dx * (qy - ay) - dy * (qx - ax)) / size
        for x, y, off in ((px, py, p), (qx, qy, q)):
            if abs(off) <= _TOUCH_MM:
                cuts.add(((x - ax) * dx + (y - ay) * dy) / (size * size))
        if p * q < 0.0:
            s = p / (p - q)
            x, y = px + (qx - px) * s, py + (qy - py) * s
            cuts.add(((x - ax) * dx + (y - ay) * dy) / (size * size))
        px, py = qx, qy
    ends = sorted(c for c in cuts if 0.0 <= c <= 1.0)
    return [(s, t) for s, t in zip(ends, ends[1:], strict=False)
            if t - s > 1e-9 and _well_inside((ax + dx * (s + t) / 2, ay + dy * (s + t) / 2), points)]


def _well_inside(point: Point, points: tuple[Point, ...]) -> bool:
    """Inside by the even-odd rule and not on the outline."""
    x, y = point
    odd = False
    px, py = points[-1]
    for qx, qy in points:
        if (py > y) != (qy > y) and x < px + (qx - px) * (y - py) / (qy - py):
            odd = not odd
        dx, dy = qx - px, qy - py
        size = hypot(dx, dy)
        if size > 1e-9:
            along = ((x - px) * dx + (y - py) * dy) / size
            if abs(dx * (y - py) - dy * (x - px)) / size <= _TOUCH_MM and -1e-9 <= along <= size + 1e-9:
                return False
        px, py = qx, qy
    return odd


def _shown(edge: Edge, hidden: list[Span]) -> list[Span]:
    """What is left of an edge, less specks."""
    size = hypot(edge.end[0] - edge.start[0], edge.end[1] - edge.start[1])
    return [(a, b) for a, b in gaps(hidden) if (b - a) * size >= _SHORTEST_MM]


def gaps(spans: Iterable[Span]) -> list[Span]:
    """What of 0..1 no span covers."""
    free: list[Span] = []
    reached = 0.0
    for a, b in sorted(spans):
        if a > reached:
            free.append((reached, a))
        reached = max(reached, b)
    if reached < 1.0:
        free.append((reached, 1.0))
    return free


def _at(edge: Edge, share: float) -> Point:
    (ax, ay), (bx, by) = edge.start, edge.end
    return (ax + (bx - ax) * share, ay + (by - ay) * share)


def merged(segments: Iterable[Segment]) -> list[Segment]:
    """Segments on one line that overlap or meet become one; each stretch is drawn once."""
    placed = []
    for (ax, ay), (bx, by) in segments:
        if hypot(bx - ax, by - ay) < _SHORTEST_MM:
            continue
        angle = atan2(by - ay, bx - ax) % pi
        angle = 0.0 if pi - angle < 5e-4 else angle
        c, s = cos(angle), sin(angle)
        offset = ay * c - ax * s
        along = sorted((ax * c + ay * s, bx * c + by * s))
        placed.append((round(angle, 3), offset, along[0], along[1], angle))
    joined: list[Segment] = []
    for line in _lines(sorted(placed)):
        angle, offset = line[0][4], line[0][1]
        c, s = cos(angle), sin(angle)
        joined += [((a * c - offset * s, a * s + offset * c), (b * c - offset * s, b * s + offset * c))
                   for a, b in _unions((p[2], p[3]) for p in line)]
    return joined


_Placed = tuple[float, float, float, float, float]


def _lines(placed: list[_Placed]) -> list[list[_Placed]]:
    """Groups that lie on the same line: same direction, less than 0.1 mm apart."""
    groups: list[list[_Placed]] = []
    for one in placed:
        last = groups[-1][0] if groups else None
        if last is not None and one[0] == last[0] and one[1] - last[1] < 0.1:
            groups[-1].append(one)
        else:
            groups.append([one])
    return groups


def _unions(spans: Iterable[Span]) -> list[Span]:
    joined: list[Span] = []
    for a, b in sorted(spans):
        if joined and a <= joined[-1][1] + 0.05:
            joined[-1] = (joined[-1][0], max(b, joined[-1][1]))
        else:
            joined.append((a, b))
    return joined


def _uncovered(segment: Segment, beside_mm: float, faces: list[Face]) -> list[Span]:
    """Stretches of a segment beside which, that far off, there is no face."""
    (ax, ay), (bx, by) = segment
    size = hypot(bx - ax, by - ay)
    nx, ny = -(by - ay) / size * beside_mm, (bx - ax) / size * beside_mm
    covered: list[Span] = []
    for face in faces:
        covered += _inside((ax + nx, ay + ny), (bx + nx, by + ny), face)
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

    outer = _unions(open_spans) if open_spans else []
    pieces = [(at(a), at(b), True) for a, b in outer]
    return pieces + [(at(a), at(b), False) for a, b in gaps(outer) if (b - a) * size >= _SHORTEST_MM]
