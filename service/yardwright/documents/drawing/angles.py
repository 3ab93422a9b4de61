"""Angles and curves called out on a view: how far a line leans off plumb or level, how a crest rises.

Angles are read off the lines of the picture itself. A member that leans two ways shows its lean as seen
from this side, as a bevel gauge held against the piece would.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, cos, degrees, hypot, radians, sin
from typing import TYPE_CHECKING

from yardwright.domain.measure import Writer

from .callouts import Callout
from .features import features
from .model import Bounds, Line, Point, Shape
from .part_axes import as_placed
from .projection import VIEWS

if TYPE_CHECKING:
    from yardwright.domain.piece.model import Piece

Segment = tuple[Point, Point]

_LEAST_DEG, _MOST_DEG = 2.0, 40.0   # less is a taper, said on the part's own drawing
_LEAST_SHARE = 0.14          # a line shorter than this share of the picture is not worth an angle
_LEAST_CURVE = 0.3           # and a curve under this, which the part's own drawing shows better
_GAP_SHARE, _IN_LINE_MM = 0.2, 0.5   # a gap this share of a board's edge does not end the line it lies in
_MOST = 2                    # angles called out on one view


def leans(segments: Sequence[Segment], body: Bounds, height: float) -> tuple[list[Shape], list[Callout]]:
    """Arcs with their reference lines, and callouts, for the lines of a view that lean."""
    least = _LEAST_SHARE * max(body.width, body.height)
    longest: dict[tuple[str, float], Segment] = {}
    for segment in _run_on([g for g in segments if _lean(g)]):
        found = _lean(segment)
        if found is None or _long(segment) < least:
            continue
        if found not in longest or _rank(segment, body) > _rank(longest[found], body):
            longest[found] = segment
    shapes: list[Shape] = []
    said: list[Callout] = []
    kept = sorted(longest.items(), key=lambda item: -_long(item[1]))
    for (off, angle), segment in _each_angle_once(kept)[:_MOST]:
        marks, at = _marked(off, segment, height)
        shapes += marks
        said.append(Callout(f"{angle:g}° off {off}", at))
    return shapes, said


def _run_on(segments: Sequence[Segment]) -> list[Segment]:
    """Edges in one line with next to nothing between them, as of boards with gaps, taken as one."""
    found: list[Segment] = []
    for a, b in sorted((min(g), max(g)) for g in segments):
        for k, (first, last) in enumerate(found):
            long, apart = hypot(b[0] - first[0], b[1] - first[1]), hypot(a[0] - last[0], a[1] - last[1])
            off = max(_off((first, b), last), _off((first, b), a))
            if long > 0 and off < _IN_LINE_MM and apart < _GAP_SHARE * hypot(b[0] - a[0], b[1] - a[1]):
                found[k] = (first, b)
                break
        else:
            found.append((a, b))
    return found


def _off(line: Segment, at: Point) -> float:
    """How far a point lies off a line."""
    (ax, ay), (bx, by) = line
    return abs((bx - ax) * (at[1] - ay) - (by - ay) * (at[0] - ax)) / max(hypot(bx - ax, by - ay), 1e-9)


def _each_angle_once(found: Sequence[tuple[tuple[str, float], Segment]]) -> list[tuple[tuple[str, float],
                                                                                       Segment]]:
    """A seat boarded square to a leaning back shows the same angle both ways: plumb is said first."""
    kept: dict[float, tuple[tuple[str, float], Segment]] = {}
    for one in found:
        kept.setdefault(one[0][1], one)
    return list(kept.values())


def _long(segment: Segment) -> float:
    (ax, ay), (bx, by) = segment
    return hypot(bx - ax, by - ay)


def _rank(segment: Segment, body: Bounds) -> float:
    """Longer first; of equals the one farther to the right, where there is air to draw in."""
    return round(_long(segment), 0) + (segment[0][0] - body.low[0]) / max(body.width, 1.0)


def _lean(segment: Segment) -> tuple[str, float] | None:
    """Off plumb or off level, in degrees to a tenth; None for a line that stands, lies or slants."""
    (ax, ay), (bx, by) = segment
    up = degrees(atan2(abs(bx - ax), abs(by - ay)))
    if _LEAST_DEG <= up <= _MOST_DEG:
        return "plumb", round(up, 1)
    if _LEAST_DEG <= 90.0 - up <= _MOST_DEG:
        return "level", round(90.0 - up, 1)
    return None


def _marked(off: str, segment: Segment, height: float) -> tuple[list[Shape], Point]:
    """A plumb or level line from the upper or outer end, the arc to the leaning line, the arc's middle."""
    a, b = segment
    apex, other = (a, b) if (a[1] > b[1] if off == "plumb" else a[0] > b[0]) else (b, a)
    reach = min(0.55 * _long(segment), 9.0 * height)
    bearing = atan2(other[1] - apex[1], other[0] - apex[0])
    rest = radians(-90.0) if off == "plumb" else (radians(180.0) if bearing > 0 else radians(-180.0))
    turns = [rest + (bearing - rest) * k / 8 for k in range(9)]
    arc = tuple((apex[0] + reach * cos(t), apex[1] + reach * sin(t)) for t in turns)
    foot = (apex[0] + 1.08 * reach * cos(rest), apex[1] + 1.08 * reach * sin(rest))
    return [Line((apex, foot), "centre"), Line(arc, "dimension")], arc[4]


def curves(piece: Piece, view: str, writer: Writer) -> list[Callout]:
    """Curved edges that face the viewer: their rise and radius, led to the crown."""
    looking = VIEWS[view]
    least = _LEAST_CURVE * max(piece.closed.size)
    said: dict[str, Callout] = {}
    for member in piece.members:
        if member.group != "fixed" or not any(work.kind == "outline" for work in member.shape):
            continue
        way = as_placed(member)
        facing = sum(a * b for a, b in zip(way.towards, looking.towards, strict=True))
        for arc in features(way).arcs if abs(facing) > 0.8 else ():
            if arc.chord_mm >= least:
                text = f"rise {writer.mm(arc.rise_mm)}, radius {writer.mm(arc.radius_mm)}"
                said.setdefault(text, Callout(text, looking.flat(way.place(*arc.crown, 0.0))))
    return list(said.values())
