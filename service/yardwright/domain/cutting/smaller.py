"""A part of a problem as a problem of its own: what is still needed, the boards still there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .patterns import Pattern, supply
from .problem import Need, Problem
from .segments import Segment, Strip


@dataclass(frozen=True, slots=True)
class Smaller:
    """``problem`` holds the open sizes and needs only; ``sizes[i]`` is size i's place in the whole."""

    whole: Problem
    problem: Problem
    sizes: tuple[int, ...]

    def lift(self, pattern: Pattern) -> Pattern:
        """A pattern of the smaller problem as one of the whole."""
        counts = [0] * len(self.whole.sizes)
        for i, count in enumerate(pattern.counts):
            counts[self.sizes[i]] = count
        runs = tuple(tuple(self.lift_segment(segment) for segment in run) for run in pattern.runs)
        return Pattern(pattern.board, tuple(counts), supply(self.whole, tuple(counts)), runs)

    def lower(self, pattern: Pattern) -> Pattern | None:
        """A pattern of the whole as one of the smaller problem; None when it has a size that is not open."""
        place = {i: at for at, i in enumerate(self.sizes)}
        counts = [0] * len(self.sizes)
        for i, count in enumerate(pattern.counts):
            if count:
                if i not in place:
                    return None
                counts[place[i]] = count
        runs = tuple(
            tuple(
                Segment(
                    segment.length_nm,
                    0,
                    tuple(
                        Strip(s.width_nm, s.length_nm, tuple(place[i] for i in s.sizes), s.trim, 0)
                        for s in segment.strips
                    ),
                    segment.ripped,
                )
                for segment in run
            )
            for run in pattern.runs
        )
        return Pattern(pattern.board, tuple(counts), supply(self.problem, tuple(counts)), runs)

    def lift_segment(self, segment: Segment) -> Segment:
        """A segment of the smaller problem as one of the whole."""
        strips = tuple(
            Strip(s.width_nm, s.length_nm, tuple(self.sizes[i] for i in s.sizes), s.trim, 0)
            for s in segment.strips
        )
        return Segment(segment.length_nm, 0, strips, segment.ripped)


def smaller(problem: Problem, left: Sequence[int], used: Sequence[int]) -> Smaller:
    """``left`` of each need, with ``used`` boards of each line gone."""
    most = [0] * len(problem.sizes)
    for n, need in enumerate(problem.needs):
        for i in need.any_of:
            most[i] = left[n]
        for i, each in need.set_of:
            most[i] = left[n] * each
    kept = [i for i, count in enumerate(most) if count]
    place = {i: at for at, i in enumerate(kept)}
    needs = tuple(
        Need(left[n], tuple(place[i] for i in need.any_of), tuple((place[i], e) for i, e in need.set_of))
        for n, need in enumerate(problem.needs)
        if left[n]
    )
    boards = tuple(
        board if board.count is None else replace(board, count=board.count - used[b])
        for b, board in enumerate(problem.boards)
    )
    sizes = tuple(replace(problem.sizes[i], most=most[i]) for i in kept)
    return Smaller(
        problem,
        Problem(sizes, needs, boards, problem.rules, tuple(problem.marks[i] for i in kept)),
        tuple(kept),
    )
