"""A sheet or a length of roll cut up: blocks laid out, the cuts that free them in order, what is left over.

A piece is first cut down to its block, the cut that leaves the larger offcut first; then across its whole
width into the blocks one after the other, or along its whole length into those side by side, the largest
first so that the stop moves one way. Pieces are named by how they came: piece 2 is the second cut from the
sheet, piece 2.1 the first cut from it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from .model import CutRules, CutStep, Offcut, Placed

ALONG, ACROSS = "x", "y"


@dataclass(frozen=True, slots=True)
class Leaf:
    """A part as it lies."""

    kind: int
    x_nm: int
    y_nm: int


@dataclass(frozen=True, slots=True)
class Group:
    """Blocks one after the other ("x") or side by side ("y"), a kerf between them."""

    way: str
    blocks: tuple[Block, ...]
    x_nm: int
    y_nm: int


Block = Leaf | Group


def group(way: str, blocks: list[Block], rules: CutRules) -> Block:
    """Blocks set together; a single one is itself, groups of the same way become one."""
    flat: list[Block] = []
    for block in blocks:
        flat += block.blocks if isinstance(block, Group) and block.way == way else [block]
    if len(flat) == 1:
        return flat[0]
    lengths, widths = [b.x_nm for b in flat], [b.y_nm for b in flat]
    if way == ALONG:
        along, wide = sum(lengths) + (len(flat) - 1) * rules.crosscut_kerf_nm, max(widths)
        flat.sort(key=lambda b: (-b.x_nm, -b.y_nm, _first_kind(b)))
    else:
        along, wide = max(lengths), sum(widths) + (len(flat) - 1) * rules.rip_kerf_nm
        flat.sort(key=lambda b: (-b.y_nm, -b.x_nm, _first_kind(b)))
    return Group(way, tuple(flat), along, wide)


def leaves(block: Block) -> Iterator[Leaf]:
    """The parts of a block."""
    if isinstance(block, Leaf):
        yield block
    else:
        for inner in block.blocks:
            yield from leaves(inner)


def without(block: Block, kinds: list[int], rules: CutRules) -> Block | None:
    """The block less so many parts of each kind; ``kinds`` is counted down."""
    if isinstance(block, Leaf):
        if not kinds[block.kind]:
            return block
        kinds[block.kind] -= 1
        return None
    kept = [inner for one in block.blocks if (inner := without(one, kinds, rules)) is not None]
    return group(block.way, kept, rules) if kept else None


def renamed(block: Block, kinds: Sequence[int] | Mapping[int, int]) -> Block:
    """The same block, its parts counted as other kinds."""
    if isinstance(block, Leaf):
        return replace(block, kind=kinds[block.kind])
    return replace(block, blocks=tuple(renamed(inner, kinds) for inner in block.blocks))


def _first_kind(block: Block) -> int:
    return next(leaves(block)).kind


@dataclass(slots=True)
class Bench:
    """What has been cut so far from one sheet; ``clear`` is where parts and offcuts may lie."""

    rules: CutRules
    mark_of: Callable[[int], str]
    clear: tuple[int, int, int, int]
    parts: list[Placed] = field(default_factory=list)
    offcuts: list[Offcut] = field(default_factory=list)
    steps: list[CutStep] = field(default_factory=list)

    def cut(self, block: Block, x: int, y: int, to_x: int, to_y: int, name: str) -> None:
        """Cut a block out of the piece from (x, y) to (to_x, to_y)."""
        free_x, free_y = to_x - x - block.x_nm, to_y - y - block.y_nm
        rip_first = (to_x - x) * max(free_y - self.rules.rip_kerf_nm, 0) >= (to_y - y) * max(
            free_x - self.rules.crosscut_kerf_nm, 0
        )
        for rip in (rip_first, not rip_first):
            if rip and free_y:
                self._rip(block.y_nm, [y + block.y_nm], x, to_x, name)
                self.left(x, y + block.y_nm + self.rules.rip_kerf_nm, to_x, to_y)
                to_y = y + block.y_nm
            elif not rip and free_x:
                self._crosscut(block.x_nm, [x + block.x_nm], y, to_y, name)
                self.left(x + block.x_nm + self.rules.crosscut_kerf_nm, y, to_x, to_y)
                to_x = x + block.x_nm
        if isinstance(block, Leaf):
            self.parts.append(Placed(self.mark_of(block.kind), x, y, block.x_nm, block.y_nm))
        else:
            self._apart(block, x, y, to_x, to_y, name)

    def _apart(self, block: Group, x: int, y: int, to_x: int, to_y: int, name: str) -> None:
        at: dict[int, list[int]] = {}
        pieces = []
        for number, inner in enumerate(block.blocks, 1):
            own = f"piece {number}" if name == name.split(" ")[0] else f"{name}.{number}"
            if block.way == ALONG:
                end = x + inner.x_nm
                pieces.append((inner, x, y, end, to_y, own))
                x = end + self.rules.crosscut_kerf_nm
            else:
                end = y + inner.y_nm
                pieces.append((inner, x, y, to_x, end, own))
                y = end + self.rules.rip_kerf_nm
            if number < len(block.blocks):
                at.setdefault(inner.x_nm if block.way == ALONG else inner.y_nm, []).append(end)
        for setting, ends in at.items():
            if block.way == ALONG:
                self._crosscut(setting, ends, y, to_y, name)
            else:
                self._rip(setting, ends, x, to_x, name)
        for piece in pieces:
            self.cut(*piece)

    def _crosscut(self, setting: int, at: list[int], y: int, to_y: int, name: str) -> None:
        self.steps.append(CutStep("crosscut", setting, len(at), name, (), tuple((x, y, x, to_y) for x in at)))

    def _rip(self, setting: int, at: list[int], x: int, to_x: int, name: str) -> None:
        self.steps.append(CutStep("rip", setting, len(at), name, (), tuple((x, y, to_x, y) for y in at)))

    def left(self, x: int, y: int, to_x: int, to_y: int) -> None:
        to_x, to_y = min(to_x, self.clear[2]), min(to_y, self.clear[3])
        if to_x > x and to_y > y:
            least = self.rules.least_offcut_nm
            kept = max(to_x - x, to_y - y) >= least > 0 and min(to_x - x, to_y - y) >= max(
                self.rules.least_strip_nm, 1
            )
            self.offcuts.append(Offcut(x, y, to_x - x, to_y - y, kept))
