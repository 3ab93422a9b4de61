"""Where along the back wall a piece cannot stand because of a thing on a wall or the room it wants."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from .model import Envelope
from .space import FOREVER_NM, Space, Taken, Thing

Span = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Stance:
    """A piece set ``gap_nm`` off the back wall, whose run is ``run_nm``; None where that was not measured."""

    piece: Envelope
    gap_nm: int
    run_nm: int | None

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
    return tuple(Block(thing, level, span, stretch) for thing in space.things for level, taken in (
        ("solid", _body(thing, stance, space)), (thing.rule.level, _room(thing, stance, space)))
        for span, stretch in taken)


def _body(thing: Thing, stance: Stance, space: Space) -> Iterator[tuple[Span, Span]]:
    """The thing itself against the piece in any position of its lid or doors, as a box."""
    if not thing.rule.solid or thing.bottom_nm >= stance.piece.open_height_nm:
        return
    if thing.wall != "back":
        yield from _from_side(thing, stance, space, opened=True)
    elif stance.behind_nm < thing.body.out_nm:
        swept = [stretch for stretch, _ in stance.boxes(opened=True)]
        yield _along(thing.body), (min(low for low, _ in swept), max(high for _, high in swept))


def _room(thing: Thing, stance: Stance, space: Space) -> Iterator[tuple[Span, Span]]:
    """The room around it against the shut piece."""
    if thing.bottom_nm - thing.rule.below_nm >= stance.piece.height_nm:
        return
    if thing.wall != "back":
        yield from _from_side(thing, stance, space, opened=False)
    elif stance.gap_nm < thing.room.out_nm:
        yield _along(thing.room), (0, stance.piece.length_nm)


def _along(taken: Taken) -> Span:
    return taken.from_nm, taken.to_nm


def _from_side(thing: Thing, stance: Stance, space: Space, opened: bool) -> Iterator[tuple[Span, Span]]:
    """A thing on a side wall takes all from its wall to where it reaches, from every part that it meets.

    What of it is no further out than a part reaches no further in than the wall there and its own reach.
    """
    taken, piece = thing.body if opened else thing.room, stance.piece
    if taken.out_nm <= 0 or (thing.wall == "right" and stance.run_nm is None):
        return
    high = piece.open_height_nm if opened or piece.wing == thing.wall else piece.height_nm
    for stretch, (near, far) in stance.boxes(opened):
        if taken.from_nm < far and taken.to_nm > near:
            reach = space.side(thing.wall).into_nm(far, high) + taken.out_nm
            yield ((-FOREVER_NM, reach) if thing.wall == "left" else
                   ((stance.run_nm or 0) - reach, FOREVER_NM)), stretch


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
