"""Whether given boards are enough: the decision for one purchase, and the patterns when they are.

Always serves the first need still open, trying each pattern that gives some of it. A branch ends when what
is left is worth more, by any of several worths, than the boards left can give; states that failed once
are remembered.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from .effort import Steps
from .pool import Array, Pool


@dataclass(slots=True)
class Cover:
    """The table, the worths by which branches are judged, and what one board of each line gives at most."""

    pool: Pool
    worths: Array                         # one row per judgement, one column per need
    gives: Array = None                   # by judgement and stock line
    failed: set[tuple[bytes, bytes]] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.gives = np.stack([self._most(worth) for worth in self.worths])

    def add(self, worth: Array) -> Array:
        """Judge by these worths too; what one board of each line gives by them at most."""
        gives = self._most(worth)
        self.worths = np.vstack([self.worths, worth])
        self.gives = np.vstack([self.gives, gives])
        return gives

    def _most(self, worth: Array) -> Array:
        gives = np.zeros(len(self.pool.problem.boards))
        np.maximum.at(gives, self.pool.board, self.pool.supply @ worth)
        return gives


def cover(problem_cover: Cover, boards: Array, steps: Steps) -> list[int] | None:
    """Patterns that meet every need from these boards; None when there are none (or ``steps.out``)."""
    needs = np.array([n.count for n in problem_cover.pool.problem.needs], dtype=np.int64)
    if not _possible(problem_cover, needs, boards):
        return None
    return _serve(problem_cover, needs, boards.astype(np.int64), steps)


def _possible(what: Cover, left: Array, boards: Array) -> bool:
    return bool((what.worths @ left <= what.gives @ boards * (1 + 1e-9) + 1e-7).all())


def _serve(what: Cover, left: Array, boards: Array, steps: Steps) -> list[int] | None:
    open_needs = np.flatnonzero(left)
    if not len(open_needs):
        return []
    state = (left.tobytes(), boards.tobytes())
    if state in what.failed or not steps.take():
        return None
    pool = what.pool
    useful = np.flatnonzero((pool.supply[:, open_needs[0]] > 0) & (boards[pool.board] > 0))
    after = np.maximum(left - pool.supply[useful], 0)
    limits = (what.gives @ boards)[None, :] - what.gives[:, pool.board[useful]].T
    ahead = (after @ what.worths.T <= limits * (1 + 1e-9) + 1e-7).all(axis=1)
    useful, after = useful[ahead], after[ahead]
    if len(useful):
        rest = after @ what.worths[0] + what.gives[0][pool.board[useful]]
        seen: set[tuple[bytes, int]] = set()
        for at in np.argsort(rest, kind="stable"):
            line = int(pool.board[useful[at]])
            key = (after[at].tobytes(), line)
            if key in seen:
                continue
            seen.add(key)
            fewer = boards.copy()
            fewer[line] -= 1
            found = _serve(what, after[at], fewer, steps)
            if found is not None:
                return [int(useful[at]), *found]
            if steps.out:
                return None
    what.failed.add(state)
    return None
