"""Few segments on few boards: every way to share them out, so that set-ups are fewest and one offcut longest.

Segments stay as they are; boards are of one width, without blocked zones, and no segment is tied to another.
Where a board is filled to its very end the last segment needs no cut: which one is last may spare a set-up.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from .effort import Steps
from .problem import Problem
from .saw_work import CutBoard, ranked, saw_work
from .segments import Segment

_MOST_SEGMENTS, _MOST_BOARDS = 9, 5
_SHARED = 1_500  # ways to share out that are looked at
Share = tuple[tuple[Segment, ...], ...]


def shared_out(problem: Problem, cut: list[CutBoard]) -> list[CutBoard]:
    """The best of all ways, or what was given where there are too many or none is better."""
    segments = [s for one in cut for run in one.runs for s in run]
    if not 0 < len(segments) <= _MOST_SEGMENTS or len(cut) > _MOST_BOARDS:
        return cut
    lines = [problem.boards[one.board] for one in cut]
    tied = any(need.set_of for need in problem.needs)
    if tied or len({line.width_nm for line in lines}) > 1 or any(len(line.clear) != 1 for line in lines):
        return cut
    best, known = cut, ranked(problem, [saw_work(problem, one) for one in cut])
    longest = -1
    for share in _shares(problem, cut, sorted(segments, key=_rank), Steps(_SHARED)):
        ended = any(_room(problem, one, run) == 0 for one, run in zip(cut, share, strict=True))
        room = max(_room(problem, one, run) for one, run in zip(cut, share, strict=True))
        if not ended and room <= longest:
            continue
        longest = max(longest, room if not ended else -1)
        for ordered in _ends(problem, cut, share):
            boards = [CutBoard(one.board, (run,)) for one, run in zip(cut, ordered, strict=True) if run]
            rank = ranked(problem, [saw_work(problem, one) for one in boards])
            if rank < known:
                best, known = boards, rank
    return best


def _rank(segment: Segment) -> tuple[int, tuple[tuple[int, ...], ...]]:
    return -segment.length_nm, tuple(strip.sizes for strip in segment.strips)


def _room(problem: Problem, one: CutBoard, run: Sequence[Segment]) -> int:
    """What is left after the segments, less than nothing where only part of a kerf is."""
    (start, to), kerf = problem.boards[one.board].clear[0], problem.rules.crosscut_kerf_nm
    return to - start - sum(s.length_nm for s in run) - kerf * max(len(run) - 1, 0)


def _shares(
    problem: Problem, cut: Sequence[CutBoard], segments: list[Segment], steps: Steps
) -> Iterator[Share]:
    """Longest first, each into every board with room; boards alike so far count as one."""

    def deal(at: int, runs: Share, least: int) -> Iterator[Share]:
        if at == len(segments):
            yield runs
            return
        again = at > 0 and _rank(segments[at]) == _rank(segments[at - 1])
        seen = set()
        for b in range(least if again else 0, len(cut)):
            alike = (cut[b].board, runs[b])
            longer = (*runs[b], segments[at])
            if (again and b == least) or alike not in seen:
                seen.add(alike)
                if _room(problem, cut[b], longer) >= 0 and steps.take():
                    yield from deal(at + 1, (*runs[:b], longer, *runs[b + 1 :]), b)

    yield from deal(0, tuple(() for _ in cut), 0)


def _ends(problem: Problem, cut: Sequence[CutBoard], share: Share) -> Iterator[Share]:
    """Boards filled to the very end with each of their lengths last; the others as they are."""
    choices = []
    for one, run in zip(cut, share, strict=True):
        board = problem.boards[one.board]
        at_end = run and board.clear[0][1] == board.length_nm and _room(problem, one, run) == 0
        if not at_end:
            choices.append([run])
            continue
        lasts = {s.length_nm: at for at, s in enumerate(run)}
        choices.append([(*run[:at], *run[at + 1 :], run[at]) for at in lasts.values()])
    yield from product(*choices)
