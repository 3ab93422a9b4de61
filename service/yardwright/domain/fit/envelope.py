"""A piece as the fit sees it: a box shut, and how far it reaches when open or in use."""

from __future__ import annotations

from collections.abc import Mapping

from ..errors import BadFormula, Fault
from ..formula import Budget, Value, evaluate
from ..measure import from_mm, to_mm
from ..template.model import Template
from .model import Envelope

WINGS = ("left", "right", "none")


def envelope(template: Template, dimensions_nm: Mapping[str, int], choices: Mapping[str, str]) -> Envelope:
    """The envelope by the template's fit formulas, from dimensions and choices alone. Lengths in nm.

    Where the template says nothing about opening, the open height is the height and the rest 0. A wing
    that reaches no further out than the part along the back wall is none.
    Errors: BadFormula when a formula has no answer at these sizes.
    """
    budget = Budget()
    names: dict[str, Value] = {**{n: to_mm(nm) for n, nm in dimensions_nm.items()}, **choices}
    for name, formula in template.fit.values:
        names[name] = evaluate(formula, names, budget)
    found = {name: from_mm(evaluate(formula, names, budget))
             for name, formula in template.fit.envelope.items()}
    height = found.get("height", 0)
    wing = "none" if template.fit.wing is None else evaluate(template.fit.wing, names, budget)
    if wing not in WINGS:
        raise BadFormula(Fault("/fit/wing", f"the wing is at {wing!r}; it is one of {', '.join(WINGS)}."))
    out, along = found.get("wing_length", 0), found.get("wing_depth", 0)
    is_wing = wing != "none" and out > found.get("depth", 0) and along > 0
    return Envelope(
        length_nm=found.get("length", 0), depth_nm=found.get("depth", 0), height_nm=height,
        open_height_nm=max(height, found.get("open_height", height)),
        open_front_nm=max(0, found.get("open_front", 0)),
        open_behind_nm=max(0, found.get("open_behind", 0)),
        use_front_nm=max(0, found.get("use_front", 0)),
        wing=wing if is_wing else "none", wing_length_nm=out if is_wing else 0,
        wing_depth_nm=min(along, found.get("length", 0)) if is_wing else 0)
