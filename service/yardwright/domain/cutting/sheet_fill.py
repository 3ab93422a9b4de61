"""Sheets filled by hand, as a shop would do it, several ways: a first upper limit, of large jobs the plan.

A part goes into a corner, the piece is cut through beside it and above it in one order or the other, and
both rests are filled in turn. Which part comes first is drawn by a fixed rule from a fixed seed; what is
kept is the cheapest plan.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass

from .blocks import ACROSS, ALONG, Block, Leaf, group
from .guillotine import Room
from .sheet_job import CutSheet, SheetJob, cost_of

_LINES = 4  # of the yard's sheets that are tried for one more sheet: the best by area for the money


def by_hand(job: SheetJob, least: int, placed: int) -> list[CutSheet] | None:
    """The cheapest of several fillings, some ``placed`` parts set down in all; None when none takes all."""
    parts = sum(min(kind.most, 20) for kind in job.kinds) * min(_LINES, len(job.boards))
    best: list[CutSheet] | None = None
    for turn in range(max(1, placed // parts)):
        sheets = _Filling(job, turn).all()
        if sheets is not None and (best is None or cost_of(job, sheets) < cost_of(job, best)):
            best = sheets
            if cost_of(job, best)[0] <= least:
                break
    return best


@dataclass(frozen=True, slots=True)
class _Filled:
    board: int
    blocks: tuple[Block | None, ...]
    left: list[int]
    area: int


class _Filling:
    """One try: ``turn`` 0 takes the largest part first and cuts the shorter rest off; others are drawn."""

    def __init__(self, job: SheetJob, turn: int) -> None:
        self.job = job
        draw = random.Random(turn)
        spread = (0.0, 0.15, 0.4, 0.8)[turn % 4] if turn else 0.0
        long = turn // 4 % 2
        keys = [
            (max(k.x_nm, k.y_nm) ** 2 if long else k.area) * (1 + spread * (2 * draw.random() - 1))
            for k in job.kinds
        ]
        self.order = sorted(range(len(keys)), key=lambda i: (-keys[i], i))
        self.split = turn % 3
        self.fit = draw.choice((0, 1)) if turn else 0
        self.lies = [
            [(k.x_nm, k.y_nm, job.leaf(i, False))]
            + ([(*k.turned, job.leaf(i, True))] if k.turned else [])
            for i, k in enumerate(job.kinds)
        ]
        self.rooms = [job.rooms(b) for b in range(len(job.boards))]
        area = [sum(w * h for w, h in rooms) for rooms in self.rooms]
        lines = [b for b, a in enumerate(area) if a]
        self.ranked = sorted(lines, key=lambda b: (job.boards[b].price / area[b], b))

    def all(self) -> list[CutSheet] | None:
        """Sheet after sheet, the one with the least price for what it takes; the last the cheapest.

        A sheet is cut again as often as its parts and the yard's count allow.
        """
        left = [kind.most for kind in self.job.kinds]
        free = [b.count for b in self.job.boards]
        sheets: list[CutSheet] = []
        while any(left):
            filled = [one for b in self._lines(left, free) if (one := self._sheet(b, left)).area]
            if not filled:
                return None
            best = min(filled, key=self._dearness)
            taken = [before - after for before, after in zip(left, best.left, strict=True)]
            times = min(n // t for n, t in zip(left, taken, strict=True) if t)
            count = free[best.board]
            if count is not None:
                times = min(times, count)
                free[best.board] = count - times
            left = [n - t * times for n, t in zip(left, taken, strict=True)]
            sheets += [CutSheet(best.board, best.blocks)] * times
        return sheets

    def _lines(self, left: Sequence[int], free: Sequence[int | None]) -> list[int]:
        """Sheets to try next: those that hold the first part in order, and the cheapest that may take all."""
        there = [b for b in self.ranked if free[b] != 0]
        first = next(i for i in self.order if left[i])
        lies = [(x, y) for x, y, _ in self.lies[first]]
        holding = [b for b in there if any(x <= w and y <= h for x, y in lies for w, h in self.rooms[b])]
        rest = sum(n * k.area for n, k in zip(left, self.job.kinds, strict=True))
        enough = [b for b in there if sum(w * h for w, h in self.rooms[b]) >= rest]
        cheap = sorted(enough, key=lambda b: (self.job.boards[b].price, b))
        return sorted({*holding[:_LINES], *cheap[:_LINES]})

    def _dearness(self, one: _Filled) -> tuple[bool, float, int]:
        price = self.job.boards[one.board].price
        last = not any(one.left)
        return (not last, price if last else price / one.area, one.board)

    def _sheet(self, board: int, left: list[int]) -> _Filled:
        after = list(left)
        blocks = tuple(self._room(room, after) for room in self.rooms[board])
        taken = zip(left, after, self.job.kinds, strict=True)
        return _Filled(board, blocks, after, sum((n - rest) * k.area for n, rest, k in taken))

    def _room(self, room: Room, left: list[int]) -> Block | None:
        chosen = self._part(room, left)
        if chosen is None:
            return None
        x, y, leaf = chosen
        left[leaf.kind] -= 1
        beside, above = room[0] - x, room[1] - y
        if self._crosscut_first(room, beside, above):
            column = self._set(ACROSS, leaf, self._room((x, above), left))
            return self._set(ALONG, column, self._room((beside, room[1]), left))
        row = self._set(ALONG, leaf, self._room((beside, y), left))
        return self._set(ACROSS, row, self._room((room[0], above), left))

    def _crosscut_first(self, room: Room, beside: int, above: int) -> bool:
        """The larger rest stays in one piece, or the cut always runs one way."""
        if self.split == 0:
            return beside * room[1] >= above * room[0]
        return self.split == 1

    def _set(self, way: str, first: Block, second: Block | None) -> Block:
        return group(way, [first, second], self.job.rules) if second else first

    def _part(self, room: Room, left: list[int]) -> tuple[int, int, Leaf] | None:
        """The first in order that goes in; of equals in order the way that leaves the narrower rest."""
        best: tuple[int, int, Leaf] | None = None
        least = 0
        for i in self.order:
            if not left[i]:
                continue
            for lie in self.lies[i]:
                if lie[0] > room[0] or lie[1] > room[1]:
                    continue
                rest = min(room[0] - lie[0], room[1] - lie[1])
                if best is None or rest < least:
                    best, least = lie, rest
            if best is not None and not self.fit:
                break
        return best
