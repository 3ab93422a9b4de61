"""A saw that follows a plan's steps on a real piece: what falls off must be the parts. No planner code.

A cut runs from edge to edge of a piece that is there; what lies beyond its kerf is another piece. A trim
takes the near side away, its kerf out of what is lost.
"""

from __future__ import annotations

from dataclasses import dataclass

from yardwright.domain.cutting.model import CutRules, Layout


@dataclass(frozen=True)
class Piece:
    x: int
    y: int
    to_x: int
    to_y: int


def faults_at_the_saw(layout: Layout, rules: CutRules) -> list[str]:
    """What goes wrong when the steps are followed one after another; empty when the parts come out."""
    pieces = [Piece(0, 0, layout.length_nm, layout.width_nm)]
    faults = []
    for number, step in enumerate(layout.steps, 1):
        if len(step.cuts) != step.times:
            faults.append(f"step {number} says {step.times} times but is drawn {len(step.cuts)} times")
        for cut in step.cuts:
            if not _cut(pieces, cut, step.kind == "trim", rules):
                faults.append(f"step {number} {step.kind} {step.piece}: no piece is cut through by {cut}")
    for part in layout.parts:
        wanted = Piece(part.x_nm, part.y_nm, part.x_nm + part.length_nm, part.y_nm + part.width_nm)
        if wanted in pieces:
            pieces.remove(wanted)
        else:
            faults.append(f"{part.mark} does not come out at its size")
    for offcut in layout.offcuts:
        there = Piece(offcut.x_nm, offcut.y_nm, offcut.x_nm + offcut.length_nm, offcut.y_nm + offcut.width_nm)
        if offcut.kept and not any(_within(there, piece) for piece in pieces):
            faults.append(f"the offcut at {offcut.x_nm} is in no piece that is left")
    return faults


def _cut(pieces: list[Piece], cut: tuple[int, int, int, int], trim: bool, rules: CutRules) -> bool:
    x1, y1, x2, y2 = cut
    for at, piece in enumerate(pieces):
        if x1 == x2 and piece.x < x1 < piece.to_x and (y1, y2) == (piece.y, piece.to_y):
            near, far = (piece.x, x1), (x1 if trim else x1 + rules.crosscut_kerf_nm, piece.to_x)
            pieces[at : at + 1] = [Piece(a, piece.y, b, piece.to_y) for a, b in (near, far) if b > a]
            return True
        if y1 == y2 and piece.y < y1 < piece.to_y and (x1, x2) == (piece.x, piece.to_x):
            near, far = (piece.y, y1), (y1 if trim else y1 + rules.rip_kerf_nm, piece.to_y)
            pieces[at : at + 1] = [Piece(piece.x, a, piece.to_x, b) for a, b in (near, far) if b > a]
            return True
    return False


def _within(inner: Piece, outer: Piece) -> bool:
    return (
        outer.x <= inner.x and outer.y <= inner.y and inner.to_x <= outer.to_x and inner.to_y <= outer.to_y
    )
