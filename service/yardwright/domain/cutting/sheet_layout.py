"""From blocks to sheets at the saw: placed parts, offcuts, and the cuts in order."""

from __future__ import annotations

from collections.abc import Sequence

from .blocks import Bench, Block
from .layout import with_marks
from .model import CutStep, Layout
from .problem import Board
from .sheet_job import CutSheet, SheetJob


def sheet_layouts(job: SheetJob, sheets: Sequence[CutSheet]) -> tuple[Layout, ...]:
    """Every sheet, marks dealt in the order asked; sheets of one line and alike stand together."""
    marks = [[mark for mark, count in of for _ in range(count)][::-1] for of in job.marks]
    ordered = sorted(sheets, key=lambda one: (one.board, -one.filled(job), repr(one.blocks)))
    return tuple(_layout(job, one, marks) for one in ordered)


def _layout(job: SheetJob, one: CutSheet, marks: list[list[str]]) -> Layout:
    sheet, rules = job.boards[one.board], job.rules
    trim, edge = rules.end_trim_nm, rules.edge_trim_nm
    long, wide = sheet.length_nm, sheet.width_nm
    bench = Bench(rules, lambda kind: marks[kind].pop(), (trim, edge, long - trim, wide - edge))
    first = sheet.clear[0][0] if one.blocks[0] else trim
    if first:
        bench.steps.append(CutStep("trim", first, 1, "sheet", (), ((first, 0, first, wide),)))
    if edge:
        bench.steps.append(CutStep("trim", edge, 1, "sheet, edge", (), ((first, edge, long, edge),)))
    _cut_blocks(one, sheet, bench, first, edge)
    return Layout(
        sheet.code,
        long,
        wide,
        tuple(bench.parts),
        tuple(bench.offcuts),
        tuple(with_marks(bench.steps, bench.parts)),
        sheet.price,
    )


def _cut_blocks(one: CutSheet, sheet: Board, bench: Bench, first: int, edge: int) -> None:
    """Crosscut at the far side of blocked zones, the kerf in the zone; then each block out of its piece."""
    kerf, begins, clear_to = bench.rules.crosscut_kerf_nm, first, sheet.clear[0][1]
    pieces: list[tuple[Block | None, int, int, int]] = []
    block = one.blocks[0]
    for (start, to), later in zip(sheet.clear[1:], one.blocks[1:], strict=True):
        if later:
            at = start - kerf
            cut = (at, edge, at, sheet.width_nm)
            bench.steps.append(CutStep("crosscut", at - begins, 1, "sheet", (), (cut,)))
            pieces.append((block, begins, at, clear_to))
            block, begins, clear_to = later, start, to
    pieces.append((block, begins, sheet.length_nm, clear_to))
    for number, (inner, start, to, clear_to) in enumerate(pieces, 1):
        bench.clear = (start, edge, clear_to, bench.clear[3])
        if inner is not None:
            name = f"piece {number}" if len(pieces) > 1 else "sheet"
            bench.cut(inner, start, edge, to, sheet.width_nm, name)
        elif start >= sheet.clear[0][0]:
            bench.left(start, edge, to, sheet.width_nm)
