"""The boards are bought; now the cuts: fewest set-ups, then one long offcut, on the same purchase.

Improved step by step, by a bounded number of tries, so the same plan comes out on any worker. Moves:
a ripped segment whose strips all hold a part of one length is crosscut there on the board; a strip or part
goes where there is room for it, so that a segment or a strip falls away; segments change boards so that
free room comes together at the end of one board. A move stays when cost, set-ups, longest offcut and number
of cuts, in this order, come out less. No proof: the purchase is proven, its arrangement is not.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from .effort import Steps
from .few_segments import shared_out
from .problem import Problem
from .saw_work import CutBoard, Runs, SawWork, ranked, room_nm, saw_work
from .segments import Segment, Strip

MOST_TRIED = 120  # arrangements weighed for one plan; each takes about 20 us
MOST_BOARDS = 40  # beyond these only each board is arranged by itself
Move = dict[int, CutBoard]
Place = tuple[int, int, int]  # board, clear length, segment


def arrange(problem: Problem, cut: Sequence[CutBoard], tries: int = MOST_TRIED) -> list[CutBoard]:
    """The same parts on the same or fewer boards, arranged; equal boards one after another."""
    boards = _each_by_itself(problem, cut)
    if 1 < len(boards) <= MOST_BOARDS or (len(boards) == 1 and _ripped(boards)):
        boards = _together(problem, boards, Steps(tries))
    boards = shared_out(problem, boards)
    first = {one: at for at, one in reversed(list(enumerate(boards)))}
    lines = {one.board: at for at, one in reversed(list(enumerate(boards)))}
    return sorted(boards, key=lambda one: (lines[one.board], first[one]))


def _ripped(boards: Sequence[CutBoard]) -> bool:
    return any(segment.ripped for one in boards for run in one.runs for segment in run)


def _ordered(problem: Problem, cut: CutBoard) -> CutBoard:
    """Segments longest first, so that the stop moves one way; strips widest first, parts longest first."""
    runs = tuple(tuple(sorted((_tidy(problem, s) for s in run), key=_by_length)) for run in cut.runs)
    return CutBoard(cut.board, runs)


def _by_length(segment: Segment) -> tuple[int, tuple[tuple[int, ...], ...]]:
    return -segment.length_nm, tuple(strip.sizes for strip in segment.strips)


def _tidy(problem: Problem, segment: Segment) -> Segment:
    sized = (replace(s, sizes=tuple(sorted(s.sizes)), packed=0) for s in segment.strips)
    strips = sorted(sized, key=lambda s: (-s.width_nm, -s.length_nm, s.sizes))
    return replace(segment, strips=tuple(strips), packed=0)


def _each_by_itself(problem: Problem, boards: Sequence[CutBoard]) -> list[CutBoard]:
    """Crosscuts on strips made crosscuts on the board, once for each different board."""
    done: dict[CutBoard, CutBoard] = {}
    for one in boards:
        if one not in done:
            best = _ordered(problem, one)
            known = ranked(problem, [saw_work(problem, best)])
            while True:
                better = [(ranked(problem, [saw_work(problem, o)]), o) for o in _splits(problem, best)]
                chosen = min(better, key=lambda entry: entry[0], default=(known, best))
                if chosen[0] >= known:
                    break
                known, best = chosen
            done[one] = best
    return [done[one] for one in boards]


def _together(problem: Problem, boards: list[CutBoard], steps: Steps) -> list[CutBoard]:
    """Moves between boards, the first that is better taken, until none is or the tries are spent."""
    works = [saw_work(problem, one) for one in boards]
    known = ranked(problem, works)
    improved = True
    while improved and not steps.out:
        improved = False
        for move in _moves(problem, boards):
            if not steps.take():
                break
            after = _with(problem, works, move)
            if (weighed := ranked(problem, [w for w in after if w is not None])) < known:
                known, improved = weighed, True
                for at, one in move.items():
                    boards[at] = _ordered(problem, one)
                kept = [at for at, work in enumerate(after) if work is not None]
                boards = [boards[at] for at in kept]
                works = [saw_work(problem, one) for one in boards]
                break
    return boards


def _with(problem: Problem, works: Sequence[SawWork], move: Move) -> list[SawWork | None]:
    """The work of all boards after a move; None for a board that is no longer cut."""
    after: list[SawWork | None] = list(works)
    for at, one in move.items():
        after[at] = saw_work(problem, _ordered(problem, one)) if any(one.runs) else None
    return after


def _moves(problem: Problem, boards: list[CutBoard]) -> Iterator[Move]:
    tied = {i for need in problem.needs for i, _ in need.set_of}
    yield from _strips_moved(problem, boards, tied)
    yield from _room_gathered(problem, boards, tied)


def _splits(problem: Problem, cut: CutBoard) -> Iterator[CutBoard]:
    """A ripped segment crosscut on the board where each of its strips has a part of the same length."""
    for r, run in enumerate(cut.runs):
        for s, segment in enumerate(run):
            if not segment.ripped:
                continue
            kerf = problem.rules.crosscut_kerf_nm
            room = segment.length_nm + room_nm(problem, cut, r) + kerf
            lengths = [{problem.sizes[i].length_nm for i in strip.sizes} for strip in segment.strips]
            for length in sorted(set.intersection(*lengths), reverse=True):
                two = _split(problem, segment, length)
                if two and two[0].length_nm + kerf + two[1].length_nm <= room:
                    yield _ordered(problem, _swapped(cut, r, (*run[:s], *two, *run[s + 1 :])))


def _split(problem: Problem, segment: Segment, length: int) -> tuple[Segment, Segment] | None:
    near, far = [], []
    for strip in segment.strips:
        at = next(k for k, i in enumerate(strip.sizes) if problem.sizes[i].length_nm == length)
        near.append(_strip(problem, strip, strip.sizes[at : at + 1]))
        if rest := strip.sizes[:at] + strip.sizes[at + 1 :]:
            far.append(_strip(problem, strip, rest))
    return (_segment(problem, near), _segment(problem, far)) if far else None


def _strips_moved(problem: Problem, boards: list[CutBoard], tied: set[int]) -> Iterator[Move]:
    """Single parts of ripped segments set into other ripped segments, and whole strips."""
    places = [(b, r, s) for b, one in enumerate(boards) for r, run in enumerate(one.runs)
              for s, segment in enumerate(run) if segment.ripped]
    places.sort(key=lambda p: sum(len(strip.sizes) for strip in _at(boards, p).strips))
    for source in places:
        for k, strip in enumerate(_at(boards, source).strips):
            for goal in places:
                if goal == source or (goal[0] != source[0] and tied.intersection(strip.sizes)):
                    continue
                width = problem.boards[boards[goal[0]].board].width_nm
                if all(problem.holds(problem.sizes[i], width) for i in strip.sizes):
                    for grown in _grown(problem, boards, goal, strip, width):
                        yield _moved(problem, boards, source, k, goal, grown)


def _grown(problem: Problem, boards: list[CutBoard], goal: Place, strip: Strip,
           width: int) -> Iterator[Segment]:
    """A segment with one more strip beside its own, or with the strip's parts at the end of one of them."""
    segment = _at(boards, goal)
    strips, kerf = segment.strips, problem.rules.crosscut_kerf_nm
    for k, other in enumerate(strips):
        ended = other.length_nm + kerf + strip.length_nm
        if (other.width_nm, other.trim) == (strip.width_nm, strip.trim) and ended <= segment.length_nm:
            longer = _strip(problem, other, (*other.sizes, *strip.sizes))
            yield replace(segment, strips=(*strips[:k], longer, *strips[k + 1 :]))
    used = sum(s.width_nm + problem.rules.rip_kerf_nm for s in strips) + strip.width_nm
    trim = any(s.trim and problem.rules.edge_trim_nm for s in (*strips, strip))
    beyond = strip.length_nm - segment.length_nm
    room = room_nm(problem, boards[goal[0]], goal[1]) + problem.rules.crosscut_kerf_nm
    if used <= problem.usable_width_nm(width, trim) and beyond <= room:
        yield replace(segment, strips=(*strips, strip), length_nm=max(segment.length_nm, strip.length_nm))


def _moved(problem: Problem, boards: list[CutBoard], source: Place, k: int, goal: Place,
           grown: Segment) -> Move:
    move: Move = {goal[0]: _put(boards[goal[0]], goal, grown)}
    left = [s for at, s in enumerate(_at(boards, source).strips) if at != k]
    shrunk = _segment(problem, left) if left else None
    move[source[0]] = _put(move.get(source[0], boards[source[0]]), source, shrunk)
    return move


def _room_gathered(problem: Problem, boards: list[CutBoard], tied: set[int]) -> Iterator[Move]:
    """Segments off the board with most room, for room or for shorter ones of other boards."""
    kerf = problem.rules.crosscut_kerf_nm
    ends = [(room_nm(problem, one, r), b, r) for b, one in enumerate(boards) for r in range(len(one.runs))]
    ends.sort(key=lambda end: (-end[0], end[1:]))
    for _, b, r in ends[:2]:
        run = boards[b].runs[r]
        for s, out in enumerate(run):
            for room, to, at in ends:
                if to == b or not _same(problem, boards, b, to) or _holds(out, tied):
                    continue
                other = boards[to].runs[at]
                if out.length_nm <= room:
                    yield {b: _put(boards[b], (b, r, s), None), to: _swapped(boards[to], at, (*other, out))}
                for t, back in enumerate(other):
                    grows = out.length_nm - back.length_nm
                    if 0 < grows <= room + kerf and not _holds(back, tied):
                        yield {b: _put(boards[b], (b, r, s), back),
                               to: _put(boards[to], (to, at, t), out)}


def _same(problem: Problem, boards: list[CutBoard], one: int, other: int) -> bool:
    """Segments keep their strips only between boards of one width."""
    return problem.boards[boards[one].board].width_nm == problem.boards[boards[other].board].width_nm


def _holds(segment: Segment, tied: set[int]) -> bool:
    return any(tied.intersection(strip.sizes) for strip in segment.strips)


def _at(boards: Sequence[CutBoard], place: Place) -> Segment:
    return boards[place[0]].runs[place[1]][place[2]]


def _put(cut: CutBoard, place: Place, segment: Segment | None) -> CutBoard:
    """The board with another segment in a place, or none: an empty segment keeps its place until ordered."""
    run = list(cut.runs[place[1]])
    run[place[2] : place[2] + 1] = [segment] if segment is not None else []
    return _swapped(cut, place[1], tuple(run))


def _swapped(cut: CutBoard, at: int, run: tuple[Segment, ...]) -> CutBoard:
    runs: Runs = (*cut.runs[:at], run, *cut.runs[at + 1 :])
    return CutBoard(cut.board, runs if any(runs) else tuple(() for _ in runs))


def _strip(problem: Problem, like: Strip, sizes: tuple[int, ...]) -> Strip:
    kerf = problem.rules.crosscut_kerf_nm
    length = sum(problem.sizes[i].length_nm for i in sizes) + (len(sizes) - 1) * kerf
    return replace(like, sizes=sizes, length_nm=length, packed=0)


def _segment(problem: Problem, strips: Sequence[Strip]) -> Segment:
    length = max(strip.length_nm for strip in strips)
    return Segment(max(length, problem.rules.least_rip_length_nm), 0, tuple(strips), True)
