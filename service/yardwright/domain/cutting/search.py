"""The search for the cheapest boards: list the patterns, bound, then prove."""

from __future__ import annotations

import math
from dataclasses import dataclass

from .bounds import Sums, area_bound
from .counts import packing
from .effort import Effort, Steps
from .fill import Chosen, cost, fill
from .pool import Pool, Proof, complete_pool
from .problem import Problem
from .prove import prove
from .purchases import decide, listed
from .refusals import refuse_too_little
from .relaxed import Master, Relaxed, safe_bound


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
    by_hand = fill(problem)
    dearest = cost(problem, by_hand)[0] if by_hand is not None else _all_counted(problem)
    sums = Sums(problem.boards, dearest)
    area = area_bound(problem)
    if area == math.inf:
        raise refuse_too_little(problem, range(len(problem.needs)))
    least = sums.reach(area)
    if by_hand is not None and dearest <= least:
        return Found(by_hand, least, "")
    pack = packing([size.most for size in problem.sizes])
    pool = complete_pool(problem, pack, Steps(effort.rows))
    if pool is None:
        if by_hand is None:
            raise refuse_too_little(problem, range(len(problem.needs)))
        return Found(by_hand, least, "steps")
    found = _over(pool, by_hand, dearest, sums, effort)
    return found if stages_are_all else Found(found.plan, least, "")


def _over(pool: Pool, by_hand: Chosen | None, dearest: int, sums: Sums, effort: Effort) -> Found:
    problem = pool.problem
    penalty = 100.0 * (dearest + 1)
    master = Master(pool, penalty)
    root = master.solve()
    if root is None or root.cost >= penalty / 10:
        raise refuse_too_little(problem, range(len(problem.needs)))
    least = sums.reach(safe_bound(pool, root.worth))
    if by_hand is not None and dearest <= least:
        return Found(by_hand, least, "")
    below = cost(problem, by_hand) if by_hand is not None else (dearest + 1, 0)
    proof = _prove(pool, master, root, below, sums, effort)
    plan = proof.plan or by_hand
    if plan is None:
        raise refuse_too_little(problem, range(len(problem.needs)))
    return Found(plan, proof.bound, "" if proof.finished else "steps")


def _prove(
    pool: Pool, master: Master, root: Relaxed, below: tuple[int, int], sums: Sums, effort: Effort
) -> Proof:
    """By listing purchases where they are few, else by regions of them."""
    bound = safe_bound(pool, root.worth)
    waste = pool.price - pool.supply @ root.worth
    close = pool.keep(waste <= below[0] - bound + 1e-6 * (1 + below[0]))
    rows = listed(close, root.worth, bound, below)
    if rows is None:
        return prove(pool, master, root, below[0], sums, effort)
    return decide(close, rows, root.worth, below[0], effort)


def _all_counted(problem: Problem) -> int:
    """No plan was found by hand: then at most everything there is, or a board for every part."""
    parts = sum(n.count * (sum(e for _, e in n.set_of) or 1) for n in problem.needs)
    return sum(b.price * (parts if b.count is None else b.count) for b in problem.boards)
