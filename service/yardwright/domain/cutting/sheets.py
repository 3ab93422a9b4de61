"""Sheets: straight through cuts in three stages, tried with the first cuts across and along the sheet.

A part with grain ``along`` is never turned; one with ``either`` may be. The bound is the area's: other
patterns of through cuts than three stages are not ruled out, so a plan is called optimal only when no
smaller purchase has the area.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..errors import Fault, NoStock
from .effort import Effort
from .exact import Found
from .layout import layouts
from .model import CutRules, CutStep, CuttingPlan, Layout, NeededPart, Offcut, Placed, StockLine
from .problem import Board, Need, Problem, Size, check_asked
from .refusals import say
from .search import search
from .tally import tally

_OTHER = {"rip": "crosscut", "crosscut": "rip", "trim": "trim"}


def plan_sheets(
    parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules, effort: Effort
) -> CuttingPlan:
    """The cheapest of both ways to start; raises NoStock where a part fits no sheet."""
    check_asked(parts, stock, rules)
    _refuse_too_large(parts, stock, rules)
    across = _frame(parts, stock, rules, along=False)
    along = _frame(parts, stock, rules, along=True)
    tried = []
    refused: NoStock | None = None
    for problem, turned in ((across, False), (along, True)):
        try:
            tried.append((search(problem, effort, stages_are_all=False), problem, turned))
        except NoStock as refusal:
            refused = refusal
    if not tried:
        raise refused or NoStock(Fault("/parts", "no sheet gives these parts"))
    plans = [_plan(found, problem, turned, rules) for found, problem, turned in tried]
    return min(plans, key=lambda p: (p.cost, -p.yield_share))


def _plan(found: Found, problem: Problem, turned: bool, rules: CutRules) -> CuttingPlan:
    laid = layouts(problem, found.plan)
    if turned:
        laid = tuple(_turn(layout, rules.end_trim_nm) for layout in laid)
    return tally(laid, found.bound, found.stopped, rules)


@dataclass(frozen=True, slots=True)
class _Way:
    """How a part may lie: its extent along the first cuts' feed and across it."""

    along_nm: int
    across_nm: int


def _ways(part: NeededPart, along: bool) -> list[_Way]:
    ways = [_Way(part.length_nm, part.width_nm)]
    if part.grain == "either" and part.length_nm != part.width_nm:
        ways.append(_Way(part.width_nm, part.length_nm))
    return [_Way(w.across_nm, w.along_nm) for w in ways] if along else ways


def _frame(parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules, along: bool) -> Problem:
    """The sheets as boards: x across the first cuts. ``along``: the first cuts run along the sheet."""
    trim = rules.end_trim_nm
    boards = tuple(
        Board(s.code, s.width_nm, s.length_nm - 2 * trim, s.price, s.count, ((0, s.width_nm),), s.on_hand)
        if along
        else Board(
            s.code, s.length_nm, s.width_nm, s.price, s.count, ((trim, s.length_nm - trim),), s.on_hand
        )
        for s in stock
    )
    sizes: list[tuple[Size, tuple[str, int], int]] = []
    for number, part in enumerate(parts):
        for way in _ways(part, along):
            size = Size(way.along_nm, way.across_nm, False, part.count)
            if any(size.length_nm <= b.longest_nm and size.width_nm <= b.width_nm for b in boards):
                sizes.append((size, (part.mark, part.count), number))
    sizes.sort(key=lambda entry: (-entry[0].length_nm, -entry[0].width_nm, entry[2]))
    needs = tuple(
        Need(part.count, any_of=tuple(i for i, (_, _, of) in enumerate(sizes) if of == number))
        for number, part in enumerate(parts)
    )
    own = replace(rules, least_rip_length_nm=0, least_strip_nm=0, edge_trim_nm=0, rip_from_wider=True)
    if along:
        own = replace(
            own, crosscut_kerf_nm=rules.rip_kerf_nm, rip_kerf_nm=rules.crosscut_kerf_nm, end_trim_nm=0
        )
    return Problem(tuple(s for s, _, _ in sizes), needs, boards, own, tuple((m,) for _, m, _ in sizes))


def _turn(layout: Layout, trim: int) -> Layout:
    """From the turned frame back to the sheet as it is sold."""
    return Layout(
        code=layout.code,
        length_nm=layout.width_nm + 2 * trim,
        width_nm=layout.length_nm,
        parts=tuple(Placed(p.mark, p.y_nm + trim, p.x_nm, p.width_nm, p.length_nm) for p in layout.parts),
        offcuts=tuple(Offcut(o.y_nm + trim, o.x_nm, o.width_nm, o.length_nm, o.kept) for o in layout.offcuts),
        steps=(*_trim(layout, trim), *(_turn_step(step, trim) for step in layout.steps)),
        price=layout.price,
    )


def _trim(layout: Layout, trim: int) -> tuple[CutStep, ...]:
    cut = (trim, 0, trim, layout.length_nm)
    return (CutStep("trim", trim, 1, "board", (), (cut,)),) if trim else ()


def _turn_step(step: CutStep, trim: int) -> CutStep:
    cuts = tuple((y1 + trim, x1, y2 + trim, x2) for x1, y1, x2, y2 in step.cuts)
    return replace(step, kind=_OTHER[step.kind], cuts=cuts)


def _refuse_too_large(parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules) -> None:
    faults = []
    for at, part in enumerate(parts):
        fits = any(
            way.along_nm <= s.length_nm - 2 * rules.end_trim_nm and way.across_nm <= s.width_nm
            for s in stock
            for way in _ways(part, along=False)
        )
        if not fits:
            largest = max(stock, key=lambda s: s.length_nm * s.width_nm)
            turning = "" if part.grain == "either" else " Letting it turn (grain either) may do."
            faults.append(
                Fault(
                    f"/parts/{at}/length",
                    f"part {part.mark} is {say(part.length_nm)} x {say(part.width_nm)}; the largest sheet, "
                    f"{largest.code}, gives {say(largest.length_nm - 2 * rules.end_trim_nm)} x "
                    f"{say(largest.width_nm)}. A part within that, or a larger sheet, would do.{turning}",
                )
            )
    if faults:
        raise NoStock(*faults)
