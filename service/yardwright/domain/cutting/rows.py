"""Rows of strips side by side: for every length the strips that are worth most across a board."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .knapsack import Filled, Stairs
from .pool import Array
from .problem import Problem

_SPLITS = 30


@dataclass(frozen=True, slots=True)
class Across:
    """Strips side by side over rows of several lengths; ``state`` is the width they take up, with kerfs."""

    best: Array
    frames: tuple[Frame, ...]
    frame: Array  # by length: which frame is best there
    state: Array  # and which of its widths

    def strips(self, j: int) -> list[int]:
        """The strip classes of row j."""
        frame, state, strips = self.frames[int(self.frame[j])], int(self.state[j]), []
        while state:
            ways, pick = frame.picks[state]
            which, before = ways[int(pick[j])]
            strips.append(which)
            state = before
        return strips


@dataclass(frozen=True, slots=True)
class Frame:
    """One choice of edges, left or trimmed: by width taken up the ways to reach it and the best of them."""

    picks: dict[int, tuple[list[tuple[int, int]], Array]]


def across(problem: Problem, width: int, keys: list[tuple[int, bool]], worth: list[Array]) -> Across:
    """For each length the best strips side by side: with all edges left, or with both board edges trimmed."""
    kerf = problem.rules.rip_kerf_nm
    count = len(worth[0])
    best, frame, state_of = np.zeros(count), np.zeros(count, dtype=np.int64), np.zeros(count, dtype=np.int64)
    frames: list[Frame] = []
    for trim in sorted({t for _, t in keys}):
        room = problem.usable_width_nm(width, trim) + kerf
        usable = [n for n, (_, t) in enumerate(keys) if trim or not t]
        values: dict[int, Array] = {0: np.zeros(count)}
        picks: dict[int, tuple[list[tuple[int, int]], Array]] = {}
        for state in _reachable([keys[n][0] + kerf for n in usable], room):
            ways = [(n, state - keys[n][0] - kerf) for n in usable if state - keys[n][0] - kerf in values]
            if state and ways:
                each = np.stack([values[before] + worth[n] for n, before in ways])
                pick = each.argmax(axis=0)
                values[state] = each[pick, np.arange(count)]
                picks[state] = ways, pick
        states = np.array(list(values))
        table = np.stack(list(values.values()))
        top = table.argmax(axis=0)
        value = table[top, np.arange(count)]
        better = value > best + 1e-12
        best = np.where(better, value, best)
        frame = np.where(better, len(frames), frame)
        state_of = np.where(better, states[top], state_of)
        frames.append(Frame(picks))
    return Across(best, tuple(frames), frame, state_of)


def _reachable(widths: list[int], room: int) -> list[int]:
    """Every width that strips side by side can take up, narrowest first."""
    reached = {0}
    frontier = [0]
    while frontier:
        grown = {at + w for at in frontier for w in widths if at + w <= room} - reached
        reached |= grown
        frontier = sorted(grown)
    return sorted(reached)


def no_two_do(cells: Array, worth: Array, reach: int) -> Array:
    """Rows that no two shorter rows end to end are as good as, one of the two worth most for its length."""
    single = np.zeros(reach + 1)
    single[cells] = worth
    single = np.maximum.accumulate(single)
    beaten = np.zeros(len(cells), dtype=bool)
    for a in np.argsort(-worth / cells, kind="stable")[:_SPLITS]:
        longer = cells > cells[a]
        beaten[longer] |= worth[a] + single[cells[longer] - cells[a]] >= worth[longer] - 1e-12
    return np.flatnonzero(~beaten)


@dataclass(frozen=True, slots=True)
class Rows:
    """Rows of strips: at ``cells[j]`` long they are worth ``worth[j]``; ``across`` traces the strips back."""

    cells: Array
    worth: Array
    strips: dict[int, Filled | Stairs]
    sizes: dict[int, list[int]]
    across: Across
    kept: Array
