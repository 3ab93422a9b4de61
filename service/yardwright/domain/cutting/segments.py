"""Segments: what one crosscut length of a board can give, as it is or ripped into strips.

A segment at the board's full width is one part. A ripped segment is a row of strips across the width, each
strip cut into parts of exactly its width; its length is its longest strip, and no less than what is safe
to rip. Kept are only the segments that no other one, and no two set end to end, do better.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from .counts import Packing
from .effort import Steps
from .problem import Problem


@dataclass(frozen=True, slots=True)
class Strip:
    """Parts end to end, all of one width."""

    width_nm: int
    length_nm: int
    sizes: tuple[int, ...]
    trim: bool
    packed: int


@dataclass(frozen=True, slots=True)
class Segment:
    """``ripped`` False: one part at the board's own width."""

    length_nm: int
    packed: int
    strips: tuple[Strip, ...]
    ripped: bool


def segments(problem: Problem, pack: Packing, width_nm: int, longest_nm: int, steps: Steps) -> list[Segment]:
    """All useful segments of a board of this width, longest first; ``steps`` is told when it is cut short."""
    best: dict[int, Segment] = {}
    strips_by_width: dict[int, list[int]] = {}
    for index, size in enumerate(problem.sizes):
        if not size.most or size.length_nm > longest_nm or not problem.holds(size, width_nm):
            continue
        if size.width_nm == width_nm and not problem.trims(size):
            strip = Strip(width_nm, size.length_nm, (index,), size.trim, pack.one(index))
            best[strip.packed] = Segment(size.length_nm, strip.packed, (strip,), False)
        else:
            strips_by_width.setdefault(size.width_nm, []).append(index)
    if strips_by_width:
        for segment in _ripped(problem, pack, width_nm, longest_nm, strips_by_width, steps):
            known = best.get(segment.packed)
            if known is None or segment.length_nm < known.length_nm:
                best[segment.packed] = segment
    return _useful(list(best.values()), pack, problem.rules.crosscut_kerf_nm, steps)


def _ripped(
    problem: Problem,
    pack: Packing,
    width_nm: int,
    longest_nm: int,
    by_width: dict[int, list[int]],
    steps: Steps,
) -> Iterator[Segment]:
    least = problem.rules.least_rip_length_nm
    every = {}
    for w, sizes in by_width.items():
        alone = w + problem.rules.rip_kerf_nm + min(by_width) > width_nm
        every[w] = _strips(problem, pack, w, sizes, longest_nm, alone, steps)
    lengths = sorted({max(s.length_nm, least) for strips in every.values() for s in strips})
    for length in lengths:
        if length <= longest_nm and not steps.out:
            yield from _Rows(problem, pack, width_nm, length, every, steps).all()


def _strips(
    problem: Problem,
    pack: Packing,
    width_nm: int,
    sizes: list[int],
    longest_nm: int,
    alone: bool,
    steps: Steps,
) -> list[Strip]:
    """Every strip of this width up to ``longest_nm``: all multisets of parts, within the need.

    Where a strip is ``alone`` across the board, one that comes apart in two safe to rip is left out: the
    board is crosscut there instead.
    """
    kerf = problem.rules.crosscut_kerf_nm
    found: list[Strip] = []

    def extend(start: int, length: int, packed: int, chosen: tuple[int, ...]) -> None:
        for at in range(start, len(sizes)):
            index = sizes[at]
            longer = length + problem.sizes[index].length_nm + (kerf if chosen else 0)
            more = packed + pack.one(index)
            if longer > longest_nm or not pack.fits(more) or not steps.take():
                continue
            taken = (*chosen, index)
            if alone and _comes_apart(problem, taken, longer):
                continue
            trim = any(problem.trims(problem.sizes[i]) for i in taken)
            found.append(Strip(width_nm, longer, taken, trim, more))
            extend(at, longer, more, taken)

    extend(0, 0, 0, ())
    return found


def _comes_apart(problem: Problem, sizes: tuple[int, ...], length: int) -> bool:
    """Whether one part and the rest are both long enough to be ripped on their own."""
    least, kerf = problem.rules.least_rip_length_nm, problem.rules.crosscut_kerf_nm
    return len(sizes) > 1 and any(
        part >= least and length - part - kerf >= least
        for part in (problem.sizes[i].length_nm for i in sizes)
    )


class _Rows:
    """All full rows of strips across a width whose longest strip asks for exactly ``length``.

    Strip widths are taken widest first. Each strip is as full as the parts still wanted allow: a part of
    the same width further on could as well lie in it.
    """

    def __init__(
        self,
        problem: Problem,
        pack: Packing,
        width_nm: int,
        length: int,
        every: dict[int, list[Strip]],
        steps: Steps,
    ) -> None:
        self.problem, self.pack, self.length, self.steps = problem, pack, length, steps
        self.plain = problem.usable_width_nm(width_nm, False)
        self.trimmed = problem.usable_width_nm(width_nm, True)
        self.strips = [[s for s in every[w] if s.length_nm <= length] for w in sorted(every, reverse=True)]
        self.strips = [strips for strips in self.strips if strips]
        self.single = [s for strips in self.strips for s in strips if len(s.sizes) == 1]
        self.sizes = [sorted({i for s in strips for i in s.sizes}) for strips in self.strips]

    def all(self) -> Iterator[Segment]:
        """The rows, each once or more."""
        yield from self._grow(0, -self.problem.rules.rip_kerf_nm, 0, (), False)

    def _grow(self, at: int, used: int, packed: int, row: tuple[Strip, ...], trim: bool) -> Iterator[Segment]:
        if at == len(self.strips):
            needed = max((s.length_nm for s in row), default=0)
            as_long = row and max(needed, self.problem.rules.least_rip_length_nm) == self.length
            if as_long and not any(self._fits(one, used, packed, trim) for one in self.single):
                yield Segment(self.length, packed, row, True)
            return
        kerf = self.problem.rules.rip_kerf_nm
        for strip in self.strips[at]:
            if not self.steps.take():
                return
            if self._fits(strip, used, packed, trim) and not self._could_be_fuller(
                strip, packed, self.sizes[at]
            ):
                wider = used + kerf + strip.width_nm
                yield from self._grow(at, wider, packed + strip.packed, (*row, strip), trim or strip.trim)
        yield from self._grow(at + 1, used, packed, row, trim)

    def _fits(self, strip: Strip, used: int, packed: int, trim: bool) -> bool:
        room = self.trimmed if trim or strip.trim else self.plain
        wider = used + self.problem.rules.rip_kerf_nm + strip.width_nm
        return wider <= room and self.pack.fits(packed + strip.packed)

    def _could_be_fuller(self, strip: Strip, packed: int, sizes: list[int]) -> bool:
        free = self.length - strip.length_nm - self.problem.rules.crosscut_kerf_nm
        return any(
            self.problem.sizes[i].length_nm <= free
            and self.problem.trims(self.problem.sizes[i]) == strip.trim
            and self.pack.fits(packed + strip.packed + self.pack.one(i))
            for i in sizes
        )


def _useful(found: list[Segment], pack: Packing, kerf: int, steps: Steps) -> list[Segment]:
    """Without those that another segment, or two end to end, give on no more length."""
    found.sort(key=lambda s: (-s.length_nm, s.packed))
    shortest = {s.packed: s.length_nm for s in found}
    kept = []
    for segment in found:
        if segment.ripped and _beaten(segment, found, shortest, pack, kerf, steps):
            continue
        kept.append(segment)
    return kept


def _beaten(
    segment: Segment,
    found: list[Segment],
    shortest: dict[int, int],
    pack: Packing,
    kerf: int,
    steps: Steps,
) -> bool:
    if not steps.take(len(found) // 8 + 1):
        return False
    for other in found:
        if other is segment or other.length_nm > segment.length_nm:
            continue
        if pack.within(segment.packed, other.packed) and segment.packed != other.packed:
            return True
        if other.length_nm < segment.length_nm and pack.within(other.packed, segment.packed):
            rest = shortest.get(segment.packed - other.packed)
            if rest is not None and rest + kerf + other.length_nm <= segment.length_nm:
                return True
    return False
