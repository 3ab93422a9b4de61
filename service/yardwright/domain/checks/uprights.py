"""Uprights under people: a leg too slender buckles, one too thin crushes.

P = F_c*·C_P·A; C_P = a - sqrt(a² - b/c) with a = (1 + b)/(2·c), b = F_cE/F_c*, c = 0.8 for sawn lumber (NDS
3.7.1.5), F_cE = 0.822·E_min'/(l/d)², l the whole height and d the least side (K = 1, pinned ends), E_min' =
0.365·E wet (NDS Appendix D: 1.03·(1 - 1.645·0.25)/1.66); l/d at most 50 (NDS 3.7.1.4). F_c* is taken as 0.7
of what the wood may bear in bending, below every ratio of NDS Supplement 4A/4B (0.93 to 1.5, wet 0.8). Each
upright takes one sitter's whole load, or 1.25 of its share of a full row where that is more. A strip of a
glued leg is judged alone: on the safe side. The legs of a raised bed take 1.25 of their share of its soil,
for good. Units N, mm, N/mm². Runs with every seat load and soil floor. Source: NDS (memory); Euler's column
(any handbook).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..finding import Finding, Level
from ..piece.model import Member
from .rule import Case
from .strength import strength

SAWN = 0.8                   # c of NDS 3.7.1.5 for sawn lumber
UNEVEN = 1.25                # of an even share: a middle leg of three takes more
EULER = 0.822                # pi**2/12 for a rectangle: pi**2·E·I/l² with I = A·d²/12


def uprights_stand(case: Case, rule: str, uprights: Iterable[Member],
                   row_n: float = 0.0) -> Iterator[Finding]:
    """A stop for the worst upright of each name that does not stand; nothing where all do. ``row_n``: what a
    full row of sitters weighs."""
    worst: dict[str, tuple[float, Finding]] = {}
    standing = list(uprights)
    for member in standing:
        load = max(case.limit("structure.seat_load"), UNEVEN * row_n / len(standing))
        share, finding = _judged(case, rule, member, load, "people")
        if share > 1.0 and share > worst.get(member.name, (1.0, finding))[0]:
            worst[member.name] = (share, finding)
    yield from (finding for _, finding in worst.values())


def soil_stands(case: Case, rule: str, legs: Iterable[Member], soil_n: float) -> Iterator[Finding]:
    """A stop for the first leg that does not stand under its share of what the soil weighs."""
    standing = list(legs)
    found = (_judged(case, rule, leg, UNEVEN * soil_n / len(standing), "permanent") for leg in standing)
    yield from (finding for share, finding in sorted(found, key=lambda f: -f[0])[:1] if share > 1.0)


def allowed_load(elasticity: float, length_mm: float, wide_mm: float, deep_mm: float,
                 minimum: float, crushing: float = float("inf")) -> float:
    """What a rectangular column of this height may carry in N; ``minimum`` is E_min over E, ``crushing`` F_c*
    in N/mm² (none: Euler's load alone)."""
    slender = length_mm / min(wide_mm, deep_mm)
    euler = EULER * minimum * elasticity / slender**2
    if crushing == float("inf"):
        return euler * wide_mm * deep_mm
    b = euler / crushing
    a = (1 + b) / (2 * SAWN)
    return float(crushing * (a - (a * a - b / SAWN) ** 0.5) * wide_mm * deep_mm)


def _judged(case: Case, rule: str, member: Member, load: float,
            duration: str) -> tuple[float, Finding]:
    words, wood = case.words, strength(case, member, flat=False, sharing=False, duration=duration)
    allowed = allowed_load(wood.elasticity, member.length_mm, member.width_mm, member.thickness_mm,
                           case.limit("structure.column_minimum"),
                           case.limit("structure.compression_share") * wood.bending)
    slender = member.length_mm / min(member.width_mm, member.thickness_mm)
    most = case.limit("structure.column_slender")
    share = max(load / allowed, slender / most)
    thick = min(member.width_mm, member.thickness_mm) * max((load / allowed) ** (1 / 3), slender / most)
    return share, Finding(
        rule, Level.STOP, f"{member.name}: too slender",
        f"{member.key} is {words.length(member.length_mm)} high, {slender:.0f} times its thickness; a "
        f"load of {words.force(load)} may stand on it.",
        f"{words.force(load)}, slenderness {slender:.0f}", f"{words.force(allowed)}, slenderness {most:.0f}",
        case.source("structure.seat_load", "structure.column_minimum", "structure.column_slender"),
        f"Make it {words.length(thick + 0.8)} thick, or tie it at half its height.",
        f"P = F_c*·C_P·A = {words.force(allowed)}")
