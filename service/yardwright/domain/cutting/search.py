"""The search for the cheapest boards: list the patterns, bound, then prove."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from . import highs
from .bounds import area_bound, round_up
from .counts import packing
from .effort import Effort, Steps
from .fill import Chosen, cost, fill
from .patterns import Pattern, patterns
from .problem import Problem
from .refusals import refuse_too_little


@dataclass(frozen=True, slots=True)
class Found:
    """A plan, what no plan can cost less than, and what ended the search early."""

    plan: Chosen
    bound: int
    stopped: str


def search(problem: Problem, effort: Effort, stages_are_all: bool = True) -> Found:
    """The cheapest plan found within the effort, and its bound.

    ``stages_are_all`` False: other ways to cut than three stages are allowed, so only the area bounds.
    """
    pack = packing([size.most for size in problem.sizes])
    steps = Steps(effort.patterns)
    listed = patterns(problem, pack, steps)
    by_hand = fill(problem)
    bound = area_bound(problem)
    if not steps.out and stages_are_all:
        relaxed = _linear(problem, listed)
        if relaxed.status == "infeasible":
            raise refuse_too_little(problem, range(len(problem.needs)))
        bound = max(bound, relaxed.cost)
    least = round_up(bound, problem.boards)
    if by_hand is not None and cost(problem, by_hand)[0] <= least:
        return Found(by_hand, least, "")
    better, least, finished = _whole(problem, listed, effort, least, complete=not steps.out and stages_are_all)
    plans = [plan for plan in (by_hand, better) if plan is not None]
    if not plans:
        raise refuse_too_little(problem, range(len(problem.needs)))
    best = min(plans, key=lambda plan: cost(problem, plan))
    return Found(best, min(least, cost(problem, best)[0]), "" if finished else "steps")


def _rows(problem: Problem, listed: Sequence[Pattern]) -> tuple[list[list[tuple[int, float]]], list[float], list[float]]:
    """Needs first, then one row for each counted stock line."""
    counted = {index: at for at, index in enumerate(i for i, b in enumerate(problem.boards) if b.count is not None)}
    base = len(problem.needs)
    columns = []
    for pattern in listed:
        column: list[tuple[int, float]] = [(n, float(g)) for n, g in enumerate(pattern.supply) if g]
        if pattern.board in counted:
            column.append((base + counted[pattern.board], 1.0))
        columns.append(column)
    least = [float(n.count) for n in problem.needs] + [0.0] * len(counted)
    most = [math.inf] * base + [float(problem.boards[i].count or 0) for i in counted]
    return columns, least, most


def _linear(problem: Problem, listed: Sequence[Pattern]) -> highs.Solved:
    columns, least, most = _rows(problem, listed)
    return highs.linear([float(problem.boards[p.board].price) for p in listed], columns, least, most)


def _whole(
    problem: Problem, listed: Sequence[Pattern], effort: Effort, least_cost: int, complete: bool
) -> tuple[Chosen | None, int, bool]:
    columns, least, most = _rows(problem, listed)
    prices = [float(problem.boards[p.board].price) for p in listed]
    solved = highs.whole(prices, columns, least, most, nodes=effort.nodes)
    if solved.status == "infeasible" or not solved.counts:
        return None, least_cost, solved.status == "infeasible" and complete
    plan = [(p, round(x)) for p, x in zip(listed, solved.counts, strict=True) if round(x)]
    if complete:
        least_cost = max(least_cost, round_up(solved.bound, problem.boards))
    return plan, least_cost, complete and solved.status == "optimal"
