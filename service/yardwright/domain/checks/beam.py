"""Beams: a board on any number of supports, with point loads and loads spread over a length.

Straight, one section all along, held up (not clamped) at its supports; ends past the last support are
overhangs. Euler-Bernoulli: E·I·w'' = M. The board is cut at supports, ends and load edges; each stretch
is exact for the load on it, so moments, shears and reactions carry no meshing error.

Units: mm, N, N·mm, N/mm². Valid for slender boards (span over 10 x depth: shear bending left out) and
small deflections. Source: any beam handbook (slope-deflection equations; memory).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from types import MappingProxyType

from .touches import apart

_SAME_MM = 1e-3          # supports or load edges nearer than this are one


@dataclass(frozen=True, slots=True)
class Load:
    """A downward force (N) centred at a place along the beam, spread evenly over a length (0 = a point)."""

    force_n: float
    at_mm: float
    over_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Bent:
    """What a loaded beam does: the greatest of each, and where."""

    moment_nmm: float            # greatest in size, sagging or hogging
    moment_at_mm: float
    shear_n: float
    shear_at_mm: float
    deflection_mm: float         # greatest in size between outer supports and on overhangs
    deflection_at_mm: float
    reactions_n: tuple[float, ...]   # upward, one a support in rising order


@dataclass(frozen=True, slots=True)
class _Stretch:
    """One uncut length with its end state: deflection up, slope, and the forces on its left end."""

    start_mm: float
    length_mm: float
    line_load: float             # N/mm downward
    up_mm: float
    slope: float
    shear_n: float
    moment_nmm: float

    def moment(self, x: float) -> float:
        """Sagging moment x mm into the stretch."""
        return self.moment_nmm + self.shear_n * x - self.line_load * x * x / 2

    def slope_at(self, x: float, stiffness: float) -> float:
        """Slope x mm into the stretch."""
        turned = self.moment_nmm * x + self.shear_n * x**2 / 2 - self.line_load * x**3 / 6
        return self.slope + turned / stiffness

    def up(self, x: float, stiffness: float) -> float:
        """Deflection (up) x mm into the stretch."""
        bent = self.moment_nmm * x**2 / 2 + self.shear_n * x**3 / 6 - self.line_load * x**4 / 24
        return self.up_mm + self.slope * x + bent / stiffness


def bend(length_mm: float, supports_mm: Sequence[float], loads: Sequence[Load],
         stiffness_nmm2: float, shear_clear_mm: float = 0.0) -> Bent:
    """Moments, shears, deflections and reactions of a beam of ``length_mm`` on two or more supports.

    ``stiffness_nmm2`` is E·I. Loads hanging past an end are cut off there (their force kept). Shear is not
    looked for nearer to a support than ``shear_clear_mm``: there the load goes straight down into it.
    Raises ValueError for fewer than two separate supports: such a beam falls.
    """
    supports = apart(supports_mm, _SAME_MM)
    if len(supports) < 2:
        raise ValueError("a beam needs two separate supports")
    spread = [_within(load, length_mm) for load in loads]
    nodes = apart([0.0, length_mm, *supports, *(edge for s in spread for edge in s[:2])], _SAME_MM)
    held = [_index(nodes, s) for s in supports]
    lines = [sum(f / (b - a) for a, b, f in spread if b - a > _SAME_MM and a - _SAME_MM < x < b - _SAME_MM)
             for x in nodes[:-1]]
    points = [0.0] * len(nodes)
    for a, b, force in spread:
        if b - a <= _SAME_MM:
            points[_index(nodes, a)] += force
    moves = _moves(nodes, lines, points, set(held), stiffness_nmm2)
    stretches = _stretches(nodes, lines, moves, stiffness_nmm2)
    return _greatest(stretches, nodes, points, held, stiffness_nmm2, shear_clear_mm)


def on_springs(length_mm: float, places: Sequence[tuple[float, float]], at_mm: float,
               stiffness_nmm2: float) -> tuple[tuple[float, ...], float]:
    """(share of a unit load at ``at_mm`` that each yielding support takes, how far the beam gives there).

    ``places``: (mm along, N/mm) of each support; joints give way a little, so a load is shared with the
    next ones. Needs two places apart; exact Euler-Bernoulli on springs.
    """
    return _on_springs(length_mm, tuple(places), min(max(at_mm, 0.0), length_mm), stiffness_nmm2)


@lru_cache(4096)             # the same member comes again under the next load and in the next trial
def _on_springs(length_mm: float, places: tuple[tuple[float, float], ...], at_mm: float,
                stiffness_nmm2: float) -> tuple[tuple[float, ...], float]:
    nodes = apart([0.0, length_mm, at_mm, *(p for p, _ in places)], _SAME_MM)
    points = [0.0] * len(nodes)
    points[_index(nodes, at_mm)] = 1.0
    springs: dict[int, float] = {}
    for place, stiff in places:
        node = _index(nodes, place)
        springs[node] = springs.get(node, 0.0) + stiff
    moves = _moves(nodes, [0.0] * (len(nodes) - 1), points, set(), stiffness_nmm2, springs)
    shares = tuple(-stiff * moves[2 * _index(nodes, place)] for place, stiff in places)
    return shares, -moves[2 * _index(nodes, at_mm)]


def _within(load: Load, length_mm: float) -> tuple[float, float, float]:
    low = min(max(load.at_mm - load.over_mm / 2, 0.0), length_mm)
    high = min(max(load.at_mm + load.over_mm / 2, 0.0), length_mm)
    return low, high, load.force_n


def _index(nodes: Sequence[float], place: float) -> int:
    """The node nearest to a place; of two as near the first."""
    after = min(max(bisect_left(nodes, place), 1), len(nodes) - 1)
    return after - 1 if place - nodes[after - 1] <= nodes[after] - place else after


def _element(length: float, stiffness: float) -> tuple[tuple[float, ...], ...]:
    a, b, c = 12 * stiffness / length**3, 6 * stiffness / length**2, 2 * stiffness / length
    return ((a, b, -a, b), (b, 2 * c, -b, c), (-a, -b, a, -b), (b, c, -b, 2 * c))


def _moves(nodes: Sequence[float], lines: Sequence[float], points: Sequence[float],
           held: set[int], stiffness: float, springs: Mapping[int, float] = MappingProxyType({})
           ) -> list[float]:
    """Deflection (up) and slope at every node: the stiffness equations, supports struck out."""
    size = 2 * len(nodes)
    band = [[0.0] * 4 for _ in range(size)]              # band[i][j - i], the upper half
    force = [0.0] * size
    for e, line in enumerate(lines):
        length = nodes[e + 1] - nodes[e]
        for i, row in enumerate(_element(length, stiffness)):
            for j in range(i, 4):
                band[2 * e + i][j - i] += row[j]
        half, end = line * length / 2, line * length**2 / 12
        for i, f in enumerate((-half, -end, -half, end)):
            force[2 * e + i] += f
    for n, point in enumerate(points):
        force[2 * n] -= point
    for n, spring in springs.items():
        band[2 * n][0] += spring
    for n in held:
        _strike_out(band, force, 2 * n)
    return _solved(band, force)


def _strike_out(band: list[list[float]], force: list[float], i: int) -> None:
    band[i] = [1.0, 0.0, 0.0, 0.0]
    force[i] = 0.0
    for back in (1, 2, 3):
        if i - back >= 0:
            band[i - back][back] = 0.0


def _solved(band: list[list[float]], force: list[float]) -> list[float]:
    """Gaussian elimination of a symmetric positive matrix kept as its upper band of four."""
    size = len(force)
    for i in range(size):
        pivot = band[i]
        for k in range(1, min(4, size - i)):
            factor = pivot[k] / pivot[0]
            if factor:
                row = band[i + k]
                for j in range(4 - k):
                    row[j] -= factor * pivot[j + k]
                force[i + k] -= factor * force[i]
    for i in range(size - 1, -1, -1):
        rest = sum(band[i][k] * force[i + k] for k in range(1, min(4, size - i)))
        force[i] = (force[i] - rest) / band[i][0]
    return force


def _stretches(nodes: Sequence[float], lines: Sequence[float], moves: Sequence[float],
               stiffness: float) -> list[_Stretch]:
    result = []
    for e, line in enumerate(lines):
        length = nodes[e + 1] - nodes[e]
        ends = moves[2 * e:2 * e + 4]
        rows = _element(length, stiffness)[:2]
        shear, turning = (sum(k * d for k, d in zip(row, ends, strict=True)) for row in rows)
        result.append(_Stretch(nodes[e], length, line, ends[0], ends[1],
                               shear + line * length / 2, -(turning + line * length**2 / 12)))
    return result


def _greatest(stretches: Sequence[_Stretch], nodes: Sequence[float], points: Sequence[float],
              held: Sequence[int], stiffness: float, clear: float) -> Bent:
    moments, shears, ups = [], [], []
    for s in stretches:
        inner = [s.shear_n / s.line_load] if s.line_load and 0 < s.shear_n / s.line_load < s.length_mm else []
        for x in (0.0, *inner, s.length_mm):
            moments.append((s.moment(x), s.start_mm + x))
        shears += [(s.shear_n - s.line_load * x, s.start_mm + x)
                   for x in _clear_places(s, nodes, held, clear)]
        for x in (0.0, *_level_places(s, stiffness), s.length_mm):
            ups.append((s.up(x, stiffness), s.start_mm + x))
    reactions = tuple(_reaction(stretches, points, n) for n in held)
    moment, shear, up = (max(found, key=lambda f: abs(f[0]), default=(0.0, 0.0))
                         for found in (moments, shears, ups))
    return Bent(abs(moment[0]), moment[1], abs(shear[0]), shear[1], abs(up[0]), up[1], reactions)


def _level_places(s: _Stretch, stiffness: float) -> list[float]:
    """Where the stretch runs level inside: there its deflection is greatest or least."""
    found = []
    steps = [s.length_mm * i / 4 for i in range(5)]
    for low, high in pairwise(steps):
        slope_low = s.slope_at(low, stiffness)
        if slope_low * s.slope_at(high, stiffness) > 0:
            continue
        for _ in range(14):
            middle = (low + high) / 2
            if slope_low * s.slope_at(middle, stiffness) > 0:
                low = middle
            else:
                high = middle
        found.append((low + high) / 2)
    return found


def _clear_places(s: _Stretch, nodes: Sequence[float], held: Sequence[int], clear: float) -> list[float]:
    """The ends of what is left of a stretch when all within ``clear`` of a support is taken off."""
    if clear <= 0.0:
        return [0.0, s.length_mm]
    edges = [0.0, s.length_mm, *(nodes[n] + side - s.start_mm for n in held for side in (-clear, clear))]
    return [x for x in edges if 0.0 <= x <= s.length_mm
            and all(abs(s.start_mm + x - nodes[n]) >= clear - _SAME_MM for n in held)]


def _reaction(stretches: Sequence[_Stretch], points: Sequence[float], node: int) -> float:
    before = 0.0
    if node > 0:
        left = stretches[node - 1]
        before = left.shear_n - left.line_load * left.length_mm
    after = stretches[node].shear_n if node < len(stretches) else 0.0
    return after - before + points[node]
