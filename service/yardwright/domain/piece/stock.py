"""Which section, sheet or roll each role of a template is made of: the first the shop sells."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from ..errors import Fault, NoStock
from ..market import BoardStock, Market
from ..measure import to_mm
from ..template.model import AS_USUAL, Role, Template

MOST_KEPT = 8            # price lists
_KEPT: dict[int, tuple[Sequence[BoardStock], dict[tuple[str, str], list[BoardStock]]]] = {}
ROLL_MM = 1.0            # drawn thickness of mesh, fabric and liner; their mass is by area


@dataclass(frozen=True, slots=True)
class Pick:
    """What a role is made of; sizes in mm as delivered to the saw."""

    role: str
    material: str
    code: str                # section id, or sheet or roll code
    timber: str
    grade: str
    width_mm: float
    thickness_mm: float
    longest_mm: float
    density_kg_m3: float


def pick_stock(template: Template, timber: str, market: Market,
               choices: Mapping[str, str] = MappingProxyType({})) -> dict[str, tuple[Pick, ...]]:
    """Per role its pick; a roll role lists every width sold, narrowest first. NoStock names all lacking.

    ``choices`` may name a heavier section for a role; then it is that one or none.
    """
    faults: list[Fault] = []
    found: dict[str, tuple[Pick, ...]] = {}
    for role in template.roles:
        wood = role.timber or timber
        heavier = choices.get(role.chosen_by, AS_USUAL)
        if heavier != AS_USUAL:
            role = replace(role, sections=(heavier,))
        picks = {"board": _boards, "sheet": _sheets, "roll": _rolls}[role.material](role, wood, market)
        if picks:
            found[role.name] = picks
        else:
            pointer = "" if role.material != "board" else (
                "/choices/timber" if heavier == AS_USUAL else f"/choices/{role.chosen_by}")
            faults.append(Fault(pointer, _lacking(role, wood, market)))
    if faults:
        raise NoStock(*faults)
    return found


def _boards(role: Role, timber: str, market: Market) -> tuple[Pick, ...]:
    in_sections = _sold(market.boards)
    for section in role.sections if timber in market.timbers else ():
        sold = in_sections.get((section, timber), ())
        if role.grade:
            sold = [b for b in sold if b.grade == role.grade]
        if sold:
            grade = min(sold, key=_price_by_length).grade
            sold = [b for b in sold if b.grade == grade]
            known = market.timbers[timber]
            density = known.value("density_kg_m3") if known.known("density_kg_m3") else 0.0
            return (Pick(role.name, "board", section, timber, grade, to_mm(sold[0].width_nm),
                         to_mm(sold[0].thickness_nm), to_mm(max(b.length_nm for b in sold)), density),)
    return ()


def _sold(boards: Sequence[BoardStock]) -> Mapping[tuple[str, str], Sequence[BoardStock]]:
    """Boards by section and timber; kept for the few price lists that were asked for last."""
    of, sold = _KEPT.get(id(boards), ((), {}))
    if of is not boards:
        sold = {}
        for board in boards:
            sold.setdefault((board.section.id, board.timber), []).append(board)
        if len(_KEPT) >= MOST_KEPT:
            _KEPT.clear()
        _KEPT[id(boards)] = boards, sold
    return sold


def _price_by_length(board: BoardStock) -> tuple[float, str]:
    return (board.price.minor / board.length_nm, board.grade)


def _sheets(role: Role, timber: str, market: Market) -> tuple[Pick, ...]:
    for material in role.sections:
        for s in market.sheets:
            if s.material == material:
                return (Pick(role.name, "sheet", s.code, "", "", to_mm(s.width_nm), to_mm(s.thickness_nm),
                             to_mm(s.length_nm), s.density_kg_m3),)
    return ()


def _rolls(role: Role, timber: str, market: Market) -> tuple[Pick, ...]:
    for material in role.sections:
        sold = [r for r in market.rolls if r.material == material]
        if sold:
            return tuple(Pick(role.name, "roll", r.code, "", "", to_mm(r.width_nm), ROLL_MM,
                              to_mm(r.longest_nm), r.mass_kg_m2 / ROLL_MM * 1000)
                         for r in sorted(sold, key=lambda r: (r.width_nm, r.code)))
    return ()


def wide_enough(picks: tuple[Pick, ...], width_mm: float) -> Pick:
    """The narrowest of a roll role's widths that covers the member, else the widest."""
    return next((p for p in picks if p.width_mm >= width_mm - 1e-6), picks[-1])


def sizes_of(picks: Mapping[str, tuple[Pick, ...]]) -> dict[str, float]:
    """``<role>.width`` and ``<role>.thickness`` for formulas, mm."""
    return {f"{name}.{side}": getattr(p[-1], f"{side}_mm") for name, p in picks.items()
            for side in ("width", "thickness")}


def _lacking(role: Role, timber: str, market: Market) -> str:
    if role.material != "board":
        lines = market.sheets if role.material == "sheet" else market.rolls
        sold = {line.material for line in lines}
        return (f"role '{role.name}' wants {' or '.join(role.sections)}; the shop sells "
                f"{', '.join(sorted(sold)) or 'none'} as {role.material}s")
    grade = f" of grade {role.grade}" if role.grade else ""
    sold = {b.section.id for b in market.boards
            if b.timber == timber and (not role.grade or b.grade == role.grade)}
    what = f"sells {', '.join(sorted(sold))} in it" if sold else "sells none of it"
    return f"role '{role.name}' wants {' or '.join(role.sections)} in {timber}{grade}; the shop {what}"
