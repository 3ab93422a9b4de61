"""Of all that a trial found wrong, the case to look at first, built again to be drawn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from ..errors import Refused
from ..measure import Writer
from ..shop import Shop
from ..template.model import MemberRule, Template
from .build import build
from .look import clash_words
from .model import Piece
from .points import Point
from .trial import TrialFault, TrialReport

MOST_REBUILT = 40
MOST_NEAR = 8            # sound points, of which the first that has the members in question is shown
MOST_LEFT_OUT = 12


@dataclass(frozen=True, slots=True)
class Worst:
    """A piece at its point, what is wrong with it and the members that show it; ``opened_deg`` 0 is shut.

    ``instead``: what is drawn, in words, where the piece cannot be built at the fault's own point.
    """

    fault: TrialFault
    piece: Piece
    members: tuple[str, ...]
    opened_deg: float = 0.0
    instead: str = ""


def worst(report: TrialReport, template: Template, shop: Shop) -> Worst | None:
    """The greatest clash of any point, else the first fault of a piece that could be built; else the first
    fault, shown on the nearest piece that could, or on what is left when that which cannot is left out. None
    where nothing is wrong at any point, or nothing at all can be built."""
    first: Worst | None = None
    greatest: tuple[float, Worst] | None = None
    for fault, piece in _rebuilt(report, template, shop):
        if piece.clashes:
            clash = max(piece.clashes, key=lambda c: c.volume_mm3)
            if greatest is None or clash.volume_mm3 > greatest[0]:
                said = replace(fault, detail=clash_words(clash, Writer(shop.units)))
                greatest = clash.volume_mm3, Worst(said, piece, (clash.first, clash.second), clash.opened_deg)
        elif first is None:
            first = Worst(fault, piece, _shown(fault, piece, template))
    if greatest:
        return greatest[1]
    return first or _instead(report, template, shop)


def named_in(detail: str, piece: Piece) -> tuple[str, ...]:
    """Keys of the members that a fault names, the longer before what it begins with."""
    found: list[str] = []
    for key in sorted((m.key for m in piece.members), key=len, reverse=True):
        if key in detail:
            found.append(key)
            detail = detail.replace(key, "")
    return tuple(found)


def _shown(fault: TrialFault, piece: Piece, template: Template) -> tuple[str, ...]:
    """The members that a fault names, else all of the rule that it points at."""
    at = {rule.name for rule in template.members if _within(fault.pointer, rule)}
    return named_in(fault.detail, piece) or tuple(m.key for m in piece.members if m.name in at)


def _within(pointer: str, rule: MemberRule) -> bool:
    return pointer == rule.where or pointer.startswith(f"{rule.where}/")


def _rebuilt(report: TrialReport, template: Template, shop: Shop) -> Iterator[tuple[TrialFault, Piece]]:
    seen: list[Point] = []
    for fault in report.faults:
        if not fault.built or fault.point in seen:
            continue
        seen.append(fault.point)
        yield fault, _build(template, fault.point, shop)
        if len(seen) >= MOST_REBUILT:
            return


def _build(template: Template, point: Point, shop: Shop) -> Piece:
    return build(template, point.dimensions_nm, point.choices, shop, shop.units)


def _instead(report: TrialReport, template: Template, shop: Shop) -> Worst | None:
    """The first fault on the nearest point at which the piece was built, else without what cannot be made."""
    if not report.faults:
        return None
    fault = report.faults[0]
    failed = [f.point for f in report.faults if not f.built]
    sound = [point for point in report.tried.points if point not in failed]
    near = sorted(sound, key=lambda point: _apart(template, fault.point, point))[:MOST_NEAR]
    shown = [_near(fault, point, template, shop) for point in near]
    return next((one for one in shown if one.members), shown[0] if shown else _without(fault, template, shop))


def _near(fault: TrialFault, point: Point, template: Template, shop: Shop) -> Worst:
    piece = _build(template, point, shop)
    return Worst(fault, piece, _shown(fault, piece, template),
                 instead=f"Drawn at {point.words()}, where it can be built")


def _apart(template: Template, a: Point, b: Point) -> float:
    """Sizes by their share of the range, and one for every choice that differs."""
    sizes = sum(abs(a.dimensions_nm[d.name] - b.dimensions_nm[d.name]) / max(d.most_nm - d.least_nm, 1)
                for d in template.dimensions)
    return sizes + sum(a.choices.get(name) != word for name, word in b.choices.items())


def _without(fault: TrialFault, template: Template, shop: Shop) -> Worst | None:
    left_out: list[str] = []
    for _ in range(MOST_LEFT_OUT):
        try:
            piece = _build(template, fault.point, shop)
        except Refused as refused:
            out = [r.name for r in template.members if any(_within(f.pointer, r) for f in refused.faults)]
            if not out:
                return None
            left_out += out
            template = replace(template, members=tuple(r for r in template.members if r.name not in out))
        else:
            return Worst(fault, piece, _shown(fault, piece, template),
                         instead=f"Drawn without {', '.join(left_out)}, which cannot be made")
    return None
