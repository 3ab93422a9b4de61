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
_MOST_SUMS = 20_000
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
    """What the parts add at least: length taken from offcuts, their crosscuts, rips and set-ups.

    A crosscut frees parts that lie side by side, each a kerf apart: its share of the width, or one of as
    many as strips lie beside one another. A strip is ripped free along all its parts by a setting of its
    own, unless the row ends with it exactly at the board's edge: then at least half the strips are.
    """
    rules, total = problem.rules, 0.0
    stops: set[int] = set()
    fences: set[int] = set()
    ripped, by_width, by_number = False, 0.0, 0.0
    strips, exact = _most_strips(problem), _fill_exactly(problem)
    for size in problem.sizes:
        widths = {b.width_nm for b in problem.boards if problem.holds(size, b.width_nm)}
        if not widths:
            continue
        total += size.most * credit * size.length_nm * size.width_nm / max(widths)
        never = widths == {size.width_nm} and not problem.trims(size)
        if rules.end_trim_nm:
            kerf = rules.rip_kerf_nm
            by_width += size.most * (1.0 if never else (size.width_nm + kerf) / (max(widths) + kerf))
            by_number += size.most / (1 if never else strips)
            stops |= {size.length_nm} if never else set()
        if size.width_nm not in widths or problem.trims(size):
            whole = size.width_nm not in exact
            total += size.most * size.length_nm / 1e9 * rules.rip_cost_per_m * (1.0 if whole else 0.5)
            fences |= {size.width_nm} if whole else set()
            ripped = True
    set_ups = len(stops) + max(len(fences), int(ripped))
    return total + rules.crosscut_cost * max(by_width, by_number) + rules.setup_cost * set_ups


def _fill_exactly(problem: Problem) -> set[int]:
    """Widths that may end a row of strips exactly at a board's edge, where no rip frees them."""
    kerf = problem.rules.rip_kerf_nm
    widths = {s.width_nm for s in problem.sizes}
    most = max((b.width_nm for b in problem.boards), default=0) + kerf
    sums, fresh = {0}, {0}
    while fresh:
        fresh = {s + w + kerf for s in fresh for w in widths if s + w + kerf <= most} - sums
        sums |= fresh
        if len(sums) > _MOST_SUMS:
            return widths
    ends = {b.width_nm + kerf - y for b in problem.boards for y in (0, problem.rules.edge_trim_nm)}
    return {w for w in widths if any(end - w - kerf in sums for end in ends)}


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
