"""What a customer could change of an item, one thing at a time: an option, the timber, a size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from ..domain import measure, piece
from ..domain.job import Item
from ..domain.piece.model import Piece
from ..domain.shop import Shop
from ..domain.template.model import Dimension

OPTION_DISTANCE, TIMBER_DISTANCE = 0.05, 0.15    # how far from what was asked, beside a share of a size


@dataclass(frozen=True, slots=True)
class Change:
    """One changed thing: a dimension in nm or a choice's id; ``distance`` orders changes, nearest first."""

    name: str
    size_nm: int | None
    option: str
    text: str                    # "choose Timber: White oak", "make Overall length 60 in"
    distance: float

    def of(self, item: Item, made: Piece) -> Item:
        """The item with this changed and everything else as the piece has it."""
        dimensions = dict(made.dimensions_nm)
        choices = dict(made.choices)
        if self.size_nm is None:
            choices[self.name] = self.option
        else:
            dimensions[self.name] = self.size_nm
        return replace(item, dimensions=dimensions, choices=choices)


def options(made: Piece, shop: Shop) -> Iterator[Change]:
    """Every other option of every choice; the finish is left alone, it carries nothing."""
    for choice in piece.offered(made.template, shop):
        if choice.name == "finish":
            continue
        distance = TIMBER_DISTANCE if choice.name == "timber" else OPTION_DISTANCE
        for option, label in choice.options:
            if option != made.choices[choice.name]:
                yield Change(choice.name, None, option, f"choose {choice.label}: {label}", distance)


@dataclass(frozen=True, slots=True)
class Way:
    """A dimension made larger or smaller by whole steps."""

    dimension: Dimension
    now_nm: int
    step_nm: int
    most_steps: int

    def change(self, steps: int, units: str) -> Change:
        """The dimension changed by so many steps; past the last whole step, its bound."""
        bound = self.dimension.most_nm if self.step_nm > 0 else self.dimension.least_nm
        last = steps >= self.most_steps
        size = bound if last else self.now_nm + steps * self.step_nm
        told = f"make {self.dimension.label} {measure.Writer(units).length(size)}"
        return Change(self.dimension.name, size, "", told, abs(size - self.now_nm) / max(self.now_nm, 1))


def ways(made: Piece, units: str) -> Iterator[Way]:
    """Each dimension larger and smaller, as far as its range goes."""
    sizes: Mapping[str, int] = made.dimensions_nm
    for dimension in made.template.dimensions:
        now, step = sizes[dimension.name], dimension.step_nm[units]
        for signed, room in ((step, dimension.most_nm - now), (-step, now - dimension.least_nm)):
            if room > 0 and step > 0:
                yield Way(dimension, now, signed, -(-room // step))
