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
    left_nm: Span                # where the left wall is furthest in, along the back wall: shut, opened
    right_nm: Span | None        # the right one; None where the run was not measured

    @property
    def behind_nm(self) -> int:
        """How far off the wall its hindmost reach is, open."""
        return self.gap_nm - self.piece.open_behind_nm

    def boxes(self, opened: bool) -> tuple[tuple[Span, Span], ...]:
        """The part along the back wall, and the wing of an L: (stretch of its length, out from the wall)."""
        piece, gap = self.piece, self.gap_nm
        opens = piece.open_front_nm if opened else 0
        behind = self.behind_nm if opened else gap
        main = ((0, piece.length_nm), (behind, gap + piece.depth_nm + opens))
        if piece.wing == "none":
            return (main,)
        low, high = piece.wing_stretch
        back = piece.open_behind_nm if opened else 0
        turned = (low - back, high + opens) if piece.wing == "left" else (low - opens, high + back)
        return main, (turned, (behind, gap + piece.wing_length_nm))


@dataclass(frozen=True, slots=True)
class Block:
    """Nothing of the piece's ``stretch`` may come into ``span`` along the back wall.

    level: "solid", "stop", "caution"; stretch: from..to of the piece's own length, from its left end.
    """

    thing: Thing
    level: str
    span: Span
    stretch: Span


def blocks(stance: Stance, space: Space) -> tuple[Block, ...]:
    """Every span a thing takes from the piece as it stands: by its body, and by the room it wants."""
    found: list[Block] = []
    for thing in space.things:
        if (solid := _body(thing, stance)) is not None:
            found.append(Block(thing, "solid", *solid))
        if (zone := _room(thing, stance)) is not None:
            found.append(Block(thing, thing.rule.level, *zone))
    return tuple(found)


def _body(thing: Thing, stance: Stance) -> tuple[Span, Span] | None:
    """The thing itself against the piece in any position of its lid or doors, as a box."""
    if not thing.rule.solid or thing.bottom_nm >= stance.piece.open_height_nm:
        return None
    if thing.wall == "back":
        swept = [stretch for stretch, _ in stance.boxes(opened=True)]
        whole = (min(low for low, _ in swept), max(high for _, high in swept))
        return ((thing.from_nm, thing.to_nm), whole) if stance.behind_nm < thing.out_nm else None
    return _from_side(thing, stance, (thing.from_nm, thing.to_nm), thing.out_nm, opened=True)


def _room(thing: Thing, stance: Stance) -> tuple[Span, Span] | None:
    """The room around it against the shut piece."""
    rule = thing.rule
    if thing.bottom_nm - rule.below_nm >= stance.piece.height_nm:
        return None
    start, end = thing.from_nm - rule.sides_nm, thing.to_nm + rule.sides_nm
    out = thing.out_nm + rule.front_nm
    if thing.wall == "back":
        return ((start, end), (0, stance.piece.length_nm)) if stance.gap_nm < out else None
    return _from_side(thing, stance, (start, end), out, opened=False)


def _from_side(thing: Thing, stance: Stance, out_from_wall: Span, reach_nm: int,
               opened: bool) -> tuple[Span, Span] | None:
    """A thing on a side wall takes all from its wall to where it reaches, from what of the piece it meets."""
    if reach_nm <= 0 or (thing.wall == "right" and stance.right_nm is None):
        return None
    at = int(opened)
    span = ((-FOREVER_NM, stance.left_nm[at] + reach_nm) if stance.right_nm is None or thing.wall == "left"
            else (stance.right_nm[at] - reach_nm, FOREVER_NM))
    return next(((span, stretch) for stretch, (near, far) in stance.boxes(opened)
                 if out_from_wall[0] < far and out_from_wall[1] > near), None)


def free(base: Span, taken: Iterable[Block]) -> tuple[Span, ...]:
    """Where in ``base`` the left end can stand so that the piece enters no block; touching is free."""
    left: list[Span] = [base] if base[0] <= base[1] else []
    for block in taken:
        low, high = block.span[0] - block.stretch[1], block.span[1] - block.stretch[0]
        left = [part for a, b in left for part in _without(a, b, low, high)]
    return tuple(left)


def _without(a: int, b: int, low: int, high: int) -> Sequence[Span]:
    if b <= low or a >= high:
        return ((a, b),)
    parts = ((a, low), (high, b))
    return [part for part in parts if part[0] <= part[1]]
