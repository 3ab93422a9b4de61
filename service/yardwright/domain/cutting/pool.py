"""Every full pattern of every board in one table, so that pricing all of them is one multiplication.

Rows of the table are ways to set segments end to end: built by taking each segment none, one, two... times
for all rows at once. A row is full for a board when no further part goes in; only full rows are kept, since
a plan may cut less than a pattern says.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from .counts import Packing
from .effort import Steps
from .patterns import Pattern, one_by_one, supply
from .problem import Problem
from .segments import Segment, segments

Array = Any  # numpy's own type names say no more here


@dataclass(frozen=True, slots=True)
class Source:
    """Where patterns come from: ready ones, or rows that say how often each segment is taken."""

    ready: tuple[Pattern, ...] = ()
    known: tuple[Segment, ...] = ()
    times: Array = None


@dataclass(slots=True)
class Pool:
    """``supply[j]`` is what pattern j gives each need, ``board[j]`` the stock line it is cut from.

    Pattern j is row ``row[j]`` of source ``source[j]``; its segments are looked up only when it is used.
    """

    problem: Problem
    supply: Array
    board: Array
    price: Array
    source: Array
    row: Array
    sources: tuple[Source, ...]

    def __len__(self) -> int:
        return len(self.board)

    def pattern(self, at: int) -> Pattern:
        """Pattern ``at`` with its segments."""
        source, row = self.sources[int(self.source[at])], int(self.row[at])
        if source.ready:
            return source.ready[row]
        times = source.times[row]
        run = tuple(source.known[s] for s in np.flatnonzero(times) for _ in range(int(times[s])))
        return pattern_of(self.problem, int(self.board[at]), (run,))

    def keep(self, mask: Array) -> Pool:
        """Only the patterns the mask names."""
        at = np.flatnonzero(mask)
        return Pool(
            self.problem,
            self.supply[at],
            self.board[at],
            self.price[at],
            self.source[at],
            self.row[at],
            self.sources,
        )


@dataclass(frozen=True, slots=True)
class Proof:
    """``plan`` None: nothing cheaper than what was known. ``bound`` holds for every plan."""

    plan: list[tuple[Pattern, int]] | None
    bound: int
    finished: bool
    stopped: str = "steps"  # what ended an unfinished search


def pattern_of(
    problem: Problem, board: int, runs: Sequence[tuple[Segment, ...]], beyond: bool = False
) -> Pattern:
    """A pattern from its segments; ``beyond``: it may give more than is needed."""
    counts = [0] * len(problem.sizes)
    for run in runs:
        for segment in run:
            for strip in segment.strips:
                for i in strip.sizes:
                    counts[i] += 1
    return Pattern(board, tuple(counts), supply(problem, tuple(counts), beyond), tuple(runs))


def pool_of(problem: Problem, patterns: Sequence[Pattern]) -> Pool:
    """A table of given patterns."""
    return Pool(
        problem,
        np.array([p.supply for p in patterns], dtype=np.int32).reshape(len(patterns), len(problem.needs)),
        np.array([p.board for p in patterns], dtype=np.int32),
        np.array([problem.boards[p.board].price for p in patterns], dtype=np.float64),
        np.zeros(len(patterns), dtype=np.int32),
        np.arange(len(patterns)),
        (Source(ready=tuple(patterns)),),
    )


def join(pools: Sequence[Pool]) -> Pool:
    """Several tables as one."""
    before = [sum(len(p.sources) for p in pools[:at]) for at in range(len(pools))]
    return Pool(
        pools[0].problem,
        np.concatenate([p.supply for p in pools]),
        np.concatenate([p.board for p in pools]),
        np.concatenate([p.price for p in pools]),
        np.concatenate([p.source + first for p, first in zip(pools, before, strict=True)]),
        np.concatenate([p.row for p in pools]),
        tuple(source for p in pools for source in p.sources),
    )


def complete_pool(problem: Problem, pack: Packing, steps: Steps, listing: Steps) -> Pool | None:
    """All full patterns of all boards; None when listing them takes more than ``steps`` rows.

    ``listing`` is the purse of listing segments, which costs more by the step.
    """
    widths: dict[int, list[int]] = {}
    for index, board in enumerate(problem.boards):
        if board.count != 0:
            widths.setdefault(board.width_nm, []).append(index)
    pools = []
    for width, boards in sorted(widths.items()):
        longest = max(problem.boards[b].longest_nm for b in boards)
        known = segments(problem, pack, width, longest, listing)
        if listing.out:
            return None
        whole = [b for b in boards if len(problem.boards[b].clear) == 1]
        if known and whole:
            table = _rows(problem, pack, known, max(problem.boards[b].longest_nm for b in whole), steps)
            if table is None:
                return None
            could = _could_take(problem, known, table[1])
            pools += [_full(problem, b, known, *table, could) for b in whole]
        for b in boards:
            if len(problem.boards[b].clear) > 1:
                pools.append(pool_of(problem, one_by_one(problem, pack, b, known, steps)))
        if steps.out:
            return None
    pools = [pool for pool in pools if len(pool)]
    return join(pools) if pools else pool_of(problem, [])


def _rows(
    problem: Problem, pack: Packing, known: list[Segment], longest: int, steps: Steps
) -> tuple[Array, Array, Array] | None:
    """(times of each segment, counts of each size, length with one kerf per segment) of every row.

    Segments are full, so together they may give more than is needed: a row takes one more as long as that
    gives anything still wanted, and counts stop at the need.
    """
    kerf = problem.rules.crosscut_kerf_nm
    most = np.array(pack.most, dtype=np.int32)
    times = np.zeros((1, len(known)), dtype=np.int16)
    counts = np.zeros((1, len(most)), dtype=np.int32)
    lengths = np.zeros(1, dtype=np.int64)
    for at, segment in enumerate(known):
        gives = np.array(pack.unpack(segment.packed), dtype=np.int32)
        parts = np.flatnonzero(gives)
        stack = [(times, counts, lengths)]
        while True:
            t, c, n = stack[-1]
            wanted = (c[:, parts] < most[parts]).any(axis=1)
            fits = wanted & (n + segment.length_nm <= longest)
            if not fits.any():
                break
            t, n = t[fits].copy(), n[fits] + (segment.length_nm + kerf)
            c = np.minimum(c[fits] + gives, most)
            t[:, at] += 1
            if not steps.take(len(n)):
                return None
            stack.append((t, c, n))
        times, counts, lengths = (np.concatenate(columns) for columns in zip(*stack, strict=True))
        if gives.sum() > 1 and len(stack) > 1:
            kept = _shortest(counts, lengths)
            times, counts, lengths = times[kept], counts[kept], lengths[kept]
    return times, counts, lengths


def _shortest(counts: Array, lengths: Array) -> Array:
    """Of the rows that give the same the shortest, in their order."""
    same = counts @ _hash(counts.shape[1])
    order = np.lexsort((lengths, same))
    first = np.ones(len(order), dtype=bool)
    first[1:] = same[order[1:]] != same[order[:-1]]
    return np.sort(order[first])


def _could_take(problem: Problem, known: list[Segment], counts: Array) -> Array:
    """By row the length, one kerf with it, of the shortest segment of a single part still wanted."""
    shortest = np.full(len(problem.sizes), np.iinfo(np.int64).max // 2)
    for segment in known:
        if len(segment.strips) == 1 and len(segment.strips[0].sizes) == 1:
            only = segment.strips[0].sizes[0]
            shortest[only] = min(shortest[only], segment.length_nm)
    could = np.full(len(counts), np.iinfo(np.int64).max // 2)
    for i, size in enumerate(problem.sizes):
        could = np.where(counts[:, i] < size.most, np.minimum(could, shortest[i]), could)
    return could + problem.rules.crosscut_kerf_nm


def _full(
    problem: Problem,
    index: int,
    known: list[Segment],
    times: Array,
    counts: Array,
    lengths: Array,
    could: Array,
) -> Pool:
    """The rows that fill this board: they fit, and the least part still wanted does not fit beside them."""
    board = problem.boards[index]
    room = board.longest_nm + problem.rules.crosscut_kerf_nm - lengths
    full = np.flatnonzero((room >= 0) & (room < could) & (lengths > 0))
    given = _supply(problem, counts[full])
    _, first = np.unique(given @ _hash(len(problem.needs)), return_index=True)
    first.sort()
    full, given = full[first], given[first]
    return Pool(
        problem,
        given,
        np.full(len(full), index, dtype=np.int32),
        np.full(len(full), float(board.price)),
        np.zeros(len(full), dtype=np.int32),
        full,
        (Source(known=tuple(known), times=times),),
    )


def _supply(problem: Problem, counts: Array) -> Array:
    if problem.one_size_each:
        return np.minimum(counts, [need.count for need in problem.needs]).astype(np.int32)
    columns = []
    for need in problem.needs:
        if need.any_of:
            column = counts[:, list(need.any_of)].sum(axis=1)
        else:
            column = np.min([counts[:, i] // each for i, each in need.set_of], axis=0)
        columns.append(np.minimum(column, need.count))
    return np.stack(columns, axis=1).astype(np.int32)


def _hash(number: int) -> Array:
    """Odd multipliers, fixed: equal rows get equal sums, others almost never."""
    return np.array([pow(6364136223846793005, i + 1, 1 << 61) | 1 for i in range(number)], dtype=np.int64)
