"""The order of named values: each after those it uses, so that the order of members says nothing."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")


def in_order(table: Mapping[str, Any]) -> list[str]:
    """The names, as given but for those that use a later one, which come after it.

    TOML keeps the order of its keys; JSON does not promise it (RFC 8259 section 4). Names that use each
    other in a ring stay as given: the reader then says which one is not declared yet.
    """
    uses = {name: set(_NAME.findall(text)) & table.keys() - {name} if isinstance(text, str) else set()
            for name, text in table.items()}
    ordered: dict[str, None] = {}
    waiting = list(table)
    while ready := next((name for name in waiting if uses[name] <= ordered.keys()), ""):
        ordered[ready] = None
        waiting.remove(ready)
    return [*ordered, *waiting]
