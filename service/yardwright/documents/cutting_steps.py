"""The steps of one board in the order of the saw: equal settings made together, and said in words.

The planner tells a board's cuts segment by segment. At the saw one setting of stop or fence serves every
segment, so steps of one stage and setting become one, in the order crosscut, rip, crosscut the strips. A
sheet laid out turned has its stages the other way round and keeps the planner's order.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from yardwright.domain.cutting.model import CutStep, Layout, Offcut
from yardwright.domain.measure import Writer

_PIECE = re.compile(r"segment (\d+)(, edge|, strip \d+)?$")
_WORDS = {"trim": "Trim", "crosscut": "Crosscut", "rip": "Rip"}


def saw_steps(layout: Layout) -> tuple[CutStep, ...]:
    """The layout's steps with equal settings of one stage as one step."""
    if any(_stage(step) is None for step in layout.steps):
        return layout.steps
    grouped: dict[tuple[int, int], list[CutStep]] = {}
    for step in layout.steps:
        grouped.setdefault((_stage(step) or 0, step.setting_nm), []).append(step)
    return tuple(_together(steps) for _, steps in sorted(grouped.items(), key=lambda group: group[0][0]))


def _stage(step: CutStep) -> int | None:
    """Trim ends 0, crosscut 1, trim edges 2, rip 3, crosscut strips 4; None where stages run another way."""
    if step.piece in ("board", "roll"):
        return {"trim": 0, "crosscut": 1}.get(step.kind)
    found = _PIECE.match(step.piece)
    if found is None:
        return None
    return {("trim", True): 2, ("rip", False): 3, ("crosscut", True): 4}.get((step.kind, bool(found[2])))


def _together(steps: Sequence[CutStep]) -> CutStep:
    first = steps[0]
    pieces = list(dict.fromkeys(step.piece for step in steps))
    return replace(first, times=sum(step.times for step in steps), piece=_named(pieces),
                   marks=tuple(dict.fromkeys(mark for step in steps for mark in step.marks)),
                   cuts=tuple(cut for step in steps for cut in step.cuts))


def _named(pieces: Sequence[str]) -> str:
    """Whole segments as a run of numbers: ``segments 1 to 3 and 5``; strips one by one."""
    found = [_PIECE.match(piece) for piece in pieces]
    if len(pieces) == 1 or any(one is None for one in found):
        return pieces[0]
    numbers = [int(one[1]) for one in found if one]
    if all(one and one[2] is None for one in found):
        return f"segments {runs(numbers)}"
    if all(one and one[2] == ", edge" for one in found):
        return f"segments {runs(numbers)}, edge"
    return "; ".join(pieces)


def runs(numbers: Iterable[int]) -> str:
    """Numbers in words, three and more in a row as a run.

    >>> runs([1, 2, 3, 5, 7, 8])
    '1 to 3, 5, 7, 8'
    """
    rows: list[list[int]] = []
    for number in sorted(set(numbers)):
        if rows and number == rows[-1][-1] + 1:
            rows[-1].append(number)
        else:
            rows.append([number])
    said = [f"{row[0]} to {row[-1]}" if len(row) > 2 else ", ".join(map(str, row)) for row in rows]
    return ", ".join(said)


def said(step: CutStep, writer: Writer) -> str:
    """One step of the saw in words: "Rip segments 2 and 3 to 4 1/2 in, twice: A3, A4"."""
    times = {1: "", 2: ", twice"}.get(step.times, f", {step.times} times")
    at = "by" if step.kind == "trim" else "to"
    marks = f": {', '.join(dict.fromkeys(step.marks))}" if step.marks else ""
    word = _WORDS.get(step.kind, step.kind.capitalize())
    return f"{word} {step.piece} {at} {writer.length(step.setting_nm)}{times}{marks}"


def kept(offcuts: Sequence[Offcut], writer: Writer) -> str:
    """Offcuts worth keeping, in words: "Keep 44 in x 7/8 in (2)"; empty where there are none."""
    sizes: dict[str, int] = {}
    for offcut in offcuts:
        if offcut.kept:
            size = f"{writer.length(offcut.length_nm)} x {writer.length(offcut.width_nm)}"
            sizes[size] = sizes.get(size, 0) + 1
    told = [size + (f" ({count})" if count > 1 else "") for size, count in sizes.items()]
    return f"Keep {'; '.join(told)}" if told else ""
