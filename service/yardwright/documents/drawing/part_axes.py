"""A part laid on the bench to be drawn: its faces in its own axes, the face with most work towards you."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from .model import Point
from .projection import Ring, Vector, View
from .visible import visible_lines

if TYPE_CHECKING:
    from yardwright.domain.piece.model import Member

Segment = tuple[Point, Point]

# The wide face; under it the lower edge, seen from below; to its right the right end, seen from there
# (third-angle arrangement: each view stands on the side from which it is seen, ISO 5456-2, from memory).
FACE = View("face", (1, 0, 0), (0, 1, 0), (0, 0, 1))
EDGE = View("edge", (1, 0, 0), (0, 0, 1), (0, -1, 0))
END = View("end", (0, 0, -1), (0, 1, 0), (1, 0, 0))


@dataclass(frozen=True, slots=True)
class Laid:
    """A part on the bench: axes of the world it lies along, and its faces in its own axes from ``low`` on.

    ``low`` and ``size`` are those of its blank with both ends cut, so that places on it count from where a
    rule is held before notches and tapers are cut.
    """

    right: Vector
    up: Vector
    towards: Vector
    low: Vector
    size: Vector
    rings: tuple[Ring, ...]

    def seen(self, view: View) -> tuple[Segment, ...]:
        """The lines of one of its views."""
        return tuple(s for part in visible_lines([self.rings], view) for s in part)

    def place(self, u: float, v: float, w: float) -> Vector:
        """Where in the piece a place of the part is."""
        at = (u + self.low[0], v + self.low[1], w + self.low[2])
        return tuple(sum(c * axis[k] for c, axis in zip(at, (self.right, self.up, self.towards), strict=True))
                     for k in range(3))  # type: ignore[return-value]


def laid(member: Member, worked: Callable[[Laid], int] = lambda _: 0) -> Laid:
    """The way of laying it, of the four along its grain, that shows most of its shape work.

    Of ways that show the same, the one with most on it by ``worked``; then curves stand upright.
    """
    return max(_ways(member), key=lambda way: (round(_shown(way), 1), worked(way), round(_high(way), 2)))


def as_placed(member: Member) -> Laid:
    """The part along its own frame, whatever it shows that way."""
    return next(_ways(member))


def _ways(member: Member) -> Iterator[Laid]:
    from yardwright.domain.piece.faces import faces  # the solid kernel behind it is slow to load

    rings = faces(member)
    a, b = member.frame.along, member.frame.wide
    for right, up in ((a, b), (_back(a), _back(b)), (a, _back(b)), (_back(a), b)):
        yield _laid(member, rings, right, up)


def _laid(member: Member, rings: Sequence[Ring], right: Vector, up: Vector) -> Laid:
    towards = (right[1] * up[2] - right[2] * up[1], right[2] * up[0] - right[0] * up[2],
               right[0] * up[1] - right[1] * up[0])
    size = (member.length_mm, member.width_mm, member.thickness_mm)
    ends = [_in(member.frame.to_world(*at), right, up, towards) for at in ((0.0, 0.0, 0.0), size)]
    u, v, w = (min(p[k] for p in ends) for k in range(3))
    turned = [[_in(p, right, up, towards) for p in ring] for ring in rings]
    own = tuple([(p[0] - u, p[1] - v, p[2] - w) for p in ring] for ring in turned)
    return Laid(right, up, towards, (u, v, w), size, own)


def _shown(way: Laid) -> float:
    """Length of the lines on its views."""
    lines = [s for view in (FACE, EDGE, END) for s in way.seen(view)]
    return sum(abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in lines)


def _high(way: Laid) -> float:
    """How high on the face its corners lie."""
    corners = [p for ring in way.rings for p in ring]
    return sum(p[1] for p in corners) / len(corners) / max(way.size[1], 1e-9)


def _in(p: Vector, right: Vector, up: Vector, towards: Vector) -> Vector:
    return (_dot(p, right), _dot(p, up), _dot(p, towards))


def _dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _back(v: Vector) -> Vector:
    return (-v[0], -v[1], -v[2])
