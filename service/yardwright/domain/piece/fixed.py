"""Whether a piece is fixed to a wall or the ground, and by how many anchors.

Fixed is a piece whose template says so and whose quote holds two anchors or more: goods of the kind anchor,
or brackets and straps that say where they go (words to = "wall" or "ground"); bolts and corner brackets hold
its own members together and fix nothing.
"""

from __future__ import annotations

from .model import FittedHardware, Piece

ALWAYS_ANCHORS = "anchor"
WHERE_SAID = ("bracket", "strap")
PLACES = ("wall", "ground")


def anchors_of(piece: Piece) -> tuple[FittedHardware, ...]:
    """The hardware that goes into a wall or the ground."""
    return tuple(h for h in piece.hardware if h.count > 0 and (
        h.kind == ALWAYS_ANCHORS or (h.kind in WHERE_SAID and h.words.get("to") in PLACES)))


def count_of(piece: Piece) -> int:
    """How many anchors are quoted."""
    return int(sum(h.count for h in anchors_of(piece)))


def is_fixed(piece: Piece) -> bool:
    """Whether a check of the template says that it is fixed, and two anchors at least are quoted."""
    said = any(bool(asked.values.get("anchored", False)) for asked in piece.checks)
    return said and count_of(piece) >= 2
