"""From chosen patterns to boards on the saw: placed parts, offcuts and the cuts in order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .arrange import arrange
from .model import CutStep, Layout, Offcut, Placed
from .needed import needed
from .patterns import Pattern
from .problem import Board, Problem
from .saw_work import Runs, first_trim_nm, zone_cuts
from .segments import Segment, Strip

Cut = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True)
class Laid:
    """One segment where it lies on its board."""

    x_nm: int
    segment: Segment


def layouts(problem: Problem, plan: Sequence[tuple[Pattern, int]]) -> tuple[Layout, ...]:
    """Every board of the plan, marks dealt in the order asked; what is not needed is not cut."""
    marks = [[mark for mark, count in sized for _ in range(count)][::-1] for sized in problem.marks]
    for need in problem.needs:
        for other in need.any_of[1:]:
            marks[other] = marks[need.any_of[0]]  # the same parts, turned
    arranged = arrange(problem, needed(problem, plan))
    return tuple(_layout(problem, problem.boards[one.board], one.runs, marks) for one in arranged)


def _layout(problem: Problem, board: Board, runs: Runs, marks: list[list[str]]) -> Layout:
    kerf = problem.rules.crosscut_kerf_nm
    laid: list[Laid] = []
    offcuts: list[Offcut] = []
    for (start, to), run in zip(board.clear, runs, strict=True):
        x = start
        for segment in run:
            laid.append(Laid(x, segment))
            x += segment.length_nm + kerf
        if to > x:
            kept = to - x >= problem.rules.least_offcut_nm > 0
            offcuts.append(Offcut(x, 0, to - x, board.width_nm, kept))
    parts: list[Placed] = []
    steps = _board_steps(problem, board, laid, runs)
    for number, item in enumerate(laid, 1):
        placed, rest, cuts = _segment(problem, board, item, f"segment {number}", marks)
        parts += placed
        offcuts += rest
        steps += cuts
    steps = with_marks(steps, parts)
    return Layout(
        board.code, board.length_nm, board.width_nm, tuple(parts), tuple(offcuts), tuple(steps), board.price
    )


def _board_steps(problem: Problem, board: Board, laid: list[Laid], runs: Runs) -> list[CutStep]:
    """Trim the first end, crosscut at blocked zones, then the segments, equal lengths under one stop."""
    wide = board.width_nm
    first = first_trim_nm(problem, board, runs)
    steps = [CutStep("trim", first, 1, "board", (), ((first, 0, first, wide),))] if first else []
    zones = zone_cuts(problem, board, runs)
    for setting, at in zones:
        steps.append(CutStep("crosscut", setting, 1, "board", (), ((at, 0, at, wide),)))
    free = {board.length_nm, *(at for _, at in zones)}
    cuts: dict[int, list[Cut]] = {}
    for item in laid:
        end = item.x_nm + item.segment.length_nm
        if end not in free:
            cuts.setdefault(item.segment.length_nm, []).append((end, 0, end, wide))
    return steps + [
        CutStep("crosscut", length, len(at), "board", (), tuple(at)) for length, at in cuts.items()
    ]


def _segment(
    problem: Problem, board: Board, item: Laid, name: str, marks: list[list[str]]
) -> tuple[list[Placed], list[Offcut], list[CutStep]]:
    segment, rules = item.segment, problem.rules
    if not segment.ripped:
        size = problem.sizes[segment.strips[0].sizes[0]]
        mark = marks[segment.strips[0].sizes[0]].pop()
        return [Placed(mark, item.x_nm, 0, size.length_nm, size.width_nm)], [], []
    trim = any(s.trim for s in segment.strips)
    y = rules.edge_trim_nm if trim else 0
    parts: list[Placed] = []
    offcuts: list[Offcut] = []
    rips: dict[int, list[Cut]] = {}
    crosscuts: list[CutStep] = []
    for number, strip in enumerate(segment.strips, 1):
        x = item.x_nm
        for i in strip.sizes:
            size = problem.sizes[i]
            parts.append(Placed(marks[i].pop(), x, y, size.length_nm, size.width_nm))
            x += size.length_nm + rules.crosscut_kerf_nm
        end = item.x_nm + segment.length_nm
        if end > x:
            offcuts.append(_piece(problem, x, y, end - x, strip.width_nm))
        crosscuts += _strip_steps(problem, strip, item, y, f"{name}, strip {number}")
        if y + strip.width_nm != board.width_nm:
            top = y + strip.width_nm
            rips.setdefault(strip.width_nm, []).append((item.x_nm, top, end, top))
        y += strip.width_nm + rules.rip_kerf_nm
    if board.width_nm > y:
        offcuts.append(_piece(problem, item.x_nm, y, segment.length_nm, board.width_nm - y))
    steps = []
    if trim:
        edge = (item.x_nm, rules.edge_trim_nm, item.x_nm + segment.length_nm, rules.edge_trim_nm)
        steps = [CutStep("trim", rules.edge_trim_nm, 1, name + ", edge", (), (edge,))]
    steps += [CutStep("rip", width, len(at), name, (), tuple(at)) for width, at in rips.items()]
    return parts, offcuts, steps + crosscuts


def _piece(problem: Problem, x: int, y: int, length: int, width: int) -> Offcut:
    rules = problem.rules
    kept = length >= rules.least_offcut_nm > 0 and width >= max(rules.least_strip_nm, 1)
    return Offcut(x, y, length, width, kept)


def _strip_steps(problem: Problem, strip: Strip, item: Laid, y: int, name: str) -> list[CutStep]:
    """Crosscut a strip to its parts; the last one needs no cut where the strip ends with it."""
    cuts: dict[int, list[Cut]] = {}
    x, end = item.x_nm, item.x_nm + item.segment.length_nm
    for i in strip.sizes:
        length = problem.sizes[i].length_nm
        if x + length != end:
            cuts.setdefault(length, []).append((x + length, y, x + length, y + strip.width_nm))
        x += length + problem.rules.crosscut_kerf_nm
    return [CutStep("crosscut", length, len(at), name, (), tuple(at)) for length, at in cuts.items()]


def with_marks(steps: list[CutStep], parts: list[Placed]) -> list[CutStep]:
    """Name on each step the parts that are free or at their size after it: those whose edge a cut makes."""
    named = []
    for step in steps:
        marks = [
            p.mark
            for x1, y1, x2, y2 in step.cuts
            for p in parts
            if (x1 == x2 == p.x_nm + p.length_nm and y1 <= p.y_nm and p.y_nm + p.width_nm <= y2)
            or (y1 == y2 == p.y_nm + p.width_nm and x1 <= p.x_nm and p.x_nm + p.length_nm <= x2)
        ]
        named.append(replace(step, marks=tuple(dict.fromkeys(marks))))
    return named
