"""Trying a template over its whole range: corners and many points, each built and looked at (look.py)."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from random import Random

from ..errors import Fault, Refused
from ..shop import Shop
from ..template.model import Template
from ..template.table import meant
from ..template.unused import unused
from .build import build
from .look import faults_of
from .model import Piece
from .points import Plan, Point, plan
from .stock import pick_stock

Look = Callable[[Piece, Shop], Iterable[Fault]]
MOST_COMBINATIONS = 6    # of choices tried at each corner, unless asked otherwise


@dataclass(frozen=True, slots=True)
class TrialFault:
    """What is wrong at one point; ``pointer`` into the template, "" where it is no single entry.

    ``built``: whether the piece stood, so that it can be looked at and drawn.
    """

    point: Point
    pointer: str
    detail: str
    built: bool = True


@dataclass(frozen=True, slots=True)
class TrialReport:
    """How a template did. ``unsold`` timbers are allowed by the template, but no board of them is sold."""

    template: str
    tried: Plan
    faults: tuple[TrialFault, ...]
    unsold: tuple[str, ...]
    lacking: tuple[Fault, ...] = ()      # whatever the size: names nobody knows or uses, stock nobody sells

    @property
    def points(self) -> int:
        """How many sets of sizes and choices were tried."""
        return len(self.tried.points)

    @property
    def good(self) -> bool:
        """Whether something was tried and nothing is wrong."""
        return not self.faults and not self.lacking and self.points > 0


def trial(template: Template, shop: Shop, points: int, seed: int = 1,
          at_corners: int = MOST_COMBINATIONS, also: Look = lambda piece, shop: (),
          usually: Look = lambda piece, shop: ()) -> TrialReport:
    """The piece as it is offered, every corner of its ranges and ``points`` random sets between, with choices
    and timbers mixed in: at each corner ``at_corners`` combinations of choices. ``also`` looks at each piece
    that is sound so far with what this part of the house does not know: boards, goods, times; ``usually``
    besides at those as it is offered, which must be free of what another size or choice would mend.

    Deterministic for a seed. Never raises for a fault of the template: it is reported with its point.
    """
    timbers, unsold = _timbers(template, shop)
    tried = plan(template, shop, timbers, points, at_corners, Random(seed))
    looks = ((point, (also, usually) if k < tried.usual else (also,)) for k, point in enumerate(tried.points))
    faults = [fault for point, asked in looks for fault in _tried(template, shop, point, asked)]
    return TrialReport(template.id, tried, tuple(faults), unsold,
                       (*_lacking(template, shop, timbers), *unused(template)))


def _lacking(template: Template, shop: Shop, sold: Sequence[str]) -> Iterator[Fault]:
    market = shop.market
    known_woods = [timber for timber in template.timbers or (template.default_timber,)
                   if timber in market.timbers]
    for key, names, known in (("timbers", template.timbers, market.timbers),
                              ("finishes", template.finishes, {"none", *market.finishes})):
        for at, name in enumerate(names):
            if name not in known:
                yield Fault(f"/{key}/{at}", f"nobody knows '{name}' here{meant(name, known)}")
    for role in template.roles if known_woods and not sold else ():
        try:
            pick_stock(replace(template, roles=(role,)), known_woods[0], market)
        except Refused as refused:
            entry = "sections" if role.material == "board" else "material"
            yield from (Fault(f"/{role.material}s/{role.name}/{entry}", f.detail) for f in refused.faults)


def _timbers(template: Template, shop: Shop) -> tuple[list[str], tuple[str, ...]]:
    sold, unsold = [], []
    for timber in template.timbers or sorted({b.timber for b in shop.market.boards}):
        try:
            pick_stock(template, timber, shop.market)
        except Refused:
            unsold.append(timber)
        else:
            sold.append(timber)
    return sold, tuple(unsold)


def _tried(template: Template, shop: Shop, point: Point, also: Sequence[Look]) -> list[TrialFault]:
    try:
        piece = build(template, point.dimensions_nm, point.choices, shop, shop.units)
    except Refused as trouble:
        return [TrialFault(point, fault.pointer, fault.detail, built=False) for fault in trouble.faults]
    found = tuple(faults_of(piece, shop)) or (fault for look in also for fault in look(piece, shop))
    return [TrialFault(point, fault.pointer, fault.detail) for fault in found]
