"""Patterns: what one whole board can give, as counts of parts by size.

Listed bottom-up: segments first, then every way to set segments end to end in a board's clear lengths.
Kept are the full patterns only, where no further part goes in: a plan may cut less than a pattern says.
"""

from __future__ import annotations

from dataclasses import dataclass

from .counts import Packing
from .effort import Steps
from .problem import Problem
from .segments import Segment


@dataclass(frozen=True, slots=True)
class Pattern:
    """One way to cut one board: for each clear length its segments, and what each need gets from it."""

    board: int
    counts: tuple[int, ...]
    supply: tuple[int, ...]
    runs: tuple[tuple[Segment, ...], ...]


def supply(problem: Problem, counts: tuple[int, ...], beyond: bool = False) -> tuple[int, ...]:
    """What these counts give each need: any of its sizes, or whole sets; ``beyond`` what is needed too."""
    if problem.one_size_each:
        given = counts
    else:
        given = tuple(
            sum(counts[i] for i in need.any_of)
            if need.any_of
            else min(counts[i] // each for i, each in need.set_of)
            for need in problem.needs
        )
    if beyond:
        return given
    return tuple(map(min, given, (need.count for need in problem.needs)))


def one_by_one(
    problem: Problem, pack: Packing, index: int, all_segments: list[Segment], steps: Steps
) -> list[Pattern]:
    """The full patterns of one board, clear length after clear length (a board with blocked zones)."""
    board, kerf = problem.boards[index], problem.rules.crosscut_kerf_nm
    found: dict[int, tuple[tuple[Segment, ...], ...]] = {0: ()}
    for start, to in board.clear:
        usable = [segment for segment in all_segments if segment.length_nm <= to - start]
        found = _filled(pack, to - start, usable, found, kerf, steps)
    kept: dict[tuple[int, ...], Pattern] = {}
    for packed, runs in found.items():
        counts = pack.unpack(packed)
        given = supply(problem, counts)
        if any(given):
            kept.setdefault(given, Pattern(index, counts, given, runs))
    return list(kept.values())


def _filled(
    pack: Packing,
    span_nm: int,
    usable: list[Segment],
    before: dict[int, tuple[tuple[Segment, ...], ...]],
    kerf: int,
    steps: Steps,
) -> dict[int, tuple[tuple[Segment, ...], ...]]:
    """Every full filling of one more clear length, by what the board then gives in all.

    Full segments together may give more than is needed: counts stop at the need, and one more is taken only
    as long as it gives anything still wanted. Of fillings that give the same the shortest is kept.
    """
    known = {packed: (0, (*runs, ())) for packed, runs in before.items()}
    for segment in usable:
        last = list(known.items())
        while last and not steps.out:
            longer = []
            for packed, (length, runs) in last:
                more = pack.together(packed, segment.packed)
                grown = length + segment.length_nm
                shorter = more in known and known[more][0] <= grown + kerf
                if more == packed or grown > span_nm or shorter:
                    continue
                if not steps.take():
                    break
                known[more] = grown + kerf, (*runs[:-1], (*runs[-1], segment))
                longer.append((more, known[more]))
            last = longer
    return {
        packed: runs
        for packed, (length, runs) in known.items()
        if steps.out or not _takes_more(pack, packed, span_nm - length, usable)
    }


def _takes_more(pack: Packing, packed: int, room_nm: int, usable: list[Segment]) -> bool:
    return any(s.length_nm <= room_nm and pack.together(packed, s.packed) != packed for s in usable)
