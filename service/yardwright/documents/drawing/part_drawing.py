"""One part of the cut list as it is marked out: wide face, edge, end where it matters, with all its sizes.

Third-angle arrangement. Sizes are the cut list's own: finished length long point to long point, width,
thickness. Angles are degrees off square as a saw is set: ``mitre`` swings across the wide face, ``bevel``
tilts the blade. What notches take off the blank's ends is shown in thin chain lines, for sizes count from
the long points.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from math import cos, radians, sin
from typing import TYPE_CHECKING

from yardwright.domain.measure import Writer

from .callouts import Callout, placed, readable
from .features import features
from .model import Bounds, Drawing, Line, Shape, Text, text_box
from .part_axes import EDGE, END, FACE, Segment, laid
from .part_sheet import Sheet
from .part_sizes import sizes
from .roundings import begins, rounded, told, towards_you
from .shortening import shortened

if TYPE_CHECKING:
    from yardwright.domain.parts import Part
    from yardwright.domain.piece.model import Piece

_FIRST_TRY = 0.05            # text height as a share of the body, before the room for words is known
_LOST_MM = 1.0               # of a blank's end, less is not worth showing


def part_drawing(piece: Piece, part: Part, writer: Writer) -> Drawing:
    """The drawing of one line of the cut list, from the first member it stands for."""
    member = piece.member(part.keys[0])
    way = laid(member, lambda lying: towards_you(rounded(piece, member, lying)))
    found = features(way)
    short = shortened(found)
    rounds = rounded(piece, member, way)
    wide = short(found.size[0]) + 2 * found.size[2]

    def drawn(height: float) -> Drawing:
        return replace(_drawn(Sheet(part, way, found, short, rounds, writer, height)), again=drawn)

    return readable(drawn, _FIRST_TRY * wide)


def worth_drawing(part: Part) -> bool:
    """Whether a part has work on it that its three sizes do not tell."""
    return bool(part.shape) and part.material != "roll"


def _drawn(sheet: Sheet) -> Drawing:
    part, (length, width, thickness), h = sheet.part, sheet.size, sheet.height
    shapes: list[Shape] = [*_lost(sheet), *_view(sheet, sheet.laid.seen(FACE), 0.0),
                           *_view(sheet, sheet.laid.seen(EDGE), sheet.down)]
    if sheet.ended:
        off = length + sheet.beside + thickness
        shapes += [Line(((a[0] + off, a[1]), (b[0] + off, b[1])), "visible")
                   for a, b in sheet.laid.seen(END)]
    shapes += [Line(s, "thin") for s in sheet.short.lines(list(begins(sheet.rounds, sheet.found)))]
    shapes += [*_holes(sheet), *_squares(sheet), *sizes(sheet)]
    body = Bounds((0.0, 0.0), (length + (sheet.beside + thickness if sheet.ended else 0.0), width))
    taken = [text_box(s) for s in shapes if isinstance(s, Text)]
    shapes += placed(_callouts(sheet), body, taken, h)
    hand = f", {part.hand} hand" if part.hand else ""
    said = f"{part.name}{hand}, {_three_sizes(part, sheet.writer)}: {'; '.join(part.shape)}."
    return Drawing(f"{part.mark}  {part.name}{hand}", tuple(shapes), said, "part", margin_mm=0.3 * h,
                   item=part.item)


def _three_sizes(part: Part, writer: Writer) -> str:
    return " × ".join(writer.length(v) for v in (part.length_nm, part.width_nm, part.thickness_nm))


def _view(sheet: Sheet, segments: Sequence[Segment], down: float) -> list[Shape]:
    """A view along the part, its middle left out where it is drawn short."""
    lines: list[Shape] = [Line(((a[0], a[1] + down), (b[0], b[1] + down)), "visible")
                          for a, b in sheet.short.lines(segments)]
    high = max(p[1] for s in segments for p in s)
    return [*lines, *sheet.short.breaks(down, down + high, 0.25 * sheet.height)]


def _lost(sheet: Sheet) -> list[Shape]:
    """The blank with its ends cut, in chain lines, where notches leave no corner to measure from."""
    corners = [p for ring in sheet.laid.rings for p in ring]
    whole, width, _ = sheet.found.size
    if min(p[0] for p in corners) < _LOST_MM and max(p[0] for p in corners) > whole - _LOST_MM:
        return []
    (a, b), (c, d) = sheet.found.run(0.0), sheet.found.run(width)
    ring = [(a, 0.0), (b, 0.0), (d, width), (c, width)]
    sides = list(zip(ring, (*ring[1:], ring[0]), strict=True))
    return [Line(s, "centre") for s in sheet.short.lines(sides)]


def _holes(sheet: Sheet) -> list[Shape]:
    """A cross through the middle of every hole."""
    found: list[Shape] = []
    for hole in sheet.found.holes:
        (x, y), r = (sheet.short(hole.centre[0]), hole.centre[1]), hole.radius_mm * 1.5
        found += [Line(((x - r, y), (x + r, y)), "centre"), Line(((x, y - r), (x, y + r)), "centre")]
    return found


def _squares(sheet: Sheet) -> list[Shape]:
    """Where an end is off square on the face, the square line from its long point, and the angle's arc."""
    length, width, _ = sheet.size
    found: list[Shape] = []
    for end in sheet.found.ends:
        if not end.mitre_deg:
            continue
        x, tip = 0.0 if end.left else length, 0.0 if end.long_below else width
        way = 1.0 if end.long_below else -1.0
        turn = 1.0 if end.left else -1.0
        reach = 0.8 * width
        arc = [(x + turn * reach * sin(radians(end.mitre_deg * k / 8)),
                tip + way * reach * cos(radians(end.mitre_deg * k / 8))) for k in range(9)]
        found += [Line(((x, tip), (x, tip + way * width)), "centre"), Line(tuple(arc), "dimension")]
    return found


def _callouts(sheet: Sheet) -> list[Callout]:
    """Angles, curves, depths, holes and rounded edges in words, each led to its place on the face."""
    (length, width, thickness), found, writer = sheet.size, sheet.found, sheet.writer
    said: list[Callout] = []
    for end in found.ends:
        words = [f"mitre {end.mitre_deg:g}°"] if end.mitre_deg else []
        words += [f"bevel {end.bevel_deg:g}°"] if end.bevel_deg else []
        said.append(Callout(", ".join(words), (sheet.short(end.at[0]), end.at[1] + 0.25 * width)))
    for edge in found.edges:
        if edge.kind == "bevel":
            at = (length + sheet.beside + thickness - edge.at[2], edge.at[1])
            said.append(Callout(f"edge bevel {edge.angle_deg:g}°", at))
        else:
            said.append(Callout(f"{edge.kind} {edge.angle_deg:g}°", (sheet.short(edge.at[0]), edge.at[1])))
    for arc in found.arcs:
        said.append(Callout(f"rise {writer.mm(arc.rise_mm)}, radius {writer.mm(arc.radius_mm)}",
                            (sheet.short(arc.crown[0]), arc.crown[1])))
    said += [*_hole_words(sheet), *_depths(sheet)]
    said += [Callout(text, (x * length, y)) for text, x, y in told(sheet.rounds, found.size)]
    return list(dict.fromkeys(said))


def _hole_words(sheet: Sheet) -> list[Callout]:
    """Holes of one size said once, with their number."""
    said = []
    sizes = Counter(round(2 * hole.radius_mm, 2) for hole in sheet.found.holes)
    for diameter, count in sizes.items():
        first = next(o for o in sheet.found.holes if round(2 * o.radius_mm, 2) == diameter)
        many = f"{count} holes" if count > 1 else "hole"
        at = (sheet.short(first.centre[0]), first.centre[1] + first.radius_mm)
        said.append(Callout(f"{many} {sheet.writer.mm(diameter)}", at))
    return said


def _depths(sheet: Sheet) -> list[Callout]:
    """Pockets of one depth said once, with their number."""
    said, writer, floors = [], sheet.writer, sheet.found.floors
    for deep, count in Counter(writer.mm(deep) for _, deep in floors).items():
        at = next(place for place, depth in floors if writer.mm(depth) == deep)
        many = f", {count} places" if count > 1 else ""
        said.append(Callout(f"{deep} deep{many}", (sheet.short(at[0]), at[1])))
    return said
