"""A checked formula: its text for the working and for errors, its tree for the evaluator."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Formula:
    """kind: "number" | "length" | "area" | "volume" | "angle" | "truth" | "text" | "spread".

    ``tree`` is plain lists, strings and numbers, so that it travels as JSON.
    """

    text: str
    tree: Any
    kind: str
    where: str = ""              # pointer in the template: "/members/3/from/1"
