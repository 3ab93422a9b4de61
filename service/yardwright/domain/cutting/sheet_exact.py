"""Sheets, exactly: what through cuts can free at a given cost, then the cheapest purchase, proven."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

from .blocks import ACROSS, ALONG, Block, group, leaves, renamed, without
from .bounds import Sums
from .counts import Packing
from .effort import EFFORT, Effort, Steps
from .exact import Table, exact
from .guillotine import ALONG_X, PART, Blocks, Room, Shape, blocks_of
from .patterns import Pattern
from .pool import pool_of
from .purchases import shorter_exists
from .refusals import refuse_too_little
from .relaxed import Master, safe_bound
from .sheet_bounds import weight_bound
from .sheet_fill import by_hand
from .sheet_job import CutSheet, SheetJob, cost_of

_MOST_WAYS = 5_000  # purchases tried for the most area that money buys
_SHARES = 6  # of what lies between bound and plan, tried one after the other
_TIDIED = 1_500  # steps of listing for one sheet
_ANEW, _PLACED = 8_000, 1_000  # steps of listing and parts set down for one small part of a large job
_MOST_PATTERNS = 20_000


@dataclass(frozen=True, slots=True)
class Way:
    """What one sheet can give: packed parts of each of its clear lengths."""

    board: int
    rooms: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Solved:
    """The cheapest sheets found, what none can cost less than, and what ended an unproven search."""

    sheets: list[CutSheet]
    bound: int
    stopped: str


def solve(
    job: SheetJob, known: list[CutSheet] | None, least: int, effort: Effort, steps: Steps
) -> Solved | None:
    """The cheapest plan, cost by cost from ``least`` up to what is known, as far as the steps go.

    For each cost the area bought says how much may be wasted, and only blocks that waste no more are listed:
    few, where the parts all but fill the sheets. None when nothing is known and the job is too large to list;
    raises NoStock when the stock runs out.
    """
    if known is None:
        return _from_nothing(job, effort, steps)
    below = cost_of(job, known)
    sums = Sums(job.boards, below[0])
    least = _enough_area(job, least, below[0], sums)
    while least < below[0]:
        most = least + (below[0] - least) // _SHARES
        found = _costing(job, most, (most + sums.unit, 0), effort, steps)
        if found is None or found.stopped:
            return Solved(known, least, "steps" if found is None else found.stopped)
        if found.sheets:
            return Solved(found.sheets, found.bound, "")
        least = max(sums.reach(most + 1), most + 1)
    if shorter_exists(job.problem(), below):
        found = _costing(job, below[0], below, effort, steps)
        if found is not None and found.sheets:
            known = found.sheets
    return Solved(known, below[0], "")


def _from_nothing(job: SheetJob, effort: Effort, steps: Steps) -> Solved | None:
    """No plan is known: counted sheets may not be enough. Everything is listed."""
    parts = sum(kind.most for kind in job.kinds)
    dearest = sum(b.price * (parts if b.count is None else b.count) for b in job.boards)
    found = _cheapest(job, None, (dearest + Sums(job.boards, dearest).unit, 0), effort, steps)
    if found is not None and not found.sheets:
        raise refuse_too_little(job.problem(), range(len(job.kinds)))
    return found


def _enough_area(job: SheetJob, least: int, most: int, sums: Sums) -> int:
    """The least cost, from ``least`` to ``most``, that buys the parts' area."""
    wanted = sum(kind.most * kind.area for kind in job.kinds)
    while least < most:
        half = (least + most) // 2
        if _most_area(job, half) < wanted:
            least = min(max(sums.reach(half + 1), half + 1), most)
        else:
            most = half
    return max(sums.reach(least), least)


def _costing(
    job: SheetJob, most: int, below: tuple[int, int], effort: Effort, steps: Steps
) -> Solved | None:
    """A plan for ``most`` at most; no sheets when there is none; None when the steps are spent."""
    waste = _most_area(job, most) - sum(kind.most * kind.area for kind in job.kinds)
    return Solved([], most, "") if waste < 0 else _cheapest(job, waste, below, effort, steps)


def _most_area(job: SheetJob, money: int) -> int:
    """The most area, a kerf added to each room, that so much money buys."""
    lines = [
        (b.price, sum(x * y for x, y in job.rooms(at)), b.count)
        for at, b in enumerate(job.boards)
        if b.count != 0 and b.clear
    ]
    parts = sum(kind.most for kind in job.kinds)
    free = sum(area * (parts if count is None else count) for price, area, count in lines if not price)
    paid = sorted((line for line in lines if line[0]), key=lambda line: -line[1] / line[0])
    ways = math.prod(money // price + 1 for price, _, _ in paid[:-1])
    if ways > _MOST_WAYS:
        return free + math.floor(money * max(area / price for price, area, _ in paid)) + 1
    return free + _most(paid, money)


def _most(lines: Sequence[tuple[int, int, int | None]], money: int) -> int:
    if not lines:
        return 0
    price, area, count = lines[0]
    many = money // price if count is None else min(count, money // price)
    if len(lines) == 1:
        return many * area
    return max(n * area + _most(lines[1:], money - n * price) for n in range(many + 1))


def _cheapest(
    job: SheetJob, waste: int | None, below: tuple[int, int], effort: Effort, steps: Steps
) -> Solved | None:
    """The cheapest plan under (cost, length) ``below`` in which no sheet wastes more than ``waste``."""
    rooms = sorted({room for at, b in enumerate(job.boards) if b.count != 0 for room in job.rooms(at)})
    blocks = blocks_of(job.kinds, rooms, steps, waste)
    if blocks is None:
        return None
    ways = list(_ways(job, blocks))
    if len(ways) > _MOST_PATTERNS:
        return None
    patterns = [_pattern(way, blocks.pack) for way in ways]
    problem = job.problem()
    pool = pool_of(problem, patterns)
    penalty = 100.0 * (below[0] + 1)
    master = Master(pool, penalty)
    root = master.solve() if patterns else None
    if root is None or root.cost >= penalty / 10:
        return Solved([], below[0], "")
    table = Table(pool, master, root, safe_bound(pool, root.worth))
    proof = exact(table, below, Sums(job.boards, below[0]), effort)
    if proof.plan is None:
        return Solved([], proof.bound, "" if proof.finished else proof.stopped)
    known = {(p.board, p.counts): way for p, way in zip(patterns, ways, strict=True)}
    chosen = [known[p.board, p.counts] for p, times in proof.plan for _ in range(times)]
    return Solved(_cut(job, blocks, chosen), proof.bound, "" if proof.finished else proof.stopped)


def tidied(job: SheetJob, sheets: Sequence[CutSheet]) -> list[CutSheet]:
    """Each sheet's parts laid so that the largest offcut is left, where all ways can be listed soon."""
    done: dict[CutSheet, CutSheet] = {}
    for one in sheets:
        if one not in done:
            rooms = zip(one.blocks, job.rooms(one.board), strict=True)
            done[one] = replace(one, blocks=tuple(b and _tidied(job, b, room) for b, room in rooms))
    return [done[one] for one in sheets]


def _tidied(job: SheetJob, block: Block, room: Room) -> Block:
    counts = [0] * len(job.kinds)
    for leaf in leaves(block):
        counts[leaf.kind] += 1
    kept = [i for i, count in enumerate(counts) if count]
    kinds = tuple(replace(job.kinds[i], most=counts[i]) for i in kept)
    blocks = blocks_of(kinds, [room], Steps(_TIDIED))
    if blocks is None:
        return block
    shapes = blocks.fitting(sum(counts[i] * blocks.pack.one(at) for at, i in enumerate(kept)), room)
    return renamed(block_of(replace(job, kinds=kinds), _roomiest(shapes, room)), kept)


def anew(job: SheetJob, sheets: Sequence[CutSheet], picked: Sequence[int]) -> list[CutSheet] | None:
    """The parts of some sheets cut from cheaper ones, or from less length; None where that is not found."""
    before = [sheets[at] for at in picked]
    wanted = [sum(column) for column in zip(*(one.counts(job) for one in before), strict=True)]
    used = [0] * len(job.boards)
    for at, one in enumerate(sheets):
        used[one.board] += at not in picked
    kept = [i for i, count in enumerate(wanted) if count]
    part = replace(
        job,
        kinds=tuple(replace(job.kinds[i], most=wanted[i]) for i in kept),
        marks=tuple(job.marks[i] for i in kept),
        boards=tuple(
            b if b.count is None else replace(b, count=b.count - used[at]) for at, b in enumerate(job.boards)
        ),
    )
    own = [CutSheet(o.board, tuple(b and renamed(b, _places(kept)) for b in o.blocks)) for o in before]
    price = cost_of(job, before)[0]
    least = Sums(part.boards, price).reach(weight_bound(part.kinds, part.offers()))
    if least >= price:
        return None
    found = solve(part, by_hand(part, least, _PLACED) or own, least, EFFORT["quick"], Steps(_ANEW))
    if found is None or cost_of(job, found.sheets) >= cost_of(job, before):
        return None
    return [
        CutSheet(one.board, tuple(b and renamed(b, kept) for b in one.blocks)) for one in found.sheets
    ]


def _places(kept: Sequence[int]) -> dict[int, int]:
    return {i: at for at, i in enumerate(kept)}


def _pattern(way: Way, pack: Packing) -> Pattern:
    counts = pack.unpack(sum(way.rooms))
    return Pattern(way.board, counts, counts, ())


def _ways(job: SheetJob, blocks: Blocks) -> Iterator[Way]:
    """What each sheet can give, where no further part goes in."""
    within: dict[Room, list[int]] = {}
    for board, sheet in enumerate(job.boards):
        if sheet.count == 0:
            continue
        for room in job.rooms(board):
            if room not in within:
                within[room] = [parts for parts in blocks.shapes if blocks.fitting(parts, room)]
        yield from _full(board, [within[room] for room in job.rooms(board)], blocks.pack)


def _full(board: int, within: Sequence[Sequence[int]], pack: Packing) -> Iterator[Way]:
    together: dict[int, tuple[int, ...]] = {0: ()}
    for fitting in within:
        grown: dict[int, tuple[int, ...]] = {}
        for (parts, rooms), more in product(together.items(), (0, *fitting)):
            if pack.fits(parts + more):
                grown.setdefault(parts + more, (*rooms, more))
            if len(grown) > _MOST_PATTERNS:
                break
        together = grown
    one = [pack.one(i) for i, most in enumerate(pack.most) if most]
    for parts, rooms in together.items():
        if parts and not any(pack.fits(parts + more) and parts + more in together for more in one):
            yield Way(board, rooms)


def _cut(job: SheetJob, blocks: Blocks, chosen: Sequence[Way]) -> list[CutSheet]:
    """The fullest sheets first; what is not needed is not cut, so the last one keeps the largest offcut."""
    pack = blocks.pack
    area = [kind.area for kind in job.kinds]

    def filled(way: Way) -> int:
        return sum(n * a for n, a in zip(pack.unpack(sum(way.rooms)), area, strict=True))

    left = [kind.most for kind in job.kinds]
    sheets = []
    for way in sorted(chosen, key=lambda way: (-filled(way), way.board, way.rooms)):
        cut: list[Block | None] = []
        for parts, room in zip(way.rooms, job.rooms(way.board), strict=True):
            taken = [min(n, free) for n, free in zip(pack.unpack(parts), left, strict=True)]
            left = [free - n for n, free in zip(taken, left, strict=True)]
            cut.append(_room(job, blocks, room, parts, taken))
        if any(cut):
            sheets.append(CutSheet(way.board, tuple(cut)))
    return sheets


def _room(job: SheetJob, blocks: Blocks, room: Room, parts: int, taken: Sequence[int]) -> Block | None:
    """The block of the parts taken; where it was not listed, the larger one without the others."""
    needed = sum(n * blocks.pack.one(i) for i, n in enumerate(taken) if n)
    if not needed:
        return None
    if shapes := blocks.fitting(needed, room):
        return block_of(job, _roomiest(shapes, room))
    more = [n - t for n, t in zip(blocks.pack.unpack(parts), taken, strict=True)]
    return without(block_of(job, _roomiest(blocks.fitting(parts, room), room)), more, job.rules)


def _roomiest(shapes: Sequence[Shape], room: Room) -> Shape:
    """The block that leaves the largest offcut in one piece."""
    return max(shapes, key=lambda s: max((room[0] - s[0]) * room[1], (room[1] - s[1]) * room[0]))


def block_of(job: SheetJob, shape: Shape) -> Block:
    """A listed shape as blocks without kerfs."""
    if shape[2] == PART:
        return job.leaf(shape[3], shape[4])
    way = ALONG if shape[2] == ALONG_X else ACROSS
    return group(way, [block_of(job, shape[3]), block_of(job, shape[4])], job.rules)
