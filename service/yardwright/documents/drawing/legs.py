"""The two legs of an L in plan: where each lies in the picture, and the dimensions that tell both.

What the wing takes along the wall stands under its end, the depth of the part along the wall beside that
part's far end; the overall length is in a row below, how far the wing reaches out beside the wing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING

from yardwright.domain.fit import envelope
from yardwright.domain.measure import Writer, to_mm

from .model import Bounds, Shape, Text, text_box, text_width
from .shapes import dimension, measured_at

if TYPE_CHECKING:
    from yardwright.domain.piece.model import Piece

ROW = 2.1                    # rows of dimensions are this many text heights apart


@dataclass(frozen=True, slots=True)
class Legs:
    """Sizes of an L in mm: ``side`` the end its wing is at, "left" or "right"."""

    side: str
    depth: float                 # of the part along the wall
    wing_depth: float

    def wing(self, body: Bounds) -> Bounds:
        """What the wing takes in the picture of the whole, before the part along the wall."""
        x0 = body.low[0] if self.side == "left" else body.high[0] - self.wing_depth
        return Bounds((x0, body.low[1]), (x0 + self.wing_depth, body.high[1] - self.depth))

    def main(self, body: Bounds) -> Bounds:
        """What the part along the wall takes beside the wing."""
        x0 = body.low[0] + (self.wing_depth if self.side == "left" else 0.0)
        return Bounds((x0, body.high[1] - self.depth), (x0 + body.width - self.wing_depth, body.high[1]))


def legs_of(piece: Piece) -> Legs | None:
    """The legs of a piece that is an L; None for any other."""
    shape = envelope(piece.template, piece.dimensions_nm, piece.choices)
    if shape.wing == "none":
        return None
    return Legs(shape.wing, to_mm(shape.depth_nm), to_mm(shape.wing_depth_nm))


def around(legs: Legs, body: Bounds, writer: Writer, height: float) -> tuple[Shape, ...]:
    """The four dimensions of an L around its plan, no two in one row; upright ones read from the right.

    Words too long for their leg stand beside the empty quarter of the picture.
    """
    wing, main, gap = legs.wing(body), legs.main(body), 0.5 * height
    right = legs.side == "right"
    wing_x, far_x = (body.high[0], body.low[0]) if right else (body.low[0], body.high[0])
    aside = ROW * height if right else -ROW * height
    deep, out, along = writer.mm(legs.depth), writer.mm(body.height), writer.mm(legs.wing_depth)
    past = _past(legs, main, along, height)
    return (*dimension(wing.low, (wing.high[0], wing.low[1]), along, height, off_mm=-ROW * height, gap_mm=gap,
                       past=past),
            *dimension(body.low, (body.high[0], body.low[1]), writer.mm(body.width), height,
                       off_mm=-2 * ROW * height, gap_mm=gap),
            *_quarter(dimension((main.low[1], -far_x), (main.high[1], -far_x), deep, height,
                                off_mm=aside, gap_mm=gap, past="near")),
            *_quarter(dimension((body.low[1], -wing_x), (body.high[1], -wing_x), out, height,
                                off_mm=-aside, gap_mm=gap)))


def _quarter(shapes: Sequence[Shape]) -> Iterator[Shape]:
    """Shapes turned a quarter about (0, 0), anticlockwise: what was level to the right goes up."""
    for s in shapes:
        if isinstance(s, Text):
            yield replace(s, at=(-s.at[1], s.at[0]), turned_deg=s.turned_deg + 90.0)
        else:
            yield replace(s, points=tuple((-y, x) for x, y in s.points))


def _past(legs: Legs, main: Bounds, along: str, height: float) -> str:
    """Where words of the wing's depth stand: in the empty quarter, under their line, else outside."""
    inward, outward = _ways(legs)
    words = text_width(along, height)
    return (inward if words + 2 * height < main.width else "under" if words < legs.wing_depth + 0.15 * height
            else outward)


def _ways(legs: Legs) -> tuple[str, str]:
    """The ends of a level line that point into the empty quarter, and away from the piece."""
    return ("near", "far") if legs.side == "right" else ("far", "near")


def within(legs: Legs, stand: Bounds, writer: Writer, height: float) -> tuple[Shape, ...]:
    """In the measured space, where dimensions around it would meet others: the depth of the part along the
    wall on it, how far the wing reaches out along the wing, and the wing's depth under its end, where the
    plan is large enough for them."""
    wing, main, along = legs.wing(stand), legs.main(stand), writer.mm(legs.wing_depth)
    x = (wing.low[0] + wing.high[0]) / 2
    out = Text((x, _middle(wing)[1]), writer.mm(stand.height), height, halo=True)
    past = _past(legs, main, along, height)
    under = () if past == _ways(legs)[1] else dimension(
        wing.low, (wing.high[0], wing.low[1]), along, height, off_mm=-1.9 * height, gap_mm=0.5 * height,
        past=past)
    return (*_deep(legs, main, text_box(out), writer, height),
            *measured_at(out, (x, stand.low[1]), (x, stand.high[1])), *under)


def _deep(legs: Legs, main: Bounds, taken: Bounds, writer: Writer, height: float) -> tuple[Text, ...]:
    """The depth of the part along the wall in words on it, where they find room beside the wing's."""
    (x, y), deep = _middle(main), writer.mm(legs.depth)
    for said, share in product((f"{deep} deep", deep), (0.0, 0.15, -0.15, 0.3, -0.3)):
        text = Text((x + share * main.width, y), said, height, halo=True)
        box = text_box(text)
        if (main.low[0] < box.low[0] and box.high[0] < main.high[0] and box.height < main.height
                and not box.overlaps(taken)):
            return (text,)
    return ()


def _middle(box: Bounds) -> tuple[float, float]:
    return (box.low[0] + box.high[0]) / 2, (box.low[1] + box.high[1]) / 2
