"""Soil on a floor: planter floor boards and what carries them bear wet soil for good.

p = density × depth, wet planter soil 100 lb/ft³ (words soil = "light": 60). Permanent load (C_D 0.9). Legs
that hold the floor off the ground carry that over its plan together, each as a column (uprights.py).
Units N/mm², mm. Sources: data/limits/soil.toml (common practice, light mix seen).
Limits of validity: even depth; roots, stones and standing water are not reckoned.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding
from ..piece.model import AskedCheck, Member, Vector
from .boards import boards_carry
from .rule import Case, Rule
from .shelf_load import evenly
from .touches import UP, dot, reach
from .uprights import soil_stands
from .words import GRAVITY

_UPRIGHT = 0.7
SOILS = ("garden", "light")


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """Findings for the worst floor board and the worst carrier."""
    name = density_name(asked)
    load = case.limit(name) * 1e-9 * GRAVITY * float(asked.values["soil_depth"])
    told = f"{case.words.area_load(load)} of wet soil"
    boards = boards_carry(asked, case, evenly(asked, case, load, told, case.source(name), "permanent"))
    return (*boards, *_legs(asked, case, load))


def _legs(asked: AskedCheck, case: Case, load_n_mm2: float) -> Iterator[Finding]:
    """The uprights under a floor above the ground, where nothing else of the piece reaches it."""
    on_ground = [m for m in case.piece.members
                 if m.material == "board" and reach(m, UP)[0] <= case.standing_mm]
    if any(abs(dot(m.frame.along, UP)) < _UPRIGHT for m in on_ground):
        return
    floor = [case.member(k) for k in asked.members]
    (x0, x1), (y0, y1) = (_span(floor, way) for way in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))
    yield from soil_stands(case, asked.rule.rule, on_ground, load_n_mm2 * (x1 - x0) * (y1 - y0))


def _span(members: list[Member], way: Vector) -> tuple[float, float]:
    lows, highs = zip(*(reach(m, way) for m in members), strict=True)
    return min(lows), max(highs)


def density_name(asked: AskedCheck) -> str:
    """Which density the template asks for."""
    return "soil.light_density" if asked.rule.words.get("soil") == "light" else "soil.density"


RULE = Rule("soil floor", check, needs={"soil_depth": "length"}, words={"soil": SOILS}, members=True)
