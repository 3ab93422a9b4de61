"""Boards on edge: a deep, thin board that carries may roll over or buckle sideways before it breaks.

More than twice as deep as thick it is held, by fasteners or glue, at two places at least (NDS 4.4.1: ends
held in position); else a caution. Between the places that hold it, u apart at most, it bears F_b*·C_L: R_B
= √(2.06·u·d/b²), 50 at most, F_bE = 1.2·E_min/R_B², F = F_bE/F_b*, C_L = (1 + F)/1.9 - √(((1 + F)/1.9)² -
F/0.95): over it a stop. Judged for what carries boards and for boards on edge that are loaded. Units N, mm,
N/mm². Limits of validity: rectangular, straight; any place held keeps the pressed edge in line.
Source: NDS 3.3.3, 4.4.1 (memory); E_min as uprights.py.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import sqrt

from ..finding import Finding, Level
from ..piece.model import Member
from .rule import Case
from .touches import along
from .verdict import Verdict

DEEP = 2.0                   # times as deep as thick: from here a board is held at its ends
MOST_SLENDER = 50.0
EFFECTIVE = 2.06             # of the length not held: any load on one span
_APART_MM = 25.0


def stays_upright(case: Case, rule: str, verdicts: Sequence[Verdict]) -> Iterator[Finding]:
    """A finding for the worst board on edge of each name that is not held or buckles; else none."""
    worst: dict[str, tuple[float, Finding]] = {}
    for v in verdicts:
        if v.beam.deep_mm > DEEP * v.beam.across_mm:
            share, finding = _judged(case, rule, v)
            if share > 1.0 and share > worst.get(v.member.name, (1.0, finding))[0]:
                worst[v.member.name] = share, finding
    yield from (finding for _, finding in worst.values())


def stability(bending: float, e_min: float, unheld_mm: float, deep_mm: float, thick_mm: float) -> float:
    """C_L: the share of the allowed bending that a board on edge bears before it buckles sideways."""
    slender = sqrt(EFFECTIVE * unheld_mm * deep_mm) / thick_mm
    f = 1.2 * e_min / slender**2 / bending
    return (1 + f) / 1.9 - sqrt(((1 + f) / 1.9) ** 2 - f / 0.95)


def held_places(case: Case, member: Member) -> list[float]:
    """Where along the member something fastened or glued holds it upright."""
    found: list[float] = []
    for touch in case.touches.get(member.key, ()):
        if touch.held:
            low, high = along(member, touch)
            found += [max(low, 0.0), min(high, member.length_mm)]
    kept: list[float] = []
    for at in sorted(found):
        if not kept or at - kept[-1] > _APART_MM:
            kept.append(at)
    return kept


def _judged(case: Case, rule: str, v: Verdict) -> tuple[float, Finding]:
    words, deep, thick, held = case.words, v.beam.deep_mm, v.beam.across_mm, held_places(case, v.member)
    on_edge = f"{v.member.key} stands on edge, {words.length(deep)} by {words.length(thick)}, and"
    if len(held) < 2:
        return 2.0, Finding(
            rule, Level.CAUTION, f"{v.member.name}: may roll over on its edge",
            f"{on_edge} is held upright in {len(held)} place{'' if len(held) == 1 else 's'}.",
            f"{len(held)} held", "2 at least",
            "NDS 4.4.1 (memory)", "Fasten it near both ends to what carries it or to a board across.",
            f"{words.length(deep)} / {words.length(thick)} = {deep / thick:.1f} > {DEEP:g}", customer=False)
    apart = max(max(b - a for a, b in pairwise(held)), 2 * held[0], 2 * (v.member.length_mm - held[-1]))
    e_min = case.limit("structure.column_minimum") * v.allowed.elasticity
    factor = stability(v.allowed.bending, e_min, apart, deep, thick)
    slender = sqrt(EFFECTIVE * apart * deep) / thick
    bears = v.allowed.bending * factor
    return max(v.worst.bending / bears, slender / MOST_SLENDER), Finding(
        rule, Level.STOP, f"{v.member.name}: buckles sideways",
        f"{on_edge} nothing holds it upright over {words.length(apart)}.",
        f"bending {words.stress(v.worst.bending)}, slenderness {slender:.0f}",
        f"bending {words.stress(bears)}, slenderness {MOST_SLENDER:g}",
        f"NDS 3.3.3 (memory); {case.source('structure.column_minimum')}",
        "Take a thicker board, or fasten boards to its upper edge.",
        f"R_B = √({EFFECTIVE:g}·{words.length(apart)}·{words.length(deep)})/{words.length(thick)} = "
        f"{slender:.1f}; C_L = {factor:.2f}; {words.stress(v.allowed.bending)} × C_L = {words.stress(bears)}",
        customer=False)
