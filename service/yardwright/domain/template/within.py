"""Walking a template: the formulas in any part of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from ..formula.model import Formula

PLAIN = (str, int, float, bool, type(None))


def formulas(part: Any) -> Iterator[Formula]:
    """Every formula within a part of a template."""
    if part.__class__ is Formula:
        yield part
    elif part.__class__ not in PLAIN:
        for one in parts_of(part):
            yield from formulas(one)


def parts_of(part: Any) -> Iterable[Any]:
    """What a part of a template is made of, one level down."""
    if isinstance(part, tuple):
        return part
    if isinstance(part, Mapping):
        return part.values()
    return [getattr(part, name) for name in getattr(part, "__slots__", ())]
