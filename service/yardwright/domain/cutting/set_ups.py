"""The saw's set-ups for a whole plan: every board's cuts with one setting of stop or fence made together.

Boards are crosscut to segments first, then segments ripped, then strips crosscut to parts: the order of the
stages is kept, and within a stage the longest and widest setting comes first. Sheets and rolls have as many
stages as their cuts ask for: a cut comes after all that free its piece.
"""

from __future__ import annotations

from dataclasses import dataclass

from .model import CutStep, CuttingPlan, Layout

_BOARDS = ("trim the ends", "crosscut boards", "trim edges", "rip", "crosscut strips")
_NAMES = {"sheet": "sheet", "roll": "length"}


@dataclass(frozen=True, slots=True)
class SetUp:
    """``setting_nm`` of the stop or fence; ``times`` cuts; ``boards`` by number in the plan, from 1.

    ``of`` is what those numbers count: "board" | "sheet" | "length" (of a roll).
    """

    stage: str
    kind: str
    setting_nm: int
    times: int
    boards: tuple[int, ...]
    marks: tuple[str, ...]
    of: str = "board"


def set_ups(plan: CuttingPlan) -> tuple[SetUp, ...]:
    """All cuts of the plan grouped by setting, in the order the saws are set."""
    grouped: dict[tuple[int, str, int], list[tuple[int, CutStep]]] = {}
    of = _counted(plan)
    for number, layout in enumerate(plan.layouts, 1):
        for order, stage, step in _staged(layout, of):
            grouped.setdefault((order, stage, -step.setting_nm), []).append((number, step))
    return tuple(
        SetUp(
            stage,
            steps[0][1].kind,
            -setting,
            sum(step.times for _, step in steps),
            tuple(dict.fromkeys(number for number, _ in steps)),
            tuple(dict.fromkeys(mark for _, step in steps for mark in step.marks)),
            of,
        )
        for (_, stage, setting), steps in sorted(grouped.items(), key=lambda entry: entry[0])
    )


def _counted(plan: CuttingPlan) -> str:
    whole = (step.piece.split(",")[0] for layout in plan.layouts for step in layout.steps)
    return next((_NAMES[piece] for piece in whole if piece in _NAMES), "board")


def _staged(layout: Layout, of: str) -> list[tuple[int, str, CutStep]]:
    """(order, stage in words, step) of each step of one board, sheet or length."""
    if of == "board":
        return [(_stage(step), _BOARDS[_stage(step)], step) for step in layout.steps]
    staged = []
    last: dict[str, tuple[int, str]] = {"": (-1, "")}  # by piece: order and kind of its latest cut
    for step in layout.steps:
        piece = step.piece.split(",")[0]
        way = step.kind if step.piece == piece else "edge"
        order, kind = last.get(piece) or (last[_cut_from(piece, last)][0] + 1, way)
        order += kind != way
        last[piece] = (order, way)
        staged.append((order, _words(step, piece), step))
    return staged


def _cut_from(piece: str, last: dict[str, tuple[int, str]]) -> str:
    """The piece it was cut from that had a cut of its own: pieces 1.2, 1 and the sheet in turn."""
    while "." in piece:
        piece = piece.rpartition(".")[0]
        if piece in last:
            return piece
    return next((whole for whole in _NAMES if whole in last and whole != piece), "")


def _words(step: CutStep, piece: str) -> str:
    if step.kind == "trim":
        return "trim the ends" if step.piece == piece else "trim edges"
    whole = {"sheet": "sheets", "roll": "rolls"}.get(piece, "pieces")
    return f"{step.kind} {whole}"


def _stage(step: CutStep) -> int:
    if step.kind == "trim":
        return 0 if step.piece == "board" else 2
    if step.kind == "rip":
        return 3
    return 1 if step.piece == "board" else 4
