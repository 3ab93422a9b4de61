"""A lid or door turns on a hinge that the quote holds."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builders import demo_shop, demo_shop_metric
from handmade import asked, box, case, piece
from yardwright.domain.checks import hinges
from yardwright.domain.finding import Level
from yardwright.domain.piece.build import build
from yardwright.domain.piece.model import FittedHardware, Piece, Vector

LEVEL: Vector = (1.0, 0.0, 0.0)


def bought(kind: str = "hinge", count: float = 1, group: str = "") -> FittedHardware:
    return FittedHardware(kind, kind, count, {}, {"group": group} if group else {}, "")


def bin_store(*hardware: FittedHardware) -> Piece:
    """A body, a lid and a door."""
    moved = [box("Lid", (0, 0, 400), (800, 300, 20), group="lid"),
             box("Door", (0, -20, 0), (800, 20, 400), along="z", thick="y", group="door")]
    made = piece([box("Body", (0, 0, 0), (800, 300, 400)), *moved], hardware=hardware)
    return replace(made, moving={"lid": ((0.0, 300.0, 400.0), LEVEL, -90.0),
                                 "door": ((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), -90.0)})


@pytest.mark.parametrize(("hardware", "loose"), [
    ((), ["lid", "door"]),
    ((bought("stay"), bought("handle")), ["lid", "door"]),
    ((bought(count=0),), ["lid", "door"]),
    ((bought(),), ["door"]),
    ((bought(group="door"),), ["lid"]),
    ((bought(group="door", count=2), bought("strap hinge", 2)), []),
    ((bought("strap hinge", 4),), []),
])
def test_what_turns_on_nothing_is_a_stop_by_name(hardware: tuple[FittedHardware, ...],
                                                 loose: list[str]) -> None:
    found = hinges.check(asked("hinges"), case(bin_store(*hardware)))
    assert [(f.level, f.title) for f in found] == [(Level.STOP, f"Nothing hinges the {g}") for g in loose]


@pytest.mark.parametrize("metric", [False, True])
def test_the_storage_bench_is_hinged_and_without_its_hinge_a_stop(metric: bool) -> None:
    at = demo_shop_metric() if metric else demo_shop()
    made = build(at.templates["storage-bench"], {}, {}, at, at.units)
    assert hinges.check(asked("hinges"), case(made, at=at)) == ()
    bare = replace(made, hardware=tuple(h for h in made.hardware if h.kind != "hinge"))
    assert [f.title for f in hinges.check(asked("hinges"), case(bare, at=at))] == ["Nothing hinges the lid"]
