"""Notches and tapers: a board that is cut away is as strong as what is left of it.

A member whose cuts take wood away between its ends is judged at its own cross-sections, taken from the
solid: bending f_b = M/S with S = I/c of what is left, M no more than the load can bring to that place;
shear at a support V' = 2/3·F_v·b·d_n·(d_n/d)² where it is notched on the side it lies on, d_n what is left
of the depth d beside it (NDS 3.4.3.2; memory), without the square where the notch is on the other side. A
housing that another member fills counts as open: on the safe side. Units N, mm.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from ..piece.model import Member, Vector
from ..piece.solid import sections
from .rule import Case
from .touches import corners, dot
from .verdict import Loading, SagLimit, Verdict, judge

_WHOLE = 0.995               # of its blank: less was taken off than shows
_MORE = 1.01                 # times what its blank uses: less is rounding
_DEEP = 0.97                 # a depth this near the deepest beside it is no notch
_BESIDE = 2.0                # depths to either side in which a notch is told from a taper
_OFF_MM = 0.5                # beside a corner of the cut
_END = 0.3                   # cosine: a face this square to the grain is an end
_TIP_MM = 1.0                # that begins this near the blank's end
Loops = list[list[tuple[float, float]]]
Told = Callable[[float], str]    # writes a length


@dataclass(frozen=True, slots=True)
class Left:
    """What is left of a board at one place; lengths along its depth, the way of the load."""

    at_mm: float
    area_mm2: float
    modulus_mm3: float
    low_mm: float
    high_mm: float

    @property
    def deep_mm(self) -> float:
        """From its upper to its lower edge."""
        return self.high_mm - self.low_mm


def judge_cut(case: Case, member: Member, supports_mm: Sequence[float], push: Vector,
              loadings: Sequence[Loading], limit: SagLimit, settling: float = 1.0) -> Verdict:
    """The verdict of verdict.judge, no better than the member's cuts leave it."""
    verdict = judge(case, member, supports_mm, push, loadings, limit, settling)
    blank = member.length_mm * member.width_mm * member.thickness_mm
    if member.solid is None or member.volume_mm3 >= _WHOLE * blank:
        return verdict
    left, told = what_is_left(member, push, verdict.beam.supports_mm), case.words.length
    used, cut = max((*_bent(verdict, left, told), *_sheared(verdict, left, push, told)), key=lambda w: w[0],
                    default=(0.0, ""))
    return replace(verdict, used=used, cut=cut) if used > _MORE * verdict.used else verdict


def what_is_left(member: Member, push: Vector, supports_mm: Sequence[float]) -> tuple[Left, ...]:
    """Cross-sections beside every corner of the cuts, at the supports and between; bevelled ends left out."""
    frame = member.frame
    first, last = whole_ends(member)
    marks = sorted({round(min(max(_along(member, c), first), last), 1) for c in corners(member)}
                   | {round(min(max(s, first), last), 1) for s in supports_mm})
    places = [m + off for m in marks for off in (-_OFF_MM, _OFF_MM)]
    places += [(a + b) / 2 for a, b in pairwise(marks) if b - a > 4 * _OFF_MM]
    inside = sorted(p for p in set(places) if first < p < last)
    deep = 0 if abs(dot(frame.wide, push)) > abs(dot(frame.thick, push)) else 1
    found = zip(inside, sections(member.solid, frame.origin, frame.along, frame.wide, frame.thick, inside),
                strict=True)
    return tuple(left for at, loops in found if (left := left_of(at, loops, deep)) is not None)


def whole_ends(member: Member) -> tuple[float, float]:
    """From where to where along it the member has no bevelled end."""
    ends = [_along(member, c) for c in corners(member)]
    tips = min(ends), max(ends)
    first, last = tips
    for f in member.solid.faces:
        square = dot(f.normal, member.frame.along)
        run = [_along(member, p) for loop in f.loops for p in loop]
        if square < -_END and min(run) < tips[0] + _TIP_MM:
            first = max(first, max(run))
        if square > _END and max(run) > tips[1] - _TIP_MM:
            last = min(last, min(run))
    return first, last


def _along(member: Member, place: Vector) -> float:
    o = member.frame.origin
    return dot((place[0] - o[0], place[1] - o[1], place[2] - o[2]), member.frame.along)


def left_of(at: float, loops: Loops, deep: int) -> Left | None:
    """Area and section modulus by Green's theorem."""
    area = first = second = 0.0
    depths = [p[deep] for loop in loops for p in loop]
    for loop in loops:
        for (ax, ay), (bx, by) in zip(loop, (*loop[1:], loop[0]), strict=True):
            turn = ax * by - bx * ay
            p, q = (ax, bx) if deep == 0 else (ay, by)
            area += turn / 2
            first += turn * (p + q) / 6
            second += turn * (p * p + p * q + q * q) / 12
    if area < 1.0:
        return None
    middle, low, high = first / area, min(depths), max(depths)
    inertia = second - area * middle * middle
    return Left(at, area, inertia / max(high - middle, middle - low, 1e-6), low, high)


def _bent(v: Verdict, left: Sequence[Left], told: Told) -> list[tuple[float, str]]:
    return [(_moment(v, s.at_mm) / max(s.modulus_mm3, 1e-6) / v.allowed.bending,
             f"cut to {told(s.deep_mm)} deep {told(s.at_mm)} along it") for s in left]


def _moment(v: Verdict, at: float) -> float:
    """The greatest moment that the load can bring to a place, never more than the greatest anywhere."""
    beam, first, last = v.beam, v.beam.supports_mm[0], v.beam.supports_mm[-1]
    if at <= first or at >= last:
        out = at if at <= first else beam.length_mm - at
        return min(v.worst.moment_nmm, _of(v, out))
    if len(beam.supports_mm) > 2:
        return min(v.worst.moment_nmm, _whole(v) * min(at, beam.length_mm - at))
    span = last - first
    sags = _whole(v) * (at - first) * (last - at) / span / (2 if v.loading.line else 1)
    hogs = max(_of(v, first) * (last - at), _of(v, beam.length_mm - last) * (at - first)) / span
    return min(v.worst.moment_nmm, max(sags, hogs))


def _whole(v: Verdict) -> float:
    return v.loading.line * v.beam.longest_span_mm if v.loading.line else v.loading.force_n


def _of(v: Verdict, out_mm: float) -> float:
    """The moment of the load on the last ``out_mm`` of an overhang."""
    return v.loading.line * out_mm**2 / 2 if v.loading.line else v.loading.force_n * out_mm


def _sheared(v: Verdict, left: Sequence[Left], push: Vector, told: Told) -> list[tuple[float, str]]:
    shear = v.worst.shear * v.beam.across_mm * v.beam.deep_mm / 1.5
    axis = (v.member.frame.wide if abs(dot(v.member.frame.wide, push)) > abs(dot(v.member.frame.thick, push))
            else v.member.frame.thick)
    under_high = dot(axis, push) > 0
    found = []
    for support in v.beam.supports_mm:
        beside = [s for s in left if abs(s.at_mm - support) <= _BESIDE * v.beam.deep_mm]
        near = [s for s in left if abs(s.at_mm - support) <= v.beam.deep_mm]
        if not near:
            continue
        thin = min(near, key=lambda s: s.deep_mm)
        full = max(beside, key=lambda s: s.deep_mm)
        share = thin.deep_mm / full.deep_mm
        if share >= _DEEP:
            continue
        under = full.high_mm - thin.high_mm if under_high else thin.low_mm - full.low_mm
        power = 2 if under > (1 - share) * full.deep_mm / 2 else 1
        allowed = v.allowed.shear * thin.area_mm2 / 1.5 * share**power
        found.append((shear / max(allowed, 1e-6),
                      f"notched at a support to {told(thin.deep_mm)} of {told(full.deep_mm)}"))
    return found
