"""Large jobs with ripped parts: which rows of strips to rip is settled first, whole boards after that.

The fractional plan says what a segment of any length costs on a board. By these costs the cheapest rows that
give all ripped parts are a small whole-number program of its own. With its rows as pieces of full width the
rest is a job without rips, in which nearly every board can be filled to the end.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from . import highs
from .columns import Generated
from .counts import packing
from .effort import Steps
from .needed import thin
from .patterns import Pattern
from .pool import Array, pattern_of
from .pricing import Pricer
from .problem import Need, Problem, Size
from .segments import Segment, segments
from .smaller import smaller

_LISTED = 20_000  # steps of listing rows
_LONGEST = 0.5  # of the longest board: rows up to here are listed, longer ones taken from the patterns made
_ROWS = 200  # rows among which the program chooses,
_ENTRIES = 6_000  # and rows times ripped sizes
_CLOSE = 0.01  # of the rows' cost
_NODES = 20
_MOST_NEEDS = 60

Row = tuple[int, Segment]  # width of the board, ripped segment


@dataclass(frozen=True, slots=True)
class Unripped:
    """The job with rows as pieces of full width.

    ``sizes[i]``: the whole's size, or the rows, behind size i; ``worth``: of one piece of each size.
    """

    whole: Problem
    problem: Problem
    sizes: tuple[int | tuple[Segment, ...], ...]
    worth: Array

    def lift(self, plan: Sequence[tuple[Pattern, int]]) -> list[tuple[Pattern, int]]:
        """A plan of the job without rips as one of the whole job."""
        rows = {i: list(behind) for i, behind in enumerate(self.sizes) if not isinstance(behind, int)}
        lifted = []
        for pattern, times in plan:
            for _ in range(times):
                runs = []
                for run in pattern.runs:
                    made = []
                    for segment in run:
                        i = segment.strips[0].sizes[0]
                        behind = self.sizes[i]
                        if isinstance(behind, int):
                            strip = replace(segment.strips[0], sizes=(behind,))
                            made.append(replace(segment, strips=(strip,)))
                        elif rows[i]:
                            made.append(rows[i].pop())
                    runs.append(tuple(made))
                lifted.append((pattern_of(self.whole, pattern.board, runs), 1))
        return lifted


def unripped(problem: Problem, pricer: Pricer, made: Generated) -> tuple[Unripped | None, bool]:
    """The job with its rows settled; None where there is nothing to rip, or this way does not lead there.

    The second answer: whether the clock stopped the program that settles them.
    """
    if not problem.one_size_each:
        return None, False
    worth = made.relaxed.worth
    costs = pricer.costs_of_length(worth)
    rows = _rows(problem, made)
    ripped = sorted({i for _, row in rows for strip in row.strips for i in strip.sizes})
    if not ripped or len(ripped) > _MOST_NEEDS:
        return None, False
    rows += _listed(problem, ripped)
    rows += [(w, pricer.part(w, i)) for i in ripped for w in pricer.widths if _is_whole(problem, i, w)]
    chosen, braked = _chosen(problem, ripped, rows, costs, pricer.unit)
    job = _as_pieces(problem, ripped, chosen, worth, costs, pricer.unit) if chosen else None
    return job, braked


def _is_whole(problem: Problem, i: int, width_nm: int) -> bool:
    """Whether a board of this width gives the size without ripping."""
    size = problem.sizes[i]
    return size.width_nm == width_nm and not problem.trims(size) and problem.holds(size, width_nm)


def _rows(problem: Problem, made: Generated) -> list[Row]:
    """The rows in the patterns made."""
    return [
        (problem.boards[pattern.board].width_nm, segment)
        for source in made.pool.sources
        for pattern in source.ready
        for run in pattern.runs
        for segment in run
        if segment.ripped
    ]


def _listed(problem: Problem, ripped: Sequence[int]) -> list[Row]:
    """As many shorter rows as a few steps list, within the need."""
    left = [size.most if i in ripped else 0 for i, size in enumerate(problem.sizes)]
    part = smaller(problem, left, [0] * len(problem.boards))
    pack = packing([size.most for size in part.problem.sizes])
    rows: list[Row] = []
    widths = sorted({b.width_nm for b in problem.boards if b.count != 0})
    for width in widths:
        longest = max(b.longest_nm for b in problem.boards if b.width_nm == width)
        steps = Steps(_LISTED // len(widths))
        found = segments(part.problem, pack, width, int(longest * _LONGEST), steps)
        rows += [(width, part.lift_segment(segment)) for segment in found if segment.ripped]
    return rows


def _chosen(
    problem: Problem, ripped: Sequence[int], rows: Sequence[Row], costs: dict[int, Array], unit: int
) -> tuple[list[Row], bool]:
    """The cheapest of the rows that give all ripped parts, as far as a small program finds them.

    None of them where it finds none; and whether the clock stopped it.
    """
    needs = np.array([problem.sizes[i].most for i in ripped])
    place = {i: at for at, i in enumerate(ripped)}
    best: dict[tuple[int, ...], tuple[float, Row]] = {}
    for width, row in rows:
        gives = [0] * len(ripped)
        for strip in row.strips:
            for i in strip.sizes:
                gives[place[i]] += 1
        key = tuple(np.minimum(gives, needs))
        cost = _cost(problem, costs, unit, width, row)
        if np.isfinite(cost) and (key not in best or cost < best[key][0]):
            best[key] = cost, (width, row)
    if not best:
        return [], False
    supply, price = np.array(list(best)), np.array([cost for cost, _ in best.values()])
    known = [row for _, row in best.values()]
    least, none = needs.astype(float), np.full(len(needs), highs.INFINITE)
    program = highs.Program(least, none)
    program.add(price, supply)
    solved = program.solve()
    if solved.status != "optimal":
        return [], False
    kept = np.argsort(price - supply @ solved.duals, kind="stable")
    kept = kept[: min(_ROWS, _ENTRIES // len(needs))]
    program = highs.Program(least, none)
    program.add(price[kept], supply[kept])
    whole = program.solve_whole(len(kept), _NODES, _CLOSE)
    chosen = [known[int(j)] for j, n in zip(kept, whole.counts, strict=False) for _ in range(int(n))]
    return chosen, whole.status == "clock"


def _cost(problem: Problem, costs: dict[int, Array], unit: int, width: int, row: Segment) -> float:
    cells = -(-(row.length_nm + problem.rules.crosscut_kerf_nm) // unit)
    return float(costs[width][cells]) if cells < len(costs[width]) else highs.INFINITE


def _as_pieces(
    problem: Problem,
    ripped: Sequence[int],
    chosen: Sequence[Row],
    worth: Array,
    costs: dict[int, Array],
    unit: int,
) -> Unripped:
    """Sizes: what is cut at full width only, as it was; then the rows, thinned to the need, by length."""
    quota = [size.most if i in ripped else 0 for i, size in enumerate(problem.sizes)]
    by_length: dict[tuple[int, int], list[Segment]] = {}
    for width, row in chosen:
        thinned = thin(problem, row, quota)
        if thinned is not None:
            by_length.setdefault((thinned.length_nm, width), []).append(thinned)
    pieces: list[tuple[Size, int | tuple[Segment, ...], float]] = [
        (replace(size, only_nm=size.width_nm), i, float(worth[i]))
        for i, size in enumerate(problem.sizes)
        if i not in ripped
    ]
    for (length, width), same in by_length.items():
        size = Size(length, width, False, len(same), width)
        pieces.append((size, tuple(same), _cost(problem, costs, unit, width, same[0])))
    pieces.sort(key=lambda piece: -piece[0].length_nm)
    sizes = tuple(size for size, _, _ in pieces)
    needs = tuple(Need(size.most, (i,)) for i, size in enumerate(sizes))
    return Unripped(
        problem,
        Problem(sizes, needs, problem.boards, problem.rules, ((),) * len(sizes)),
        tuple(behind for _, behind, _ in pieces),
        np.array([value for _, _, value in pieces]),
    )
