"""Of all that a trial found wrong, the case to look at first, built again to be drawn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..errors import Refused
from ..shop import Shop
from ..template.model import Template
from .build import build
from .model import Clash, Piece
from .trial import TrialFault, TrialReport, faults_of

MOST_REBUILT = 40


@dataclass(frozen=True, slots=True)
class Worst:
    """A piece at its point, what is wrong with it and the members that show it; ``opened_deg`` 0 is shut."""

    fault: TrialFault
    piece: Piece
    members: tuple[str, ...]
    opened_deg: float = 0.0


def worst(report: TrialReport, template: Template, shop: Shop) -> Worst | None:
    """The greatest clash of any point, else the first fault of a piece that could be built; None without."""
    first: Worst | None = None
    greatest: tuple[float, Worst] | None = None
    for fault, piece in _rebuilt(report, template, shop):
        if piece.clashes:
            clash = max(piece.clashes, key=lambda c: c.volume_mm3)
            if greatest is None or clash.volume_mm3 > greatest[0]:
                greatest = clash.volume_mm3, _of_clash(fault, piece, clash, shop)
        elif first is None:
            first = Worst(fault, piece, named_in(fault.detail, piece))
    return greatest[1] if greatest else first


def named_in(detail: str, piece: Piece) -> tuple[str, ...]:
    """Keys of the members that a fault names, the longer before what it begins with."""
    found: list[str] = []
    for key in sorted((m.key for m in piece.members), key=len, reverse=True):
        if key in detail:
            found.append(key)
            detail = detail.replace(key, "")
    return tuple(found)


def _of_clash(fault: TrialFault, piece: Piece, clash: Clash, shop: Shop) -> Worst:
    said = next((d for d in faults_of(piece, shop) if clash.first in d and clash.second in d), fault.detail)
    return Worst(TrialFault(fault.point, said), piece, (clash.first, clash.second), clash.opened_deg)


def _rebuilt(report: TrialReport, template: Template, shop: Shop) -> Iterator[tuple[TrialFault, Piece]]:
    seen: list[object] = []
    for fault in report.faults:
        if fault.point in seen or len(seen) >= MOST_REBUILT:
            continue
        seen.append(fault.point)
        try:
            yield fault, build(template, fault.point.dimensions_nm, fault.point.choices, shop,
                               fault.point.units)
        except Refused:
            continue
