"""What is free around a piece in the measured space: drawn where there is room, said in any case."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise, product
from typing import TYPE_CHECKING

from yardwright.domain.finding import Level
from yardwright.domain.fit.access import RULE as WAY_IN
from yardwright.domain.fit.access import opening_in_words
from yardwright.domain.measure import Writer
from yardwright.domain.site import Corner, Site, Wall

from .callouts import crosses_box, grown
from .model import Bounds, Drawing, Line, Point, Polygon, Shape, Text, text_box, text_width
from .shapes import dimension, measured_at

if TYPE_CHECKING:
    from yardwright.domain.fit import Fit

Stroke = tuple[Point, Point]

_LEAST_ROOM = 3.2            # text heights of free distance that hold its words in its line
_ALONG = (0.85, 0.15, 0.7, 0.3, 0.5, 1.15, -0.15, 1.4, -0.4)     # where along the front it may stand
_KEPT_OFF = ("dimension", "outline", "open", "hatch")
_GRAVEST = (Level.STOP, Level.NOT_CHECKED, Level.CAUTION, Level.NOTE, Level.OK)
_SIDES = {"along": "along the wall, both ends together", "left": "left", "right": "right",
          "front": "in front", "behind": "behind", "above": "above", "wing": "beyond its wing",
          "across": "across from its wing"}


def in_front(fit: Fit | None, stand: Bounds, free_to: float | None, drawn: Sequence[Shape], writer: Writer,
             height: float) -> tuple[Shape, ...]:
    """The free distance from the piece's front to how far out it was measured, clear of all else.

    Its words stand in the line, or beyond where it is free to when the line is too short for them.
    """
    found = next((c for c in fit.clearances if c.side == "front"), None) if fit else None
    if found is None or free_to is None or found.clearance_nm <= 0 or stand.low[1] <= free_to:
        return ()
    taken = _taken(drawn, height)
    text = f"{writer.length(found.clearance_nm)} free"
    room = stand.low[1] - free_to
    within = (0.5, 0.62, 0.72, 0.8) if room >= _LEAST_ROOM * height else ()
    levels = [*(stand.low[1] - down * room for down in within),
              *(free_to - beyond * height for beyond in (0.95, 2.4, 3.9))]
    for level, share in product(levels, _ALONG):
        x = stand.low[0] + share * stand.width
        said = Text((x, level), text, height)
        if _clear(said, ((x, free_to), (x, stand.low[1])), taken):
            return measured_at(said, (x, free_to), (x, stand.low[1]))
    return ()


def depth_of(stand: Bounds, drawn: Sequence[Shape], writer: Writer, height: float) -> tuple[Shape, ...]:
    """How deep the piece is: in words on it, or beside it where it is too small for them."""
    said = f"{writer.mm(stand.height)} deep"
    if stand.height > 3 * height and stand.width > text_width(said, height) + 2 * height:
        centre = ((stand.low[0] + stand.high[0]) / 2, (stand.low[1] + stand.high[1]) / 2)
        return (Text(centre, said, height, halo=True),)
    taken = _taken(drawn, height)
    beside = product((said, writer.mm(stand.height)), ((stand.high[0], -1.0), (stand.low[0], 1.0)),
                     ("near", "far"))
    for text, (x, way), past in beside:
        off = way * (text_width(text, height) / 2 + 1.2 * height)
        shapes = dimension((x, stand.low[1]), (x, stand.high[1]), text, height, off, 0.5 * height, past)
        words = next(s for s in shapes if isinstance(s, Text))
        if _clear(words, ((x - off, stand.low[1]), (x - off, stand.high[1])), taken):
            return shapes
    return ()


def _taken(drawn: Sequence[Shape], height: float) -> tuple[list[Bounds], list[Stroke]]:
    """Where words stand, and the lines that words must keep off."""
    words = [grown(text_box(s), 0.3 * height) for s in drawn if isinstance(s, Text)]
    words += [Drawing("", (s,)).bounds for s in drawn if isinstance(s, Polygon) and s.edge == "site"]
    lines = [stroke for s in drawn if isinstance(s, Line) and s.style in _KEPT_OFF
             for stroke in pairwise(s.points)]
    return words, lines


def _clear(said: Text, line: Stroke, taken: tuple[Sequence[Bounds], Sequence[Stroke]]) -> bool:
    """Whether words and line of a dimension keep off all other words, and its words off all lines."""
    words, lines = taken
    box = text_box(said)
    return not (any(box.overlaps(other) for other in words)
                or any(crosses_box(other, grown(box, 0.2 * said.height_mm)) for other in lines)
                or any(crosses_box(line, other) for other in words))


def space_notes(site: Site, fit: Fit | None, writer: Writer) -> tuple[str, ...]:
    """Free distances by side, walls that lean, corners off square, readings that differ: in words."""
    free = [f"{writer.length(c.clearance_nm)} {_SIDES.get(c.side, c.side)}" for c in fit.clearances
            if c.clearance_nm >= 0] if fit else []
    short = [f"{writer.length(-c.clearance_nm)} too little {_SIDES.get(c.side, c.side)}"
             for c in fit.clearances if c.clearance_nm < 0] if fit else []
    told = [f"Free: {'; '.join(free)}"] if free else []
    told += [f"Short: {'; '.join(short)}"] if short else []
    return (*told, *(line for wall in site.walls for line in _of_wall(wall, writer)),
            *(line for corner in site.corners for line in _of_corner(corner)),
            *_of_way_in(site, fit, writer))


def _of_way_in(site: Site, fit: Fit | None, writer: Writer) -> Iterator[str]:
    """Its tightest spot, and whether the piece passes all of them; nothing where none was measured."""
    if not site.access:
        return
    tight = min(site.access, key=lambda a: min(a.width_nm, a.width_after_nm or a.width_nm))
    found = [f for f in fit.findings if f.rule == WAY_IN] if fit else []
    titles = [f.title for f in sorted(found, key=lambda f: _GRAVEST.index(f.level))] or ["Not checked"]
    yield f"Way in, tightest at the {tight.kind}: {opening_in_words(tight, writer)}. {titles[0]}."


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
