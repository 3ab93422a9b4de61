"""The linear and whole-number programs of the planner, solved by HiGHS. The only module that knows it.

A program is: least cost, columns of counts, rows between two limits, every column between 0 and its most.
Imported lazily: a service that only measures never loads the solver. One thread and a fixed seed, so that
the same program gives the same answer on any worker; work is bounded in pivots and nodes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

INFINITE = float("inf")
Column = Sequence[tuple[int, float]]      # (row, count) of the rows it supplies


@dataclass(frozen=True, slots=True)
class Solved:
    """``status``: "optimal" | "infeasible" | "stopped". ``prices`` are the rows' duals (linear only)."""

    status: str
    cost: float
    counts: tuple[float, ...]
    prices: tuple[float, ...]
    bound: float


def linear(
    costs: Sequence[float], columns: Sequence[Column], least: Sequence[float], most: Sequence[float]
) -> Solved:
    """The cheapest fractional counts with every row between ``least`` and ``most``."""
    return _solve(costs, columns, least, most, (), 0)


def whole(
    costs: Sequence[float],
    columns: Sequence[Column],
    least: Sequence[float],
    most: Sequence[float],
    at_most: Sequence[float] = (),
    nodes: int = 2000,
) -> Solved:
    """The cheapest whole counts; "stopped" when ``nodes`` were not enough (``bound`` still holds)."""
    return _solve(costs, columns, least, most, at_most or [INFINITE] * len(costs), nodes)


def _solve(
    costs: Sequence[float],
    columns: Sequence[Column],
    least: Sequence[float],
    most: Sequence[float],
    at_most: Sequence[float],
    nodes: int,
) -> Solved:
    core = _core()
    solver = core._Highs()
    options = core.HighsOptions()
    options.output_flag = False
    options.log_to_console = False
    options.threads = 1
    options.random_seed = 1
    options.simplex_iteration_limit = 200_000
    if nodes:
        options.mip_max_nodes = nodes
        options.mip_rel_gap = 0.0
        options.mip_abs_gap = 1e-6
        options.mip_heuristic_run_rins = False
    solver.passOptions(options)
    solver.passModel(_model(core, costs, columns, least, most, at_most))
    solver.run()
    return _answer(core, solver, bool(nodes))


def _model(
    core: Any,
    costs: Sequence[float],
    columns: Sequence[Column],
    least: Sequence[float],
    most: Sequence[float],
    at_most: Sequence[float],
) -> Any:
    model = core.HighsLp()
    model.num_col_, model.num_row_ = len(costs), len(least)
    model.col_cost_ = list(costs)
    model.col_lower_ = [0.0] * len(costs)
    model.col_upper_ = list(at_most) if at_most else [INFINITE] * len(costs)
    model.row_lower_, model.row_upper_ = list(least), list(most)
    starts, rows, values = [0], [], []
    for column in columns:
        for row, value in column:
            rows.append(row)
            values.append(value)
        starts.append(len(rows))
    model.a_matrix_.format_ = core.MatrixFormat.kColwise
    model.a_matrix_.start_, model.a_matrix_.index_, model.a_matrix_.value_ = starts, rows, values
    if at_most:
        model.integrality_ = [core.HighsVarType.kInteger] * len(costs)
    return model


def _answer(core: Any, solver: Any, is_whole: bool) -> Solved:
    status = solver.getModelStatus()
    info = solver.getInfo()
    bound = info.mip_dual_bound if is_whole else info.objective_function_value
    if status == core.HighsModelStatus.kInfeasible:
        return Solved("infeasible", INFINITE, (), (), INFINITE)
    if status == core.HighsModelStatus.kOptimal:
        found = solver.getSolution()
        return Solved(
            "optimal", info.objective_function_value, tuple(found.col_value), tuple(found.row_dual), bound
        )
    if is_whole and abs(info.objective_function_value) < 1e29:
        found = solver.getSolution()
        return Solved("stopped", info.objective_function_value, tuple(found.col_value), (), bound)
    return Solved("stopped", INFINITE, (), (), bound if is_whole else -INFINITE)


def _core() -> Any:
    # The plain core class is used because the wrapper prints a banner on stdout when it is made.
    from highspy import _core

    return _core
