"""Placing a blank: two end points, the way width and thickness grow, and how the ends are cut.

An end is a plane; it meets the blank's four long edges, so the blank's length (long point to long point)
and any bevel or compound angle follow and are never typed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import radians, tan

from ..errors import BadTemplate, Fault
from .model import Frame
from .solid import Solid, blank
from .vectors import Vector, add, cross, dot, scaled, size, square_to, sub, unit

Axes = tuple[Vector, Vector, Vector, bool]
STEEPEST = 0.05          # an end plane more nearly along the grain than this (about 3 degrees) is no end


@dataclass(frozen=True, slots=True)
class EndPlane:
    """A plane that ends a blank: a point in it and the normal that looks out of the wood."""

    at: Vector
    normal: Vector


@dataclass(frozen=True, slots=True)
class Placed:
    """A blank in its place. ``near_shift``: from the first end point back to the blank's own corner, mm.

    ``start`` and ``end`` are (mitre, bevel) as tangents: how much longer the blank runs for each mm across
    the width and through the thickness, seen in the blank's own frame; positive is longer at the far side.
    ``turned_over``: the blank's thickness runs against the template's ``thick``.
    """

    frame: Frame
    length: float
    width: float
    thickness: float
    solid: Solid
    near_shift: float
    start: tuple[float, float]
    end: tuple[float, float]
    turned_over: bool


def axes(start: Vector, end: Vector, wide: Vector, thick: Vector) -> Axes:
    """Right-handed unit axes of a blank (along, wide, thick), and whether thick was turned for it."""
    along = unit(sub(end, start))
    across = unit(square_to(wide, along))
    through = cross(along, across)
    way = dot(through, thick)
    if abs(way) < 1e-6 * max(size(thick), 1.0):
        raise ValueError("thick lies along the face")
    return along, across, through, way < 0


def square_end(at: Vector, along: Vector, sign: float) -> EndPlane:
    """Square to the member's own length; ``sign`` -1 at its start, +1 at its end."""
    return EndPlane(at, scaled(along, sign))


def level_end(at: Vector, along: Vector, sign: float) -> EndPlane:
    """Horizontal."""
    return EndPlane(at, (0.0, 0.0, 1.0 if along[2] * sign > 0 else -1.0))


def plumb_end(at: Vector, along: Vector, sign: float) -> EndPlane:
    """Vertical, square to the member's heading on plan."""
    return EndPlane(at, unit((along[0] * sign, along[1] * sign, 0.0)))


def angled_end(at: Vector, along: Vector, across: Vector, sign: float, degrees: float) -> EndPlane:
    """Off square by ``degrees``; positive runs longer further from the start-end line along ``across``."""
    return EndPlane(at, unit(sub(scaled(along, sign), scaled(across, tan(radians(degrees))))))


def end_against(at: Vector, along: Vector, sign: float, others: Sequence[Solid]) -> EndPlane | None:
    """Flush on that face of the other members which looks back at this end and lies nearest to it."""
    best: tuple[float, EndPlane] | None = None
    outward = scaled(along, sign)
    for solid in others:
        for f in solid.faces:
            if dot(f.normal, outward) > -0.2:
                continue
            gap = tuple(max(f.low[k] - at[k], 0.0, at[k] - f.high[k]) for k in range(3))
            far = size((gap[0], gap[1], gap[2])) + abs(dot(f.normal, at) - f.offset)
            if best is None or far < best[0] - 1e-6:
                best = (far, EndPlane(f.outline[0], scaled(f.normal, -1.0)))
    return best[1] if best else None


def place(start: Vector, turned: Axes, width: float, thickness: float,
          ends: tuple[EndPlane, EndPlane], where: str) -> Placed:
    """The blank between two end planes, its start-end line one of its long edges."""
    along, across, through, over = turned
    corner = add(start, scaled(through, -thickness)) if over else start
    edges = [add(corner, add(scaled(across, v), scaled(through, w)))
             for v, w in ((0.0, 0.0), (width, 0.0), (0.0, thickness), (width, thickness))]
    runs = [_meet(edges, along, plane, where) for plane in ends]
    if any(b - a < -1e-6 for a, b in zip(*runs, strict=True)):
        raise BadTemplate(Fault(where, "the two ends cross: the member would have less than no length"))
    near, far = min(runs[0]), max(runs[1])
    ax, ay, az = along
    corners = [(x + ax * run, y + ay * run, z + az * run)
               for (x, y, z), first, last in zip(edges, *runs, strict=True) for run in (first, last)]
    first, last = ((-_slope(runs[0], 1, width), -_slope(runs[0], 2, thickness)),
                   (_slope(runs[1], 1, width), _slope(runs[1], 2, thickness)))
    frame = Frame(add(corner, scaled(along, near)), along, across, through)
    return Placed(frame, far - near, width, thickness, blank(corners), near, first, last, over)


def _meet(edges: Sequence[Vector], along: Vector, plane: EndPlane, where: str) -> list[float]:
    """How far along each edge meets an end's plane."""
    x, y, z = plane.normal
    steep = dot(plane.normal, along)
    if abs(steep) < STEEPEST:
        raise BadTemplate(Fault(where, "an end is cut along the member's own length"))
    ax, ay, az = plane.at
    return [(x * (ax - ex) + y * (ay - ey) + z * (az - ez)) / steep for ex, ey, ez in edges]


def _slope(runs: Sequence[float], other: int, over: float) -> float:
    rise = (runs[other] - runs[0]) / over
    return 0.0 if abs(rise) < 1e-9 else rise
