"""Templates gone wrong by chance, each remade from its seed: our own and the hostile ones, changed in places.

``case(seed)`` is the whole of it. Used by ``make hostile`` (thousands) and by the tests (a share).
"""

from __future__ import annotations

import copy
import tomllib
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import spoiling as by
import yardwright
from hostile_templates import collection

OURS = Path(yardwright.__file__).parent / "data" / "templates"


@dataclass(frozen=True, slots=True)
class Case:
    """One spoilt template: what was done to which, and the sizes it is asked at ("", "min" or "max")."""

    seed: int
    told: str
    template: dict[str, Any]
    ends: str


@cache
def ours() -> dict[str, dict[str, Any]]:
    """Our own templates as they stand in their files."""
    return {path.stem: tomllib.loads(path.read_text("utf-8")) for path in sorted(OURS.glob("*.toml"))}


@cache
def hostile() -> dict[str, dict[str, Any]]:
    """The hostile ones that are small enough to be spoilt further."""
    made = {name: make() for name, make in collection().items() if "deep" not in name}
    return {name: data for name, data in made.items() if len(repr(data)) < 40_000}


BREAKING: tuple[Callable[[Random, dict[str, Any]], None], ...] = (
    by.odd_value,
    by.key_gone,
    by.key_misspelt,
    by.swapped,
    by.another_number,
    by.formula_grafted,
    by.many_choices,
    by.many_rules,
)
BENDING: tuple[Callable[[Random, dict[str, Any]], None], ...] = (
    by.another_number,
    by.more_turns,
    by.side_by_side,
    by.mirrors,
    by.cuts,
    by.cuts,
    by.everything_moves,
    by.all_with_all,
    by.checks,
    by.glued,
    by.bought,
    by.work,
    by.wide_ranges,
    by.other_stock,
    by.formula_grafted,
)


def unshared(data: Any) -> Any:
    """A copy in which nothing stands twice, so that a change in one place is a change in one place."""
    if isinstance(data, dict):
        return {key: unshared(value) for key, value in data.items()}
    return [unshared(value) for value in data] if isinstance(data, list) else data


def case(seed: int) -> Case:
    """The spoilt template of a seed, always the same: one to four changes to one of ours or a hostile one."""
    random = Random(seed)
    among = ours() if random.random() < 0.75 else hostile()
    name = random.choice(sorted(among))
    data, told = copy.deepcopy(among[name]), []
    for change in random.choices(
        random.choice((BREAKING, BENDING, BENDING)), k=random.choice((1, 1, 2, 3, 4))
    ):
        data = unshared(data)
        try:
            change(random, data)
        except (TypeError, AttributeError, KeyError, IndexError, ValueError):
            continue  # an earlier change left nothing to change so
        told.append(change.__name__.replace("_", " "))
    return Case(seed, f"{name}: {', '.join(told)}", data, random.choice(("", "", "", "min", "max")))
