"""Building a piece: template, sizes, choices and the shop's stock become placed solids and what follows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from ..errors import BadTemplate, Fault
from ..formula import Spent
from ..measure import Writer
from ..shop import Shop
from ..template.model import HardwareRule, OperationRule, Template
from ..template.sizes import sizes
from .clashes import clashes, clashes_in_motion, opened_box
from .contacts import contacts
from .joints import glued, make_joints, named, shares, untouched
from .look import clash_faults
from .members import place_members
from .model import AskedCheck, Box, DoneOperation, FittedHardware, Member, Piece
from .stock import pick_stock, sizes_of
from .values import OWN, Allowance, Values, spread_notes, work_out
from .vectors import AXES, Vector, bounds
from .weight import weigh

FULL_TURN = 360.0
MOST_COUNTED = 10_000    # of one piece of hardware or one operation in one piece


def build(template: Template, dimensions_nm: Mapping[str, int], choices: Mapping[str, str], shop: Shop,
          units: str, allowance: Allowance = OWN) -> Piece:
    """The piece as it will stand: solids in mm, contacts within 0.05 mm, clashes over 1 mm3 and 0.05 mm.

    ``allowance`` bounds the work, which is counted before it is done. Raises BadJob (sizes, choices), NoStock
    (a role nothing can be made of), BadFormula or BadTemplate (the template breaks at these sizes).
    """
    try:
        return _built(template, dimensions_nm, choices, shop, units, allowance)
    except Spent as spent:
        raise BadTemplate(Fault("", f"to build it takes {spent}: give it fewer members, plainer cuts or "
                                    "less that moves; more is allowed in the shop's folder")) from spent


def _built(template: Template, dimensions_nm: Mapping[str, int], choices: Mapping[str, str], shop: Shop,
           units: str, allowance: Allowance) -> Piece:
    budget = allowance.budget(template.words)
    full, chosen = sizes(template, dimensions_nm, choices, units)
    stock = pick_stock(template, chosen["timber"], shop.market, chosen)
    values = work_out(template, full, chosen, sizes_of(stock), shop, budget)
    fitted, done = _hardware(template, values), _operations(template, values)
    members = place_members(template.members, values, stock, Writer(units))
    if not members:
        raise BadTemplate(Fault("/members", "none of them is there with these sizes and choices"))
    moving = _moving(template, members, values)
    budget.steps += allowance.earned(len(members))
    allowed = shares(template.joints, members, values)
    met = clashes(members, allowed, budget, allowance.clashes)
    if met and allowance.clash_ends:
        wheres = {rule.name: rule.where for rule in template.members}
        raise BadTemplate(*clash_faults(met, members, wheres, Writer(units)))
    touching = contacts(members, budget)
    members = glued(members, template.glue_ups, touching, budget)
    joints = make_joints(template.joints, members, touching, values)
    budget.spend(20 * sum(len(m.solid.corners) for m in members if m.group in moving))
    mass, centre = weigh(members)
    return Piece(
        template=template, dimensions_nm=full, choices=chosen, values=values.named, members=members,
        contacts=touching, joints=joints,
        glue_ups=tuple(g for g in template.glue_ups if any(m.glue_up == g.name for m in members)),
        hardware=fitted, operations=done,
        assembly=tuple(a for a in template.assembly if values.holds(a.when)),
        checks=_checks(template, members, values),
        closed=Box(*bounds([corner for m in members for corner in m.solid.box])),
        opened=opened_box(members, moving),
        clashes=(*met, *clashes_in_motion(members, moving, budget, allowance.clashes - len(met))),
        mass_kg=mass, centre=centre, moving=moving,
        notes=(*spread_notes(values), *untouched(joints, members)))


def _moving(template: Template, members: Sequence[Member],
            values: Values) -> dict[str, tuple[Vector, Vector, float]]:
    present = {m.group for m in members}
    found = {g.name: (values.point(g.at), AXES[g.along], values.of(g.opens))
             for g in template.groups if g.name in present and values.holds(g.when)}
    for name, (_, _, opens) in found.items():
        if abs(opens) > FULL_TURN:
            raise BadTemplate(Fault(f"/groups/{name}/opens", f"{opens:g}° is more than a full turn"))
    return found


def _hardware(template: Template, values: Values) -> tuple[FittedHardware, ...]:
    return tuple(
        FittedHardware(h.name, h.kind, _count(h, values), {k: values.of(f) for k, f in h.size.items()},
                       h.words, h.operation)
        for h in template.hardware if values.holds(h.when))


def _operations(template: Template, values: Values) -> tuple[DoneOperation, ...]:
    return tuple(DoneOperation(o, _count(o, values)) for o in template.operations if values.holds(o.when))


def _count(rule: HardwareRule | OperationRule, values: Values) -> float:
    count: float = values.of(rule.count)
    if not 0 <= count <= MOST_COUNTED:
        raise BadTemplate(Fault(f"{rule.where}/count", f"{rule.name}: comes out as {count:g}"))
    return count


def _checks(template: Template, members: Sequence[Member], values: Values) -> tuple[AskedCheck, ...]:
    def asked(values_of: Mapping[str, Any]) -> dict[str, Any]:
        return {name: values.of(made) for name, made in values_of.items()}

    return tuple(AskedCheck(c, asked(c.values), named(members, c.members, values.budget))
                 for c in template.checks if values.holds(c.when))
