"""Gluing wet stock: a glued joint in wood above its gluing moisture opens as it dries.

Moisture at gluing near that in service, 9-14 % outdoors, never wet treated stock (Wood Handbook ch. 10 and 13
practice; memory). Looks at glue-ups against the moisture their section is sold at. Always runs.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .board_gaps import moisture_built
from .rule import Case, Rule


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A caution naming glue-ups of wood sold wetter than it may be glued; nothing otherwise."""
    glued = [m for m in case.piece.members if m.glue_up and m.material == "board"]
    if not glued:
        return ()
    wettest = max(glued, key=lambda m: moisture_built(case, m))
    moisture, most = moisture_built(case, wettest), case.limit("movement.glue_most")
    if moisture <= most:
        return (Finding(asked.rule.rule, Level.OK, "Dry enough to glue",
                        f"{wettest.glue_up}: {moisture:g} %.", f"{moisture:g} %", f"{most:g} %",
                        case.source("movement.glue_most"), customer=False),)
    return (Finding(
        asked.rule.rule, Level.CAUTION, f"{wettest.glue_up}: too wet to glue as delivered",
        f"{case.timber(wettest).name} is delivered at about {moisture:g} % moisture; a joint glued wet "
        "opens as it dries.",
        f"{moisture:g} %", f"{most:g} %", case.source("movement.glue_most"),
        "Sticker the boards until a meter reads the limit, buy them dried after treatment, or screw the "
        "strips.",
        customer=False),)


RULE = Rule("wet gluing", check)
