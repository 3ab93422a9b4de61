"""Checks plans of sheets and rolls as a sceptical sawyer would. Shares no code with the planner.

From the placed rectangles alone: inside the trims, clear of blocked zones, turned only where allowed, taken
apart by cuts from edge to edge with a kerf each; counts, purchases, prices, bound and status agree.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Sequence

from cutting_saw import faults_at_the_saw
from yardwright.domain.cutting.model import CutRules, CuttingPlan, Layout, NeededPart, Placed, StockLine


def faults_of_sheets(
    plan: CuttingPlan, parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules
) -> list[str]:
    """Everything wrong with a plan of sheets, in words."""
    lines, wanted, faults = {line.code: line for line in stock}, {p.mark: p for p in parts}, []
    for number, layout in enumerate(plan.layouts, 1):
        where = f"sheet {number} ({layout.code})"
        line = lines.get(layout.code)
        if line is None or (line.length_nm, line.width_nm, line.price) != (
            layout.length_nm, layout.width_nm, layout.price
        ):
            faults.append(f"{where}: no such sheet")
            continue
        for place in layout.parts:
            asked = wanted.get(place.mark)
            as_asked = asked and (place.length_nm, place.width_nm) == (asked.length_nm, asked.width_nm)
            turned = asked and (place.width_nm, place.length_nm) == (asked.length_nm, asked.width_nm)
            if not asked or not (as_asked or (turned and asked.grain == "either")):
                faults.append(f"{where}: {place.mark} is not a part asked for, or turned against its grain")
            if (
                place.x_nm < rules.end_trim_nm
                or place.x_nm + place.length_nm > line.length_nm - rules.end_trim_nm
                or place.y_nm < rules.edge_trim_nm
                or place.y_nm + place.width_nm > line.width_nm - rules.edge_trim_nm
            ):
                faults.append(f"{where}: {place.mark} reaches into a trim")
            if any(place.x_nm < to and place.x_nm + place.length_nm > start for start, to in line.blocked):
                faults.append(f"{where}: {place.mark} lies on a blocked zone")
        faults += [f"{where}: {text}" for text in _on_one(layout, rules)]
    asked = Counter({p.mark: 0 for p in parts})
    for part in parts:
        asked[part.mark] += part.count
    if Counter(p.mark for layout in plan.layouts for p in layout.parts) != asked:
        faults.append("not the parts asked for")
    bought = Counter(layout.code for layout in plan.layouts)
    if bought != Counter({p.code: p.count for p in plan.purchases}):
        faults.append("purchases do not match the sheets laid out")
    for purchase in plan.purchases:
        line = lines[purchase.code]
        if purchase.amount != purchase.count * line.price:
            faults.append(f"{purchase.code}: amount is not count times price")
        if line.count is not None and purchase.count > line.count:
            faults.append(f"{purchase.code}: more than there are")
    return faults + sums_wrong(plan)


def faults_of_rolls(
    plan: CuttingPlan, parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules
) -> list[str]:
    """Everything wrong with a plan of rolls; a panel may come as several widths that overlap."""
    lines, wanted, faults = {line.code: line for line in stock}, {p.mark: p for p in parts}, []
    steps: Counter[str] = Counter()
    widths: dict[tuple[str, str], list[tuple[int, int]]] = {}
    for number, layout in enumerate(plan.layouts, 1):
        where, line = f"length {number} ({layout.code})", lines[layout.code]
        whole, rest = divmod(layout.length_nm, line.length_nm)
        steps[layout.code] += whole
        if rest or layout.width_nm != line.width_nm or layout.price != whole * line.price:
            faults.append(f"{where}: not whole steps of this roll at its price")
        if layout.length_nm > (line.longest_nm or line.length_nm):
            faults.append(f"{where}: longer than the roll comes")
        for place in layout.parts:
            if (
                place.y_nm < 0 or place.y_nm + place.width_nm > line.width_nm
                or place.x_nm < rules.end_trim_nm
                or place.x_nm + place.length_nm > layout.length_nm - rules.end_trim_nm
            ):
                faults.append(f"{where}: {place.mark} is off the roll")
            widths.setdefault((place.mark, layout.code), []).append((place.length_nm, place.width_nm))
        faults += [f"{where}: {text}" for text in _on_one(layout, rules)]
    for mark, part in wanted.items():
        count = sum(p.count for p in parts if p.mark == mark)
        laid = {code: sizes for (m, code), sizes in widths.items() if m == mark}
        made = sum(_panels(part, sizes, lines[code], rules) for code, sizes in laid.items())
        if made != count:
            faults.append(f"{mark}: pieces for {made} panels, {count} asked")
    if {p.code: (p.count, p.amount) for p in plan.purchases} != {
        code: (n, n * lines[code].price) for code, n in steps.items()
    }:
        faults.append("purchases do not match the lengths laid out")
    return faults + sums_wrong(plan)


def _panels(part: NeededPart, sizes: list[tuple[int, int]], line: StockLine, rules: CutRules) -> int:
    """How many panels these pieces make; -999 where pieces are left over."""
    made = 0
    for long, wide in dict.fromkeys(
        [(part.length_nm, part.width_nm)]
        + ([(part.width_nm, part.length_nm)] if part.grain == "either" else [])
    ):
        one = Counter((long, w) for w in _laid(wide, line.width_nm, rules.overlap_nm))
        while all(sizes.count(size) >= n for size, n in one.items()):
            for size, n in one.items():
                for _ in range(n):
                    sizes.remove(size)
            made += 1
        if wide <= line.width_nm and part.grain == "either" and made:
            continue
    return made if not sizes else -999


def _laid(panel: int, roll: int, overlap: int) -> list[int]:
    """Full widths, the last as wide as is left; every joint overlaps."""
    laid = []
    left = panel
    while left > roll:
        laid.append(roll)
        left -= roll - overlap
    return [*laid, left]


def sums_wrong(plan: CuttingPlan) -> list[str]:
    """Cost, bound and status against one another."""
    faults = []
    if plan.boards_cost != sum(p.amount for p in plan.purchases):
        faults.append("the stock's cost is not the purchases' sum")
    if plan.lower_bound > plan.cost:
        faults.append("the bound is above the cost")
    if plan.status not in ("optimal", "bounded"):
        faults.append("no such status")
    if (plan.status == "optimal") != (plan.lower_bound == plan.cost):
        faults.append("the status does not match bound and cost")
    if plan.status == "optimal" and plan.stopped:
        faults.append("a proven plan says it was stopped")
    area = sum(layout.length_nm * layout.width_nm for layout in plan.layouts)
    used = sum(p.length_nm * p.width_nm for layout in plan.layouts for p in layout.parts)
    if area and abs(plan.yield_share - used / area) > 1e-9:
        faults.append("the share used is not the parts' area by the area bought")
    return faults


def _on_one(layout: Layout, rules: CutRules) -> list[str]:
    faults = [] if through_cuts_free(layout.parts, rules) else ["through cuts do not take the parts apart"]
    for a, b in itertools.combinations([*layout.parts, *layout.offcuts], 2):
        if (
            a.x_nm < b.x_nm + b.length_nm and b.x_nm < a.x_nm + a.length_nm
            and a.y_nm < b.y_nm + b.width_nm and b.y_nm < a.y_nm + a.width_nm
        ):
            faults.append("two pieces lie on one another")
    return faults + faults_at_the_saw(layout, rules)


def through_cuts_free(parts: Sequence[Placed], rules: CutRules) -> bool:
    """Whether straight cuts from edge to edge take the parts apart, one after another."""
    if len(parts) <= 1:
        return True
    for start, size, kerf in (
        ("x_nm", "length_nm", rules.crosscut_kerf_nm), ("y_nm", "width_nm", rules.rip_kerf_nm)
    ):
        order = sorted(parts, key=lambda p: getattr(p, start))
        reach = 0
        for at in range(1, len(order)):
            reach = max(reach, getattr(order[at - 1], start) + getattr(order[at - 1], size))
            if getattr(order[at], start) >= reach + kerf:
                return through_cuts_free(order[:at], rules) and through_cuts_free(order[at:], rules)
    return False
