"""What shape work a part shows, read off its solid in the part's own axes: ends, edges, curves, shoulders.

Angles are measured on the faces themselves, never taken from the words of the cut list, so a drawing that
says 8° has 8° in it. u runs along the grain, v across, w through, all from the part's own box; the part
is looked at on its face ``w`` high.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan, degrees, hypot

from .arcs import Arc, arcs_of
from .part_axes import Laid
from .projection import Ring, Vector, normal_of

SQUARE_DEG = 0.05            # nearer to square than this is square, as on the cut list
SAME_MM = 0.3
_FLAT = 0.0009               # sine of SQUARE_DEG: a face turned by less lies square in the part's axes


@dataclass(frozen=True, slots=True)
class EndCut:
    """An end off square: saw setting for a board on its wide face, and where it shows.

    ``swing`` and ``lean``: how much further right the end lies for each mm up the face and towards you.
    """

    left: bool
    mitre_deg: float             # swing of the saw, seen on the wide face
    bevel_deg: float             # tilt of the blade
    at: Vector                   # middle of the cut face
    swing: float
    lean: float

    @property
    def long_below(self) -> bool:
        """Whether its long point is on the face's lower edge."""
        return (self.swing > 0.0) == self.left

    def setback(self, up: float, through: float, size: Vector) -> float:
        """How far short of the long point the end lies at a place on it, in mm."""
        way = 1.0 if self.left else -1.0
        return sum(slope * way * (at - (0.0 if slope * way > 0.0 else far))
                   for slope, at, far in ((self.swing, up, size[1]), (self.lean, through, size[2])))


@dataclass(frozen=True, slots=True)
class EdgeCut:
    """A long face off square. ``kind`` "bevel" (seen from the end), "taper" (on the face), "thinning"."""

    kind: str
    angle_deg: float
    at: Vector


@dataclass(frozen=True, slots=True)
class Features:
    """Sizes of the part's blank and all that is not plain box about it."""

    size: Vector
    ends: tuple[EndCut, ...]
    edges: tuple[EdgeCut, ...]
    arcs: tuple[Arc, ...]
    holes: tuple[Arc, ...]
    along_mm: tuple[float, ...]      # shoulders: places along the part, from its left end
    across_mm: tuple[float, ...]     # from its lower edge
    floors: tuple[tuple[Vector, float], ...]   # bottoms of pockets: middle, depth below the nearer face
    left_end: tuple[float, float] | None = None    # from where to where an end runs, narrower by a taper
    right_end: tuple[float, float] | None = None

    def run(self, up: float, through: float | None = None) -> tuple[float, float]:
        """From where to where along it the part runs at a place across it, on the face looked at or below."""
        deep = self.size[2] if through is None else through
        back = {left: sum(e.setback(up, deep, self.size) for e in self.ends if e.left is left)
                for left in (True, False)}
        return back[True], self.size[0] - back[False]


def features(way: Laid) -> Features:
    """The features of a part as it lies."""
    rings, size = way.rings, way.size
    arcs, holes = _curves(rings)
    ends: list[EndCut] = []
    edges: list[EdgeCut] = []
    along: set[float] = set()
    across: set[float] = set()
    floors: list[tuple[Vector, float]] = []
    for ring in rings:
        normal = normal_of(ring)
        square = [k for k in range(3) if abs(abs(normal[k]) - 1.0) < 0.5 * _FLAT ** 2]
        if square:
            k = square[0]
            place = ring[0][k]
            if SAME_MM < place < size[k] - SAME_MM:
                _shoulder(k, place, ring, normal, size, (along, across, floors))
        elif not _on_curve(ring, (*arcs, *holes)):
            _turned_face(ring, normal, size, ends, edges)
            if abs(normal[0]) < 0.5:
                along |= {round(p[0], 2) for p in ring if _within(p, ring, size[0])}
    tapered = any(edge.kind == "taper" for edge in edges)
    left, right = (_end_run(rings, size, way) if tapered else None for way in (-1.0, 1.0))
    return Features(size, tuple(ends), tuple(edges), arcs, holes, _apart(along), _apart(across),
                    tuple(floors), left, right)


def _end_run(rings: Sequence[Ring], size: Vector, way: float) -> tuple[float, float] | None:
    """From where to where across the part its end runs; None for the full width."""
    ends = [ring for ring in rings if normal_of(ring)[0] * way > 0.5]
    if not ends:
        return None
    across = [p[1] for p in max(ends, key=lambda ring: max(p[1] for p in ring) - min(p[1] for p in ring))]
    low, high = min(across), max(across)
    return (low, high) if high - low < size[1] - 1.0 else None


def _shoulder(axis: int, place: float, ring: Ring, normal: Vector, size: Vector,
              found: tuple[set[float], set[float], list[tuple[Vector, float]]]) -> None:
    """A face square to the part but inside its box: the side or the bottom of a pocket, notch or lap."""
    along, across, floors = found
    if axis == 2:
        floors.append((middle(ring), size[2] - place if normal[2] > 0 else place))
    else:
        (along, across)[axis].add(round(place, 2))


def _within(p: Vector, ring: Ring, length: float) -> bool:
    """Whether a corner of a long face is where a taper begins or ends along the part, not at its end.

    Corners of a mitred or bevelled end lie inside the length too; a taper's are as far in on both faces.
    """
    alike = [q for q in ring if abs(q[0] - p[0]) < SAME_MM]
    margin = 0.12 * length
    return len(alike) > 1 and margin < p[0] < length - margin


def _turned_face(ring: Ring, normal: Vector, size: Vector, ends: list[EndCut], edges: list[EdgeCut]) -> None:
    """An end when it looks more along the part than 60° off, else a long face."""
    a, b, c = normal
    at = middle(ring)
    if abs(a) >= 0.5:
        swing, lean = -b / a, -c / a
        cut = EndCut(a < 0, _tenth(atan(swing)), _tenth(atan(lean / hypot(1.0, swing))), at, swing, lean)
        if cut.mitre_deg or cut.bevel_deg:
            ends.append(cut)
    elif abs(a) > _FLAT and abs(b) >= abs(c):
        edges.append(EdgeCut("taper", _tenth(atan(a / b)), at))
    elif abs(a) > _FLAT:
        edges.append(EdgeCut("thinning", _tenth(atan(a / c)), at))
    elif abs(b) >= abs(c):
        edges.append(EdgeCut("bevel", _tenth(atan(c / b)), at))
    else:
        edges.append(EdgeCut("bevel", _tenth(atan(b / c)), at))


def _tenth(angle: float) -> float:
    """Degrees without sign to a tenth, as a saw's scale is read."""
    found = abs(degrees(angle))
    return 0.0 if found < SQUARE_DEG else round(found, 1)


def _curves(rings: Sequence[Ring]) -> tuple[tuple[Arc, ...], tuple[Arc, ...]]:
    """Curved edges and round holes, off the larger of the wide faces."""
    wide = [ring for ring in rings if abs(normal_of(ring)[2]) > 1.0 - 1e-6]
    if not wide:
        return (), ()
    face = max(wide, key=_area)
    found = arcs_of([(p[0], p[1]) for p in face])
    return tuple(a for a in found if not a.whole), tuple(a for a in found if a.whole)


def _area(ring: Ring) -> float:
    return abs(sum(p[0] * q[1] - p[1] * q[0] for p, q in zip(ring, (*ring[1:], ring[0]), strict=True)))


def _on_curve(ring: Ring, arcs: Sequence[Arc]) -> bool:
    """Whether a face is one chord of a curve: all its corners lie on it."""
    return any(all(arc.holds((p[0], p[1])) for p in ring) for arc in arcs)


def middle(ring: Ring) -> Vector:
    """The middle of a ring's corners."""
    n = len(ring)
    return (sum(p[0] for p in ring) / n, sum(p[1] for p in ring) / n, sum(p[2] for p in ring) / n)


def _apart(places: set[float]) -> tuple[float, ...]:
    """Places in order, those within a hair of each other once."""
    found: list[float] = []
    for place in sorted(places):
        if not found or place - found[-1] > SAME_MM:
            found.append(place)
    return tuple(found)
