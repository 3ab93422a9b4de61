"""An exact model of the same cutting with explicit boards, for OR-tools CP-SAT. Shares no planner code.

Every part may lead a strip, every strip a segment; segments go to clear lengths of board copies. Slow, and
meant only for a handful of parts.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model

from yardwright.domain.cutting.model import CutRules, NeededPart, StockLine


@dataclass(frozen=True)
class Bin:
    """One clear length of one copy of a stock line."""

    copy: int
    line: StockLine
    length: int


def cheapest(parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules) -> int | None:
    """The least cost of boards; None when the stock is not enough. Matched sets are not modelled."""
    items = sorted(
        (
            (p.width_nm, p.length_nm, p.trim_edges and rules.edge_trim_nm > 0)
            for p in parts
            for _ in range(p.count)
        ),
        reverse=True,
    )
    copies = [
        line
        for line in stock
        if line.on_hand or rules.longest_carry_nm is None or line.length_nm <= rules.longest_carry_nm
        for _ in range(len(items) if line.count is None else min(line.count, len(items)))
    ]
    bins = [Bin(c, line, n) for c, line in enumerate(copies) for n in clear_lengths(line, rules)]
    return _solve(items, copies, bins, rules)


def clear_lengths(line: StockLine, rules: CutRules) -> list[int]:
    """What end trims and blocked zones leave; a zone counts as a kerf long at least."""
    at, end, clear = rules.end_trim_nm, line.length_nm - rules.end_trim_nm, []
    for start, to in sorted(line.blocked):
        clear.append(min(start, end) - at)
        at = max(at, to, start + rules.crosscut_kerf_nm if start > at else 0)
    clear.append(end - at)
    return [length for length in clear if length > 0]


def _solve(
    items: list[tuple[int, int, bool]], copies: list[StockLine], bins: list[Bin], rules: CutRules
) -> int | None:
    model = cp_model.CpModel()
    n, cross, rip = len(items), rules.crosscut_kerf_nm, rules.rip_kerf_nm
    most = max((b.length for b in bins), default=0)
    strip = {
        (i, j): model.new_bool_var("")
        for i, j in itertools.product(range(n), repeat=2)
        if j <= i and items[i][0] == items[j][0]
    }
    row = {(j, k): model.new_bool_var("") for j, k in itertools.product(range(n), repeat=2) if k <= j}
    put = {(k, b): model.new_bool_var("") for k in range(n) for b in range(len(bins))}
    used = [model.new_bool_var("") for _ in copies]
    trims = [model.new_bool_var("") for _ in range(n)]  # of segment k
    length = [model.new_int_var(0, most, "") for _ in range(n)]  # of segment k
    for i in range(n):
        model.add_exactly_one(strip[i, j] for j in range(n) if (i, j) in strip)
        for j in range(i):
            if (i, j) in strip:
                model.add_implication(strip[i, j], strip[j, j])
    for j in range(n):
        model.add(sum(row[j, k] for k in range(j + 1)) == 1).only_enforce_if(strip[j, j])
        model.add(sum(row[j, k] for k in range(j + 1)) == 0).only_enforce_if(strip[j, j].negated())
        along = sum(strip[i, j] * (items[i][1] + cross) for i in range(n) if (i, j) in strip) - cross
        for k in range(j + 1):
            model.add_implication(row[j, k], row[k, k])
            model.add(length[k] >= along).only_enforce_if(row[j, k])
            for i in range(n):
                if (i, j) in strip and items[i][2]:
                    model.add_bool_or(row[j, k].negated(), strip[i, j].negated(), trims[k])
    for k in range(n):
        across = sum(row[j, k] * (items[j][0] + rip) for j in range(k, n)) - rip
        model.add(sum(put[k, b] for b in range(len(bins))) == 1).only_enforce_if(row[k, k])
        model.add(sum(put[k, b] for b in range(len(bins))) == 0).only_enforce_if(row[k, k].negated())
        for b, bin_ in enumerate(bins):
            wide, inside = bin_.line.width_nm, put[k, b]
            model.add_implication(inside, used[bin_.copy])
            model.add(across <= wide).only_enforce_if(inside)
            model.add(across <= wide - 2 * rules.edge_trim_nm).only_enforce_if(inside, trims[k])
            if items[k][0] == wide:
                model.add(length[k] >= rules.least_rip_length_nm).only_enforce_if(inside, trims[k])
            else:
                model.add(length[k] >= rules.least_rip_length_nm).only_enforce_if(inside)
                for j in range(k, n):
                    if items[j][0] < rules.least_strip_nm:
                        model.add_bool_or(inside.negated(), row[j, k].negated())
    for b, bin_ in enumerate(bins):
        inside_lengths = []
        for k in range(n):
            here = model.new_int_var(0, most + cross, "")
            model.add(here == length[k] + cross).only_enforce_if(put[k, b])
            model.add(here == 0).only_enforce_if(put[k, b].negated())
            inside_lengths.append(here)
        model.add(sum(inside_lengths) <= bin_.length + cross)
    for a, b in itertools.pairwise(range(len(copies))):
        if copies[a] is copies[b]:
            model.add_implication(used[b], used[a])
    model.minimize(sum(u * line.price for u, line in zip(used, copies, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = 60
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:
        return None
    assert status == cp_model.OPTIMAL, "the exact model did not finish"
    return round(solver.objective_value)
