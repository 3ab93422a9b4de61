"""Every way straight through cuts can take a handful of parts out of one sheet, listed from small to large.

A block is a part as it lies, or two blocks one after the other or side by side with a kerf between. For each
choice of parts only the blocks that no other is shorter and narrower than are kept. Any number of stages,
any mix of first cuts: what is not listed cannot be cut by through cuts. Lengths here carry one kerf each,
and so do the rooms: then blocks add up and no kerf is left to count.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

from .counts import Packing, packing
from .effort import Steps

# (extent along x, extent along y, how, first, second): how is 0 for a part, then first is its kind and
# second whether it is turned; 1 for blocks one after the other along x, 2 for blocks side by side along y.
Shape = tuple[int, int, int, Any, Any]
PART, ALONG_X, ALONG_Y = 0, 1, 2
Room = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Kind:
    """Parts of one size, a kerf added to each extent; ``turned`` is the other way it may lie, if any."""

    x_nm: int
    y_nm: int
    turned: Room | None
    most: int

    @property
    def area(self) -> int:
        """The least area it takes: two kerfs that differ make it depend on how the part lies."""
        turned = self.turned[0] * self.turned[1] if self.turned else self.x_nm * self.y_nm
        return min(self.x_nm * self.y_nm, turned)


@dataclass(frozen=True, slots=True)
class Blocks:
    """``shapes[parts]`` are the least blocks of these parts, by packed counts; shortest first."""

    pack: Packing
    shapes: dict[int, list[Shape]]

    def fitting(self, parts: int, room: Room) -> list[Shape]:
        """The blocks of these parts that go into the room."""
        return [s for s in self.shapes.get(parts, ()) if s[0] <= room[0] and s[1] <= room[1]]


def blocks_of(
    kinds: Sequence[Kind], rooms: Sequence[Room], steps: Steps, waste: int | None = None
) -> Blocks | None:
    """All blocks that go into some room; None when listing them takes more than ``steps``.

    ``waste``: only blocks with no more area lost in them than this; what is lost in a block is lost in every
    block it becomes part of, so nothing that wastes less is missed.
    """
    listing = _Listing(packing([kind.most for kind in kinds]), _largest(rooms), steps, waste)
    for i, kind in enumerate(kinds):
        lies: list[Shape] = [(kind.x_nm, kind.y_nm, PART, i, False)]
        if kind.turned:
            lies.append((*kind.turned, PART, i, True))
        listing.area[listing.pack.one(i)] = kind.area
        listing.keep({listing.pack.one(i): lies})
    # A block of so many parts is two smaller ones: beyond twice the last level found there is none.
    while len(listing.levels) <= 2 * listing.last:
        found = listing.next_level()
        if found is None:
            return None
        listing.levels.append([])
        listing.keep(found)
    return Blocks(listing.pack, listing.shapes)


@dataclass(slots=True)
class _Listing:
    """``levels[n]`` are the choices of n parts that have a block."""

    pack: Packing
    rooms: list[Room]
    steps: Steps
    waste: int | None
    shapes: dict[int, list[Shape]] = field(default_factory=dict)
    area: dict[int, int] = field(default_factory=dict)
    levels: list[list[int]] = field(default_factory=lambda: [[], []])
    last: int = 0

    def keep(self, found: dict[int, list[Shape]]) -> None:
        """The least of the blocks found, on the newest level."""
        for parts, candidates in found.items():
            most = None if self.waste is None else self.area[parts] + self.waste
            if kept := _least(candidates, self.rooms, most):
                self.shapes[parts] = kept
                self.levels[-1].append(parts)
        self.levels[-1].sort()
        if self.levels[-1]:
            self.last = len(self.levels) - 1

    def next_level(self) -> dict[int, list[Shape]] | None:
        """Blocks of one part more, unsifted; None when the steps are spent."""
        found: dict[int, list[Shape]] = {}
        most_area = max((x * y for x, y in self.rooms), default=0)
        for a, b in _pairs(self.levels, self.pack, self.area, most_area):
            first, second = self.shapes[a], self.shapes[b]
            if not self.steps.take(len(first) + len(second)):
                return None
            found.setdefault(a + b, []).extend(_joined(first, second))
            self.area[a + b] = self.area[a] + self.area[b]
        return found


def _pairs(
    levels: list[list[int]], pack: Packing, area: dict[int, int], most: int
) -> Iterator[tuple[int, int]]:
    """Every two choices of parts that make up the next number of parts, within the need and the area."""
    number = len(levels)
    for few in range(1, number // 2 + 1):
        same = 2 * few == number
        for at, a in enumerate(levels[few]):
            room = most - area[a]
            others = levels[number - few]
            for b in others[at:] if same else others:
                if area[b] <= room and pack.fits(a + b):
                    yield a, b


def _joined(first: list[Shape], second: list[Shape]) -> Iterator[Shape]:
    """Two blocks one after the other and side by side; of each row and column only the least."""
    for a in first:
        for b in second:
            yield (a[0] + b[0], max(a[1], b[1]), ALONG_X, a, b)
            if b[1] <= a[1]:
                break
    for a in reversed(first):
        for b in reversed(second):
            yield (max(a[0], b[0]), a[1] + b[1], ALONG_Y, a, b)
            if b[0] <= a[0]:
                break


def _least(candidates: list[Shape], rooms: Sequence[Room], most_area: int | None) -> list[Shape]:
    """Those that go into some room and that no other is shorter and narrower than, shortest first; none
    larger than ``most_area``."""
    kept: list[Shape] = []
    narrowest = max(y for _, y in rooms) + 1 if rooms else 0
    for shape in sorted(candidates, key=_extent):
        if most_area is not None and shape[0] * shape[1] > most_area:
            continue
        if shape[1] < narrowest and any(shape[0] <= x and shape[1] <= y for x, y in rooms):
            kept.append(shape)
            narrowest = shape[1]
    return kept


def _extent(shape: Shape) -> Room:
    return shape[0], shape[1]


def _largest(rooms: Sequence[Room]) -> list[Room]:
    return [r for r in set(rooms) if not any(r != o and r[0] <= o[0] and r[1] <= o[1] for o in set(rooms))]
