"""The search for the cheapest boards: by hand, then exactly, and by parts where the job is large."""

from __future__ import annotations

import math

from .bounds import Sums, area_bound
from .columns import generate
from .effort import Effort
from .exact import Found, Table, exact, is_large, table_of
from .fill import Chosen, cost, fill
from .large import MANY_SIZES, from_fractions
from .pricing import Pricer
from .problem import Problem
from .purchases import shorter_exists
from .refusals import refuse_too_little

_ROUNDS = 3  # of pricing after each rounding
_PRICED = 2_500  # sizes times rounds
_MOST_DECIDED = 150  # boards of a purchase that is decided whole


def search(problem: Problem, effort: Effort, stages_are_all: bool = True) -> Found:
    """The cheapest plan found within the effort, and its bound.

    ``stages_are_all`` False: other ways to cut than three stages are allowed, so only the area bounds.
    """
    by_hand = fill(problem)
    dearest = cost(problem, by_hand)[0] if by_hand is not None else _all_counted(problem)
    area = area_bound(problem)
    if area == math.inf:
        raise refuse_too_little(problem, range(len(problem.needs)))
    sums = Sums(problem.boards, dearest)
    least = sums.reach(area)
    if by_hand is not None and dearest <= least and not shorter_exists(problem, cost(problem, by_hand)):
        return Found(by_hand, least, "")
    table = table_of(problem, effort, dearest)
    if table is None:
        found = _large(problem, by_hand, least, sums, effort)
    elif is_large(table):
        found = _many_boards(problem, table, by_hand, sums, effort)
    else:
        found = _small(problem, table, by_hand, dearest, sums, effort)
    return found if stages_are_all else Found(found.plan, least, "")


def _small(
    problem: Problem, table: Table, by_hand: Chosen | None, dearest: int, sums: Sums, effort: Effort
) -> Found:
    below = cost(problem, by_hand) if by_hand is not None else (dearest + 1, 0)
    proof = exact(table, below, sums, effort)
    plan = proof.plan or by_hand
    if plan is None:
        raise refuse_too_little(problem, range(len(problem.needs)))
    return Found(plan, proof.bound, "" if proof.finished else proof.stopped)


def _many_boards(problem: Problem, table: Table, by_hand: Chosen | None, sums: Sums, effort: Effort) -> Found:
    least = sums.reach(table.bound)
    plan = from_fractions(problem, table.pool, table.root, by_hand, least, effort)
    if plan is None:
        raise refuse_too_little(problem, range(len(problem.needs)))
    known = cost(problem, plan)
    few = int(table.root.boards.sum()) <= _MOST_DECIDED
    if few and least < known[0] <= least + sums.unit:
        proof = exact(table, known, sums, effort)
        if proof.finished:
            return Found(proof.plan or plan, proof.bound, "")
    return _bounded(problem, plan, least)


def _large(problem: Problem, by_hand: Chosen | None, least: int, sums: Sums, effort: Effort) -> Found:
    pricer = Pricer(problem)
    if by_hand is None:
        raise refuse_too_little(problem, range(len(problem.needs)))
    if not pricer.small_enough:
        return Found(by_hand, least, "steps")
    penalty = 100.0 * (cost(problem, by_hand)[0] + 1)
    many = len(problem.sizes) > MANY_SIZES
    rounds = min(effort.columns, _PRICED // len(problem.sizes)) if many else effort.columns
    made = generate(problem, pricer, [p for p, _ in by_hand], rounds, penalty)
    if made is None:
        return Found(by_hand, least, "steps")
    least = max(least, sums.reach(made.bound))
    plan = from_fractions(problem, made.pool, made.relaxed, by_hand, least, effort, 0 if many else _ROUNDS)
    return _bounded(problem, plan or by_hand, least)


def _bounded(problem: Problem, plan: Chosen, least: int) -> Found:
    total = cost(problem, plan)[0]
    return Found(plan, min(least, total), "" if total <= least else "steps")


def _all_counted(problem: Problem) -> int:
    """No plan was found by hand: then at most everything there is, or a board for every part."""
    parts = sum(n.count * (sum(e for _, e in n.set_of) or 1) for n in problem.needs)
    return sum(b.price * (parts if b.count is None else b.count) for b in problem.boards)
