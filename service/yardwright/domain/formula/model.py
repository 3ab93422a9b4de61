"""A checked formula: its text for the working and for errors, its tree for the evaluator."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Formula:
    """kind: "number" | "length" | "area" | "volume" | "angle" | "truth" | "text" | "spread" | "leg".

    ``tree`` is plain lists, strings and numbers, so that it travels as JSON.
    """

    text: str
    tree: Any
    kind: str
    where: str = ""              # pointer in the template: "/members/3/from/1"
    nodes: int = 0               # of the tree; 0 where nobody counted them


@dataclass(frozen=True, slots=True)
class Spread:
    """Boards side by side over a span, the gaps between them equal; lengths in mm.

    ``note`` says in words what was done when no count of full-width boards keeps the gaps in range.
    """

    count: int
    width: float
    gap: float
    note: str = ""


@dataclass(frozen=True, slots=True)
class Leg:
    """A leg glued to an L from one board ripped once; lengths in mm.

    One face measures ``wide``, the other ``face`` (narrow strip plus thickness); ``square`` is the
    wide strip that would make both faces equal.
    """

    wide: float
    narrow: float
    face: float
    square: float


Value = float | bool | str | Spread | Leg

RECORDS: Mapping[str, Mapping[str, str]] = {
    "spread": {"count": "number", "width": "length", "gap": "length", "note": "text"},
    "leg": {"wide": "length", "narrow": "length", "face": "length", "square": "length"},
}
