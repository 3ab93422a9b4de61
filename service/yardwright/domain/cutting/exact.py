"""Small jobs, exactly: every pattern in a table, the fractional plan, then purchases in order of cost."""

from __future__ import annotations

from dataclasses import dataclass

from .bounds import Sums
from .counts import packing
from .effort import Effort, Steps
from .fill import Chosen, cost
from .pool import Pool, Proof, complete_pool
from .problem import Problem
from .prove import prove
from .purchases import decide, listed, shorter_exists
from .refusals import refuse_too_little
from .relaxed import Master, Relaxed, safe_bound

_MANY_BOARDS = 30
_MOST_CELLS = 4_000_000  # of the table: rows times sizes


@dataclass(frozen=True, slots=True)
class Found:
    """A plan, what no plan can cost less than, and what ended the search early."""

    plan: Chosen
    bound: int
    stopped: str


@dataclass(frozen=True, slots=True)
class Table:
    """All patterns of a problem and the fractional plan over them."""

    pool: Pool
    master: Master
    root: Relaxed
    bound: float


def table_of(problem: Problem, effort: Effort, dearest: int) -> Table | None:
    """None when there are too many patterns; raises NoStock when even parts of boards are not enough."""
    pack = packing([size.most for size in problem.sizes])
    rows = min(effort.rows, _MOST_CELLS // len(problem.sizes))
    pool = complete_pool(problem, pack, Steps(rows), Steps(rows // 4))
    if pool is None:
        return None
    penalty = 100.0 * (dearest + 1)
    master = Master(pool, penalty)
    root = master.solve()
    if root is None or root.cost >= penalty / 10:
        raise refuse_too_little(problem, range(len(problem.needs)))
    return Table(pool, master, root, safe_bound(pool, root.worth))


def is_large(table: Table) -> bool:
    """More boards than purchases can be listed for."""
    return float(table.root.boards.sum()) > _MANY_BOARDS


def exact(table: Table, below: tuple[int, int], sums: Sums, effort: Effort) -> Proof:
    """The cheapest plan under (cost, length) ``below``, or the proof that there is none."""
    # A cheaper plan is a whole unit of price cheaper; only an equal one that is shorter may waste it all.
    most = below[0] if shorter_exists(table.pool.problem, below) else below[0] - sums.unit
    waste = table.pool.price - table.pool.supply @ table.root.worth
    close = table.pool.keep(waste <= most - table.bound + 1e-6 * (1 + below[0]))
    rows = listed(close, table.root.worth, table.bound, below)
    if rows is None and sums.reach(table.bound) >= below[0]:
        return Proof(None, below[0], True)
    if rows is None:
        return prove(table.pool, table.master, table.root, below[0], sums, effort)
    return decide(close, rows, table.root.worth, below[0], effort)


def solve_small(problem: Problem, effort: Effort, ceiling: int, worth_trying: int) -> Chosen | None:
    """A plan for less than ``ceiling``, if the job is small enough to say; None where there is none."""
    sums = Sums(problem.boards, ceiling)
    table = table_of(problem, effort, ceiling)
    if table is None or sums.reach(table.bound) > worth_trying:
        return None
    proof = exact(table, (ceiling, 0), sums, effort)
    if proof.plan is None or cost(problem, proof.plan)[0] >= ceiling:
        return None
    return proof.plan
