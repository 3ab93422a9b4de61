"""The saw's set-ups for a whole plan: every board's cuts with one setting of stop or fence made together.

Boards are crosscut to segments first, then segments ripped, then strips crosscut to parts: the order of the
stages is kept, and within a stage the longest and widest setting comes first.
"""

from __future__ import annotations

from dataclasses import dataclass

from .model import CutStep, CuttingPlan

_STAGES = ("trim the ends", "crosscut boards", "trim edges", "rip", "crosscut strips")


@dataclass(frozen=True, slots=True)
class SetUp:
    """``setting_nm`` of the stop or fence; ``times`` cuts; ``boards`` by number in the plan, from 1."""

    stage: str
    kind: str
    setting_nm: int
    times: int
    boards: tuple[int, ...]
    marks: tuple[str, ...]


def set_ups(plan: CuttingPlan) -> tuple[SetUp, ...]:
    """All cuts of the plan grouped by setting, in the order the saws are set."""
    grouped: dict[tuple[int, int], list[tuple[int, CutStep]]] = {}
    for number, layout in enumerate(plan.layouts, 1):
        for step in layout.steps:
            grouped.setdefault((_stage(step), -step.setting_nm), []).append((number, step))
    return tuple(
        SetUp(
            _STAGES[stage],
            steps[0][1].kind,
            -setting,
            sum(step.times for _, step in steps),
            tuple(dict.fromkeys(number for number, _ in steps)),
            tuple(dict.fromkeys(mark for _, step in steps for mark in step.marks)),
        )
        for (stage, setting), steps in sorted(grouped.items(), key=lambda entry: entry[0])
    )


def _stage(step: CutStep) -> int:
    if step.kind == "trim":
        return 0 if step.piece == "board" else 2
    if step.kind == "rip":
        return 3
    return 1 if step.piece in ("board", "roll") else 4
