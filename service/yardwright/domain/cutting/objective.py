"""The shop's price of cuts and credit of offcuts, beside the boards' price.

The search knows boards' prices only. So each board is given the price it has when its parts are left out:
its own, less the credit of all its clear length, plus the cuts every board needs; each part then adds at
least the credit of the length it takes and its share of the cuts that free it. What this leaves out (other
rips and cuts, set-ups beyond those that must be) is never negative, so the bound stays true; a plan is
charged in full. Without end trims the last part of a board may need no cut, so cuts are then left out of the
bound.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..errors import BadJob, Fault
from .model import CutRules, Layout
from .problem import Problem

_WHOLE = ("board", "sheet", "roll")  # pieces as bought: their trims are crosscuts, others rips
SCALE = 1000  # thousandths of a minor unit: the search wants whole prices


@dataclass(frozen=True, slots=True)
class Charged:
    """``problem`` with its boards charged; ``parts`` is what all parts add at least."""

    problem: Problem
    parts: float

    def bound(self, searched: int) -> int:
        """The bound in whole minor units, from the search's own."""
        return math.floor(searched / SCALE + self.parts + 1e-6)


def is_charged(rules: CutRules) -> bool:
    """Whether anything but boards costs or earns."""
    return any((rules.crosscut_cost, rules.rip_cost_per_m, rules.setup_cost, rules.offcut_credit_per_m))


def charged(problem: Problem) -> Charged:
    """The problem with charged boards; refuses a credit that makes a board worth more than it costs."""
    rules = problem.rules
    credit = rules.offcut_credit_per_m / 1e9
    boards = []
    for board in problem.boards:
        clear = sum(to - start for start, to in board.clear)
        first_cut = rules.crosscut_cost if rules.end_trim_nm else 0.0
        price = math.floor((board.price - credit * clear + first_cut) * SCALE)
        if price < 0 and not board.on_hand:
            raise BadJob(
                Fault(
                    "/costs/offcut_credit_per_m",
                    f"{board.code}: its offcut would earn more than the whole board costs",
                )
            )
        boards.append(replace(board, price=max(price, 0)))
    lost_on_rack = sum(
        min(0.0, b.price - credit * sum(to - s for s, to in b.clear)) * (b.count or 0)
        for b in problem.boards
        if b.on_hand
    )
    return Charged(replace(problem, boards=tuple(boards)), _parts(problem, credit) + lost_on_rack)


def _parts(problem: Problem, credit: float) -> float:
    """What the parts add at least: length taken from offcuts, their crosscuts, half the rips, set-ups.

    One crosscut frees at most as many parts as strips lie side by side. Of n strips side by side at least
    n - 1 are ripped free, a lone one always is: half of them at least.
    """
    rules, total, lengths, ripped = problem.rules, 0.0, set(), False
    side_by_side = _most_strips(problem)
    for size in problem.sizes:
        widths = {b.width_nm for b in problem.boards if problem.holds(size, b.width_nm)}
        if not widths:
            continue
        total += size.most * credit * size.length_nm * size.width_nm / max(widths)
        never = widths == {size.width_nm} and not problem.trims(size)
        if rules.end_trim_nm:
            total += size.most * rules.crosscut_cost / (1 if never else side_by_side)
            lengths |= {size.length_nm} if never else set()
        if size.width_nm not in widths or problem.trims(size):
            total += size.most * size.length_nm / 1e9 * rules.rip_cost_per_m / 2
            ripped = True
    return total + rules.setup_cost * (len(lengths) + ripped)


def _most_strips(problem: Problem) -> int:
    kerf = problem.rules.rip_kerf_nm
    widest = max((b.width_nm for b in problem.boards), default=0)
    narrowest = min((s.width_nm for s in problem.sizes), default=1)
    return max(1, (widest + kerf) // (narrowest + kerf))


def extra_cost(laid: Sequence[Layout], rules: CutRules) -> float:
    """What the cuts of these boards cost, less the credit of full-width offcuts that are kept."""
    crosscuts, rip_m, credit_m = 0, 0.0, 0.0
    settings: set[tuple[str, int]] = set()
    for layout in laid:
        for step in layout.steps:
            if step.kind == "rip" or (step.kind == "trim" and step.piece not in _WHOLE):
                rip_m += sum(abs(x2 - x1) for x1, _, x2, _ in step.cuts) / 1e9
            else:
                crosscuts += step.times
            if step.kind != "trim":
                settings.add((step.kind, step.setting_nm))
        credit_m += sum(o.length_nm for o in layout.offcuts if o.kept and o.width_nm == layout.width_nm) / 1e9
    return (
        crosscuts * rules.crosscut_cost
        + rip_m * rules.rip_cost_per_m
        + len(settings) * rules.setup_cost
        - credit_m * rules.offcut_credit_per_m
    )
