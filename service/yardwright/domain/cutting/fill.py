"""A plan by hand, as a shop would do it: longest part first, fill the board, take the next board.

Always gives a valid plan when the stock holds one this way; it is the first upper limit of the search and
the last resort of very large jobs.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from .patterns import Pattern, supply
from .problem import Board, Problem
from .segments import Segment, Strip

Chosen = list[tuple[Pattern, int]]
_FEW = 40  # parts left for which every line is tried
_MANY = 30  # sizes beyond which one greedy plan must do


def fill(problem: Problem, first: bool = False) -> Chosen | None:
    """The cheapest of several greedy plans, or the ``first``; None if counted stock runs out on all."""
    ranks: list[Rank] = [_by_cost_per_area, _by_price, _by_length]
    filled: dict[tuple[int, ...], Pattern] = {}
    plans: list[Chosen] = []
    for rank in ranks:
        plan = _greedy(problem, rank, filled)
        if plan is not None:
            plans.append(plan)
        if plans and (first or len(problem.sizes) > _MANY):
            break
    return min(plans, key=lambda plan: cost(problem, plan), default=None)


def cost(problem: Problem, plan: Chosen) -> tuple[int, int]:
    """What the boards cost, then their length."""
    price = sum(problem.boards[p.board].price * n for p, n in plan)
    length = sum(
        problem.boards[p.board].length_nm * n for p, n in plan if not problem.boards[p.board].on_hand
    )
    return price, length


Rank = Callable[[Board, int, bool], tuple[float, float]]


def _by_cost_per_area(board: Board, area: int, finishes: bool) -> tuple[float, float]:
    return board.price / area, -area


def _by_price(board: Board, area: int, finishes: bool) -> tuple[float, float]:
    # The cheapest board that takes all the rest, if any; else the least cost by area.
    return (-1.0, board.price) if finishes else (board.price / area, -area)


def _by_length(board: Board, area: int, finishes: bool) -> tuple[float, float]:
    if finishes:
        return -float("inf"), board.price
    return (0.0 if board.on_hand else -board.length_nm), board.price / area


def _greedy(problem: Problem, rank: Rank, filled: dict[tuple[int, ...], Pattern]) -> Chosen | None:
    left = [need.count for need in problem.needs]
    used = [0] * len(problem.boards)
    good = _good_lines(problem) if len(problem.sizes) > _MANY else range(len(problem.boards))
    plan: Chosen = []
    while any(left):
        best: tuple[tuple[float, float], Pattern] | None = None
        tried = range(len(problem.boards)) if sum(left) <= _FEW else good
        for index in tried:
            board = problem.boards[index]
            if board.count is not None and used[index] >= board.count:
                continue
            key = (index, *left)
            pattern = filled.get(key) or fill_board(problem, index, left)
            filled[key] = pattern
            area = _area(problem, pattern.counts)
            if area:
                finishes = all(g >= n for g, n in zip(pattern.supply, left, strict=True))
                score = rank(board, area, finishes)
                if best is None or score < best[0]:
                    best = score, pattern
        if best is None:
            return None
        times = _repeats(problem, best[1], left, used)
        left = [max(0, n - times * g) for n, g in zip(left, best[1].supply, strict=True)]
        used[best[1].board] += times
        plan.append((best[1], times))
    return plan


def _good_lines(problem: Problem) -> Sequence[int]:
    """Counted lines, and of each width and length class the line that is cheapest by area.

    With hundreds of sizes any board fills well, so the other lines need not be tried until the end.
    """
    longest = max(size.length_nm for size in problem.sizes)
    best: dict[tuple[int, bool], tuple[float, int]] = {}
    lines = []
    for index, board in enumerate(problem.boards):
        if board.count is not None:
            lines.append(index)
            continue
        key = board.width_nm, board.longest_nm >= longest
        rate = board.price / (board.length_nm * board.width_nm)
        best[key] = min(best.get(key, (rate, index)), (rate, index))
    return sorted([*lines, *(index for _, index in best.values())])


def _repeats(problem: Problem, pattern: Pattern, left: list[int], used: list[int]) -> int:
    times = min(n // g for n, g in zip(left, pattern.supply, strict=True) if g)
    count = problem.boards[pattern.board].count
    if count is not None:
        times = min(times, count - used[pattern.board])
    return max(1, times)


def _area(problem: Problem, counts: Sequence[int]) -> int:
    return sum(n * s.length_nm * s.width_nm for n, s in zip(counts, problem.sizes, strict=True))


def fill_board(problem: Problem, index: int, wanted: Sequence[int]) -> Pattern:
    """One board filled with what is wanted, longest first; matched sets whole or not at all."""
    board = problem.boards[index]
    left = list(wanted)
    order = _longest_first(problem)
    runs: list[tuple[Segment, ...]] = []
    for start, to in board.clear:
        room = to - start
        run: list[Segment] = []
        while room > 0:
            group = _next(problem, board, room, left, order)
            if not group:
                break
            run += group
            room -= sum(s.length_nm + problem.rules.crosscut_kerf_nm for s in group)
        runs.append(tuple(run))
    counts = _counts(problem, runs)
    return Pattern(index, counts, supply(problem, counts), tuple(runs))


def _longest_first(problem: Problem) -> list[int]:
    """The needs in the order of their longest size."""
    first = [min(n.any_of or tuple(i for i, _ in n.set_of)) for n in problem.needs]
    return sorted(range(len(first)), key=first.__getitem__)


def _counts(problem: Problem, runs: Sequence[Sequence[Segment]]) -> tuple[int, ...]:
    counts = [0] * len(problem.sizes)
    for run in runs:
        for segment in run:
            for strip in segment.strips:
                for i in strip.sizes:
                    counts[i] += 1
    return tuple(counts)


def _next(problem: Problem, board: Board, room: int, left: list[int], order: Sequence[int]) -> list[Segment]:
    """The next segment (several for a matched set); takes what it gives from ``left``."""
    for n in order:
        if not left[n]:
            continue
        need = problem.needs[n]
        if need.set_of:
            group = _matched(problem, board, room, need.set_of)
            if group:
                left[n] -= 1
                return group
        for i in need.any_of:
            size = problem.sizes[i]
            if size.length_nm <= room and problem.holds(size, board.width_nm):
                if size.width_nm == board.width_nm and not problem.trims(size):
                    left[n] -= 1
                    return [Segment(size.length_nm, 0, (_strip(problem, [i]),), False)]
                length = max(size.length_nm, problem.rules.least_rip_length_nm)
                if length <= room:
                    return [Segment(length, 0, _row(problem, board, length, i, left), True)]
    return []


def _matched(problem: Problem, board: Board, room: int, set_of: Sequence[tuple[int, int]]) -> list[Segment]:
    """One whole set: side by side in one segment where the width allows, else segment after segment."""
    rules = problem.rules
    parts = [i for i, each in set_of for _ in range(each)]
    if not all(problem.holds(problem.sizes[i], board.width_nm) for i in parts):
        return []
    full = [
        problem.sizes[i].width_nm == board.width_nm and not problem.trims(problem.sizes[i]) for i in parts
    ]
    trim = any(problem.trims(problem.sizes[i]) for i in parts)
    across = sum(problem.sizes[i].width_nm for i in parts) + (len(parts) - 1) * rules.rip_kerf_nm
    if across <= problem.usable_width_nm(board.width_nm, trim):
        length = max(rules.least_rip_length_nm, *(problem.sizes[i].length_nm for i in parts))
        if length <= room:
            return [Segment(length, 0, tuple(_strip(problem, [i]) for i in parts), True)]
    lengths = [
        problem.sizes[i].length_nm if whole else max(problem.sizes[i].length_nm, rules.least_rip_length_nm)
        for i, whole in zip(parts, full, strict=True)
    ]
    if sum(lengths) + (len(parts) - 1) * rules.crosscut_kerf_nm > room:
        return []
    return [
        Segment(length, 0, (_strip(problem, [i]),), not whole)
        for i, whole, length in zip(parts, full, lengths, strict=True)
    ]


def _row(problem: Problem, board: Board, length: int, first: int, left: list[int]) -> tuple[Strip, ...]:
    """Strips side by side over one segment, starting with ``first``; each filled end to end."""
    row: list[Strip] = []
    used, trim, start = 0, False, first
    while True:
        chosen = _along(problem, length, start, left)
        row.append(_strip(problem, chosen))
        used += problem.sizes[start].width_nm + (problem.rules.rip_kerf_nm if len(row) > 1 else 0)
        trim = trim or row[-1].trim
        following = None
        for n, count in enumerate(left):
            for i in problem.needs[n].any_of:
                size = problem.sizes[i]
                span = problem.usable_width_nm(board.width_nm, trim or problem.trims(size))
                fits = used + problem.rules.rip_kerf_nm + size.width_nm <= span and size.length_nm <= length
                wider = following is None or _rank(problem, i) > _rank(problem, following)
                if count and fits and wider and problem.holds(size, board.width_nm):
                    following = i
        if following is None:
            return tuple(row)
        start = following


def _rank(problem: Problem, i: int) -> tuple[int, int]:
    return problem.sizes[i].width_nm, problem.sizes[i].length_nm


def _along(problem: Problem, length: int, first: int, left: list[int]) -> list[int]:
    """Parts of one width end to end within ``length``; keeps to ``first``'s edge trimming."""
    chosen: list[int] = []
    room = length
    order = [first, *(i for i in range(len(problem.sizes)) if i != first)]
    need_of = {i: n for n, need in enumerate(problem.needs) for i in need.any_of}
    wide, trim = problem.sizes[first].width_nm, problem.trims(problem.sizes[first])
    for i in order:
        size = problem.sizes[i]
        while (
            i in need_of
            and size.width_nm == wide
            and problem.trims(size) == trim
            and left[need_of[i]]
            and size.length_nm <= room
        ):
            chosen.append(i)
            left[need_of[i]] -= 1
            room -= size.length_nm + problem.rules.crosscut_kerf_nm
    return chosen


def _strip(problem: Problem, chosen: Sequence[int]) -> Strip:
    kerf = problem.rules.crosscut_kerf_nm
    length = sum(problem.sizes[i].length_nm for i in chosen) + (len(chosen) - 1) * kerf
    trim = any(problem.trims(problem.sizes[i]) for i in chosen)
    return Strip(problem.sizes[chosen[0]].width_nm, length, tuple(chosen), trim, 0)
