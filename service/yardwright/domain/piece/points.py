"""The sizes and choices at which a template is tried: as offered, corners of its ranges, points between.

At each corner so many combinations of choices are tried, drawn by chance where there are more; timbers take
turns in them, from another first one at each corner, so that none keeps to the corners of one size.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from math import prod
from random import Random

from ..errors import Refused
from ..measure import Writer
from ..shop import Shop
from ..template.model import Choice, Template
from .offer import offered
from .stock import pick_stock

MOST_CORNERS = 256       # of the sizes' ranges


@dataclass(frozen=True, slots=True)
class Point:
    """One set of sizes and choices that is tried."""

    dimensions_nm: Mapping[str, int]
    choices: Mapping[str, str]
    units: str

    def words(self) -> str:
        """``length 24 in, depth 12 in; edges plain, timber redwood``."""
        sizes = ", ".join(f"{name} {self.size(name)}" for name in self.dimensions_nm)
        return "; ".join(filter(None, (sizes, ", ".join(f"{k} {v}" for k, v in self.choices.items()))))

    def size(self, name: str) -> str:
        """One of its sizes in its own units, as it would be asked."""
        return Writer(self.units).length(self.dimensions_nm[name])


@dataclass(frozen=True, slots=True)
class Plan:
    """The points to try: ``usual`` ones, as it is offered in each system of units; ``corners`` of
    ``all_corners``, at each ``at_corner`` of ``combinations`` of the choices without timber and finish; the
    rest lies between."""

    points: tuple[Point, ...]
    usual: int
    corners: int
    all_corners: int
    at_corner: int
    combinations: int


def plan(template: Template, shop: Shop, timbers: Sequence[str], between: int, at_corner: int,
         random: Random) -> Plan:
    """``between`` points besides the corners, in the timbers given; none without timbers."""
    *choices, _, finishes = offered(template, shop)
    many, all_corners = prod(len(c.options) for c in choices), 2 ** len(template.dimensions)
    corners, each = min(all_corners, MOST_CORNERS), min(many, at_corner)
    if not timbers:
        return Plan((), 0, 0, all_corners, each, many)
    coats = [word for word, _ in finishes.options] or ["none"]
    made = _Maker(template, shop, timbers, choices, coats, random)
    usual = usual_points(template, shop)
    points = (*usual, *made.corners(corners, each), *made.between(between))
    return Plan(points, len(usual), corners, all_corners, each, many)


def usual_points(template: Template, shop: Shop) -> tuple[Point, ...]:
    """As the piece is offered where nothing is chosen, first in the shop's units."""
    chosen = {choice.name: choice.default for choice in offered(template, shop)}
    sections = {role.chosen_by for role in template.roles}
    chosen = {name: word for name, word in chosen.items() if name not in sections}
    systems = sorted(("in", "mm"), key=lambda units: units != shop.units)
    return tuple(Point({d.name: d.default_nm[units] for d in template.dimensions}, chosen, units)
                 for units in systems)


@dataclass(frozen=True, slots=True)
class _Maker:
    template: Template
    shop: Shop
    timbers: Sequence[str]
    choices: Sequence[Choice]
    finishes: Sequence[str]
    random: Random

    def corners(self, count: int, each: int) -> Iterator[Point]:
        dimensions, random = self.template.dimensions, self.random
        all_corners, many = 2 ** len(dimensions), prod(len(c.options) for c in self.choices)
        for k in range(count) if count == all_corners else random.sample(range(all_corners), count):
            sizes = {d.name: d.most_nm if k >> (len(dimensions) - 1 - at) & 1 else d.least_nm
                     for at, d in enumerate(dimensions)}
            first = random.randrange(len(self.timbers))
            for turn, number in enumerate(range(many) if each == many else random.sample(range(many), each)):
                timber = self.timbers[(first + turn) % len(self.timbers)]
                yield self._point(sizes, timber, _combination(self.choices, number), self.shop.units)

    def between(self, count: int) -> Iterator[Point]:
        for k in range(count):
            units = ("in", "mm")[k % 2]
            sizes = {}
            for d in self.template.dimensions:
                step = d.step_nm[units]
                first, last = -(-d.least_nm // step), d.most_nm // step
                sizes[d.name] = self.random.randint(first, last) * step if last >= first else d.least_nm
            chosen = {c.name: self.random.choice(c.options)[0] for c in self.choices}
            yield self._point(sizes, self.random.choice(self.timbers), chosen, units)

    def _point(self, sizes: Mapping[str, int], timber: str, chosen: dict[str, str], units: str) -> Point:
        chosen = _sold(self.template, timber, chosen, self.shop)
        return Point(sizes, {**chosen, "finish": self.random.choice(self.finishes)}, units)


def _combination(choices: Sequence[Choice], number: int) -> dict[str, str]:
    """The combination of options with that number, the last choice turning fastest."""
    chosen: dict[str, str] = {}
    for choice in reversed(choices):
        number, which = divmod(number, len(choice.options))
        chosen[choice.name] = choice.options[which][0]
    return dict(reversed(chosen.items()))


def _sold(template: Template, timber: str, chosen: dict[str, str], shop: Shop) -> dict[str, str]:
    """The choices with the timber, heavier sections left out where they are not sold in it."""
    with suppress(Refused):
        pick_stock(template, timber, shop.market, chosen)
        return {**chosen, "timber": timber}
    sections = {role.chosen_by for role in template.roles}
    return {**{name: word for name, word in chosen.items() if name not in sections}, "timber": timber}
