"""Wood moving across its grain as it takes up or gives off moisture.

Within 6-14 % moisture: ΔD = D·C·(M_F - M_I), C = C_T for flat-sawn width (Wood Handbook eq. 13-2; seen).
Beyond: ΔD = D·(M_F - M_I) / (30·100/S - 30 + M_I), S total shrinkage in %, both moistures at most 30 %
(eq. 13-3; memory of its algebra). Percent moisture, lengths in the unit of D. Single boards scatter widely;
edge-grain boards move about half as much.
"""

from __future__ import annotations

from ..market import Timber
from .rule import Unknown
from .words import Words

SATURATED = 30.0
TABLE_FROM, TABLE_TO = 6.0, 14.0


def width_change(width: float, timber: Timber, from_pct: float, to_pct: float) -> float:
    """How much a flat-sawn width grows (positive) or shrinks between two moistures."""
    first, last = min(from_pct, SATURATED), min(to_pct, SATURATED)
    if _by_coefficient(timber, first, last):
        return width * timber.value("tangential_movement") * (last - first)
    if timber.known("tangential_shrinkage_pct"):
        return width * (last - first) / (
            SATURATED * 100 / timber.value("tangential_shrinkage_pct") - SATURATED + first)
    raise Unknown(f"{timber.name} has no movement figures")


def change_worked(words: Words, width_mm: float, timber: Timber, from_pct: float, to_pct: float) -> str:
    """The sum behind ``width_change`` as it is said: ``5 1/2 in × 0.00234 × (14 − 12)``."""
    first, last = min(from_pct, SATURATED), min(to_pct, SATURATED)
    if _by_coefficient(timber, first, last):
        return f"{words.length(width_mm)} × {timber.value('tangential_movement'):g} × ({last:g} − {first:g})"
    return (f"{words.length(width_mm)} × ({last:g} − {first:g}) / (30·100/"
            f"{timber.value('tangential_shrinkage_pct'):g} − 30 + {first:g})")


def _by_coefficient(timber: Timber, first: float, last: float) -> bool:
    inside = min(first, last) >= TABLE_FROM and max(first, last) <= TABLE_TO
    return inside and timber.known("tangential_movement")
