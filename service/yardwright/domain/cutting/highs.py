"""The linear and whole-number programs of the planner, solved by HiGHS. The only module that knows it.

A program is: least cost, columns of counts from 0 up, rows between two limits. The solver is loaded when
first needed: a service that only measures never does. One thread and a fixed seed, so that the same program
gives the same answer on any worker; work is bounded in pivots and nodes.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

INFINITE = float("inf")
BRAKE_S = 10.0
Array = Any
# Measured on purchases to decide: what this leaves out finds nothing that the rest does not.
_FIRST_FOUND = {
    "presolve": "choose",
    "mip_heuristic_run_feasibility_jump": False,
    "mip_rel_gap": 0.0,
    "mip_abs_gap": 1e-6,
    "mip_max_improving_sols": 1,
}
# Measured on rows of strips: what these leave out takes half the time and finds nothing more.
_CLOSE = {
    "mip_heuristic_run_root_reduced_cost": False,
    "mip_heuristic_run_feasibility_jump": False,
    "mip_detect_symmetry": False,
    "mip_allow_restart": False,
    "mip_pool_soft_limit": 30,
}


@dataclass(frozen=True, slots=True)
class Solved:
    """``status``: "optimal" | "infeasible" | "stopped" | "clock". ``duals`` by row (linear only)."""

    status: str
    cost: float
    counts: Array
    duals: Array
    bound: float


class Program:
    """A program that grows column by column and whose row limits may move; it restarts where it stopped."""

    def __init__(self, least: Array, most: Array) -> None:
        core = _core()
        self._core = core
        self._solver = core._Highs()
        options = core.HighsOptions()
        options.output_flag = False
        options.log_to_console = False
        options.threads = 1
        options.random_seed = 1
        options.presolve = "off"
        options.simplex_iteration_limit = 100_000
        self._solver.passOptions(options)
        self.rows = len(least)
        none = np.zeros(0, dtype=np.int32)
        self._solver.addRows(
            self.rows,
            np.asarray(least, dtype=float),
            np.asarray(most, dtype=float),
            0,
            np.zeros(self.rows, dtype=np.int32),
            none,
            np.zeros(0),
        )

    def add(self, costs: Array, dense: Array) -> None:
        """Add columns; ``dense`` has one row of this array per column, one entry per program row."""
        number = len(costs)
        which, rows = np.nonzero(dense)
        starts = np.searchsorted(which, np.arange(number))
        self._solver.addCols(
            number,
            np.asarray(costs, dtype=float),
            np.zeros(number),
            np.full(number, INFINITE),
            len(rows),
            starts.astype(np.int32),
            rows.astype(np.int32),
            dense[which, rows].astype(float),
        )

    def limit_rows(self, rows: Array, least: Array, most: Array) -> None:
        """Move the limits of some rows."""
        self._solver.changeRowsBounds(
            len(rows),
            np.asarray(rows, dtype=np.int32),
            np.asarray(least, dtype=float),
            np.asarray(most, dtype=float),
        )

    def solve(self) -> Solved:
        """The cheapest fractional counts."""
        self._solver.run()
        status = self._solver.getModelStatus()
        if status == self._core.HighsModelStatus.kOptimal:
            found = self._solver.getSolution()
            cost = self._solver.getInfo().objective_function_value
            return Solved("optimal", cost, np.array(found.col_value), np.array(found.row_dual), cost)
        if status == self._core.HighsModelStatus.kInfeasible:
            return Solved("infeasible", INFINITE, np.zeros(0), np.zeros(0), INFINITE)
        return Solved("stopped", INFINITE, np.zeros(0), np.zeros(0), -INFINITE)

    def solve_whole(self, columns: int, nodes: int, close: float | None = None) -> Solved:
        """The first whole counts found, or those within a share ``close`` of the cheapest.

        "stopped" when ``nodes`` were not enough (``bound`` still holds). The wall clock is only a brake here:
        nodes end the search long before. If it does stop one, "clock".
        """
        core, solver = self._core, self._solver
        goal = _FIRST_FOUND if close is None else _CLOSE | {"mip_rel_gap": close}
        for name, value in (goal | {"mip_max_nodes": nodes, "time_limit": BRAKE_S}).items():
            solver.setOptionValue(name, value)
        solver.changeColsIntegrality(
            columns,
            np.arange(columns, dtype=np.int32),
            np.full(columns, int(core.HighsVarType.kInteger), dtype=np.uint8),
        )
        solver.run()
        status, info = solver.getModelStatus(), solver.getInfo()
        if status == core.HighsModelStatus.kInfeasible:
            return Solved("infeasible", INFINITE, np.zeros(0), np.zeros(0), INFINITE)
        found = abs(info.objective_function_value) < 1e29 and info.primal_solution_status == 2
        counts = np.round(np.array(solver.getSolution().col_value)) if found else np.zeros(0)
        cost = info.objective_function_value if found else INFINITE
        done = status == core.HighsModelStatus.kOptimal
        braked = status == core.HighsModelStatus.kTimeLimit
        return Solved(
            "optimal" if done else "clock" if braked else "stopped",
            cost,
            counts,
            np.zeros(0),
            info.mip_dual_bound,
        )


def _core() -> Any:
    # The plain core class is used because the wrapper prints a banner on stdout when it is made.
    from highspy import _core

    return _core
