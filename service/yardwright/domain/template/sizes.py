"""From what the customer asked to a full set of dimensions and choices, or a refusal that says why."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TypeVar

from .. import measure
from ..errors import BadJob, Fault
from ..formula import Budget, Value, evaluate
from ..measure import to_mm
from .model import AS_USUAL, Caution, Dimension, Template
from .table import meant

Held = TypeVar("Held", Dimension, Caution)


def sizes(template: Template, dimensions: Mapping[str, int], choices: Mapping[str, str],
          units: str) -> tuple[dict[str, int], dict[str, str]]:
    """Every dimension in nm and every choice, defaults filled in from the ``units`` system.

    Sizes off the step are taken as asked; sizes outside the range and unknown names are refused.
    """
    faults = [*_unknown(template, dimensions, choices), *_outside(template, dimensions, units),
              *_no_option(template, choices)]
    if faults:
        raise BadJob(*faults)
    full = {d.name: dimensions.get(d.name, d.default_nm[units]) for d in template.dimensions}
    chosen = {c.name: choices.get(c.name, c.default) for c in template.choices}
    chosen["timber"] = choices.get("timber", template.default_timber)
    chosen["finish"] = choices.get("finish", template.default_finish)
    heavier = {name: choices.get(name, AS_USUAL) for name in _sections(template)}
    return full, chosen | {name: section for name, section in heavier.items() if section != AS_USUAL}


def holding(rules: Iterable[Held], dimensions_nm: Mapping[str, int],
            choices: Mapping[str, str]) -> tuple[Held, ...]:
    """Those dimensions or cautions that apply with these sizes (nm) and choices.

    Errors: BadFormula when a condition has no answer.
    """
    names: dict[str, Value] = {**{n: to_mm(nm) for n, nm in dimensions_nm.items()}, **choices}
    budget = Budget()
    return tuple(r for r in rules if r.when is None or bool(evaluate(r.when, names, budget)))


def _sections(template: Template) -> dict[str, list[str]]:
    """What each choice of a heavier section offers, by its name."""
    return {role.chosen_by: [AS_USUAL, *role.heavier] for role in template.roles if role.heavier}


def _unknown(template: Template, dimensions: Mapping[str, int],
             choices: Mapping[str, str]) -> Iterator[Fault]:
    known = [d.name for d in template.dimensions]
    for name in dimensions:
        if name not in known:
            yield Fault(f"/dimensions/{name}",
                        f"{template.name} has no dimension '{name}'{meant(name, known)}")
    known = [*(c.name for c in template.choices), *_sections(template), "timber", "finish"]
    for name in choices:
        if name not in known:
            yield Fault(f"/choices/{name}", f"{template.name} has no choice '{name}'{meant(name, known)}")


def _outside(template: Template, dimensions: Mapping[str, int], units: str) -> Iterator[Fault]:
    writer = measure.Writer(units)
    for d in template.dimensions:
        nm = dimensions.get(d.name, d.default_nm[units])
        if not d.least_nm <= nm <= d.most_nm:
            yield Fault(f"/dimensions/{d.name}",
                        f"{d.label} {writer.length(nm)} is outside {writer.length(d.least_nm)} to "
                        f"{writer.length(d.most_nm)}")


def _no_option(template: Template, choices: Mapping[str, str]) -> Iterator[Fault]:
    options = {c.name: [o for o, _ in c.options] for c in template.choices}
    options |= _sections(template) | {"timber": list(template.timbers), "finish": list(template.finishes)}
    for name, known in options.items():
        value = choices.get(name)
        if value is not None and known and value not in known:
            yield Fault(f"/choices/{name}", f"'{value}' is not offered{meant(value, known)}")
