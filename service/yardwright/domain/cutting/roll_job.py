"""A job of rolls in one form: panels, the pieces each roll makes them of, and what a length of it costs.

A panel wider than the roll is laid from full widths and what is left, each joint overlapping. It is turned
where that spares a joint; with as many joints either way, where that takes less area; without any joint it
lies as suits the cutting. The bound takes panels as they are laid.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from .blocks import Block, Leaf
from .guillotine import Kind, Room
from .model import CutRules, NeededPart, StockLine
from .pool import Array
from .sheet_bounds import weights


@dataclass(frozen=True, slots=True)
class Panel:
    """``count`` panels of one size; ``marks``: (mark, count) in the order asked."""

    length_nm: int
    width_nm: int
    turns: bool
    count: int
    marks: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Roll:
    """One roll: ``made_of[k]`` is (piece kind, how many) of panel k; None where it cannot be cut from it.

    ``kinds`` carry one kerf; ``most_nm`` is the longest length in whole steps.
    """

    line: StockLine
    most_nm: int
    kinds: tuple[Kind, ...]
    made_of: tuple[tuple[tuple[int, int], ...] | None, ...]
    rules: CutRules

    @property
    def room(self) -> Room:
        """The longest length within its end trims by the roll's width, a kerf added to each."""
        return (
            self.most_nm - 2 * self.rules.end_trim_nm + self.rules.crosscut_kerf_nm,
            self.line.width_nm + self.rules.rip_kerf_nm,
        )

    def leaf(self, kind: int, turned: bool) -> Leaf:
        """A piece as it lies."""
        known = self.kinds[kind]
        x, y = known.turned if turned and known.turned else (known.x_nm, known.y_nm)
        return Leaf(kind, x - self.rules.crosscut_kerf_nm, y - self.rules.rip_kerf_nm)

    def bought_nm(self, used_nm: int) -> int:
        """Whole steps of the roll for a length used between its trims."""
        step = self.line.length_nm
        return -(-(used_nm + 2 * self.rules.end_trim_nm) // step) * step

    def price(self, used_nm: int) -> int:
        """What such a length costs."""
        return self.bought_nm(used_nm) // self.line.length_nm * self.line.price

    def pieces(self, panels: Sequence[int]) -> list[int]:
        """How many pieces of each kind so many panels take."""
        counts = [0] * len(self.kinds)
        for made, number in zip(self.made_of, panels, strict=True):
            for kind, each in made or ():
                counts[kind] += each * number
        return counts


@dataclass(frozen=True, slots=True)
class Share:
    """What is cut from one roll: how many of each panel, and the block of each length cut off."""

    roll: int
    panels: tuple[int, ...]
    lengths: tuple[Block, ...]


def cost_of(rolls: Sequence[Roll], shares: Sequence[Share]) -> int:
    """What all lengths cost."""
    return sum(rolls[share.roll].price(block.x_nm) for share in shares for block in share.lengths)


def widths(panel_nm: int, roll_nm: int, overlap_nm: int) -> tuple[int, ...]:
    """The widths that make up a panel: full ones, then what is left; each joint overlaps.

    >>> widths(1000, 400, 100)
    (400, 400, 400)
    """
    laid = []
    while panel_nm > roll_nm:
        laid.append(roll_nm)
        panel_nm -= roll_nm - overlap_nm
    return (*laid, panel_nm)


def panels_of(parts: Sequence[NeededPart]) -> tuple[Panel, ...]:
    """Equal panels as one, the largest first."""
    merged: dict[tuple[int, int, bool], list[tuple[str, int]]] = {}
    for part in parts:
        long, wide = part.length_nm, part.width_nm
        turns = part.grain == "either" and long != wide
        key = (max(long, wide), min(long, wide), True) if turns else (long, wide, False)
        merged.setdefault(key, []).append((part.mark, part.count))
    order = sorted(merged, key=lambda k: (-k[0] * k[1], k))
    return tuple(Panel(*k, sum(n for _, n in merged[k]), tuple(merged[k])) for k in order)


def roll_of(line: StockLine, panels: Sequence[Panel], rules: CutRules) -> Roll:
    """The panels as this roll makes them."""
    most = (line.longest_nm or line.length_nm) // line.length_nm * line.length_nm
    counts: dict[tuple[int, int, int, int], int] = {}
    made_of = []
    for panel in panels:
        keys = _pieces(panel, line, most - 2 * rules.end_trim_nm, rules)
        for key in keys or ():
            counts[key] = counts.get(key, 0) + panel.count
        made_of.append(keys)
    order = sorted(counts, key=lambda k: (-k[0] * k[1], k))
    cross, rip = rules.crosscut_kerf_nm, rules.rip_kerf_nm
    kinds = tuple(
        Kind(k[0] + cross, k[1] + rip, (k[2] + cross, k[3] + rip) if k[2] else None, counts[k])
        for k in order
    )
    made = tuple(
        None if keys is None else tuple((order.index(k), keys.count(k)) for k in dict.fromkeys(keys))
        for keys in made_of
    )
    return Roll(line, most, kinds, made, rules)


def _pieces(
    panel: Panel, line: StockLine, longest: int, rules: CutRules
) -> list[tuple[int, int, int, int]] | None:
    """(x, y, x turned, y turned) of each piece; None where the panel is too long for the roll."""
    lies = [(panel.length_nm, panel.width_nm)]
    if panel.turns:
        lies.append((panel.width_nm, panel.length_nm))
    lies = [(x, y) for x, y in lies if x <= longest]
    if not lies or rules.overlap_nm >= line.width_nm:
        return None
    laid = [(x, widths(y, line.width_nm, rules.overlap_nm)) for x, y in lies]
    joints = min(len(wide) for _, wide in laid)
    laid = [(x, wide) for x, wide in laid if len(wide) == joints]
    if joints == 1:
        (x, (y,)), other = laid[0], (laid[1] if len(laid) > 1 else (0, (0,)))
        return [(x, y, other[0], other[1][0])]
    x, wide = min(laid, key=lambda way: (way[0] * sum(way[1]), way[0]))
    return [(x, y, 0, 0) for y in wide]


def least_cost(panels: Sequence[Panel], rolls: Sequence[Roll]) -> float:
    """What no cutting can cost less than: widths weighed so that no width of roll holds more than itself.

    A panel costs at least its length by its weighed widths on the roll where that is cheapest.
    """
    thresholds = [_thresholds(roll) for roll in rolls]
    number = min(len(t) for t in thresholds)
    each = [_by_panel(roll, t[:number]) for roll, t in zip(rolls, thresholds, strict=True)]
    cheapest = np.min(each, axis=0)
    return float((cheapest @ np.array([p.count for p in panels], dtype=float)).max())


def _thresholds(roll: Roll) -> list[int]:
    wide = roll.room[1]
    extents = {e for k in roll.kinds for e in (k.y_nm, k.turned[1] if k.turned else k.y_nm)}
    return sorted({min(e, wide - e + 1) for e in extents if 0 < min(e, wide - e + 1) <= wide // 2})[:30]


def _by_panel(roll: Roll, thresholds: Sequence[int]) -> Array:
    """One row per function, one column per panel: its least cost; infinite where it is not cut from it."""
    rate = roll.line.price / roll.line.length_nm
    cross, wide = roll.rules.crosscut_kerf_nm, roll.room[1]
    rows = 1 + 4 + 2 * len(thresholds)
    by_kind = np.zeros((rows, len(roll.kinds)))
    for i, kind in enumerate(roll.kinds):
        lies = [(kind.x_nm, kind.y_nm), *([kind.turned] if kind.turned else [])]
        weighed = [
            weights(np.array([y], dtype=np.int64), wide, thresholds)[:, 0] * (x - cross) for x, y in lies
        ]
        by_kind[:, i] = np.min(weighed, axis=0) * rate
    columns = [
        np.full(rows, np.inf) if made is None else sum(by_kind[:, k] * n for k, n in made)
        for made in roll.made_of
    ]
    return np.stack(columns, axis=1)
