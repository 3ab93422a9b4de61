"""The best pattern of each board by what parts are worth, without listing patterns.

Strips first: the best worth of a strip of each width for every length. Then rows: the best set of strips
side by side for every length. Then boards: parts at full width and rows end to end. Parts at full width keep
to their need; ripped strips may go beyond it, so the value found is never too small and bounds stay true.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from .knapsack import Filled, Stairs, fill_cells, stairs
from .patterns import Pattern
from .pool import Array, pattern_of
from .problem import Problem
from .rows import Rows, across, no_two_do
from .segments import Segment, Strip

MOST_CELLS = 60_000
_MORE = 12


@dataclass(frozen=True, slots=True)
class Priced:
    """``value``: no pattern of this board is worth more. ``pattern`` is one worth about that.

    ``more`` are others that would pay: the best with this or that piece in it.
    """

    value: float
    pattern: Pattern
    more: tuple[Pattern, ...] = ()


class _Filling(NamedTuple):
    """The sizes at full width, the rows, all of them as pieces, those worth a place, and the table."""

    full: list[int]
    rows: Rows | None
    pieces: list[tuple[int, float, int]]
    order: list[int]
    filled: Filled


class Pricer:
    """Prices one problem's boards again and again, as the parts' worths move."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        kerf = problem.rules.crosscut_kerf_nm
        self.unit = math.gcd(*(s.length_nm + kerf for s in problem.sizes))
        widths: dict[int, list[int]] = {}
        for index, board in enumerate(problem.boards):
            if board.count != 0 and board.clear:
                widths.setdefault(board.width_nm, []).append(index)
        self.widths = widths
        self.stairs: dict[tuple[int, int], Stairs] = {}
        self.whole: dict[int, Segment] = {}
        self.cells = {
            w: (max(problem.boards[b].longest_nm for b in boards) + kerf) // self.unit
            for w, boards in widths.items()
        }

    @property
    def small_enough(self) -> bool:
        """Whether the tables stay within what a page load allows."""
        return max(self.cells.values(), default=0) <= MOST_CELLS

    def worths_of_sizes(self, worth: Array) -> Array:
        """By size what one part is worth; a set's worth is shared out by area, which never values it less."""
        problem = self.problem
        value = np.zeros(len(problem.sizes))
        for n, need in enumerate(problem.needs):
            for i in need.any_of:
                value[i] = worth[n]
            area = sum(e * problem.sizes[i].length_nm * problem.sizes[i].width_nm for i, e in need.set_of)
            for i, _ in need.set_of:
                value[i] = worth[n] * problem.sizes[i].length_nm * problem.sizes[i].width_nm / area
        return value

    def price(self, worth: Array, more: int = _MORE) -> dict[int, Priced]:
        """By stock line the best pattern, and up to ``more`` others that would pay."""
        value = self.worths_of_sizes(worth)
        found: dict[int, Priced] = {}
        for width, boards in self.widths.items():
            self._price_width(width, boards, value, found, more)
        return found

    def _price_width(
        self, width: int, boards: list[int], value: Array, found: dict[int, Priced], most: int
    ) -> None:
        problem, kerf = self.problem, self.problem.rules.crosscut_kerf_nm
        cells = self.cells[width]
        full, rows, pieces, order, filled = self._filled(width, boards, value)
        traced: dict[int, Segment] = {}

        def segment(piece: int) -> Segment:
            if piece < len(full):
                return self.part(width, full[piece])
            if piece not in traced:
                traced[piece] = self._row(width, rows, piece - len(full))
            return traced[piece]

        for index in boards:
            board = problem.boards[index]
            total, runs = 0.0, []
            for start, to in board.clear:
                at = min(cells, (to - start + kerf) // self.unit)
                total += float(filled.best[at])
                run: list[Segment] = []
                for number, times in filled.pieces(at).items():
                    run += [segment(order[number])] * times
                runs.append(tuple(run))
            more = []
            if len(board.clear) == 1:
                for chosen in _with_each(filled, [pieces[p] for p in order], at, float(board.price), most):
                    one = tuple(segment(order[n]) for n, times in chosen.items() for _ in range(times))
                    more.append(pattern_of(problem, index, (one,), beyond=True))
            found[index] = Priced(total, pattern_of(problem, index, runs, beyond=True), tuple(more))

    def costs_of_length(self, worth: Array) -> dict[int, Array]:
        """By width and cells: what a segment costs where the rest of a board gives up least worth for it."""
        value = self.worths_of_sizes(worth)
        costs = {}
        for width, boards in self.widths.items():
            best = self._filled(width, boards, value).filled.best
            least = np.full(len(best), np.inf)
            for index in boards:
                cells, price = self._span(index)
                # A counted board may be worth more than its price; there are too few of it to reckon with.
                if self.problem.boards[index].count is None and len(self.problem.boards[index].clear) == 1:
                    least[: cells + 1] = np.minimum(least[: cells + 1], price - best[cells::-1])
            costs[width] = np.maximum(least, 0.0)
        return costs

    def _filled(self, width: int, boards: list[int], value: Array) -> _Filling:
        """Every length of this width filled with parts at full width and rows, worth most."""
        problem, kerf = self.problem, self.problem.rules.crosscut_kerf_nm
        cells = self.cells[width]
        full = [
            i
            for i, s in enumerate(problem.sizes)
            if value[i] > 0 and s.width_nm == width and not problem.trims(s) and problem.holds(s, width)
        ]
        rows = self._rows(width, value, cells)
        pieces = [
            ((problem.sizes[i].length_nm + kerf) // self.unit, float(value[i]), problem.sizes[i].most)
            for i in full
        ]
        of_row = list(range(len(rows.cells))) if rows else []
        if rows:
            pieces += [(int(rows.cells[j]), float(rows.worth[j]), cells) for j in of_row]
        order = _worth_a_place(pieces, [self._span(b) for b in boards])
        filled = fill_cells(cells, [pieces[p] for p in order])
        return _Filling(full, rows, pieces, order, filled)

    def _span(self, board: int) -> tuple[int, int]:
        """(cells free along the board, its price)."""
        found, kerf = self.problem.boards[board], self.problem.rules.crosscut_kerf_nm
        return sum((to - start + kerf) // self.unit for start, to in found.clear), found.price

    def _rows(self, width: int, value: Array, cells: int) -> Rows | None:
        """The rows worth considering: longer ones only where they are worth more."""
        problem, rules = self.problem, self.problem.rules
        classes: dict[tuple[int, bool], list[int]] = {}
        for i, size in enumerate(problem.sizes):
            ripped = size.width_nm != width or problem.trims(size)
            if value[i] > 0 and ripped and problem.holds(size, width):
                classes.setdefault((size.width_nm, problem.trims(size)), []).append(i)
        if not classes:
            return None
        keys = sorted(classes, reverse=True)
        strips: dict[int, Filled | Stairs] = {}
        worths: list[Array] = []
        for number, key in enumerate(keys):
            strips[number], best = self._strips(classes[key], value, cells)
            worths.append(best)
        least = -(-(rules.least_rip_length_nm + rules.crosscut_kerf_nm) // self.unit)
        grows = np.zeros(cells + 1, dtype=bool)
        for best in worths:
            grows[1:] |= best[1:] > best[:-1]
        if least <= cells:
            grows[least] |= bool(grows[: least + 1].any())
        at = np.flatnonzero(grows)
        at = at[at >= least]
        if not len(at):
            return None
        side_by_side = across(problem, width, keys, [best[at] for best in worths])
        worth = side_by_side.best
        better = np.concatenate([[worth[0] > 0], worth[1:] > np.maximum.accumulate(worth)[:-1] + 1e-12])
        kept = np.flatnonzero(better)
        kept = kept[no_two_do(at[kept], worth[kept], cells)]
        return Rows(
            at[kept], worth[kept], strips, {n: classes[k] for n, k in enumerate(keys)}, side_by_side, kept
        )

    def _strips(self, sizes: list[int], value: Array, cells: int) -> tuple[Filled | Stairs, Array]:
        """The best strip of one width for every length."""
        problem = self.problem
        pieces = [
            (
                (problem.sizes[i].length_nm + problem.rules.crosscut_kerf_nm) // self.unit,
                float(value[i]),
                problem.sizes[i].most,
            )
            for i in sizes
        ]
        if len(sizes) > 1:
            filled = fill_cells(cells, pieces)
            return filled, filled.best
        key = sizes[0], cells
        if key not in self.stairs:
            self.stairs[key] = stairs(cells, pieces[0][0], pieces[0][2])
        return self.stairs[key], self.stairs[key].many * pieces[0][1]

    def part(self, width: int, i: int) -> Segment:
        """A part at full width as a segment."""
        if i not in self.whole:
            size = self.problem.sizes[i]
            strip = Strip(width, size.length_nm, (i,), size.trim, 0)
            self.whole[i] = Segment(size.length_nm, 0, (strip,), False)
        return self.whole[i]

    def _row(self, width: int, rows: Rows | None, number: int) -> Segment:
        assert rows is not None
        problem, kerf = self.problem, self.problem.rules.crosscut_kerf_nm
        made = []
        for which in rows.across.strips(int(rows.kept[number])):
            chosen = [
                rows.sizes[which][piece]
                for piece, times in rows.strips[which].pieces(int(rows.cells[number])).items()
                for _ in range(times)
            ]
            if chosen:
                length = sum([problem.sizes[i].length_nm for i in chosen]) + (len(chosen) - 1) * kerf
                trim = problem.trims(problem.sizes[chosen[0]])  # a strip's parts are of one class
                made.append(Strip(problem.sizes[chosen[0]].width_nm, length, tuple(chosen), trim, 0))
        length = max(problem.rules.least_rip_length_nm, *(s.length_nm for s in made))
        return Segment(length, 0, tuple(made), True)


def _with_each(
    filled: Filled, pieces: list[tuple[int, float, int]], at: int, price: float, most: int
) -> list[dict[int, int]]:
    """The best patterns that hold a given piece, for the ``most`` pieces where that pays most."""
    if not pieces:
        return []
    width = np.array([p[0] for p in pieces])
    rest = at - width
    value = np.where(rest >= 0, np.array([p[1] for p in pieces]) + filled.best[np.maximum(rest, 0)], -np.inf)
    chosen: list[dict[int, int]] = []
    for number in np.argsort(-value, kind="stable")[: 3 * most]:
        if value[number] <= price * (1 + 1e-7) or len(chosen) == most:
            break
        with_it = filled.pieces(int(rest[number]))
        with_it[int(number)] = with_it.get(int(number), 0) + 1
        if with_it[int(number)] <= pieces[number][2] and with_it not in chosen:
            chosen.append(with_it)
    return chosen


def _worth_a_place(pieces: list[tuple[int, float, int]], spans: list[tuple[int, int]]) -> list[int]:
    """Pieces some pattern needs to be worth more than its board, best worth for its length first.

    With the best piece's worth all along a board, a piece may lose no more against it than what that
    makes beyond the board's price; patterns worth no more than their board change no bound.
    """
    if not pieces:
        return []
    rate = max(worth / width for width, worth, _ in pieces)
    spare = max(cells * rate - price for cells, price in spans)
    order = [p for p, (width, worth, _) in enumerate(pieces) if width * rate - worth <= spare + 1e-9]
    return sorted(order, key=lambda p: (-pieces[p][1] / pieces[p][0], p))
