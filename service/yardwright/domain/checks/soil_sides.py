"""Soil on the sides: planter boards bend outward under the soil's side pressure.

Equivalent fluid: p = 40 lb/ft² for each ft below the surface; a board takes the pressure at its own middle
times its width, permanently (C_D 0.9). It is held by uprights that something ties across, found in the
contacts; stakes that only join boards hold nothing. The uprights are
judged by soil_posts.py. Bulge allowed L/180 and 3/8 in. Units N, mm.
Limits of validity: drained soil, not rammed, no frost heave. Source: building practice 30-40 (memory).
"""

from __future__ import annotations

from ..finding import Finding
from ..piece.model import AskedCheck, Member, Vector
from .boards import Boards, concluded, judged
from .rule import Case, Rule
from .soil_posts import posts_hold
from .touches import corners
from .verdict import Loading, Verdict


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """Each side of the planter is pushed its own way; then the worst board of each name."""
    found: list[Finding] = []
    verdicts: list[Verdict] = []
    sides: dict[Vector, list[str]] = {}
    for key in asked.members:
        sides.setdefault(outward(case, case.member(key)), []).append(key)
    for push, keys in sides.items():
        loose, side = judged(AskedCheck(asked.rule, asked.values, tuple(keys)), case,
                             _pressed(asked, case, keys), push)
        found += loose
        verdicts += side
        span = max((v.beam.longest_span_mm for v in side), default=0.0)
        found += [f for f in posts_hold(case, asked.rule.rule, [case.member(k) for k in keys], push,
                                        float(asked.values["soil_top"]), span)
                  if f.title not in {known.title for known in found}]
    return concluded(case, asked.rule.rule, found, verdicts)


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
        """The lowest board's pressure on every board of the side."""
        return [Loading(told, source, line=max(line, 1e-9), duration="permanent")]

    return Boards(board, None, "bulge")


def surface_depth(case: Case, keys: list[str], surface: float) -> float:
    """How far below the soil's surface the lowest board's middle lies."""
    return max((surface - case.member(k).centre[2] for k in keys), default=0.0)


def _height(member: Member) -> float:
    heights = [c[2] for c in corners(member)]
    return max(heights) - min(heights)


RULE = Rule("soil sides", check, needs={"soil_top": "length"}, members=True)
