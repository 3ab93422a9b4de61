"""Uprights under people: a leg too slender buckles.

Allowed load P = 0.822·E_min'·A / (l/d)² with l the whole height and d the least side (NDS 3.7.1.5, K = 1,
pinned ends), E_min' = 0.365·E wet (NDS Appendix D: 1.03·(1 - 1.645·0.25)/1.66); l/d at most 50 (NDS 3.7.1.4).
Each upright takes one sitter's whole load. A strip of a glued leg is judged alone: on the safe side.
Units N, mm, N/mm².
Runs with every seat load. Source: NDS (memory); Euler's column (any handbook).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..finding import Finding, Level
from ..piece.model import Member
from .rule import Case
from .strength import strength

EULER = 0.822                # pi**2/12 for a rectangle: pi**2·E·I/l² with I = A·d²/12


def uprights_stand(case: Case, rule: str, uprights: Iterable[Member]) -> Iterator[Finding]:
    """A stop for the most slender upright of each name that is too slender; nothing where all stand."""
    worst: dict[str, tuple[float, Finding]] = {}
    for member in uprights:
        share, finding = _judged(case, rule, member)
        if share > 1.0 and share > worst.get(member.name, (1.0, finding))[0]:
            worst[member.name] = (share, finding)
    yield from (finding for _, finding in worst.values())


def allowed_load(elasticity: float, length_mm: float, wide_mm: float, deep_mm: float,
                 minimum: float) -> float:
    """What a rectangular column of this height may carry in N; ``minimum`` is E_min over E."""
    slender = length_mm / min(wide_mm, deep_mm)
    return EULER * minimum * elasticity * wide_mm * deep_mm / slender**2


def _judged(case: Case, rule: str, member: Member) -> tuple[float, Finding]:
    words, load = case.words, case.limit("structure.seat_load")
    stiff = strength(case, member, flat=False, sharing=False, duration="people").elasticity
    allowed = allowed_load(stiff, member.length_mm, member.width_mm, member.thickness_mm,
                           case.limit("structure.column_minimum"))
    slender = member.length_mm / min(member.width_mm, member.thickness_mm)
    most = case.limit("structure.column_slender")
    share = max(load / allowed, slender / most)
    thick = min(member.width_mm, member.thickness_mm) * max((load / allowed) ** (1 / 3), slender / most)
    return share, Finding(
        rule, Level.STOP, f"{member.name}: too slender",
        f"{member.key} is {words.length(member.length_mm)} high, {slender:.0f} times its thickness; a "
        f"sitter's {words.force(load)} may stand on it.",
        f"{words.force(load)}, slenderness {slender:.0f}", f"{words.force(allowed)}, slenderness {most:.0f}",
        case.source("structure.seat_load", "structure.column_minimum", "structure.column_slender"),
        f"Make it {words.length(thick + 0.8)} thick, or tie it at half its height.",
        f"P = 0.822·E_min·A/(l/d)² = {words.force(allowed)}")
