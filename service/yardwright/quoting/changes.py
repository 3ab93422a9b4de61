"""What could be changed of an item: an option, a heavier section, the timber, a size; one or two at once.

``distance`` says how far a change is from what was asked: how it is made comes first, then a size by its
share, then its looks, then the timber. How it is set in its place comes before all these, where the place is
what the finding is of. Who uses it and for what is never changed, nor the finish, which carries nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from itertools import zip_longest

from ..domain import measure, piece
from ..domain.job import Item
from ..domain.market import Market
from ..domain.piece.model import Piece
from ..domain.shop import Shop
from ..domain.template.model import Dimension

DISTANCES: Mapping[str, float] = {"place": 0.01, "make": 0.03, "look": 0.10}
TIMBER_DISTANCE = 0.15       # and a little more the further its price is from the present timber's
DEARER = 0.05                # at most so much more
Key = tuple[tuple[tuple[str, int], ...], tuple[tuple[str, str], ...]]


@dataclass(frozen=True, slots=True)
class Change:
    """Dimensions in nm and choices' ids that differ from what was asked; ``text`` says it in words."""

    dimensions: tuple[tuple[str, int], ...]
    choices: tuple[tuple[str, str], ...]
    text: str                    # "choose Timber: White oak", "make Overall length 60 in"
    distance: float
    of_place: bool = False       # how it is set in its place, by an option

    @property
    def key(self) -> Key:
        """The same for the same change, however it was come to."""
        return tuple(sorted(self.dimensions)), tuple(sorted(self.choices))

    @property
    def names(self) -> frozenset[str]:
        """What it changes."""
        return frozenset(name for name, _ in (*self.dimensions, *self.choices))

    def also(self, other: Change) -> Change:
        """Both at once."""
        text = f"{self.text} and {other.text}" if self.text else other.text
        return Change((*self.dimensions, *other.dimensions), (*self.choices, *other.choices), text,
                      self.distance + other.distance)

    def of(self, item: Item, made: Piece) -> Item:
        """The item with this changed and everything else as the piece has it."""
        return replace(item, dimensions=dict(made.dimensions_nm) | dict(self.dimensions),
                       choices=dict(made.choices) | dict(self.choices))


NOTHING = Change((), (), "", 0.0)


def at_once(changes: Sequence[Change]) -> list[Change]:
    """All of them taken together, as often as one thing has several: its first other option, its second."""
    by_names: dict[frozenset[str], list[Change]] = {}
    for change in changes:
        by_names.setdefault(change.names, []).append(change)
    rounds = zip_longest(*by_names.values())
    return [reduce(Change.also, (one for one in together if one), NOTHING) for together in rounds]


def options(made: Piece, shop: Shop) -> list[Change]:
    """Every other option of every choice that a mend may change, nearest first."""
    found: list[Change] = []
    for choice in piece.offered(made.template, shop):
        if choice.name == "finish" or choice.about == "use":
            continue
        present = made.choices.get(choice.name, choice.default)
        for option, label in choice.options:
            if option != present:
                distance = (_timber_distance(present, option, shop.market) if choice.name == "timber"
                            else DISTANCES[choice.about])
                told = f"choose {choice.label}: {label}"
                found.append(Change((), ((choice.name, option),), told, distance, choice.about == "place"))
    return sorted(found, key=lambda change: change.distance)


def _timber_distance(present: str, other: str, market: Market) -> float:
    """Further for a timber that costs much more or much less."""
    now, then = _price_level(present, market), _price_level(other, market)
    return TIMBER_DISTANCE + DEARER * min(1.0, abs(then - now) / max(now, then, 1e-9))


def _price_level(timber: str, market: Market) -> float:
    """What its wood costs by volume, all its boards together, in minor units a cubic metre."""
    boards = [b for b in market.boards if b.timber == timber]
    volume = sum(b.length_nm * 1e-9 * b.width_nm * 1e-9 * b.thickness_nm * 1e-9 for b in boards)
    return sum(b.price.minor for b in boards) / volume if volume else 0.0


@dataclass(frozen=True, slots=True)
class Way:
    """A dimension made larger or smaller by whole steps."""

    dimension: Dimension
    now_nm: int
    step_nm: int
    most_steps: int
    units: str

    def change(self, steps: int) -> Change:
        """The dimension changed by so many steps; past the last whole step, its bound."""
        bound = self.dimension.most_nm if self.step_nm > 0 else self.dimension.least_nm
        size = bound if steps >= self.most_steps else self.now_nm + steps * self.step_nm
        told = f"make {self.dimension.label} {measure.Writer(self.units).length(size)}"
        return Change(((self.dimension.name, size),), (), told, abs(size - self.now_nm) / max(self.now_nm, 1))

    def steps_within(self, distance: float) -> int:
        """How many steps stay nearer than that."""
        if distance == float("inf"):
            return self.most_steps
        return min(self.most_steps, max(0, -int(-distance * self.now_nm // abs(self.step_nm)) - 1))


def ways(made: Piece, units: str) -> Iterator[Way]:
    """Each dimension that says something, larger and smaller, as far as its range goes."""
    used = made.used_nm
    for dimension in made.template.dimensions:
        if dimension.name not in used:
            continue
        now, step = used[dimension.name], dimension.step_nm[units]
        for signed, room in ((step, dimension.most_nm - now), (-step, now - dimension.least_nm)):
            if room > 0 and step > 0:
                yield Way(dimension, now, signed, -(-room // step), units)
