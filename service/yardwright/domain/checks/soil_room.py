"""How much soil a piece takes: what its template says, held against the room inside its boards. mm, mm³, kg.

The room is what lies between the inner faces of the boards that soil presses on, from the floor that it lies
on (the ground where there is none) up to the surface. A volume said to be smaller is not believed. Sides that
do not stand square to the length are not measured: what is said then counts alone.
Source: geometry.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..piece.model import Member
from .footprint import Bounds, bounds
from .rule import Case, Unknown
from .soil_floor import density_name
from .touches import ground

_IMPLIED = ("soil sides", "soil floor", "soil weight", "growing food", "bed reach")
_SQUARE = 0.999
_UPRIGHT = 0.3               # sine of the lean of a wall's face
_EDGE_MM = 100.0             # a wall's middle lies this near to the edge of the floor; judgement
_IN_MM = 10.0                # less of it in the earth is a rim or a bearer
_POSTS = 0.95                # posts and a lining take up to a twentieth of the room; judgement


@dataclass(frozen=True, slots=True)
class Soil:
    """The soil of a filled piece; ``measured``: by its boards, since the template says less."""

    volume_mm3: float
    density: str                 # the limit's name
    measured: bool = False

    def kg(self, case: Case) -> float:
        """What it weighs wet."""
        return case.limit(self.density) * 1e-9 * self.volume_mm3


def soil_of(case: Case) -> Soil | None:
    """What the piece is filled with; None where nothing speaks of soil. Unknown: nothing says how much."""
    checks = case.piece.checks
    said = max((float(c.values.get("soil_volume") or 0.0) for c in checks), default=0.0)
    if not said and not any(c.rule.rule in _IMPLIED or c.rule.words.get("kind") == "planter" for c in checks):
        return None
    names = {density_name(c) for c in checks if c.rule.rule in ("soil floor", "soil weight")}
    density = names.pop() if len(names) == 1 else "soil.density"
    room = room_mm3(case)
    if not said and room is None:
        raise Unknown("the template speaks of soil and does not say how much")
    if room is not None and said < _POSTS * room:
        return Soil(room, density, True)
    return Soil(said, density)


def room_mm3(case: Case) -> float | None:
    """The room inside the boards that soil is held against; None where it cannot be measured."""
    pressed = [(case.member(k), float(c.values["soil_top"])) for c in case.piece.checks
               if c.rule.rule == "soil sides" for k in c.members]
    lain = [(case.member(k), float(c.values["soil_depth"])) for c in case.piece.checks
            if c.rule.rule == "soil floor" for k in c.members]
    if lain and not pressed:
        x0, y0, _, x1, y1, _ = bounds(m for m, _ in lain)
        return (x1 - x0) * (y1 - y0) * max(deep for _, deep in lain)
    inner = _inner([m for m, _ in pressed])
    if inner is None:
        return None
    floor = max((bounds([m])[5] for m, _ in lain), default=ground(case.piece))
    return inner[0] * inner[1] * max(0.0, max(top for _, top in pressed) - floor)


def walls(case: Case) -> tuple[float, tuple[Member, ...]]:
    """The surface of the earth that lies on a floor, and the boards that it presses on: faces upright, at the
    floor's edge, between floor and surface; posts in the corners are behind them."""
    lain = [(case.member(k), float(c.values["soil_depth"])) for c in case.piece.checks
            if c.rule.rule == "soil floor" for k in c.members]
    if not lain:
        return 0.0, ()
    floor = bounds(m for m, _ in lain)
    top = floor[5] + max(deep for _, deep in lain)
    known = {m.key for m, _ in lain}
    found = [m for m in case.piece.members if m.key not in known and m.material == "board"
             and abs(m.frame.thick[2]) < _UPRIGHT and _at_edge(bounds([m]), floor, top, _across(m))]
    level = tuple(m for m in found if abs(m.frame.along[2]) < _UPRIGHT)
    return top, level or tuple(found)


def _across(member: Member) -> int:
    x, y, _ = member.frame.thick
    return 0 if abs(x) > abs(y) else 1


def _at_edge(b: Bounds, floor: Bounds, top_mm: float, k: int) -> bool:
    """Whether a board stands at an edge of the floor, across its own thickness, in the earth."""
    near = min(abs(_ends(b, k) - floor[k]), abs(_ends(b, k) - floor[k + 3]))
    along = 1 - k
    return (near < _EDGE_MM and b[along] < floor[along + 3] and floor[along] < b[along + 3]
            and b[2] < top_mm - _IN_MM and b[5] > floor[5] + _IN_MM)


def _inner(sides: list[Member]) -> tuple[float, float] | None:
    """Length and depth between the inner faces of square sides."""
    if any(max(abs(m.frame.thick[0]), abs(m.frame.thick[1])) < _SQUARE for m in sides):
        return None
    found = tuple(_between(sides, k) for k in (0, 1))
    return None if None in found else (found[0] or 0.0, found[1] or 0.0)


def _between(sides: list[Member], k: int) -> float | None:
    across = [bounds([m]) for m in sides if abs(m.frame.thick[k]) > _SQUARE]
    middle = sum(_ends(b, k) for b in across) / len(across) if across else 0.0
    low = [b[k + 3] for b in across if _ends(b, k) < middle]
    high = [b[k] for b in across if _ends(b, k) > middle]
    return min(high) - max(low) if low and high else None


def _ends(b: tuple[float, ...], k: int) -> float:
    return (b[k] + b[k + 3]) / 2
