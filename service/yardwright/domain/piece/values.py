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

MOST_CLASHES = 30        # told; a piece with more is no nearer to being built
WORD_STEPS = 5           # for each word or mark that was read of a template's formulas


@dataclass(frozen=True, slots=True)
class Allowance:
    """How much work a piece may take: so much for any, more for each member that stands, never over a most.

    A step is near half a microsecond on a quiet machine. The members earn theirs, so that a large honest
    piece is built where the same work on a few members is refused.
    """

    steps: int
    each_member: int = 0
    most: int = 0
    clashes: int = MOST_CLASHES
    clash_ends: bool = False # members that share room shut end the work: nothing else is looked at

    def budget(self, words: int) -> Budget:
        """What is left when so many words of formulas have been read."""
        return Budget(self.steps - WORD_STEPS * words)

    def earned(self, members: int) -> int:
        """What so many members add."""
        return max(0, min(self.each_member * members, self.most - self.steps))


OWN = Allowance(400_000)                 # of a template in the shop's folder
# Of one that came with the job: a refusal is under 50 ms, reading included.
INLINE = Allowance(42_000, 250, 63_000, clashes=8, clash_ends=True)


@dataclass(frozen=True, slots=True)
class Values:
    """Names with their values (lengths in mm, angles in degrees, texts, records), and the work left."""

    named: Mapping[str, Any]
    budget: Budget = field(default_factory=lambda: OWN.budget(0))

    def of(self, made: Formula) -> Any:
        """A formula's value."""
        return formula.evaluate(made, self.named, self.budget)

    def holds(self, when: Formula | None) -> bool:
        """Whether a condition holds; none always does."""
        return when is None or bool(self.of(when))

    def point(self, point: tuple[Formula, Formula, Formula]) -> Vector:
        x, y, z = point
        return (self.of(x), self.of(y), self.of(z))

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
