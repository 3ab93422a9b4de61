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
_NEAR = (0.015, 0.025, 0.035, 0.05, 0.08)  # shares of the bound above it
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
    """The cheapest plan under (cost, length) ``below``, or the proof that there is none.

    Purchases little dearer than the bound first: there are few of them, and the optimum is mostly there.
    """
    steps, floor, undecided = Steps(effort.covers), 0, None
    for share in _NEAR:
        most = int(table.bound * (1 + share))
        if most + 1 >= below[0]:
            break
        proof = _among(table, most, (most + 1, 0), floor, effort, steps)
        if proof is None:
            break
        if not proof.finished:
            undecided = proof.bound if undecided is None else undecided
        if proof.plan is not None:
            return _left_open(proof, undecided)
        floor = most + 1
    # Costs are whole units of price; only a plan of equal cost that is shorter may waste all there is.
    most = below[0] if shorter_exists(table.pool.problem, below) else (below[0] - 1) // sums.unit * sums.unit
    last = _among(table, most, below, floor, effort, steps)
    if last is None and sums.reach(table.bound) >= below[0]:
        return Proof(None, below[0], True)
    if last is None:
        last = prove(table.pool, table.master, table.root, below[0], sums, effort)
    return _left_open(last, undecided)


def _among(
    table: Table, most: int, below: tuple[int, int], floor: int, effort: Effort, steps: Steps
) -> Proof | None:
    """Decided among the purchases from ``floor`` to (cost, length) ``below``; None when they are too many.

    ``most`` is the highest cost a plan sought may have.
    """
    waste = table.pool.price - table.pool.supply @ table.root.worth
    close = table.pool.keep(waste <= most - table.bound + 1e-6 * (1 + below[0]))
    rows = listed(close, table.root.worth, table.bound, below, floor)
    return None if rows is None else decide(close, rows, table.root.worth, below[0], effort, steps)


def _left_open(proof: Proof, undecided: int | None) -> Proof:
    """The proof with a cheaper purchase that was left undecided before."""
    return (
        proof if undecided is None else Proof(proof.plan, min(proof.bound, undecided), False, proof.stopped)
    )


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
