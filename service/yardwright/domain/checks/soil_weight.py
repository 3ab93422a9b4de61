"""Soil weight: what the filled planter weighs, and whether a deck or balcony may carry it.

Mass = wet density × volume + the piece; load = mass·g / footprint. On a deck, balcony, roof or anything
that is no plain ground it is compared with what the site's owner says is allowed; without that it is *not
checked*: ask a licensed engineer. The 40 lb/ft² of a residential deck (IRC R301.5; memory) stands beside it
as information only. Units mm³, kg, kN/m².
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .rule import Case, Rule
from .soil_floor import SOILS, density_name
from .surface import kind_of
from .words import GRAVITY


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding: the weight, and the load where it stands on something raised."""
    name, words = density_name(asked), case.words
    soil = case.limit(name) * float(asked.values["soil_volume"]) * 1e-9
    mass = soil + case.piece.mass_kg
    x, y, _ = case.piece.closed.size
    load = mass * GRAVITY / (x * y)
    surface, allowed = case.site.ground.surface, case.site.ground.allowed_load_kn_m2
    told = (f"Filled and wet it weighs {words.mass(mass)} ({words.mass(soil)} of soil), "
            f"{words.area_load(load)} over its footprint.")
    volume = words.volume(float(asked.values["soil_volume"]))
    working = (f"{volume} × {case.limit(name):.0f} kg/m³ = {words.mass(soil)}, piece "
               f"{words.mass(case.piece.mass_kg)}; over {words.length(x)} × {words.length(y)}")
    if allowed is None and kind_of(surface) not in ("raised", "unknown"):
        return (Finding(asked.rule.rule, Level.NOTE, f"Filled it weighs {words.mass(mass)}",
                        told + " Stand it in its place before filling.", words.mass(mass),
                        "none: it stands on the ground", case.source(name), working=working),)
    deck = case.limit("ground.deck_load")
    if allowed is None:
        return (Finding(
            asked.rule.rule, Level.NOT_CHECKED, f"Load on the {surface}: not checked",
            f"{told} Nobody has said what the {surface} may carry. A residential deck is often built for "
            f"{words.area_load(deck)} over all (information only, {load / deck:.1f} times that here).",
            words.area_load(load), "not given", case.source(name, "ground.deck_load"),
            "Ask a licensed engineer or the owner what it may carry before filling, or use a light mix and "
            "less depth.", working),)
    most, surface = allowed / 1000, surface or "ground"
    good = load <= most
    return (Finding(asked.rule.rule, Level.OK if good else Level.STOP,
                    f"Load on the {surface}: " + ("within what it may carry" if good else "too heavy"), told,
                    words.area_load(load), words.area_load(most), f"{case.source(name)}; allowed load: site",
                    "" if good else f"Fill it no deeper than {most / load:.0%} of this, use a light mix, or "
                    "stand it on the ground. Ask a licensed engineer.", working),)


RULE = Rule("soil weight", check, needs={"soil_volume": "volume"}, words={"soil": SOILS})
