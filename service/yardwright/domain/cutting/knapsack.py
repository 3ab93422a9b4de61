"""Filling a length with pieces of given worth: every length at once, with the pieces traced back.

Lengths are counted in cells, each piece with its kerf. A piece may be used up to its count; counts are
taken in halves (1, 2, 4, ...), so that each size costs only a few passes over the table.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from .pool import Array


@dataclass(frozen=True, slots=True)
class Filled:
    """``best[c]`` is the greatest worth within c cells; ``taken`` says which steps it took."""

    best: Array
    steps: tuple[tuple[int, int, int], ...]  # (piece, times, cells)
    taken: tuple[Array, ...]

    def pieces(self, cells: int) -> dict[int, int]:
        """Which pieces, and how many of each, make up the best worth within ``cells``."""
        chosen: dict[int, int] = {}
        for (piece, times, width), took in zip(reversed(self.steps), reversed(self.taken), strict=True):
            if cells >= width and took[cells - width]:
                chosen[piece] = chosen.get(piece, 0) + times
                cells -= width
        return chosen


def fill_cells(cells: int, pieces: Sequence[tuple[int, float, int]]) -> Filled:
    """``pieces``: (cells, worth, count) each; the table runs from 0 to ``cells``."""
    best = np.zeros(cells + 1)
    steps: list[tuple[int, int, int]] = []
    taken: list[Array] = []
    for number, (width, worth, count) in enumerate(pieces):
        left, times = min(count, cells // width), 1
        while left > 0:
            times = min(times, left)
            with_it = best[: cells + 1 - width * times] + worth * times
            held = best[width * times :]
            took = with_it > held
            if np.count_nonzero(took):
                np.maximum(held, with_it, out=held)
                steps.append((number, times, width * times))
                taken.append(took)
            left -= times
            times *= 2
    return Filled(best, tuple(steps), tuple(taken))


@dataclass(frozen=True, slots=True)
class Stairs:
    """One kind of piece alone: ``many[c]`` of them fit within c cells; the worth is that times its own."""

    many: Array
    width: int

    def pieces(self, cells: int) -> dict[int, int]:
        """How many of the piece lie within ``cells``."""
        return {0: int(self.many[cells])}


def stairs(cells: int, width: int, count: int) -> Stairs:
    """Up to ``count`` pieces of ``width`` cells each."""
    return Stairs(np.minimum(np.arange(cells + 1) // width, count).astype(float), width)
