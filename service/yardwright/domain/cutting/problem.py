"""What is asked of the planner, brought to one form: sizes to cut, needs to meet, boards to cut from.

Equal parts become one size, whatever their marks. A need is met by one size (a part), by any of several
(a sheet part that may be turned), or by a set of sizes from one board (matched strips of a glue-up).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from ..errors import BadJob, Fault, TooMuch
from .model import CutRules, NeededPart, StockLine

MOST_PARTS = 20_000
MOST_STOCK_LINES = 400
MOST_SIZES = 300


@dataclass(frozen=True, slots=True)
class Size:
    """One part size as it lies on the stock; ``most`` of them can be of use."""

    length_nm: int
    width_nm: int
    trim: bool
    most: int
    only_nm: int = 0  # cut only from boards of this width; 0 = any


@dataclass(frozen=True, slots=True)
class Need:
    """``count`` wanted. ``any_of``: each of these sizes meets one. ``set_of``: (size, how many) per set."""

    count: int
    any_of: tuple[int, ...] = ()
    set_of: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Board:
    """A stock line as the saw sees it: the clear lengths between end trims and blocked zones."""

    code: str
    length_nm: int
    width_nm: int
    price: int
    count: int | None
    clear: tuple[tuple[int, int], ...]
    on_hand: bool

    @property
    def longest_nm(self) -> int:
        return max((to - start for start, to in self.clear), default=0)


@dataclass(frozen=True, slots=True)
class Problem:
    """One group: everything cut from one kind of board."""

    sizes: tuple[Size, ...]
    needs: tuple[Need, ...]
    boards: tuple[Board, ...]
    rules: CutRules
    marks: tuple[tuple[tuple[str, int], ...], ...]  # by size: (mark, count), in the order asked
    one_size_each: bool = field(init=False)  # need n is met by size n and nothing else

    def __post_init__(self) -> None:
        each = len(self.needs) == len(self.sizes) and all(
            need.any_of == (n,) for n, need in enumerate(self.needs)
        )
        object.__setattr__(self, "one_size_each", each)

    def usable_width_nm(self, board_width_nm: int, trim: bool) -> int:
        """What is left across a board once both edges are trimmed, where they must be."""
        return board_width_nm - (2 * self.rules.edge_trim_nm if trim else 0)

    def holds(self, size: Size, board_width_nm: int) -> bool:
        """Whether the width of ``board_width_nm`` gives this size: as it is, or ripped where allowed."""
        if size.only_nm and size.only_nm != board_width_nm:
            return False
        if size.width_nm == board_width_nm and not self.trims(size):
            return True
        if size.width_nm > self.usable_width_nm(board_width_nm, size.trim):
            return False
        if size.width_nm < self.rules.least_strip_nm:
            return False
        return self.rules.rip_from_wider or board_width_nm == self._own_width_nm(size)

    def trims(self, size: Size) -> bool:
        """Whether this size's edges are trimmed here (a glue edge needs it, and the shop trims)."""
        return size.trim and self.rules.edge_trim_nm > 0

    def _own_width_nm(self, size: Size) -> int:
        wide = [
            b.width_nm for b in self.boards if self.usable_width_nm(b.width_nm, size.trim) >= size.width_nm
        ]
        return min(wide, default=0)


def read_problem(parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules) -> Problem:
    """The group in one form; refuses what cannot be meant, naming the place."""
    check_asked(parts, stock, rules)
    boards = tuple(_board(line, rules) for line in stock if _can_be_carried(line, rules))
    sizes, needs, marks = _sizes(parts)
    if len(sizes) > MOST_SIZES:
        raise TooMuch(
            Fault(
                "/parts",
                f"{len(sizes)} different sizes in one cutting plan; at most {MOST_SIZES}. Plan them in "
                f"groups, or round lengths to fewer sizes",
            )
        )
    return Problem(sizes, needs, boards, rules, marks)


def check_asked(parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules) -> None:
    """Refuse what cannot be meant: sizes, counts, zones, and more than one request may ask for."""
    faults = [*_part_faults(parts), *_stock_faults(stock), *_rule_faults(rules)]
    if faults:
        raise BadJob(*faults)
    if sum(part.count for part in parts) > MOST_PARTS:
        raise TooMuch(Fault("/parts", f"more than {MOST_PARTS} parts in one cutting plan; split the job"))
    if len(stock) > MOST_STOCK_LINES:
        raise TooMuch(Fault("/stock", f"more than {MOST_STOCK_LINES} stock lines in one cutting plan"))


def _can_be_carried(line: StockLine, rules: CutRules) -> bool:
    # What lies in the shop already has been carried.
    return line.on_hand or rules.longest_carry_nm is None or line.length_nm <= rules.longest_carry_nm


def _board(line: StockLine, rules: CutRules) -> Board:
    clear = clear_lengths(line, rules)
    return Board(line.code, line.length_nm, line.width_nm, line.price, line.count, clear, line.on_hand)


def clear_lengths(line: StockLine, rules: CutRules) -> tuple[tuple[int, int], ...]:
    """Between end trims and blocked zones; a zone counts as at least one kerf long, from where it starts."""
    clear = []
    start, end = rules.end_trim_nm, line.length_nm - rules.end_trim_nm
    for zone_from, zone_to in sorted(line.blocked):
        if min(zone_from, end) > start:
            clear.append((start, min(zone_from, end)))
        start = max(start, zone_to, zone_from + rules.crosscut_kerf_nm if zone_from > start else 0)
    if end > start:
        clear.append((start, end))
    return tuple(clear)


def _sizes(
    parts: Sequence[NeededPart],
) -> tuple[tuple[Size, ...], tuple[Need, ...], tuple[tuple[tuple[str, int], ...], ...]]:
    """Longest first; parts of equal size are one, unless they belong to different matched sets."""
    merged: dict[tuple[int, int, bool, str, str, int], list[tuple[NeededPart, int]]] = {}
    for part in parts:
        mark = part.mark if part.matched else ""
        key = (-part.length_nm, -part.width_nm, part.trim_edges, part.matched, mark, part.from_width_nm)
        merged.setdefault(key, []).append((part, part.count))
    keys = sorted(merged)
    sizes = tuple(Size(-k[0], -k[1], k[2], sum(n for _, n in merged[k]), k[5]) for k in keys)
    marks = tuple(tuple((part.mark, n) for part, n in merged[k]) for k in keys)
    needs = [Need(size.most, any_of=(i,)) for i, size in enumerate(sizes) if not keys[i][3]]
    for word in sorted({k[3] for k in keys if k[3]}):
        members = [i for i, k in enumerate(keys) if k[3] == word]
        sets = max(part.sets for i in members for part, _ in merged[keys[i]]) or 1
        needs.append(Need(sets, set_of=tuple((i, sizes[i].most // sets) for i in members)))
    return sizes, tuple(needs), marks


def _part_faults(parts: Sequence[NeededPart]) -> list[Fault]:
    faults = []
    sets: dict[str, int] = {}
    for at, part in enumerate(parts):
        for name, value in (("length", part.length_nm), ("width", part.width_nm), ("count", part.count)):
            if not value > 0:  # no number is not, either
                faults.append(Fault(f"/parts/{at}/{name}", f"part {part.mark}: {name} must be more than 0"))
        if part.matched:
            expected = sets.setdefault(part.matched, max(part.sets, 1))
            if max(part.sets, 1) != expected or part.count % expected:
                faults.append(
                    Fault(
                        f"/parts/{at}/sets",
                        f"part {part.mark}: every part of the matched set {part.matched!r} names the same "
                        f"number of sets, and its count is a multiple of it",
                    )
                )
    return faults


def _stock_faults(stock: Sequence[StockLine]) -> list[Fault]:
    faults = []
    for at, line in enumerate(stock):
        for name, value in (("length", line.length_nm), ("width", line.width_nm)):
            if not value > 0:
                faults.append(Fault(f"/stock/{at}/{name}", f"stock {line.code}: {name} must be more than 0"))
        if not 0 <= line.price < math.inf:
            faults.append(Fault(f"/stock/{at}/price", f"stock {line.code}: a price is not negative"))
        if line.count is not None and line.count < 0:
            faults.append(Fault(f"/stock/{at}/count", f"stock {line.code}: a count is not negative"))
        for zone, (start, to) in enumerate(line.blocked):
            if not 0 <= start < to <= line.length_nm:
                faults.append(
                    Fault(
                        f"/stock/{at}/blocked/{zone}",
                        f"stock {line.code}: a blocked zone runs from a smaller to a larger distance, both "
                        f"between 0 and the length of the piece",
                    )
                )
    return faults


def _rule_faults(rules: CutRules) -> list[Fault]:
    lengths = {
        "crosscut kerf": rules.crosscut_kerf_nm,
        "rip kerf": rules.rip_kerf_nm,
        "end_trim": rules.end_trim_nm,
        "edge_trim": rules.edge_trim_nm,
        "least_offcut": rules.least_offcut_nm,
        "least_rip_length": rules.least_rip_length_nm,
        "least_strip": rules.least_strip_nm,
        "overlap": rules.overlap_nm,
    }
    costs = {
        "crosscut": rules.crosscut_cost,
        "rip_per_m": rules.rip_cost_per_m,
        "set_up": rules.setup_cost,
        "offcut_credit_per_m": rules.offcut_credit_per_m,
    }
    faults = [
        Fault("/" + name.split()[-1], f"the {name} is not negative")
        for name, nm in lengths.items()
        if not nm >= 0
    ]
    faults += [
        Fault(f"/costs/{name}", "a price or credit is a number and not negative")
        for name, cost in costs.items()
        if not 0 <= cost < math.inf
    ]
    if rules.longest_carry_nm is not None and not rules.longest_carry_nm > 0:
        faults.append(Fault("/longest_carry", "the longest carry is more than 0"))
    return faults
