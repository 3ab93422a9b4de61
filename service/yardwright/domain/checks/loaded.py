"""A board under load: the worst place of a moving load, its stresses and deflection, and what would mend it.

The load is a patch that may stand anywhere along the board. Stresses: f_b = M/S, f_v = 1.5 V/(b·h), V at the
board's depth from a support (NDS 3.4.3.1; memory); section b × h turned as the board lies (flat or on edge).
Units mm, N, N/mm².
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from ..piece.model import Member, Vector
from .beam import Bent, Load, bend
from .strength import Strength
from .touches import dot

_AS_LONG = 0.95              # spans this near the longest are as telling as it
_KEPT = 4096                 # beams kept: the same board comes again in the next trial of a piece
_DIGITS = 6                  # of mm: floating sums of two trials differ by less
_TRIES = 14                  # halvings when a span or thickness that would do is sought


@dataclass(frozen=True, slots=True)
class Bar:
    """A member as a beam: length, the section as it lies, and where it is held."""

    length_mm: float
    across_mm: float             # b, square to the load
    deep_mm: float               # h, with the load
    supports_mm: tuple[float, ...]

    @property
    def section_modulus_mm3(self) -> float:
        """S = b·h²/6."""
        return self.across_mm * self.deep_mm**2 / 6

    @property
    def second_moment_mm4(self) -> float:
        """I = b·h³/12."""
        return self.across_mm * self.deep_mm**3 / 12

    @property
    def longest_span_mm(self) -> float:
        """Between neighbouring supports."""
        return max((b - a for a, b in pairwise(self.supports_mm)), default=0.0)

    @property
    def longest_overhang_mm(self) -> float:
        """Past the first or the last support."""
        return max(self.supports_mm[0], self.length_mm - self.supports_mm[-1])

    def scaled(self, share: float) -> Bar:
        """The same section with every span and overhang ``share`` times as long."""
        return Bar(self.length_mm * share, self.across_mm, self.deep_mm,
                   tuple(s * share for s in self.supports_mm))


@dataclass(frozen=True, slots=True)
class Worst:
    """The worst that a moving load does to a bar."""

    bending: float               # N/mm²
    shear: float
    moment_nmm: float
    sag_mm: float
    sag_span_mm: float           # the span (or overhang) where it sags
    sag_overhangs: bool
    reaction_n: float            # greatest on one support
    uplift_n: float              # greatest pull at one support

    def used(self, allowed: Strength) -> float:
        """Greatest of bending and shear over what is allowed: 1.0 is fully used."""
        return max(self.bending / allowed.bending, self.shear / allowed.shear)


def bar(member: Member, supports_mm: Sequence[float], push: Vector) -> Bar:
    """The member as a beam under a load pushing ``push``: the side most in line with it is the depth."""
    on_edge = abs(dot(member.frame.wide, push)) > abs(dot(member.frame.thick, push))
    across, deep = ((member.thickness_mm, member.width_mm) if on_edge
                    else (member.width_mm, member.thickness_mm))
    return Bar(round(member.length_mm, _DIGITS), round(across, _DIGITS), round(deep, _DIGITS),
               tuple(round(x, _DIGITS) for x in supports_mm))


def lies_flat(beam: Bar) -> bool:
    """Bent over its thin way."""
    return beam.across_mm >= beam.deep_mm


@lru_cache(_KEPT)
def moving(beam: Bar, force_n: float, over_mm: float, elasticity: float) -> Worst:
    """The worst of a patch load standing anywhere on the bar."""
    over = min(over_mm, beam.length_mm)
    return _worst(beam, [[Load(force_n, at, over)] for at in _stations(beam, over)], elasticity)


@lru_cache(_KEPT)
def spread(beam: Bar, line_load: float, elasticity: float) -> Worst:
    """The worst of an even load (N/mm) all along."""
    load = Load(line_load * beam.length_mm, beam.length_mm / 2, beam.length_mm)
    return _worst(beam, [[load]], elasticity)


def _stations(beam: Bar, over: float) -> list[float]:
    """Where the middle of the patch stands: at both ends, and about the middle and a depth from the supports
    of the end spans, and of the first two and last two among those as long as the longest."""
    half = over / 2
    found = [half, beam.length_mm - half]
    spans = list(pairwise(beam.supports_mm))
    longest = max(b - a for a, b in spans)
    long = [(a, b) for a, b in spans if b - a >= _AS_LONG * longest]
    telling = {spans[0], spans[-1], *long[:2], *long[-2:]}
    for a, b in telling:
        found += [a + (b - a) * share for share in (0.4, 0.5, 0.6)]
        near = beam.deep_mm + half               # just past where shear is left out
        found += [a + near, b - near] if 2 * near < b - a else []
    return sorted({round(min(max(x, half), beam.length_mm - half), 3) for x in found})


def _worst(beam: Bar, cases: Sequence[Sequence[Load]], elasticity: float) -> Worst:
    stiffness = elasticity * beam.second_moment_mm4
    bents = [bend(beam.length_mm, beam.supports_mm, loads, stiffness, beam.deep_mm) for loads in cases]
    moment = max(b.moment_nmm for b in bents)
    shear = max(b.shear_n for b in bents)
    sagging = max(bents, key=lambda b: b.deflection_mm / _allowance(beam, b)[0])
    _, span, hangs = _allowance(beam, sagging)
    return Worst(moment / beam.section_modulus_mm3, 1.5 * shear / (beam.across_mm * beam.deep_mm), moment,
                 sagging.deflection_mm, span, hangs, max(max(b.reactions_n) for b in bents),
                 max(0.0, *(-min(b.reactions_n) for b in bents)))


def _allowance(beam: Bar, bent: Bent) -> tuple[float, float, bool]:
    """(weight of the place, span there, whether it overhangs) for comparing sags at several places."""
    at = bent.deflection_at_mm
    if at < beam.supports_mm[0] or at > beam.supports_mm[-1]:
        out = beam.supports_mm[0] if at < beam.supports_mm[0] else beam.length_mm - beam.supports_mm[-1]
        return 2 * max(out, 1.0), out, True
    span = next(b - a for a, b in pairwise(beam.supports_mm) if a <= at <= b)
    return max(span, 1.0), span, False


def share_that_serves(serves: Callable[[float], bool]) -> float:
    """The greatest share (0.02-1) of the present spans for which ``serves`` holds; 0 when none does."""
    low, high = 0.02, 1.0
    if not serves(low):
        return 0.0
    for _ in range(_TRIES):
        middle = (low + high) / 2
        low, high = (middle, high) if serves(middle) else (low, middle)
    return low
