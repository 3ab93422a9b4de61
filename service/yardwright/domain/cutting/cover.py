"""Whether given boards are enough: the decision for one purchase, and the patterns when they are.

Each step serves the need with the fewest patterns left for it. By any worths of the parts, a purchase can
waste no more than what its boards could give beyond the needs: patterns that lose more on their board are
out, and a branch ends when what is left is worth more than the boards left can give. States that failed
once are remembered.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from . import highs
from .effort import Steps
from .pool import Array, Pool

_CLOSE = 1e-7
_MOST_COLUMNS = 4_000  # beyond these a whole-number program takes longer than it is worth


@dataclass(slots=True)
class Cover:
    """The table, the worths by which branches are judged, and what one board of each line gives at most."""

    pool: Pool
    worths: Array  # one row per judgement, one column per need
    gives: Array = None  # by judgement and stock line
    loss: Array = None  # by judgement and pattern: what it gives less than its board could
    failed: set[tuple[bytes, bytes]] = field(default_factory=set)

    def __post_init__(self) -> None:
        worths, self.worths = self.worths, np.zeros((0, self.worths.shape[1]))
        self.gives = np.zeros((0, len(self.pool.problem.boards)))
        self.loss = np.zeros((0, len(self.pool)))
        for worth in worths:
            self.add(worth)

    def add(self, worth: Array) -> Array:
        """Judge by these worths too; what one board of each line gives by them at most."""
        largest = float(worth.max())
        worth = worth / largest if largest > 0 else worth
        value = self.pool.supply @ worth
        gives = np.zeros(len(self.pool.problem.boards))
        np.maximum.at(gives, self.pool.board, value)
        self.worths = np.vstack([self.worths, worth])
        self.gives = np.vstack([self.gives, gives])
        self.loss = np.vstack([self.loss, gives[self.pool.board] - value])
        return gives


def cover(what: Cover, boards: Array, steps: Steps) -> list[int] | None:
    """Patterns that meet every need from these boards; None when there are none (or ``steps.out``)."""
    left = np.array([n.count for n in what.pool.problem.needs], dtype=np.int64)
    slack = what.gives @ boards - what.worths @ left
    if (slack < -_CLOSE * (1 + what.worths @ left)).any():
        return None
    return _serve(what, left, boards.astype(np.int64), np.arange(len(what.pool)), steps)


def usable(what: Cover, boards: Array, left: Array, among: Array) -> Array:
    """The patterns a purchase can afford: their board is there, and they waste no more than may be wasted."""
    slack = what.gives @ boards - what.worths @ left + _CLOSE * (1 + what.worths @ left)
    among = among[boards[what.pool.board[among]] > 0]
    return among[(what.loss[:, among] <= slack[:, None]).all(axis=0)]


def _serve(what: Cover, left: Array, boards: Array, among: Array, steps: Steps) -> list[int] | None:
    open_needs = np.flatnonzero(left)
    if not len(open_needs):
        return []
    state = (left.tobytes(), boards.tobytes())
    if state in what.failed or not steps.take():
        return None
    among = usable(what, boards, left, among)
    ways = (what.pool.supply[np.ix_(among, open_needs)] > 0).sum(axis=0)
    scarce = int(np.argmin(ways))
    if ways[scarce]:
        for pattern, after in _choices(what, left, boards, among, int(open_needs[scarce])):
            fewer = boards.copy()
            fewer[what.pool.board[pattern]] -= 1
            found = _serve(what, after, fewer, among, steps)
            if found is not None:
                return [pattern, *found]
            if steps.out:
                return None
    what.failed.add(state)
    return None


def _choices(what: Cover, left: Array, boards: Array, among: Array, need: int) -> list[tuple[int, Array]]:
    """Patterns that give some of this need, least waste first; one of those that leave the same."""
    pool = what.pool
    some = among[pool.supply[among, need] > 0]
    after = np.maximum(left - pool.supply[some], 0)
    slack = (what.gives @ boards)[:, None] - what.gives[:, pool.board[some]] - what.worths @ after.T
    ahead = (slack >= -_CLOSE * (1 + what.worths @ left)[:, None]).all(axis=0)
    some, after, slack = some[ahead], after[ahead], slack[:, ahead]
    seen: set[tuple[bytes, int]] = set()
    choices = []
    for at in np.argsort(-slack[0], kind="stable"):
        key = (after[at].tobytes(), int(pool.board[some[at]]))
        if key not in seen:
            seen.add(key)
            choices.append((int(some[at]), after[at]))
    return choices


def cover_whole(what: Cover, boards: Array, nodes: int) -> tuple[str, list[int] | None]:
    """The same by a small whole-number program: ("" where it is decided, else what stopped it; patterns)."""
    pool = what.pool
    needs = np.array([n.count for n in pool.problem.needs], dtype=np.int64)
    among = usable(what, boards, needs, np.arange(len(pool)))
    if not len(among):
        return "", None
    if len(among) > _MOST_COLUMNS:
        return "steps", None
    lines = np.zeros((len(among), len(boards)))
    lines[np.arange(len(among)), pool.board[among]] = 1.0
    program = highs.Program(
        np.concatenate([needs, np.zeros(len(boards))]),
        np.concatenate([np.full(len(needs), highs.INFINITE), boards]),
    )
    program.add(what.loss[0, among], np.hstack([pool.supply[among], lines]))
    solved = program.solve_whole(len(among), nodes)
    if len(solved.counts):
        found = [int(j) for j, times in zip(among, solved.counts, strict=True) for _ in range(int(times))]
        given = pool.supply[found].sum(axis=0)
        if (given >= needs).all():
            return "", found
    if solved.status == "infeasible":
        return "", None
    return "clock" if solved.status == "clock" else "steps", None
