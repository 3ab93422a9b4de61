"""Small jobs of rolls, exactly: every block that may be part of a cheaper plan, then the cheapest lengths.

A cheaper plan has only so much money to waste, so only blocks that waste no more are listed for each roll.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import product

from .blocks import ACROSS, ALONG, Block, group
from .effort import Steps
from .guillotine import ALONG_X, PART, Blocks, Shape, blocks_of
from .roll_job import Panel, Roll, Share

_FAR = 1 << 60
_MOST_SPLITS = 200_000  # of panels between rolls


def cheapest(panels: Sequence[Panel], rolls: Sequence[Roll], below: int, steps: Steps) -> list[Share] | None:
    """The cheapest shares for less than ``below``; an empty list when there are none, None when not told."""
    counts = [panel.count for panel in panels]
    if math.prod(n + 1 for n in counts) ** 2 * (len(rolls) - 1) > _MOST_SPLITS:
        return None
    tables = []
    for roll, waste in zip(rolls, _wastes(panels, rolls, below), strict=True):
        blocks = blocks_of(roll.kinds, [roll.room], steps, waste)
        if blocks is None:
            return None
        tables.append(_Table(roll, blocks, steps))
    best: dict[tuple[int, ...], tuple[int, tuple[tuple[int, ...], ...]]] = {(0,) * len(counts): (0, ())}
    for table in tables:
        grown: dict[tuple[int, ...], tuple[int, tuple[tuple[int, ...], ...]]] = {}
        last = table is tables[-1]
        for before, (cost, shares) in best.items():
            rest = tuple(n - b for n, b in zip(counts, before, strict=True))
            for here in [rest] if last else product(*(range(n + 1) for n in rest)):
                total = cost + table.cost(here)
                after = tuple(b + h for b, h in zip(before, here, strict=True))
                if total < below and total < grown.get(after, (_FAR,))[0]:
                    grown[after] = (total, (*shares, here))
        if steps.out:
            return None
        best = grown
    if tuple(counts) not in best:
        return []
    shares = best[tuple(counts)][1]
    return [
        Share(at, here, tuple(table.lengths(here)))
        for at, (table, here) in enumerate(zip(tables, shares, strict=True))
        if any(here)
    ]


def _wastes(panels: Sequence[Panel], rolls: Sequence[Roll], below: int) -> list[int | None]:
    """By roll, the area that may be lost on it in a plan that costs less than ``below``."""
    rates = [roll.line.price / (roll.line.length_nm * roll.room[1]) for roll in rolls]
    if min(rates) <= 0 or any(r.rules.crosscut_kerf_nm > 2 * r.rules.end_trim_nm for r in rolls):
        return [None] * len(rolls)
    areas = [
        [_FAR if made is None else sum(roll.kinds[k].area * n for k, n in made) for made in roll.made_of]
        for roll in rolls
    ]
    least = sum(
        panel.count * min(area[k] * rate for area, rate in zip(areas, rates, strict=True))
        for k, panel in enumerate(panels)
    )
    return [math.floor((below - least) / rate * (1 + 1e-9)) + 1 for rate in rates]


@dataclass(slots=True)
class _Table:
    """What each choice of panels costs when cut from one roll alone, in one length or several."""

    roll: Roll
    blocks: Blocks
    steps: Steps
    known: dict[int, tuple[int, tuple[int, ...]]] = field(default_factory=lambda: {0: (0, ())})

    def cost(self, panels: Sequence[int]) -> int:
        """Infinite where a panel cannot come from it."""
        if any(n and made is None for n, made in zip(panels, self.roll.made_of, strict=True)):
            return _FAR
        return self._best(self._packed(panels))[0]

    def lengths(self, panels: Sequence[int]) -> list[Block]:
        """The block of each length cut off."""
        return [
            block_of(self.roll, self.blocks.shapes[parts][0])
            for parts in self._best(self._packed(panels))[1]
        ]

    def _packed(self, panels: Sequence[int]) -> int:
        return sum(n * self.blocks.pack.one(k) for k, n in enumerate(self.roll.pieces(panels)) if n)

    def _best(self, parts: int) -> tuple[int, tuple[int, ...]]:
        """Each length in turn holds the first kind that is still wanted."""
        if parts in self.known:
            return self.known[parts]
        pack = self.blocks.pack
        first = next(k for k, n in enumerate(pack.unpack(parts)) if n)
        best: tuple[int, tuple[int, ...]] = (_FAR, ())
        for run, shapes in self.blocks.shapes.items():
            if not pack.within(run, parts) or not pack.unpack(run)[first]:
                continue
            if not self.steps.take(2):
                break
            cost = self.roll.price(shapes[0][0] - self.roll.rules.crosscut_kerf_nm)
            if cost < best[0]:
                rest = self._best(parts - run)
                if cost + rest[0] < best[0]:
                    best = (cost + rest[0], (run, *rest[1]))
        self.known[parts] = best
        return best


def block_of(roll: Roll, shape: Shape) -> Block:
    """A listed shape as blocks without kerfs."""
    if shape[2] == PART:
        return roll.leaf(shape[3], shape[4])
    way = ALONG if shape[2] == ALONG_X else ACROSS
    return group(way, [block_of(roll, shape[3]), block_of(roll, shape[4])], roll.rules)
