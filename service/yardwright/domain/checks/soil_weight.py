"""Soil weight: what the filled planter weighs.

Mass = wet density × volume + the piece. What a deck or balcony may carry is held against it by
allowed_load.py. Units mm³, kg. Source: data/limits/soil.toml (common practice, light mix seen).
Limits of validity: the soil as its template gives it; plants, stones and standing water come on top.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .rule import Case, Rule
from .soil_floor import SOILS, density_name
from .words import GRAVITY


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding: the weight."""
    name, words = density_name(asked), case.words
    soil = case.limit(name) * float(asked.values["soil_volume"]) * 1e-9
    mass = soil + case.piece.mass_kg
    x, y, _ = case.piece.closed.size
    return (Finding(
        asked.rule.rule, Level.NOTE, f"Filled it weighs {words.mass(mass)}",
        f"Filled and wet it weighs {words.mass(mass)} ({words.mass(soil)} of soil), "
        f"{words.area_load(mass * GRAVITY / (x * y))} over its footprint. Stand it in its place before "
        "filling.", words.mass(mass), "none on plain ground", case.source(name),
        working=f"{words.volume(float(asked.values['soil_volume']))} × {words.density(case.limit(name))} = "
        f"{words.mass(soil)}, piece {words.mass(case.piece.mass_kg)}; over {words.length(x)} × "
        f"{words.length(y)}"),)


RULE = Rule("soil weight", check, needs={"soil_volume": "volume"}, words={"soil": SOILS})
