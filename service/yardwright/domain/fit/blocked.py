"""Where along the back wall a piece cannot stand because of a thing on a wall or the room it wants."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .model import Envelope
from .space import FOREVER_NM, Space, Thing

Span = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Stance:
    """A piece set ``gap_nm`` off the back wall, the walls at its ends at their worst."""

    piece: Envelope
    gap_nm: int
    left_nm: int                 # where the left wall is at its furthest in, along the back wall
    right_nm: int | None         # the right one; None where the run was not measured

    @property
    def behind_nm(self) -> int:
        """How far off the wall its hindmost reach is, open."""
        return self.gap_nm - self.piece.open_behind_nm

    @property
    def front_nm(self) -> int:
        """How far off the wall its front is, shut."""
        return self.gap_nm + self.piece.depth_nm


@dataclass(frozen=True, slots=True)
class Block:
    """No part of the piece may come into from..to along the back wall. level: "solid", "stop", "caution"."""

    thing: Thing
    level: str
    span: Span


def blocks(stance: Stance, space: Space) -> tuple[Block, ...]:
    """Every span a thing takes from the piece as it stands: by its body, and by the room it wants."""
    found: list[Block] = []
    for thing in space.things:
        if (solid := _body(thing, stance)) is not None:
            found.append(Block(thing, "solid", solid))
        if (zone := _room(thing, stance)) is not None:
            found.append(Block(thing, thing.rule.level, zone))
    return tuple(found)


def _body(thing: Thing, stance: Stance) -> Span | None:
    """The thing itself against the piece in any position of its lid or doors, as a box."""
    if not thing.rule.solid or thing.bottom_nm >= stance.piece.open_height_nm:
        return None
    if thing.wall == "back":
        return (thing.from_nm, thing.to_nm) if stance.behind_nm < thing.out_nm else None
    front = stance.front_nm + stance.piece.open_front_nm
    return _from_side(thing, stance, thing.out_nm) if (
        thing.from_nm < front and thing.to_nm > stance.behind_nm) else None


def _room(thing: Thing, stance: Stance) -> Span | None:
    """The room around it against the shut piece."""
    rule = thing.rule
    if thing.bottom_nm - rule.below_nm >= stance.piece.height_nm:
        return None
    start, end = thing.from_nm - rule.sides_nm, thing.to_nm + rule.sides_nm
    out = thing.out_nm + rule.front_nm
    if thing.wall == "back":
        return (start, end) if stance.gap_nm < out else None
    if start < stance.front_nm and end > stance.gap_nm:
        return _from_side(thing, stance, out)
    return None


def _from_side(thing: Thing, stance: Stance, out_nm: int) -> Span | None:
    """A thing on a side wall takes all from its wall to where it reaches."""
    if out_nm <= 0:
        return None
    if thing.wall == "left":
        return (-FOREVER_NM, stance.left_nm + out_nm)
    return None if stance.right_nm is None else (stance.right_nm - out_nm, FOREVER_NM)


def free(base: Span, length_nm: int, spans: Iterable[Span]) -> tuple[Span, ...]:
    """Where in ``base`` the left end can stand so that the piece enters no span; touching is free."""
    left: list[Span] = [base] if base[0] <= base[1] else []
    for start, end in spans:
        low, high = start - length_nm, end
        left = [part for a, b in left for part in _without(a, b, low, high)]
    return tuple(left)


def _without(a: int, b: int, low: int, high: int) -> Sequence[Span]:
    if b <= low or a >= high:
        return ((a, b),)
    parts = ((a, low), (high, b))
    return [part for part in parts if part[0] <= part[1]]
