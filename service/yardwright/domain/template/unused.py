"""What a template declares and then never uses: asked of the customer for nothing, or a slip of the pen."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ..errors import Fault
from .model import Template
from .within import formulas

ASKED = "no formula uses it, so that the customer is asked for what changes nothing: use it, or take it out"
NO_MEMBER = "no member is made of it, though the shop must sell it for the piece to be offered: take it out"
IDLE = "no formula uses it: use it, or take it out"


def unused(template: Template) -> Iterator[Fault]:
    """Dimensions, choices, values, boards and groups that no formula and no member uses, each with its place.

    A heavier section that can be chosen uses its board; an order of giving up sizes uses none.
    """
    named = {name for made in formulas(template) for name in _names(made.tree)}
    made_of = {rule.role for rule in template.members}
    for kind, names, why in (
            ("dimensions", [d.name for d in template.dimensions], ASKED),
            ("choices", [c.name for c in template.choices], ASKED),
            ("fit/values", [name for name, _ in template.fit.values], IDLE),
            ("values", [name for name, _ in template.values], IDLE)):
        yield from (Fault(f"/{kind}/{name}", why) for name in names if name not in named)
    for role in template.roles:
        if role.name not in made_of:
            yield Fault(f"/{role.material}s/{role.name}", NO_MEMBER)
    moving = {rule.group for rule in template.members}
    yield from (Fault(f"/groups/{g.name}", "no member belongs to it, so that nothing moves")
                for g in template.groups if g.name not in moving)


def _names(tree: Any) -> Iterator[str]:
    """The names in a formula's tree, those of a record's fields and of a board's sizes by their owner."""
    if isinstance(tree, list):
        if tree[0] == "name":
            yield tree[1].partition(".")[0]
        for one in tree[1:]:
            yield from _names(one)
