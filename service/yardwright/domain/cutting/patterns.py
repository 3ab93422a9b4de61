"""Patterns: what one whole board can give, as counts of parts by size.

Listed bottom-up: segments first, then every way to set segments end to end in a board's clear lengths.
Kept are the full patterns only, where no further part goes in: a plan may cut less than a pattern says.
"""

from __future__ import annotations

from collections.abc import Iterator
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
    found: dict[int, tuple[tuple[Segment, ...], ...]] = {}
    for packed, runs in _runs(pack, board.clear, all_segments, kerf, steps):
        found.setdefault(packed, runs)
    kept: dict[tuple[int, ...], Pattern] = {}
    for packed, runs in found.items():
        counts = pack.unpack(packed)
        given = supply(problem, counts)
        if any(given):
            kept.setdefault(given, Pattern(index, counts, given, runs))
    return list(kept.values())


def _runs(
    pack: Packing,
    clear: tuple[tuple[int, int], ...],
    all_segments: list[Segment],
    kerf: int,
    steps: Steps,
) -> Iterator[tuple[int, tuple[tuple[Segment, ...], ...]]]:
    """Every full filling of the clear lengths one after another."""
    spans = [to - start for start, to in clear]
    usable = [[s for s in all_segments if s.length_nm <= span] for span in spans]

    def fill(
        at: int,
        start: int,
        room: int,
        packed: int,
        run: tuple[Segment, ...],
        done: tuple[tuple[Segment, ...], ...],
    ) -> Iterator[tuple[int, tuple[tuple[Segment, ...], ...]]]:
        if at == len(spans):
            yield packed, done
            return
        full = True
        for number, segment in enumerate(usable[at]):
            if segment.length_nm > room or not pack.fits(packed + segment.packed):
                continue
            full = False
            if number >= start and steps.take():
                left = room - segment.length_nm - kerf
                yield from fill(at, number, left, packed + segment.packed, (*run, segment), done)
        if full or steps.out:
            yield from fill(at + 1, 0, spans[at + 1] if at + 1 < len(spans) else 0, packed, (), (*done, run))

    if spans:
        yield from fill(0, 0, spans[0], 0, (), ())
