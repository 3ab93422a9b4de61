"""Room for fasteners: rows, ends and edges counted by hand; what is bored first and with which bit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import asked, box, case, piece
from yardwright.domain.checks import screw_room
from yardwright.domain.checks.rule import Case
from yardwright.domain.finding import Level
from yardwright.domain.measure import Writer
from yardwright.domain.piece.model import Piece

D = 0.164 * 25.4                         # gauge 8: 4.166 mm


def crossing(wide: float, number: int, past: float = 100.0) -> Piece:
    """A board 140 wide lies across a cleat ``wide`` mm wide and runs ``past`` mm beyond it at both ends."""
    board = box("Board", (0, 0, 40), (2 * past + wide, 140, 19))
    cleat = box("Cleat", (past, -100, 0), (wide, 340, 40), along="y")
    made = piece([board, cleat], screwed=[("Board", "Cleat")])
    return replace(made, joints=tuple(replace(j, fasteners=number) for j in made.joints))


def found(made: Piece) -> list[tuple[Level, str]]:
    return [(f.level, f.title) for f in screw_room.check(asked("screw spacing"), case(made))]


def room(made: Piece, bored: bool = True) -> int:
    looked: Case = case(made)
    touch = looked.touches["Board"][0]
    return screw_room.room(looked, looked.member("Board"), looked.member(touch.other), touch, D, bored)


def test_staggered_rows_in_a_crossing_are_counted_by_hand() -> None:
    """40 × 140, edges 1.5 D: 27.5 mm take 3 rows of 2.5 D, 127.5 take 13; every other place of 39: 20."""
    assert room(crossing(40.0, 2)) == 20


def test_unbored_the_same_crossing_takes_a_third() -> None:
    """15 D along the grain for 5: one place in six of 39, 7."""
    assert room(crossing(40.0, 2), bored=False) == 7


def test_a_board_that_ends_on_its_cleat_needs_the_room_of_its_end() -> None:
    """40 mm less an end of 2.5 D and an edge of 1.5 D at one side, 23.3 mm: 3 rows; unbored an end of 10 D
    takes it all."""
    made = crossing(40.0, 2)
    short = replace(made.members[0], length_mm=140.0)
    flush = piece([short, made.members[1]], screwed=[("Board", "Cleat")])
    assert room(flush) == 20
    assert room(flush, bored=False) == 0


@pytest.mark.parametrize(("number", "level"), [(20, Level.OK), (21, Level.NOTE), (40, Level.NOTE),
                                               (41, Level.CAUTION)])
def test_more_than_find_room_is_told_and_more_than_twice_cautioned(number: int, level: Level) -> None:
    assert found(crossing(40.0, number))[0][0] is level


def test_a_screw_into_a_board_s_edge_has_room_and_two_side_by_side_have_none() -> None:
    """19 mm less 2 × 1.5 D = 6.5 mm: one row."""
    narrow = crossing(19.0, 1)
    assert room(narrow) == 7


def test_bolts_stand_four_diameters_apart_each_way() -> None:
    """140 × 140, 3/8 in: 140 - 2·1.5·9.5 = 111 mm take 3 rows of 38 each way: 9 bolts."""
    made = crossing(140.0, 4)
    made = replace(made, joints=tuple(replace(j, rule=replace(j.rule, fasten="bolts")) for j in made.joints))
    looked = case(made)
    touch = looked.touches["Board"][0]
    assert screw_room.room(looked, looked.member("Board"), looked.member("Cleat"), touch, 9.525, True) == 9


@pytest.mark.parametrize(("inches", "kind", "bit", "mm"), [
    (0.164, "softwood", "5/64 in", "2 mm"), (0.164, "hardwood", "7/64 in", "2.5 mm"),
    (0.190, "softwood", "3/32 in", "2.5 mm"), (0.190, "hardwood", "1/8 in", "3 mm"),
    (0.138, "softwood", "5/64 in", "1.5 mm"), (0.216, "softwood", "7/64 in", "2.5 mm")])
def test_the_bit_is_the_one_of_the_pilot_tables(inches: float, kind: str, bit: str, mm: str) -> None:
    """Wood Screw Pilot Hole Sizes, plate 6B: #8 5/64 and 7/64, #10 3/32 and 1/8, #12 7/64 (seen); #6 1/16
    there, the next 1/64 up here."""
    assert screw_room.pilot(inches * 25.4, kind, Writer("in")) == bit
    assert screw_room.pilot(inches * 25.4, kind, Writer("mm")) == mm


def test_the_workshop_is_told_what_to_bore() -> None:
    made = crossing(40.0, 9)
    note = screw_room.check(asked("screw spacing"), case(made))[-1]
    assert note.title == "Bore first" and "Board to Cleat" in note.detail and "5/64 in" in note.detail
    assert not note.customer


def test_nothing_fastened_nothing_said() -> None:
    assert found(piece([box("Plank", (0, 0, 0), (900, 140, 30))])) == []
