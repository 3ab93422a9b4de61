"""The search for the cheapest boards: by hand, then exactly, and by parts where the job is large."""

from __future__ import annotations

import math

from .bounds import Sums, area_bound
from .columns import Generated, generate
from .effort import Effort
from .exact import Found, Table, exact, is_large, table_of
from .fill import Chosen, cost, fill
from .large import MANY_SIZES, from_fractions, round_off
from .pricing import Pricer
from .problem import Problem
from .purchases import shorter_exists
from .refusals import refuse_too_little
from .ripped_first import unripped

_CLOSE = 1e-3  # of the cost, for patterns that only need to be good
_ROUNDS = 3  # of pricing after each rounding
_FEW = 5  # boards for each need, beyond which whole numbers of patterns leave little over
_PRICED = 6_000  # sizes times rounds, where sizes are many
_MOST_DECIDED = 150  # boards of a purchase that is decided whole


def search(problem: Problem, effort: Effort, stages_are_all: bool = True) -> Found:
    """The cheapest plan found within the effort, and its bound.

    ``stages_are_all`` False: other ways to cut than three stages are allowed, so only the area bounds.
    """
    by_hand = fill(problem, first=True)
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
    plan = proof.plan or (by_hand if proof.finished else fill(problem))
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
    columns = min(effort.columns, _PRICED // len(problem.sizes)) if many else effort.columns
    made = generate(problem, pricer, [p for p, _ in by_hand], columns, penalty)
    if made is None:
        return Found(by_hand, least, "steps")
    least = max(least, sums.reach(made.bound))
    rounds = 0 if many else _ROUNDS
    plan, braked = None, False
    if float(made.relaxed.boards.sum()) <= _FEW * len(problem.needs):
        plan, braked = _rows_first(problem, pricer, made, columns, penalty, rounds)
    if plan is None:
        plan = from_fractions(problem, made.pool, made.relaxed, by_hand, least, effort, rounds)
    plans = [by_hand] if plan is None else [plan, by_hand]
    best = min(plans, key=lambda one: cost(problem, one))
    return _bounded(problem, best, least, "clock" if braked else "steps")


def _rows_first(
    problem: Problem, pricer: Pricer, made: Generated, columns: int, penalty: float, rounds: int
) -> tuple[Chosen | None, bool]:
    """What is ripped settled first, then the boards; None where nothing is ripped, or it leads to no plan.

    The second answer: whether the clock stopped it.
    """
    job, braked = unripped(problem, pricer, made)
    by_hand = None if job is None else fill(job.problem)
    if job is None or by_hand is None:
        return None, braked
    start = [pattern for pattern, _ in by_hand]
    again = generate(job.problem, Pricer(job.problem), start, columns, penalty, job.worth, _CLOSE)
    plan = None if again is None else round_off(job.problem, again.pool, again.relaxed, rounds)
    return job.lift(by_hand if plan is None else plan), braked


def _bounded(problem: Problem, plan: Chosen, least: int, stopped: str = "steps") -> Found:
    total = cost(problem, plan)[0]
    return Found(plan, min(least, total), "" if total <= least else stopped)


def _all_counted(problem: Problem) -> int:
    """No plan was found by hand: then at most everything there is, or a board for every part."""
    parts = sum(n.count * (sum(e for _, e in n.set_of) or 1) for n in problem.needs)
    return sum(b.price * (parts if b.count is None else b.count) for b in problem.boards)
