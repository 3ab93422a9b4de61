"""What wood weighs at a moisture, and where a piece balances: empty, and with what it carries.

Densities are given at 12 % moisture. A volume of wood that holds M % of its oven-dry mass as water weighs
(100 + M)/112 of what it weighs at 12 %; its own swelling between the two (a few percent) is left out, so wet
wood is told a little heavy. Source: definitions of moisture content and density, Wood Handbook
(FPL-GTR-190) ch. 4 (memory).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from .model import Member
from .vectors import Vector

AT_PCT = 12.0            # the moisture that densities are given at


def density_at(density_kg_m3: float, moisture_pct: float) -> float:
    """kg/m3 at a moisture, from the density at 12 %.

    >>> round(density_at(571.2, 12)), round(density_at(571.2, 40))
    (571, 714)
    """
    return density_kg_m3 * (100 + moisture_pct) / (100 + AT_PCT)


def weigh(members: Sequence[Member],
          moisture_pct: Callable[[Member], float] | None = None) -> tuple[float, Vector]:
    """Mass in kg and centre of gravity of the solids, hardware left out.

    At 12 % unless told; sheets and rolls weigh what they weigh. The 12 % case is the light one that
    tip-over takes; what is lifted and delivered is weighed as it comes from the saw.
    """
    def mass(member: Member) -> float:
        wood = moisture_pct is not None and member.material == "board"
        return density_at(member.mass_kg, moisture_pct(member)) if wood and moisture_pct else member.mass_kg

    return balanced((mass(m), m.centre) for m in members)


def balanced(loads: Iterable[tuple[float, Vector]]) -> tuple[float, Vector]:
    """Mass and centre of gravity of several things together: a piece, its soil, the people on it."""
    found = [(kg, at) for kg, at in loads if kg > 0]
    mass = sum(kg for kg, _ in found)
    if mass <= 0:
        return 0.0, (0.0, 0.0, 0.0)
    x, y, z = (sum(kg * at[k] for kg, at in found) / mass for k in range(3))
    return mass, (x, y, z)
