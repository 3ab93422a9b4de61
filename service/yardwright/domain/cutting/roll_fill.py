"""Rolls laid by hand: rows across the roll, longest pieces first, then the same in fewer steps if it goes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .blocks import ACROSS, ALONG, Block, Leaf, group
from .problem import Board
from .roll_job import Panel, Roll, Share, cost_of
from .sheet_fill import by_hand as fill_sheets
from .sheet_job import SheetJob

_TRIED = 600  # parts set down for each number of steps
_ONCE = 150  # of a job's first filling
_MANY = 400  # pieces beyond which rows are left as they are
_CROWD = 2_000  # panels beyond which one filling has to do
_OPEN = 60  # rows, and lengths, still looked at for a further piece


def by_hand(
    panels: Sequence[Panel], rolls: Sequence[Roll], least: int, thorough: bool = True
) -> list[Share]:
    """The cheapest of: all from one roll; each panel from the roll where its area costs least.

    Not ``thorough``: side by side only, for a first upper limit.
    """
    every = range(len(panels))
    tries = [[at] * len(panels) for at, roll in enumerate(rolls) if all(m is not None for m in roll.made_of)]
    tries.append([min(range(len(rolls)), key=lambda r: (_area_cost(rolls[r], k), r)) for k in every])
    crowd = sum(panel.count for panel in panels) > _CROWD
    plans = []
    for of in tries[-1:] if crowd else tries:
        plan = []
        for at in sorted(set(of)):
            share = tuple(panels[k].count if of[k] == at else 0 for k in every)
            filled = _filled(rolls[at], rolls[at].pieces(share)) if thorough else None
            ways = [] if filled is None else [Share(at, share, filled)]
            for way in range(0 if crowd and filled else 3):
                ways.append(Share(at, share, tuple(_side_by_side(rolls[at], share, way))))
            rows = min(ways, key=lambda one: cost_of(rolls, [one]))
            plan.append(rows)
        plans.append(plan)
    best = min(plans, key=lambda plan: cost_of(rolls, plan))
    many = sum(panel.count for panel in panels) > _MANY
    if not thorough or many or cost_of(rolls, best) <= least:
        return best
    tighter = [[replace(one, lengths=_tighter(rolls[one.roll], one)) for one in plan] for plan in plans]
    return min(tighter, key=lambda plan: cost_of(rolls, plan))


def _area_cost(roll: Roll, panel: int) -> float:
    made = roll.made_of[panel]
    if made is None:
        return float("inf")
    area = sum(roll.kinds[k].area * n for k, n in made)
    return area * roll.line.price / (roll.line.length_nm * roll.room[1])


def _side_by_side(roll: Roll, panels: Sequence[int], way: int) -> list[Block]:
    """Longest first, each piece into the first row with room across; rows one after another.

    ``way`` of lying for pieces that may turn: 0 the shorter along the roll, 1 the longer, 2 whichever takes
    less length for as many as go side by side.
    """
    pieces = sorted(
        (_lying(roll, kind, way) for kind, n in enumerate(roll.pieces(panels)) for _ in range(n)),
        key=lambda leaf: (-leaf.x_nm, -leaf.y_nm, leaf.kind),
    )
    rip, cross, wide = roll.rules.rip_kerf_nm, roll.rules.crosscut_kerf_nm, roll.line.width_nm
    rows: list[list[Block]] = []
    free: list[int] = []
    for leaf in pieces:
        at = next((r for r in range(max(0, len(rows) - _OPEN), len(rows)) if leaf.y_nm <= free[r]), None)
        if at is None:
            rows.append([leaf])
            free.append(wide - leaf.y_nm - rip)
        else:
            rows[at].append(leaf)
            free[at] -= leaf.y_nm + rip
    most = roll.most_nm - 2 * roll.rules.end_trim_nm
    lengths: list[tuple[int, list[Block]]] = []
    for row in (group(ACROSS, row, roll.rules) for row in rows):
        recent = range(max(0, len(lengths) - _OPEN), len(lengths))
        at = next((n for n in recent if lengths[n][0] + cross + row.x_nm <= most), None)
        if at is None:
            lengths.append((row.x_nm, [row]))
        else:
            used, held = lengths[at]
            lengths[at] = (used + cross + row.x_nm, [*held, row])
    return [group(ALONG, held, roll.rules) for _, held in lengths]


def _lying(roll: Roll, kind: int, way: int) -> Leaf:
    known = roll.kinds[kind]
    most = roll.room[0]
    ways = [roll.leaf(kind, False)] if known.x_nm <= most else []
    if known.turned and known.turned[0] <= most:
        ways.append(roll.leaf(kind, True))
    wide, rip = roll.line.width_nm, roll.rules.rip_kerf_nm

    def length_each(leaf: Leaf) -> float:
        return leaf.x_nm / ((wide + rip) // (leaf.y_nm + rip))

    return min(ways, key=length_each if way == 2 else lambda leaf: -leaf.x_nm if way else leaf.x_nm)



def _filled(roll: Roll, counts: Sequence[int]) -> tuple[Block, ...] | None:
    """Longest lengths filled as sheets are, the last from a shorter one where that holds what is left."""
    full = roll.most_nm // roll.line.length_nm
    steps = sorted({max(1, full * share // 8) for share in range(1, 9)}, reverse=True)
    return _in_lengths(roll, counts, [(number, None) for number in steps], _ONCE)


def _tighter(roll: Roll, share: Share) -> tuple[Block, ...]:
    """The same pieces in fewer steps of the roll, by halves between the area and the rows."""
    counts, rows = roll.pieces(share.panels), share.lengths
    step, full = roll.line.length_nm, roll.most_nm // roll.line.length_nm
    area = sum(n * kind.area for n, kind in zip(counts, roll.kinds, strict=True))
    least = -(-area // (roll.room[1] * step))
    best, most = rows, sum(roll.bought_nm(block.x_nm) for block in rows) // step
    while least < most:
        half = (least + most) // 2
        found = _in_steps(roll, counts, half // full, half % full)
        if found is None:
            least = half + 1
        else:
            best, most = found, half
    return best


def _in_steps(roll: Roll, counts: Sequence[int], whole: int, last: int) -> tuple[Block, ...] | None:
    """The pieces from so many of the longest lengths and one of ``last`` steps, if a filling finds room."""
    full = roll.most_nm // roll.line.length_nm
    return _in_lengths(roll, counts, [(full, whole), (last, 1)], _TRIED)


def _in_lengths(
    roll: Roll, counts: Sequence[int], lengths: Sequence[tuple[int, int | None]], placed: int
) -> tuple[Block, ...] | None:
    """``lengths``: (steps of the roll, how many such lengths there may be)."""
    trim, step, wide = roll.rules.end_trim_nm, roll.line.length_nm, roll.line.width_nm
    boards = tuple(
        Board(str(number), number * step, wide, number, count, ((trim, number * step - trim),), False)
        for number, count in lengths
        if count != 0 and number * step > 2 * trim
    )
    kinds = tuple(replace(kind, most=n) for kind, n in zip(roll.kinds, counts, strict=True))
    rules = replace(roll.rules, edge_trim_nm=0)
    sheets = fill_sheets(SheetJob(kinds, (), (), boards, rules), 0, placed) if boards else None
    if sheets is None:
        return None
    return tuple(block for sheet in sheets for block in sheet.blocks if block is not None)
