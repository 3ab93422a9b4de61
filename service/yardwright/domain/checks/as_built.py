"""What is asked of a piece, as it is built: a template neither silences a check nor misleads it.

Heights and gaps that a check is given are held against the solids; where they differ by more than the shop's
working step, the solids count and ``declared`` says so. What the solids alone call for is asked though the
template does not: whether a person on the edge of a seat 10 in up tips the piece, whether one 24 in high
stands a push, whether boards that one may sit down on bear it, those behind it a back, or
those around earth its pressure. mm.
Source: geometry of the piece.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from typing import TypeVar

from ..errors import BadData
from ..measure import to_mm
from ..piece.model import AskedCheck, Member
from ..template.model import CheckRule
from .backs import back_of
from .between import gaps_between
from .footprint import bounds
from .inside import shut_in_mm3
from .kinds import believed
from .lid import is_door
from .rule import Case, Declared, Unknown, why
from .seats import Seat, found_seats, level_tops, sat_on, seats, top_mm
from .soil_room import walls
from .stance import stance_of
from .touches import UP, reach

Made = TypeVar("Made")
LOADS = ("seat load", "back load", "shelf load", "soil floor", "soil sides", "arm load", "attached seats")
_WALLS = 0.8                 # of the room as measured: walls, posts and the lid itself; judgement
_BEHIND_MM = 50.0            # where back and seat meet may lie this far below a sloped seat; judgement


def as_built(case: Case) -> Case:
    """The case with its checks held against the solids, and those asked that the solids call for."""
    if not case.piece.members:
        return case
    checks: list[AskedCheck] = []
    told: list[Declared] = []
    unseen: list[str] = []
    for asked in case.piece.checks:
        as_asked: tuple[AskedCheck, tuple[Declared, ...]] = (asked, ())
        held, differs = _tried(partial(_held, asked, case), as_asked, unseen)
        checks.append(held)
        told += differs
    none: tuple[AskedCheck, ...] = ()
    more = [asked for calls in (_tip_over, _all_on_one_side, _seat_load, _shut_in, _soil_sides, _backs)
            for asked in _tried(partial(calls, case), none, unseen)]
    return replace(case, piece=replace(case.piece, checks=(*checks, *more)), declared=tuple(told),
                   called_for=tuple(more), unseen=tuple(dict.fromkeys(unseen)))


def _tried(make: Callable[[], Made], instead: Made, unseen: list[str]) -> Made:
    """What is made, or what stands in for it, and why it could not be."""
    try:
        return make()
    except (Unknown, BadData) as missing:
        unseen.append(why(missing))
        return instead


def _held(asked: AskedCheck, case: Case) -> tuple[AskedCheck, tuple[Declared, ...]]:
    """The check with its values as the solids show them, and what differs."""
    step, values, told = to_mm(case.shop.saw.step_nm), dict(asked.values), []
    for name, what, low, high in _measured(asked, case):
        said = float(values[name])
        if not low - step <= said <= high + step:
            values[name] = high
            told.append(Declared(asked.rule.rule, what, case.words.length(said), case.words.length(high)))
    if asked.rule.rule == "chest" and (room := _room(asked, case)) * _WALLS > (
            volume := float(values["inside_volume"])):
        values["inside_volume"] = room
        told.append(Declared("chest", "the room inside", case.words.volume(volume), case.words.volume(room)))
    asked = replace(asked, values=values)
    if asked.rule.rule == "tip over":
        asked, more = believed(asked, case)
        asked, told = _seated(asked, case), [*told, *more]
    return asked, tuple(told)


def _measured(asked: AskedCheck, case: Case) -> Iterator[tuple[str, str, float, float]]:
    """(value, what it is, least and greatest that the solids show) of what can be found."""
    rule, given = asked.rule.rule, asked.values
    members = [case.member(k) for k in asked.members]
    seat = sat_on(case) if rule in ("seat", "table", "lean back") else ()
    if rule == "seat" and "height" in given and (boards := tuple(members) or seat):
        yield "height", "the seat's height", *top_mm(case, boards)
    if rule == "table":
        if tops := _table(case):
            yield "height", "the table's height", *top_mm(case, tops)
        if "seat_height" in given and seat:
            yield "seat_height", "the seat's height", *top_mm(case, seat)
    if rule == "lean back" and seat:
        low, high = top_mm(case, seat)
        yield "seat_height", "the seat's height at the back", low - _BEHIND_MM, high
    if rule == "tip over" and "push_height" in given:
        high = case.piece.standing_mm[2]
        yield "push_height", "the height of the push", high, max(high, float(given["push_height"]))
    if rule == "board gaps" and (gaps := gaps_between(case.piece.members, members)):
        said, (low, high) = float(given["gap"]), gaps
        furthest = high if high - said >= said - low else low
        yield "gap", "the gap between boards", furthest, furthest


def _table(case: Case) -> tuple[Member, ...]:
    keys = [k for c in case.piece.checks for k in c.members
            if (c.rule.rule == "shelf load" and c.rule.words.get("use") == "table")
            or c.rule.rule == "food contact"]
    return tuple(case.member(k) for k in dict.fromkeys(keys))


def _room(asked: AskedCheck, case: Case) -> float:
    """The room behind the lid or door that a chest check is about; the largest where it names none."""
    group = asked.rule.words.get("group", "")
    return max((shut_in_mm3(case, name) for name in case.piece.moving if group in ("", name)), default=0.0)


def _seated(asked: AskedCheck, case: Case) -> AskedCheck:
    """A tip over with a person on the edge of every seat that the solids show, its own boards of it first."""
    if asked.rule.words.get("kind") == "planter":
        return asked
    sits = bool(asked.values.get("seat"))
    more = tuple(m.key for seat in _high_seats(case) for m in seat.members
                 if not sits or not any(m.key in asked.members for m in seat.members))
    if not more:
        return asked
    kept = asked.members if sits else ()
    return replace(asked, values={**asked.values, "seat": True}, members=(*kept, *more))


def _tip_over(case: Case) -> tuple[AskedCheck, ...]:
    sitting = tuple(m.key for seat in _high_seats(case) for m in seat.members)
    pushed = [c for c in case.piece.checks if c.rule.rule == "tip over"]
    high, tall = case.piece.standing_mm[2], case.limit("structure.tall_piece")
    if any(c.rule.words.get("kind") != "planter" for c in pushed) or not (
            sitting or (not pushed and high >= tall)):
        return ()
    # Low, it is moved about like a chair: falling over empty hurts nobody.
    words = {} if high >= tall else {"kind": "chair"}
    return (AskedCheck(CheckRule("tip over", words=words),
                       {"push_height": high, "seat": bool(sitting)}, sitting),)


def _high_seats(case: Case) -> tuple[Seat, ...]:
    """Seats that somebody falls from: as high as a child's, or higher."""
    least = case.limit("people.seat_height.child_least") - to_mm(case.shop.saw.step_nm)
    return tuple(seat for seat in seats(case) if top_mm(case, seat.members)[1] >= least)


def _all_on_one_side(case: Case) -> tuple[AskedCheck, ...]:
    if any(c.rule.rule == "attached seats" for c in case.piece.checks) or not _beyond_the_feet(case):
        return ()
    return (AskedCheck(CheckRule("attached seats"), {}, tuple(m.key for m in sat_on(case))),)


def _shut_in(case: Case) -> tuple[AskedCheck, ...]:
    """A chest for each lid that shuts a room and each door, unless one is asked."""
    chests = [c.rule.words.get("group", "") for c in case.piece.checks if c.rule.rule == "chest"]
    found = []
    for group in case.piece.moving:
        door = is_door(case.piece, group)
        if not case.piece.group(group) or group in chests or ("" in chests and not door):
            continue
        if (room := shut_in_mm3(case, group)) or door:
            found.append(AskedCheck(CheckRule("chest", words={"group": group}), {"inside_volume": room}, ()))
    return tuple(found)


def _seat_load(case: Case) -> tuple[AskedCheck, ...]:
    loaded = {k for c in case.piece.checks if c.rule.rule in LOADS for k in c.members}
    free = tuple(m.key for m in found_seats(case, loaded))
    return (AskedCheck(CheckRule("seat load"), {}, free),) if free else ()


def _soil_sides(case: Case) -> tuple[AskedCheck, ...]:
    """Earth on a floor presses on the boards around it, unless some are named."""
    if any(c.rule.rule == "soil sides" for c in case.piece.checks):
        return ()
    top, pressed = walls(case)
    return (AskedCheck(CheckRule("soil sides"), {"soil_top": top}, tuple(m.key for m in pressed)),
            ) if pressed else ()


def _backs(case: Case) -> tuple[AskedCheck, ...]:
    """A back load, and leaning back, for boards behind a seat where no back load names any."""
    rules = {c.rule.rule for c in case.piece.checks if c.members}
    if "back load" in rules:
        return ()
    known = {k for c in case.piece.checks if c.rule.rule in (*LOADS, "armrest") for k in c.members}
    found = []
    for seat in seats(case):
        top, upper = top_mm(case, seat.members)[1], max(reach(m, UP)[1] for m in seat.members)
        if keys := tuple(m.key for m in back_of(case, seat, upper, known)):
            found.append(AskedCheck(CheckRule("back load"), {}, keys))
            if "lean back" not in rules:
                found.append(AskedCheck(CheckRule("lean back"), {"seat_height": top}, keys))
    return tuple(found)


def _beyond_the_feet(case: Case) -> bool:
    """Whether the middle of some seat lies outside the outline of the feet."""
    rows = [bounds(seat.members) for seat in seats(case)]
    if not rows:
        return False
    on = stance_of(case.piece, case.standing_mm)
    return any(on.nearest((b[0] + b[3]) / 2, (b[1] + b[4]) / 2)[1] < 0.0 for b in rows)


def unloaded(case: Case) -> tuple[Member, ...]:
    """Level boards to sit, stand or put things on that no load check names, up to the reach of a body."""
    loaded = {k for c in case.piece.checks if c.rule.rule in LOADS for k in c.members}
    high = case.limit("people.stood_on")
    return level_tops(case, 0.0, high, loaded)
