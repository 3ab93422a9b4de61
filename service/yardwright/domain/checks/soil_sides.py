"""Soil on the sides: planter boards bend outward under the soil's side pressure.

Equivalent fluid: p = 40 lb/ft² for each ft below the surface; a board takes the pressure at its own middle
times its width, permanently (C_D 0.9). It is held by uprights that something ties across, found in the
contacts; stakes that only join boards hold nothing. Bulge allowed L/180 and 3/8 in. Units N, mm.
Limits of validity: drained soil, not rammed, no frost heave. Source: building practice 30-40 (memory).
"""

from __future__ import annotations

from ..finding import Finding
from ..piece.model import AskedCheck, Member, Vector
from .boards import Boards, boards_carry
from .rule import Case, Rule
from .touches import corners
from .verdict import Loading


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding for the worst board of each name, each side of the planter on its own."""
    found: list[Finding] = []
    sides: dict[Vector, list[str]] = {}
    for key in asked.members:
        sides.setdefault(outward(case, case.member(key)), []).append(key)
    for push, keys in sides.items():
        found += boards_carry(AskedCheck(asked.rule, asked.values, tuple(keys)), case,
                              _pressed(asked, case, keys), push)
    return worst_by_title(found)


def outward(case: Case, member: Member) -> Vector:
    """Square to the board's face, away from the middle of the piece, level."""
    t, c, box = member.frame.thick, member.centre, case.piece.closed
    middle = tuple((a + b) / 2 for a, b in zip(box.low, box.high, strict=True))
    out = 1.0 if t[0] * (c[0] - middle[0]) + t[1] * (c[1] - middle[1]) >= 0 else -1.0
    return (round(out * t[0], 6) + 0.0, round(out * t[1], 6) + 0.0, round(out * t[2], 6) + 0.0)


def _pressed(asked: AskedCheck, case: Case, keys: list[str]) -> Boards:
    surface = float(asked.values["soil_top"])
    fluid = case.limit("soil.side_pressure")
    source = case.source("soil.side_pressure")
    lines = [fluid * max(0.0, surface - case.member(k).centre[2]) * _height(case.member(k))
             for k in keys]
    line = max(lines, default=0.0)
    pressure = case.words.area_load(fluid * surface_depth(case, keys, surface))
    told = f"soil pressing {pressure} at the lowest board"

    def board(_: Case, pitch_mm: float, boards: int) -> list[Loading]:
        return [Loading(told, source, line=max(line, 1e-9), duration="permanent")]

    def carrier(_: Case, length_mm: float, pitch_mm: float, mates: int) -> list[Loading]:
        return [Loading(told, source, line=max(line, 1e-9), duration="permanent")]

    return Boards(board, carrier, "bulge")


def surface_depth(case: Case, keys: list[str], surface: float) -> float:
    """How far below the soil's surface the lowest board's middle lies."""
    return max((surface - case.member(k).centre[2] for k in keys), default=0.0)


def _height(member: Member) -> float:
    heights = [c[2] for c in corners(member)]
    return max(heights) - min(heights)


def worst_by_title(found: list[Finding]) -> tuple[Finding, ...]:
    """Two like sides tell their story once."""
    seen: dict[tuple[str, str], Finding] = {}
    for f in found:
        seen.setdefault((f.title, f.measured), f)
    return tuple(seen.values())


RULE = Rule("soil sides", check, needs={"soil_top": "length"}, members=True)
