"""Checks a cutting plan as a sceptical sawyer would. Shares no code with the planner, only its nouns.

From the placed rectangles alone: everything lies on wood that is there, clear of trims and blocked zones;
parts are a kerf apart; straight through cuts free them (crosscut, rip, crosscut); a saw that follows the
steps gets the parts; counts, purchases, prices and the bound agree with one another.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Sequence

from cutting_saw import faults_at_the_saw
from yardwright.domain.cutting.model import CutRules, CuttingPlan, Layout, NeededPart, Placed, StockLine


def faults_of(
    plan: CuttingPlan, parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules
) -> list[str]:
    """Everything wrong with a plan of boards, in words; empty when it can be cut as drawn."""
    lines = {line.code: line for line in stock}
    wanted = {part.mark: part for part in parts}
    faults = []
    known: dict[Layout, list[str]] = {}  # boards cut alike are looked at once
    for number, layout in enumerate(plan.layouts):
        where = f"board {number} ({layout.code})"
        line = lines.get(layout.code)
        if line is None or (line.length_nm, line.width_nm, line.price) != (
            layout.length_nm,
            layout.width_nm,
            layout.price,
        ):
            faults.append(f"{where}: no such stock")
            continue
        if (
            rules.longest_carry_nm is not None
            and not line.on_hand
            and line.length_nm > rules.longest_carry_nm
        ):
            faults.append(f"{where}: longer than can be carried")
        if layout not in known:
            known[layout] = board_faults(layout, line, wanted, rules)
        faults += [f"{where}: {text}" for text in known[layout]]
    return faults + _tally_faults(plan, parts, lines)


def board_faults(
    layout: Layout, line: StockLine, wanted: dict[str, NeededPart], rules: CutRules
) -> list[str]:
    """What is wrong on one board."""
    faults = []
    for place in layout.parts:
        part = wanted.get(place.mark)
        if part is None or (part.length_nm, part.width_nm) != (place.length_nm, place.width_nm):
            faults.append(f"{place.mark} is not a part asked for, or turned")
            continue
        if part.from_width_nm and line.width_nm != part.from_width_nm:
            faults.append(f"{place.mark} is cut from another width than it may be")
        left, right = place.x_nm, place.x_nm + place.length_nm
        if left < rules.end_trim_nm or right > line.length_nm - rules.end_trim_nm:
            faults.append(f"{place.mark} reaches into an end trim")
        if place.y_nm < 0 or place.y_nm + place.width_nm > line.width_nm:
            faults.append(f"{place.mark} is off the board")
        if any(left < to and right > start for start, to in line.blocked):
            faults.append(f"{place.mark} lies on a blocked zone")
        if (
            part.trim_edges
            and rules.edge_trim_nm
            and not (
                rules.edge_trim_nm <= place.y_nm
                and place.y_nm + place.width_nm <= line.width_nm - rules.edge_trim_nm
            )
        ):
            faults.append(f"{place.mark} keeps a factory edge")
        if place.width_nm < line.width_nm and place.width_nm < rules.least_strip_nm:
            faults.append(f"{place.mark} is too narrow to rip safely")
    faults += _stage_faults(layout, line, rules)
    faults += faults_at_the_saw(layout, rules)
    for cut in layout.offcuts:
        if cut.length_nm <= 0 or cut.width_nm <= 0 or cut.x_nm + cut.length_nm > line.length_nm:
            faults.append("an offcut is off the board")
        if cut.kept and any(cut.x_nm < to and cut.x_nm + cut.length_nm > start for start, to in line.blocked):
            faults.append("an offcut that is kept holds a blocked zone")
        if any(_overlap(cut, place) for place in layout.parts):
            faults.append("an offcut overlaps a part")
    return faults


def _overlap(a: object, b: Placed) -> bool:
    ax, ay, al, aw = a.x_nm, a.y_nm, a.length_nm, a.width_nm  # type: ignore[attr-defined]
    return ax < b.x_nm + b.length_nm and b.x_nm < ax + al and ay < b.y_nm + b.width_nm and b.y_nm < ay + aw


def _stage_faults(layout: Layout, line: StockLine, rules: CutRules) -> list[str]:
    """Crosscut, rip, crosscut: some way to take neighbouring bands together as segments must work."""
    bands = _bands(layout.parts, lambda p: (p.x_nm, p.x_nm + p.length_nm), rules.crosscut_kerf_nm)
    reached: list[list[str] | None] = [[]] + [None] * len(bands)
    for end in range(1, len(bands) + 1):
        for start in range(end - 1, -1, -1):
            before = reached[start]
            if before is None or (reached[end] == []):
                continue
            following = min((p.x_nm for p in bands[end]), default=0) if end < len(bands) else None
            here = before + _segment_faults([p for b in bands[start:end] for p in b], following, line, rules)
            if reached[end] is None or len(here) < len(reached[end] or ()):
                reached[end] = here
    return reached[-1] or []


def _segment_faults(
    parts: Sequence[Placed], following: int | None, line: StockLine, rules: CutRules
) -> list[str]:
    if len(parts) == 1 and parts[0].width_nm == line.width_nm:
        return []
    faults = []
    start, end = min(p.x_nm for p in parts), max(p.x_nm + p.length_nm for p in parts)
    room_ends = [line.length_nm - rules.end_trim_nm] + [zone for zone, _ in line.blocked if zone >= start]
    if following is not None:
        room_ends.append(following - rules.crosscut_kerf_nm)
    if min(room_ends) < end:
        faults.append("a ripped segment runs over a blocked zone")
    if min(room_ends) - start < rules.least_rip_length_nm:
        faults.append(f"the segment at {start} is too short to rip safely")
    for strip in _bands(parts, lambda p: (p.y_nm, p.y_nm + p.width_nm), rules.rip_kerf_nm):
        if len({(p.y_nm, p.width_nm) for p in strip}) != 1:
            faults.append(f"the segment at {start}: a strip holds two widths")
        row = sorted(strip, key=lambda p: p.x_nm)
        for a, b in itertools.pairwise(row):
            if b.x_nm < a.x_nm + a.length_nm + rules.crosscut_kerf_nm:
                faults.append(f"{a.mark} and {b.mark} are closer than a kerf")
    return faults


def _bands(parts: Sequence[Placed], span, kerf: int) -> list[list[Placed]]:  # type: ignore[no-untyped-def]
    """Groups that a straight cut of one kerf through the whole piece keeps apart."""
    bands: list[list[Placed]] = []
    end = None
    for part in sorted(parts, key=span):
        start, to = span(part)
        if end is None or start >= end + kerf:
            bands.append([part])
            end = to
        else:
            bands[-1].append(part)
            end = max(end, to)
    return bands


def _tally_faults(plan: CuttingPlan, parts: Sequence[NeededPart], lines: dict[str, StockLine]) -> list[str]:
    faults = []
    cut = Counter(place.mark for layout in plan.layouts for place in layout.parts)
    asked: Counter[str] = Counter()
    for part in parts:
        asked[part.mark] += part.count
    if cut != asked:
        faults.append(f"cut {dict(cut)}, asked {dict(asked)}")
    for word in {part.matched for part in parts if part.matched}:
        of_set = [part for part in parts if part.matched == word]
        for number, layout in enumerate(plan.layouts):
            here = Counter(place.mark for place in layout.parts)
            sets = {here[p.mark] * max(p.sets, 1) / p.count for p in of_set}
            if len(sets) != 1 or not next(iter(sets)).is_integer():
                faults.append(f"board {number}: part of a matched set {word!r}")
    boards = Counter(layout.code for layout in plan.layouts)
    if boards != Counter({p.code: p.count for p in plan.purchases}):
        faults.append("purchases do not match the boards laid out")
    for purchase in plan.purchases:
        line = lines[purchase.code]
        if purchase.amount != purchase.count * line.price:
            faults.append(f"{purchase.code}: amount is not count times price")
        if line.count is not None and purchase.count > line.count:
            faults.append(f"{purchase.code}: more than there are")
    if plan.boards_cost != sum(p.amount for p in plan.purchases):
        faults.append("the boards' cost is not the purchases' sum")
    if plan.lower_bound > plan.cost:
        faults.append("the bound is above the cost")
    if (plan.status == "optimal") != (plan.lower_bound == plan.cost):
        faults.append("the status does not match bound and cost")
    if plan.status not in ("optimal", "bounded"):
        faults.append("no such status")
    return faults
