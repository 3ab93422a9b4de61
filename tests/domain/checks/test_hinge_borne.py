"""A leaf that its hinge carries: one finding, a stop where nothing could hold it up, never fine."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import asked, box, case, piece
from yardwright.domain.checks import shelf_load
from yardwright.domain.finding import Finding, Level
from yardwright.domain.piece.model import FittedHardware, Piece


def fold_down(*hardware: FittedHardware, ledger: bool = False) -> Piece:
    """Four boards of a leaf edge to edge before a wall board, turning about its front edge."""
    wall = box("Wall board", (0, 560, 560), (1000, 40, 140), thick="y")
    leaf = [box(f"Top {n}", (0, 140 * n, 700), (1000, 140, 30), group="leaf") for n in range(4)]
    under = [box(f"Ledger {n}", (x, 0, 660), (40, 560, 40), along="y") for n, x in enumerate((0, 960))]
    made = piece([wall, *leaf, *(under if ledger else [])], [asked("shelf load", [m.key for m in leaf])],
                 hardware=hardware)
    return replace(made, moving={"leaf": ((0.0, 560.0, 700.0), (1.0, 0.0, 0.0), 90.0)})


def told(made: Piece) -> list[Finding]:
    return [f for f in shelf_load.check(made.checks[0], case(made)) if f.level is not Level.OK]


def fitted(kind: str, count: float = 2) -> FittedHardware:
    return FittedHardware(kind.title(), kind, count, {}, {}, "")


@pytest.mark.parametrize(("hardware", "level"), [
    ((), Level.STOP), ((fitted("hinge"), fitted("anchor")), Level.STOP), ((fitted("stay", 0.0),), Level.STOP),
    ((fitted("stay"),), Level.NOT_CHECKED), ((fitted("bracket"), fitted("hinge")), Level.NOT_CHECKED)])
def test_four_boards_of_a_leaf_are_one_finding(hardware: tuple[FittedHardware, ...], level: Level) -> None:
    (found,) = told(fold_down(*hardware))
    assert found.level is level
    assert "4 loaded boards" in found.working


def test_a_leaf_that_lies_on_ledgers_is_a_shelf_like_any_other() -> None:
    assert not any("hinge" in f.title or "holds" in f.title for f in told(fold_down(ledger=True)))


def test_fixed_boards_on_nothing_are_told_once_for_each_name() -> None:
    made = fold_down()
    still = replace(made, moving={}, members=tuple(replace(m, group="fixed") for m in made.members))
    (found,) = told(still)
    assert found.title == "Top: not carried" and found.level is Level.STOP
    assert "and 3 more alike" in found.detail
