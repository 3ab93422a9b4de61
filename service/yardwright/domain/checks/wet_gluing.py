"""Gluing wet stock: a glued joint in wood above its gluing moisture opens as it dries.

Moisture at gluing near that in service, 9-14 % outdoors, never wet treated stock (Wood Handbook ch. 10 and
13 practice; memory). Looks at glue-ups and at joints with glue, against the moisture their section is sold
at. Where screws or bolts hold the same joint, glue that opens costs no strength: a caution all the same,
since the joint was sold as glued. Always runs.
Limits of validity: moisture as the yard lists it, never measured. Source: Wood Handbook ch. 10, 13 practice
(memory).
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Member
from .board_gaps import moisture_built
from .rule import Case, Rule


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A caution naming what is glued of wood sold wetter than it may be glued; nothing without glue."""
    glued = _glued(case)
    if not glued:
        return ()
    moisture, what, member = max(((moisture_built(case, m), w, m) for w, m in glued), key=lambda g: g[0])
    most = case.limit("movement.glue_most")
    if moisture <= most:
        return (Finding(asked.rule.rule, Level.OK, "Dry enough to glue",
                        f"{what}: {moisture:g} %.", f"{moisture:g} %", f"{most:g} %",
                        case.source("movement.glue_most"),
                        working=f"{_delivered(case, member)} ≤ {most:g} %", customer=False),)
    return (Finding(
        asked.rule.rule, Level.CAUTION, f"{what}: too wet to glue as delivered",
        f"{case.timber(member).name} is delivered at about {moisture:g} % moisture; a joint glued wet "
        "opens as it dries.",
        f"{moisture:g} %", f"{most:g} %", case.source("movement.glue_most"),
        "Sticker the boards until a meter reads the limit, buy them dried after treatment, or screw the "
        "strips.",
        f"{_delivered(case, member)} > {most:g} %", customer=False),)


def _delivered(case: Case, member: Member) -> str:
    timber, section = case.timber(member), f" {member.section}" if member.section else ""
    return f"{timber.name}{section} as the yard delivers it: {moisture_built(case, member):g} %"


def _glued(case: Case) -> list[tuple[str, Member]]:
    """(glue-up or joint, member) of all that glue holds."""
    found = [(m.glue_up, m) for m in case.piece.members if m.glue_up]
    for joint in case.piece.joints:
        if joint.rule.glue or joint.rule.fasten == "glue":
            keys = dict.fromkeys(k for c in joint.contacts for k in (c.first, c.second))
            found += [(joint.rule.name, case.member(k)) for k in keys]
    return [(what, m) for what, m in found if m.material == "board"]


RULE = Rule("wet gluing", check)
