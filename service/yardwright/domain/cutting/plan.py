"""The cutting plan: the cheapest set of boards for a group of parts, with a proof or an honest bound."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ..errors import BadJob, Fault, NoStock
from . import rolls, sheets
from .effort import EFFORT, Effort
from .fill import Chosen
from .layout import layouts
from .model import EFFORTS, CutRules, CuttingPlan, NeededPart, StockLine
from .objective import charged, is_charged
from .problem import Problem, read_problem
from .refusals import refuse_what_no_board_gives
from .search import search
from .tally import tally

_MOST_LINES = 8  # of stock that are left out in turn where cuts cost or offcuts earn


def plan(
    parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules, effort: str = "normal"
) -> CuttingPlan:
    """Which stock to buy and how to cut it, for one timber, thickness and grade (or sheet, or roll).

    Rule: least cost of boards (plus the shop's price of cuts less the credit of kept offcuts, where given),
    then least length bought; then, as far as ``arrange`` tries, fewest set-ups and the longest offcut.
    n parts fit a span when their sum plus (n - 1) kerfs is no more than the span.
    ``lower_bound`` is never above the cost of any possible plan. Raises NoStock where a part cannot be had.
    """
    if effort not in EFFORTS:
        raise BadJob(Fault("/effort", f"effort is one of {', '.join(EFFORTS)}"))
    kinds = sorted({line.kind for line in stock})
    if len(kinds) > 1:
        raise BadJob(Fault("/stock", f"one plan cuts one kind of stock, not {' and '.join(kinds)}"))
    if kinds == ["sheet"]:
        return sheets.plan_sheets(parts, stock, rules, EFFORT[effort])
    if kinds == ["roll"]:
        return rolls.plan_rolls(parts, stock, rules, EFFORT[effort])
    return _plan_boards(parts, stock, rules, EFFORT[effort])


def _plan_boards(
    parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules, effort: Effort
) -> CuttingPlan:
    if not parts:
        return CuttingPlan("optimal", 0, 0, 0, 1.0, (), ())
    problem = read_problem(parts, stock, rules)
    refuse_what_no_board_gives(problem, parts, stock)
    if not is_charged(rules):
        found = search(problem, effort)
        return tally(layouts(problem, found.plan), found.bound, found.stopped, rules)
    return _charged(problem, rules, effort)


def _charged(problem: Problem, rules: CutRules, effort: Effort) -> CuttingPlan:
    """The least in full of several purchases: the best of charged boards, the best of boards alone, and the
    best without each stock line in turn or of it alone.

    The bound is the first one's; the others are near purchases whose cuts and offcuts may make up for their
    price.
    """
    charge = charged(problem)
    found = search(charge.problem, effort)
    bound = charge.bound(found.bound)
    near = [found.plan, *(plan for some in _fewer(problem, effort) for plan in _found(some))]
    plans = [tally(layouts(problem, chosen), bound, found.stopped, rules) for chosen in near]
    return min(plans, key=lambda p: (p.cost, sum(layout.length_nm for layout in p.layouts)))


def _fewer(problem: Problem, effort: Effort) -> Iterator[tuple[Problem, Effort]]:
    """All boards, then all but one line, then one line alone; the others' count made nothing."""
    yield problem, effort
    lines = range(len(problem.boards))
    if not 1 < len(lines) <= _MOST_LINES:
        return
    for out in (True, False):
        for b in lines:
            boards = tuple(
                replace(board, count=0) if (at == b) == out else board
                for at, board in enumerate(problem.boards)
            )
            yield replace(problem, boards=boards), EFFORT["quick"]


def _found(asked: tuple[Problem, Effort]) -> Iterator[Chosen]:
    try:
        yield search(*asked).plan
    except NoStock:
        return
