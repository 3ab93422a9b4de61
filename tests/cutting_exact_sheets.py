"""Exact answers for a handful of sheet or roll parts, by ways that share no code with the planner.

``guillotine_cost``: the shortest length of each choice of parts for each width, from the top down: every cut
parts a piece in two, all ways to share the parts out. ``packing_cost``: OR-tools CP-SAT, parts anywhere on
explicit sheets without overlap: it may need no through cuts, so it is never dearer.
"""

from __future__ import annotations

import functools
import itertools
from collections.abc import Sequence

from ortools.sat.python import cp_model

from yardwright.domain.cutting.model import CutRules, NeededPart, StockLine

FAR = 10**12


def items_of(parts: Sequence[NeededPart]) -> list[tuple[int, int, bool]]:
    return [(p.length_nm, p.width_nm, p.grain == "either") for p in parts for _ in range(p.count)]


class Guillotine:
    """``length(chosen, wide)``: the least length of a piece so wide that gives the chosen parts (bits)."""

    def __init__(self, items: Sequence[tuple[int, int, bool]], rules: CutRules) -> None:
        self.items, self.rules = items, rules
        self.length = functools.cache(self._length)

    def _length(self, chosen: int, wide: int) -> int:
        if chosen & (chosen - 1) == 0:
            long, across, turns = self.items[chosen.bit_length() - 1]
            ways = [(long, across), (across, long)] if turns else [(long, across)]
            return min((x for x, y in ways if y <= wide), default=FAR)
        best = FAR
        half = (chosen - 1) & chosen
        while half:
            rest = chosen ^ half
            if half & chosen & -chosen:  # the first part is in this half: each sharing once
                both = self.length(half, wide) + self.length(rest, wide)
                best = min(best, both + self.rules.crosscut_kerf_nm)
            for low in self._widths(half):
                if low + self.rules.rip_kerf_nm < wide:
                    other = self.length(rest, wide - low - self.rules.rip_kerf_nm)
                    best = min(best, max(self.length(half, low), other))
            half = (half - 1) & chosen
        return best

    @functools.cache  # noqa: B019 - one short life
    def _widths(self, chosen: int) -> tuple[int, ...]:
        """Every width parts side by side can add up to: a cut anywhere else could move down to one."""
        sums = {-self.rules.rip_kerf_nm}
        for i, (long, across, turns) in enumerate(self.items):
            if chosen >> i & 1:
                for size in {across, long} if turns else {across}:
                    sums |= {s + self.rules.rip_kerf_nm + size for s in sums}
        return tuple(sorted(s for s in sums if s > 0))


def guillotine_cost(parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules) -> int | None:
    """The least price of sheets over every way of through cuts; None when the stock is not enough."""
    items = items_of(parts)
    cut = Guillotine(items, rules)
    every = (1 << len(items)) - 1
    free = tuple(len(items) if line.count is None else line.count for line in stock)

    @functools.cache
    def fits(chosen: int, line: int) -> bool:
        wide = stock[line].width_nm - 2 * rules.edge_trim_nm
        return _in_lengths(cut, chosen, wide, clear_lengths(stock[line], rules))

    @functools.cache
    def least(left: int, counts: tuple[int, ...]) -> int:
        if not left:
            return 0
        best, first = FAR, left & -left
        for line, count in enumerate(counts):
            if not count:
                continue
            fewer = (*counts[:line], count - 1, *counts[line + 1 :])
            chosen = left
            while chosen:
                if chosen & first and fits(chosen, line):
                    best = min(best, stock[line].price + least(left ^ chosen, fewer))
                chosen = (chosen - 1) & left
        return best

    cost = least(every, free)
    return cost if cost < FAR else None


def _in_lengths(cut: Guillotine, chosen: int, wide: int, lengths: Sequence[int]) -> bool:
    if not chosen:
        return True
    if not lengths:
        return False
    here = chosen
    while True:
        if (not here or cut.length(here, wide) <= lengths[0]) and _in_lengths(
            cut, chosen ^ here, wide, lengths[1:]
        ):
            return True
        if not here:
            return False
        here = (here - 1) & chosen


def clear_lengths(line: StockLine, rules: CutRules) -> list[int]:
    """What end trims and blocked zones leave; a zone counts as a kerf long at least."""
    at, end, clear = rules.end_trim_nm, line.length_nm - rules.end_trim_nm, []
    for start, to in sorted(line.blocked):
        clear.append(min(start, end) - at)
        at = max(at, to, start + rules.crosscut_kerf_nm if start > at else 0)
    clear.append(end - at)
    return [length for length in clear if length > 0]


def packing_cost(parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules) -> int | None:
    """CP-SAT: the least price with parts anywhere a kerf apart; blocked zones are not seen."""
    items = items_of(parts)
    copies = [s for s in stock for _ in range(len(items) if s.count is None else min(s.count, len(items)))]
    model = cp_model.CpModel()
    used = [model.new_bool_var("") for _ in copies]
    cross, rip = rules.crosscut_kerf_nm, rules.rip_kerf_nm
    boxes: list[list[tuple[object, object]]] = [[] for _ in copies]
    for long, wide, turns in items:
        there = []
        for at, sheet in enumerate(copies):
            room_x = sheet.length_nm - 2 * rules.end_trim_nm + cross
            room_y = sheet.width_nm - 2 * rules.edge_trim_nm + rip
            for x, y in [(long, wide), (wide, long)] if turns else [(long, wide)]:
                if x + cross > room_x or y + rip > room_y:
                    continue
                here = model.new_bool_var("")
                there.append(here)
                model.add_implication(here, used[at])
                boxes[at].append(
                    (
                        model.new_optional_fixed_size_interval_var(
                            model.new_int_var(0, room_x - x - cross, ""), x + cross, here, ""
                        ),
                        model.new_optional_fixed_size_interval_var(
                            model.new_int_var(0, room_y - y - rip, ""), y + rip, here, ""
                        ),
                    )
                )
        if not there:
            return None
        model.add_exactly_one(there)
    for of in boxes:
        model.add_no_overlap_2d([x for x, _ in of], [y for _, y in of])
    for a, b in itertools.pairwise(range(len(copies))):
        if copies[a] is copies[b]:
            model.add_implication(used[b], used[a])
    return _least(model, sum(u * s.price for u, s in zip(used, copies, strict=True)))


def _least(model: cp_model.CpModel, cost: object) -> int | None:
    model.minimize(cost)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = 60
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:
        return None
    assert status == cp_model.OPTIMAL, "the exact model did not finish"
    return round(solver.objective_value)


def roll_cost(parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules) -> int | None:
    """The least price of lengths: every sharing of panels over rolls, of pieces over lengths, every cut.

    Panels wider than a roll are laid as the shop lays them: turned where that spares a joint, then where it
    takes less area; full widths, then what is left.
    """
    panels = items_of(parts)
    best: int | None = None
    for of in itertools.product(range(len(stock)), repeat=len(panels)):
        total = 0
        for at, line in enumerate(stock):
            mine = [panel for panel, roll in zip(panels, of, strict=True) if roll == at]
            cost = _one_roll(mine, line, rules) if mine else 0
            if cost is None:
                break
            total += cost
        else:
            best = total if best is None else min(best, total)
    return best


@functools.cache
def _one_roll_of(mine: tuple[tuple[int, int, bool], ...], line: StockLine, rules: CutRules) -> int | None:
    most = (line.longest_nm or line.length_nm) // line.length_nm * line.length_nm - 2 * rules.end_trim_nm
    pieces: list[tuple[int, int, bool]] = []
    for panel in mine:
        found = _pieces(panel, line.width_nm, most, rules.overlap_nm)
        if found is None:
            return None
        pieces += found
    cut = Guillotine(pieces, rules)

    @functools.cache
    def least(left: int) -> int:
        if not left:
            return 0
        best, chosen = FAR, left
        while chosen:
            if chosen & left & -left:
                long = cut.length(chosen, line.width_nm)
                if long <= most:
                    steps = -(-(long + 2 * rules.end_trim_nm) // line.length_nm)
                    best = min(best, steps * line.price + least(left ^ chosen))
            chosen = (chosen - 1) & left
        return best

    cost = least((1 << len(pieces)) - 1)
    return cost if cost < FAR else None


def _one_roll(mine: list[tuple[int, int, bool]], line: StockLine, rules: CutRules) -> int | None:
    return _one_roll_of(tuple(sorted(mine)), line, rules)


def _pieces(
    panel: tuple[int, int, bool], roll: int, most: int, overlap: int
) -> list[tuple[int, int, bool]] | None:
    long, wide, turns = panel
    ways = []
    for x, y in dict.fromkeys([(long, wide), (wide, long)] if turns else [(long, wide)]):
        if x <= most:
            laid, left = [], y
            while left > roll:
                laid.append((x, roll, False))
                left -= roll - overlap
            ways.append([*laid, (x, left, False)])
    if not ways:
        return None
    fewest = min(map(len, ways))
    ways = [way for way in ways if len(way) == fewest]
    if fewest == 1:
        return [(*ways[0][0][:2], len(ways) == 2)]
    return min(ways, key=lambda way: (sum(x * y for x, y, _ in way), way[0][0]))
