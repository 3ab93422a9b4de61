"""A job of sheets in one form: kinds of parts, sheets with their clear rooms, the plan as blocks in rooms."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..errors import BadJob, Fault
from .blocks import Block, Leaf, leaves
from .guillotine import Kind, Room
from .model import CutRules, NeededPart, StockLine
from .objective import SCALE
from .problem import Board, Need, Problem, Size, clear_lengths
from .sheet_bounds import Offer


@dataclass(frozen=True, slots=True)
class SheetJob:
    """``kinds`` carry one kerf; ``kind_of`` is by part asked, ``marks`` by kind: (mark, count) as asked.

    ``boards`` are the sheets as sold, their clear lengths between end trims and blocked zones.
    """

    kinds: tuple[Kind, ...]
    kind_of: tuple[int, ...]
    marks: tuple[tuple[tuple[str, int], ...], ...]
    boards: tuple[Board, ...]
    rules: CutRules

    def rooms(self, board: int) -> list[Room]:
        """Each clear length of a sheet by its width within the edge trims, one kerf added to both."""
        sheet, rules = self.boards[board], self.rules
        wide = sheet.width_nm - 2 * rules.edge_trim_nm + rules.rip_kerf_nm
        return [(to - start + rules.crosscut_kerf_nm, wide) for start, to in sheet.clear]

    def offers(self) -> list[Offer]:
        """The sheets as the bound sees them: blocked zones do not count, trims do."""
        trim, kerf = self.rules.end_trim_nm, self.rules.crosscut_kerf_nm
        return [
            Offer((b.length_nm - 2 * trim + kerf, self.rooms(at)[0][1]), b.price, b.count)
            for at, b in enumerate(self.boards)
            if b.clear
        ]

    def problem(self) -> Problem:
        """The same as the planner of boards takes it: every kind a need of its own."""
        sizes = tuple(
            Size(k.x_nm - self.rules.crosscut_kerf_nm, k.y_nm - self.rules.rip_kerf_nm, False, k.most)
            for k in self.kinds
        )
        needs = tuple(Need(kind.most, any_of=(i,)) for i, kind in enumerate(self.kinds))
        return Problem(sizes, needs, self.boards, self.rules, self.marks)

    def leaf(self, kind: int, turned: bool) -> Leaf:
        """A part as it lies."""
        known = self.kinds[kind]
        x, y = known.turned if turned and known.turned else (known.x_nm, known.y_nm)
        return Leaf(kind, x - self.rules.crosscut_kerf_nm, y - self.rules.rip_kerf_nm)


@dataclass(frozen=True, slots=True)
class CutSheet:
    """One sheet of the plan: the block of each clear length, None where nothing is cut from it."""

    board: int
    blocks: tuple[Block | None, ...]

    def counts(self, job: SheetJob) -> list[int]:
        """How many parts of each kind it gives."""
        counts = [0] * len(job.kinds)
        for block in self.blocks:
            for leaf in leaves(block) if block else ():
                counts[leaf.kind] += 1
        return counts

    def filled(self, job: SheetJob) -> float:
        """Area of parts against area bought."""
        sheet = job.boards[self.board]
        area = sum(leaf.x_nm * leaf.y_nm for block in self.blocks if block for leaf in leaves(block))
        return area / (sheet.length_nm * sheet.width_nm)


def cost_of(job: SheetJob, sheets: Sequence[CutSheet]) -> tuple[int, int]:
    """(price, length bought) of a plan."""
    boards = [job.boards[one.board] for one in sheets]
    return sum(b.price for b in boards), sum(0 if b.on_hand else b.length_nm for b in boards)


def read_job(parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules) -> SheetJob:
    """Equal parts become one kind, whatever their marks."""
    merged: dict[tuple[int, int, bool], list[tuple[str, int]]] = {}
    keys = []
    for part in parts:
        long, wide = part.length_nm, part.width_nm
        turns = part.grain == "either" and long != wide
        key = (max(long, wide), min(long, wide), True) if turns else (long, wide, False)
        keys.append(key)
        merged.setdefault(key, []).append((part.mark, part.count))
    order = sorted(merged, key=lambda k: (-k[0] * k[1], k))
    kinds = []
    for long, wide, turns in order:
        x, y = long + rules.crosscut_kerf_nm, wide + rules.rip_kerf_nm
        turned = (wide + rules.crosscut_kerf_nm, long + rules.rip_kerf_nm) if turns else None
        kinds.append(Kind(x, y, turned, sum(count for _, count in merged[long, wide, turns])))
    wide_enough = [line for line in stock if line.width_nm > 2 * rules.edge_trim_nm]
    boards = tuple(
        Board(s.code, s.length_nm, s.width_nm, s.price, s.count, clear_lengths(s, rules), s.on_hand)
        for s in wide_enough
    )
    return SheetJob(
        tuple(kinds),
        tuple(order.index(key) for key in keys),
        tuple(tuple(merged[key]) for key in order),
        boards,
        rules,
    )


@dataclass(frozen=True, slots=True)
class ChargedJob:
    """``job`` with its sheets charged in thousandths; ``parts`` is what all parts add at least."""

    job: SheetJob
    parts: float

    def bound(self, searched: int) -> int:
        """The bound in whole minor units, from the search's own."""
        return math.floor(searched / SCALE + self.parts + 1e-6)


def charge(job: SheetJob) -> ChargedJob:
    """Sheets less the credit of all their clear length; parts add the credit of the length they take.

    n parts from k sheets take at least n - k cuts, each at least as dear as the cheapest cut there is.
    Refuses a credit that makes a sheet worth more than it costs.
    """
    rules = job.rules
    credit = rules.offcut_credit_per_m / 1e9
    shortest = min(min(k.x_nm, k.y_nm) for k in job.kinds) - max(rules.crosscut_kerf_nm, rules.rip_kerf_nm)
    first = rules.crosscut_cost if rules.end_trim_nm else 0.0
    each = min(rules.crosscut_cost, rules.rip_cost_per_m * max(shortest, 0) / 1e9)
    net = [b.price - credit * sum(to - start for start, to in b.clear) + first for b in job.boards]
    if any(price < each for price in net):
        each = 0.0
    for board, price in zip(job.boards, net, strict=True):
        if price < 0 and not board.on_hand:
            raise BadJob(
                Fault(
                    "/costs/offcut_credit_per_m",
                    f"{board.code}: its offcut would earn more than the whole sheet costs",
                )
            )
    boards = tuple(
        replace(b, price=max(0, math.floor((price - each) * SCALE)))
        for b, price in zip(job.boards, net, strict=True)
    )
    on_rack = sum(
        min(0.0, price) * (b.count or 0) for b, price in zip(job.boards, net, strict=True) if b.on_hand
    )
    widest = max(b.width_nm for b in job.boards)
    area = sum(
        k.most * (k.x_nm - rules.crosscut_kerf_nm) * (k.y_nm - rules.rip_kerf_nm) for k in job.kinds
    )
    parts = credit * area / widest + each * sum(k.most for k in job.kinds) + on_rack
    return ChargedJob(replace(job, boards=boards), parts)
