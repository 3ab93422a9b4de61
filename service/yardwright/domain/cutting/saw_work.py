"""What one cut-up board asks of the saws: cuts, settings of stop and fence, the offcut left at its end.

The same cuts as ``layout`` draws, counted without placing anything: many arrangements can be compared.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from .problem import Board, Problem
from .segments import Segment

Runs = tuple[tuple[Segment, ...], ...]
# Stages in the saws' order, as ``set_ups`` groups them: a setting serves all boards at one stage.
BOARDS, RIPS, STRIPS = 1, 3, 4


@dataclass(frozen=True, slots=True)
class CutBoard:
    """One board of the plan: its stock line and the segments of each clear length."""

    board: int
    runs: Runs


@dataclass(frozen=True, slots=True)
class SawWork:
    """``settings``: (stage, nm of stop or fence). ``kept_nm``: full-width offcuts worth keeping."""

    price: int
    crosscuts: int
    rip_nm: int
    settings: frozenset[tuple[int, int]]
    kept_nm: int
    longest_nm: int


def room_nm(problem: Problem, cut: CutBoard, run: int) -> int:
    """What further length fits a clear length after its segments, the kerf before it taken off."""
    start, to = problem.boards[cut.board].clear[run]
    kerf = problem.rules.crosscut_kerf_nm
    return to - start - sum(s.length_nm + kerf for s in cut.runs[run])


def first_trim_nm(problem: Problem, board: Board, runs: Runs) -> int:
    """What comes off the first end: the trim, or more where the board is blocked from its end on."""
    return board.clear[0][0] if runs[0] else problem.rules.end_trim_nm


def zone_cuts(problem: Problem, board: Board, runs: Runs) -> list[tuple[int, int]]:
    """Where a board is crosscut at the far side of its blocked zones: (setting of the stop, x).

    The kerf lies in the zone; what is before it holds the clear length before, what is after it starts
    clean. Zones behind which nothing is cut need no cut.
    """
    if len(board.clear) == 1:
        return []
    cuts, begins = [], first_trim_nm(problem, board, runs)
    for (start, _), run in zip(board.clear[1:], runs[1:], strict=True):
        if run:
            at = start - problem.rules.crosscut_kerf_nm
            cuts.append((at - begins, at))
            begins = start
    return cuts


def saw_work(problem: Problem, cut: CutBoard) -> SawWork:
    """Counts of one board."""
    rules, board = problem.rules, problem.boards[cut.board]
    zones = zone_cuts(problem, board, cut.runs)
    settings = [(BOARDS, setting) for setting, _ in zones]
    free = {board.length_nm, *(at for _, at in zones)}
    rip, kept, longest = 0, 0, 0
    for at, (run, (start, _)) in enumerate(zip(cut.runs, board.clear, strict=True)):
        x = start
        for segment in run:
            if x + segment.length_nm not in free:
                settings.append((BOARDS, segment.length_nm))
            if segment.ripped:
                rips = list(_rips(problem, board, segment))
                rip += segment.length_nm * len(rips)
                settings += [(RIPS, width) for width in rips if width]
                settings += [(STRIPS, length) for length in _strip_cuts(problem, segment)]
            x += segment.length_nm + rules.crosscut_kerf_nm
        room = max(room_nm(problem, cut, at), 0)
        longest = max(longest, room)
        kept += room if room >= rules.least_offcut_nm > 0 else 0
    crosscuts = sum(stage != RIPS for stage, _ in settings) + (first_trim_nm(problem, board, cut.runs) > 0)
    return SawWork(board.price, crosscuts, rip, frozenset(settings), kept, longest)


def _rips(problem: Problem, board: Board, segment: Segment) -> Iterator[int]:
    """Fence settings of a segment, one for each rip; 0 stands for its edge trimmed."""
    trim = any(s.trim for s in segment.strips)
    y = problem.rules.edge_trim_nm if trim else 0
    if trim:
        yield 0
    for strip in segment.strips:
        if y + strip.width_nm != board.width_nm:
            yield strip.width_nm
        y += strip.width_nm + problem.rules.rip_kerf_nm


def _strip_cuts(problem: Problem, segment: Segment) -> Iterator[int]:
    for strip in segment.strips:
        x = 0
        for i in strip.sizes:
            length = problem.sizes[i].length_nm
            if x + length != segment.length_nm:
                yield length
            x += length + problem.rules.crosscut_kerf_nm


def ranked(problem: Problem, works: Iterable[SawWork]) -> tuple[float, int, int, int]:
    """How good an arrangement is, the least the best: cost, set-ups, longest offcut, number of cuts."""
    rules, works = problem.rules, list(works)
    settings = frozenset[tuple[int, int]]().union(*(w.settings for w in works))
    stops = {(stage == RIPS, setting) for stage, setting in settings}
    crosscuts = sum(w.crosscuts for w in works)
    cost = (
        sum(w.price for w in works)
        + crosscuts * rules.crosscut_cost
        + sum(w.rip_nm for w in works) / 1e9 * rules.rip_cost_per_m
        + len(stops) * rules.setup_cost
        - sum(w.kept_nm for w in works) / 1e9 * rules.offcut_credit_per_m
    )
    return round(cost, 6), len(settings), -max((w.longest_nm for w in works), default=0), crosscuts
