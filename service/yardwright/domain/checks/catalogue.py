"""The rules by name, those that always run, and what a template may ask of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import get_close_matches

from ..errors import BadTemplate, Fault
from ..template.model import CheckRule, Template
from . import (
    allowed_load,
    anchors,
    arm_load,
    armrest,
    as_asked,
    attached_seats,
    back_load,
    bed_reach,
    board_gaps,
    chest,
    clashes,
    climbing,
    corrosion,
    declared,
    drop_behind,
    dug_in,
    entrapment,
    fall,
    fits,
    food_contact,
    ground_contact,
    growing_food,
    held_together,
    hinges,
    hung,
    implied,
    joints,
    lean_back,
    lid,
    off_ground,
    opened,
    openings,
    panels,
    racking,
    screw_room,
    seat,
    seat_load,
    shelf_load,
    soil_floor,
    soil_sides,
    soil_weight,
    stand_ins,
    table,
    tip_over,
    unasked,
    wet_gluing,
    wind,
    wind_frame,
)
from .rule import Rule

RULES: Mapping[str, Rule] = {
    module.RULE.name: module.RULE
    for module in (seat, seat_load, back_load, shelf_load, lid, chest, tip_over, board_gaps, soil_sides,
                   soil_floor, soil_weight, growing_food, bed_reach, table, attached_seats, armrest,
                   lean_back, arm_load, entrapment, food_contact)
}
ALWAYS: tuple[Rule, ...] = tuple(
    module.RULE
    for module in (fits, off_ground, as_asked, declared, clashes, held_together, joints, racking, climbing,
                   wind, wind_frame, anchors, hung, dug_in, opened, hinges, drop_behind, openings,
                   allowed_load, fall, ground_contact, corrosion, wet_gluing, panels, screw_room, stand_ins,
                   unasked, implied))


def validate(template: Template) -> tuple[Fault, ...]:
    """What is wrong with a template's checks: unknown rules, missing or unknown values, wrong kinds."""
    return tuple(fault for i, asked in enumerate(template.checks) for fault in _faults(asked, f"/checks/{i}"))


def with_known_checks(template: Template) -> Template:
    """The template as it came; raises BadTemplate when its checks ask for what no rule gives."""
    faults = validate(template)
    if faults:
        raise BadTemplate(*faults)
    return template


def _faults(asked: CheckRule, at: str) -> Iterator[Fault]:
    rule = RULES.get(asked.rule)
    if rule is None:
        yield Fault(f"{at}/rule", f"there is no check '{asked.rule}'" + _near(asked.rule, RULES))
        return
    known = {**rule.needs, **rule.may}
    for name in rule.needs:
        if name not in asked.values:
            yield Fault(at, f"the check '{rule.name}' needs {name} (a {rule.needs[name]})")
    for name, formula in asked.values.items():
        if name not in known:
            yield Fault(f"{at}/{name}", f"the check '{rule.name}' takes no {name}" + _near(name, known))
        elif formula.kind not in _kinds(known[name]):
            yield Fault(f"{at}/{name}", f"{name} is a {known[name]}, this formula gives a {formula.kind}")
    for name, word in asked.words.items():
        allowed = rule.words.get(name)
        if allowed is None:
            yield Fault(f"{at}/words/{name}",
                        f"the check '{rule.name}' takes no word {name}" + _near(name, rule.words))
        elif allowed and word not in allowed:
            yield Fault(f"{at}/words/{name}", f"{name} is one of {', '.join(allowed)}; not '{word}'")
    if rule.members and not asked.members:
        yield Fault(f"{at}/members", f"the check '{rule.name}' needs members")


def _kinds(kind: str) -> tuple[str, ...]:
    return (kind, "number") if kind == "truth" else (kind,)


def _near(name: str, known: Mapping[str, object]) -> str:
    close = get_close_matches(name, list(known), 1)
    return f"; did you mean '{close[0]}'?" if close else f"; known: {', '.join(known)}"
