"""What is free around a piece in the measured space: drawn where there is room, said in any case."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from yardwright.domain.measure import Writer
from yardwright.domain.site import Corner, Site, Wall

from .callouts import crosses_box, grown
from .model import Bounds, Line, Point, Shape, Text, text_box
from .shapes import measured_at

if TYPE_CHECKING:
    from yardwright.domain.fit import Fit

Stroke = tuple[Point, Point]

_SIDES = {"along": "along the wall, both ends together", "left": "left", "right": "right",
          "front": "in front", "behind": "behind", "above": "above", "wing": "beyond its wing",
          "across": "across from its wing"}


def in_front(fit: Fit | None, stand: Bounds, free_to: float, drawn: Sequence[Shape], writer: Writer,
             height: float) -> tuple[Shape, ...]:
    """The free distance from the piece's front to how far out it was measured, clear of other words."""
    found = next((c for c in fit.clearances if c.side == "front"), None) if fit else None
    if found is None or stand.low[1] - free_to < 3.2 * height or found.clearance_nm <= 0:
        return ()
    words = [grown(text_box(s), 0.3 * height) for s in drawn if isinstance(s, Text)]
    lines = [(s.points[0], s.points[1]) for s in drawn if isinstance(s, Line) and s.style == "dimension"]
    text = f"{writer.length(found.clearance_nm)} free"
    for share in (0.85, 0.15, 0.7, 0.3, 0.5, 1.15, -0.15, 1.4, -0.4):
        x = stand.low[0] + share * stand.width
        for down in (0.5, 0.62, 0.72, 0.8):
            said = Text((x, stand.low[1] + down * (free_to - stand.low[1])), text, height)
            if _clear(said, (x, free_to), (x, stand.low[1]), words, lines):
                return measured_at(said, (x, free_to), (x, stand.low[1]))
    return ()


def _clear(said: Text, foot: Point, head: Point, words: Sequence[Bounds], lines: Sequence[Stroke]) -> bool:
    """Whether words and line of a dimension keep off all other words, and its words off all lines."""
    box = text_box(said)
    return not (any(box.overlaps(other) for other in words)
                or any(crosses_box(line, grown(box, 0.2 * said.height_mm)) for line in lines)
                or any(crosses_box((foot, head), other) for other in words))


def space_notes(site: Site, fit: Fit | None, writer: Writer) -> tuple[str, ...]:
    """Free distances by side, walls that lean, corners off square, readings that differ: in words."""
    free = [f"{writer.length(c.clearance_nm)} {_SIDES.get(c.side, c.side)}" for c in fit.clearances
            if c.clearance_nm >= 0] if fit else []
    short = [f"{writer.length(-c.clearance_nm)} too little {_SIDES.get(c.side, c.side)}"
             for c in fit.clearances if c.clearance_nm < 0] if fit else []
    told = [f"Free: {'; '.join(free)}"] if free else []
    told += [f"Short: {'; '.join(short)}"] if short else []
    return (*told, *(line for wall in site.walls for line in _of_wall(wall, writer)),
            *(line for corner in site.corners for line in _of_corner(corner)))


def _of_wall(wall: Wall, writer: Writer) -> Iterator[str]:
    if wall.out_of_plumb_nm:
        way = "in" if wall.leaning_nm > 0 else "away"
        over = f" over {writer.length(wall.plumb_over_nm)} of height" if wall.plumb_over_nm else ""
        yield f"The {wall.side} wall leans {way} {writer.length(abs(wall.out_of_plumb_nm))}{over} (dashed)"
    if len({r.value_nm for r in wall.readings}) > 1:
        taken = "; ".join(writer.length(r.value_nm) + (f" at {writer.length(r.at_height_nm)} high"
                                                       if r.at_height_nm is not None else "")
                          for r in wall.readings)
        yield f"Readings at the {wall.side} wall: {taken}"


def _of_corner(corner: Corner) -> Iterator[str]:
    if corner.angle_deg is not None and abs(corner.angle_deg - 90.0) > 0.05:
        way = "closes in" if corner.angle_deg < 90.0 else "opens"
        yield f"The {corner.at} corner {way}: {corner.angle_deg:g}°"
