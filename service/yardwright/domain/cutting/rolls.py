"""Rolls (mesh, liner, fabric): fixed widths bought by length, cut by straight cuts from edge to edge.

A panel wider than the roll is laid from several widths that overlap (``roll_job``). Panels of one material
may come from different rolls; each length is bought in whole steps, no longer than the roll. Small jobs are
decided exactly, larger ones laid side by side, longest first, with a stated bound. Shears and a knife cut
rolls: the saw's prices of cuts do not apply.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..errors import Fault, NoStock
from .blocks import Bench, Block
from .bounds import Sums
from .effort import Effort, Steps
from .layout import with_marks
from .model import CutRules, CutStep, CuttingPlan, Layout, NeededPart, Purchase, StockLine
from .problem import Board, check_asked
from .refusals import say
from .roll_exact import cheapest
from .roll_fill import by_hand
from .roll_job import Panel, Roll, Share, cost_of, least_cost, panels_of, roll_of, widths

__all__ = ["plan_rolls", "widths"]
_LISTED = 2_000  # steps of listing blocks for each small part of a large job that the effort mends


def plan_rolls(
    parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules, effort: Effort
) -> CuttingPlan:
    """The cheapest lengths for the group; raises NoStock where a panel is too long for every roll."""
    check_asked(parts, stock, rules)
    if not parts:
        return CuttingPlan("optimal", 0, 0, 0, 1.0, (), ())
    panels, rolls = laid_out(parts, stock, rules)
    weighed = least_cost(panels, rolls)
    shares = by_hand(panels, rolls, math.ceil(weighed - 1e-6), thorough=False)
    cost = cost_of(rolls, shares)
    lines = tuple(Board(r.line.code, 1, 1, r.line.price, None, ((0, 1),), False) for r in rolls)
    least = Sums(lines, cost).reach(weighed)
    if least < cost:
        found = cheapest(panels, rolls, cost, Steps(_LISTED * effort.mends))
        if found is None:
            shares = by_hand(panels, rolls, least)
        else:
            shares = found or shares
            least = cost_of(rolls, shares)
    return _plan(panels, rolls, shares, min(least, cost_of(rolls, shares)))


def laid_out(
    parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules
) -> tuple[Sequence[Panel], list[Roll]]:
    """The panels and the rolls that give any of them; raises NoStock where one is too long for every roll."""
    panels = panels_of(parts)
    rolls = [roll for line in stock if any((roll := roll_of(line, panels, rules)).made_of)]
    _refuse_too_long(parts, panels, stock, rolls, rules)
    return panels, rolls


def _plan(panels: Sequence[Panel], rolls: Sequence[Roll], shares: Sequence[Share], bound: int) -> CuttingPlan:
    laid = _layouts(panels, rolls, shares)
    bought: dict[str, list[int]] = {}
    step = {roll.line.code: roll.line.length_nm for roll in rolls}
    for layout in laid:
        line = bought.setdefault(layout.code, [0, 0])
        line[0] += layout.length_nm // step[layout.code]
        line[1] += layout.price
    cost = sum(layout.price for layout in laid)
    area = sum(layout.length_nm * layout.width_nm for layout in laid)
    used = sum(p.length_nm * p.width_nm for layout in laid for p in layout.parts)
    return CuttingPlan(
        "optimal" if bound == cost else "bounded",
        cost,
        cost,
        bound,
        used / area,
        laid,
        tuple(Purchase(code, steps, amount) for code, (steps, amount) in bought.items()),
        "" if bound == cost else "steps",
    )


def _layouts(panels: Sequence[Panel], rolls: Sequence[Roll], shares: Sequence[Share]) -> tuple[Layout, ...]:
    """Every length with its marks: a panel's pieces all come from the roll it was given to."""
    left = [[mark for mark, n in panel.marks for _ in range(n)][::-1] for panel in panels]
    laid = []
    for share in shares:
        roll = rolls[share.roll]
        marks: list[list[str]] = [[] for _ in roll.kinds]
        for k, number in enumerate(share.panels):
            for mark in (left[k].pop() for _ in range(number)):
                for kind, each in roll.made_of[k] or ():
                    marks[kind] += [mark] * each
        for block in sorted(share.lengths, key=lambda one: (-one.x_nm, repr(one))):
            laid.append(_layout(roll, block, marks))
    return tuple(laid)


def _layout(roll: Roll, block: Block, marks: list[list[str]]) -> Layout:
    rules, wide = roll.rules, roll.line.width_nm
    bought, trim = roll.bought_nm(block.x_nm), rules.end_trim_nm
    bench = Bench(rules, lambda kind: marks[kind].pop(0), (trim, 0, bought - trim, wide))
    if trim:
        bench.steps.append(CutStep("trim", trim, 1, "roll", (), ((trim, 0, trim, wide),)))
    bench.cut(block, trim, 0, bought, wide, "roll")
    steps = tuple(with_marks(bench.steps, bench.parts))
    price = roll.price(block.x_nm)
    return Layout(roll.line.code, bought, wide, tuple(bench.parts), tuple(bench.offcuts), steps, price)


def _refuse_too_long(
    parts: Sequence[NeededPart],
    panels: Sequence[Panel],
    stock: Sequence[StockLine],
    rolls: Sequence[Roll],
    rules: CutRules,
) -> None:
    faults = []
    known = {(p.length_nm, p.width_nm, p.turns): k for k, p in enumerate(panels)}
    for at, part in enumerate(parts):
        turns = part.grain == "either" and part.length_nm != part.width_nm
        sizes = sorted((part.length_nm, part.width_nm), reverse=turns)
        k = known[(sizes[0], sizes[1], True) if turns else (part.length_nm, part.width_nm, False)]
        if not any(roll.made_of[k] is not None for roll in rolls):
            faults.append(Fault(f"/parts/{at}/length", _too_long(part, stock, rules)))
    if faults:
        raise NoStock(*faults)


def _too_long(part: NeededPart, stock: Sequence[StockLine], rules: CutRules) -> str:
    wide = [line for line in stock if rules.overlap_nm < line.width_nm]
    if not wide:
        return (
            f"part {part.mark}: the overlap of two widths, {say(rules.overlap_nm)}, is not less than the "
            f"width of any roll"
            if stock
            else f"part {part.mark}: there is no roll to cut it from"
        )
    longest = max(wide, key=lambda line: line.longest_nm or line.length_nm)
    most = (longest.longest_nm or longest.length_nm) // longest.length_nm * longest.length_nm
    gives = most - 2 * rules.end_trim_nm
    lost = " after its end trims" if rules.end_trim_nm else ""
    return (
        f"part {part.mark} is {say(part.length_nm)} long; {longest.code} comes in one piece up to "
        f"{say(most)} and gives {say(max(gives, 0))}{lost}. A panel within that, or a longer roll, would do"
    )
