"""Working a template's named values out for one set of dimensions, choices and stock."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from .. import formula
from ..formula import Budget
from ..formula.model import Formula, Spread
from ..measure import to_mm
from ..shop import Shop
from ..template.model import DIRECTIONS, Template
from .vectors import Vector

STEPS = 400_000          # of work that one piece of the shop's own may take, formulas, solids and all
INLINE_STEPS = 34_000    # of one whose template came with the job: near 40 ms on a common machine


@dataclass(frozen=True, slots=True)
class Values:
    """Names with their values (lengths in mm, angles in degrees, texts, records), and the work left."""

    named: Mapping[str, Any]
    budget: Budget = field(default_factory=lambda: Budget(STEPS))

    def of(self, made: Formula) -> Any:
        """A formula's value."""
        return formula.evaluate(made, self.named, self.budget)

    def holds(self, when: Formula | None) -> bool:
        """Whether a condition holds; none always does."""
        return when is None or bool(self.of(when))

    def point(self, point: tuple[Formula, Formula, Formula]) -> Vector:
        return (self.of(point[0]), self.of(point[1]), self.of(point[2]))

    def direction(self, given: str | tuple[Formula, Formula, Formula]) -> Vector:
        return DIRECTIONS[given] if isinstance(given, str) else self.point(given)

    def all_of(self, tree: Any) -> Any:
        """Every formula within lists of formulas and words."""
        if isinstance(tree, Formula):
            return self.of(tree)
        if isinstance(tree, tuple):
            return tuple(self.all_of(t) for t in tree)
        return tree

    def also(self, name: str, value: Any) -> Values:
        """The same with one more name."""
        return Values({**self.named, name: value}, self.budget)


def asked_values(dimensions_nm: Mapping[str, int], choices: Mapping[str, str]) -> dict[str, Any]:
    """Dimensions in mm and choices, as formulas see them."""
    return {**{name: to_mm(nm) for name, nm in dimensions_nm.items()}, **choices}


def work_out(template: Template, dimensions_nm: Mapping[str, int], choices: Mapping[str, str],
             stock: Mapping[str, float], shop: Shop, budget: Budget) -> Values:
    """Every named value in order: fit values first, then the template's own."""
    saw = shop.saw
    named: dict[str, Any] = {
        **asked_values(dimensions_nm, choices), **stock,
        "shop.crosscut_kerf": to_mm(saw.crosscut_kerf_nm), "shop.rip_kerf": to_mm(saw.rip_kerf_nm),
        "shop.step": to_mm(saw.step_nm), "shop.edge_trim": to_mm(saw.edge_trim_nm)}
    values = Values(named, budget)
    for name, made in (*template.fit.values, *template.values):
        named[name] = values.of(made)
    return values


def spread_notes(values: Values) -> tuple[str, ...]:
    """What each spread did where no count of full-width boards fitted, in words."""
    return tuple(f"{name.replace('_', ' ')}: {v.note}" for name, v in values.named.items()
                 if isinstance(v, Spread) and v.note)
