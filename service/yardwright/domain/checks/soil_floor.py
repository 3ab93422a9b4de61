"""Soil on a floor: planter floor boards and what carries them bear wet soil for good.

p = density × depth, wet planter soil 100 lb/ft³ (words soil = "light": 60). Permanent load (C_D 0.9).
Units N/mm², mm. Sources: data/limits/soil.toml (common practice, light mix seen).
"""

from __future__ import annotations

from ..finding import Finding
from ..piece.model import AskedCheck
from .boards import boards_carry
from .rule import Case, Rule
from .shelf_load import evenly
from .words import GRAVITY

SOILS = ("garden", "light")


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """Findings for the worst floor board and the worst carrier."""
    name = density_name(asked)
    load = case.limit(name) * 1e-9 * GRAVITY * float(asked.values["soil_depth"])
    told = f"{case.words.area_load(load)} of wet soil"
    return boards_carry(asked, case, evenly(asked, case, load, told, case.source(name), "permanent"))


def density_name(asked: AskedCheck) -> str:
    """Which density the template asks for."""
    return "soil.light_density" if asked.rule.words.get("soil") == "light" else "soil.density"


RULE = Rule("soil floor", check, needs={"soil_depth": "length"}, words={"soil": SOILS}, members=True)
