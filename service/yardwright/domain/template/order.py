"""The order of named values: each after those it uses, so that the order of members says nothing."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")


def in_order(table: Mapping[str, Any]) -> list[str]:
    """The names, as given but for those that use a later one, which come after it.

    TOML keeps the order of its keys; JSON does not promise it (RFC 8259 section 4). Names that use each
    other in a ring stay as given; see ``first_ring``.
    """
    ordered, waiting, _ = _sorted(table)
    return [*ordered, *waiting]


def first_ring(table: Mapping[str, Any]) -> tuple[list[str], list[str]]:
    """The first ring of names that use each other, and all names that no order serves because of rings.

    >>> first_ring({"a": "b + 1", "b": "a", "c": "b", "d": "1"})
    (['a', 'b'], ['a', 'b', 'c'])
    """
    _, waiting, uses = _sorted(table)
    way: list[str] = []
    at = waiting[0] if waiting else ""
    while at and at not in way:
        way.append(at)
        at = next(name for name in waiting if name in uses[at])
    return way[way.index(at):] if at else [], waiting


def _sorted(table: Mapping[str, Any]) -> tuple[list[str], list[str], dict[str, set[str]]]:
    uses = {name: set(_NAME.findall(text)) & table.keys() - {name} if isinstance(text, str) else set()
            for name, text in table.items()}
    ordered: dict[str, None] = {}
    waiting = list(table)
    while ready := next((name for name in waiting if uses[name] <= ordered.keys()), ""):
        ordered[ready] = None
        waiting.remove(ready)
    return list(ordered), waiting, uses
