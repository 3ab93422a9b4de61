"""Patterns without the parts no one asked for: a plan may give more than is needed, no more is cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .patterns import Pattern
from .problem import Problem
from .saw_work import CutBoard, Runs
from .segments import Segment


def needed(problem: Problem, plan: Sequence[tuple[Pattern, int]]) -> list[CutBoard]:
    """Every board of the plan with what is needed of it, dealt in the plan's order; empty ones left out."""
    left = [need.count for need in problem.needs]
    boards = [
        CutBoard(pattern.board, _runs(problem, pattern, left))
        for pattern, times in plan
        for _ in range(times)
    ]
    return [one for one in boards if any(one.runs)]


def _runs(problem: Problem, pattern: Pattern, left: list[int]) -> Runs:
    """The pattern's segments without the parts no one asked for; takes the rest from ``left``."""
    quota = [0] * len(problem.sizes)
    for n, given in enumerate(pattern.supply):
        if not given:
            continue
        need = problem.needs[n]
        take = min(given, left[n])
        left[n] -= take
        for i, each in need.set_of:
            quota[i] = take * each
        for i in need.any_of:
            quota[i] = min(take, pattern.counts[i])
            take -= quota[i]
    runs = []
    for run in pattern.runs:
        thinned = [thin(problem, segment, quota) for segment in run]
        runs.append(tuple(s for s in thinned if s is not None))
    return tuple(runs)


def thin(problem: Problem, segment: Segment, quota: list[int]) -> Segment | None:
    """The segment with only the parts of ``quota``, by size, which are taken from it; None when empty."""
    kerf, least = problem.rules.crosscut_kerf_nm, problem.rules.least_rip_length_nm
    strips = []
    for strip in segment.strips:
        kept = []
        for i in strip.sizes:
            if quota[i]:
                quota[i] -= 1
                kept.append(i)
        if kept:
            length = sum(problem.sizes[i].length_nm for i in kept) + (len(kept) - 1) * kerf
            strips.append(replace(strip, sizes=tuple(kept), length_nm=length))
    if not strips:
        return None
    length = max(s.length_nm for s in strips)
    return replace(segment, strips=tuple(strips), length_nm=max(length, least) if segment.ripped else length)
