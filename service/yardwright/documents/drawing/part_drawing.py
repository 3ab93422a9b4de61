"""One part of the cut list as it is marked out: wide face, edge, end where it matters, with all its sizes.

Third-angle arrangement. Sizes are the cut list's own: finished length long point to long point, width,
thickness. Angles are degrees off square as a saw is set: ``mitre`` swings across the wide face, ``bevel``
tilts the blade.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import cos, radians, sin
from typing import TYPE_CHECKING

from yardwright.domain.measure import Writer

from .callouts import Callout, placed, readable
from .features import SAME_MM, Features, features
from .model import Bounds, Drawing, Line, Point, Shape, Text, text_box, text_width
from .part_axes import EDGE, END, FACE, Laid, Segment, laid
from .roundings import rounded
from .shapes import beyond, dimension
from .shortening import Shortening, shortened

if TYPE_CHECKING:
    from yardwright.domain.parts import Part
    from yardwright.domain.piece.model import Piece

_ROW = 1.9
_FIRST_TRY = 0.05            # text height as a share of the body, before the room for words is known


@dataclass(frozen=True, slots=True)
class _Sheet:
    """What one part's drawing is made from; ``height`` is that of its words."""

    part: Part
    laid: Laid
    found: Features
    short: Shortening
    rounds: tuple[tuple[str, float, float], ...]
    writer: Writer
    height: float

    @property
    def size(self) -> tuple[float, float, float]:
        """Length as drawn, width and thickness."""
        length, width, thickness = self.found.size
        return (self.short(length), width, thickness)

    @property
    def gap(self) -> float:
        """Between the views."""
        return 2.0 * self.height

    @property
    def beside(self) -> float:
        """From the face view to that of the end, the width of a narrower right end between them."""
        return self.gap + (6.0 * self.height if self.found.right_end else 0.0)

    @property
    def ended(self) -> bool:
        """Whether the view of the end says something."""
        return any(edge.kind == "bevel" for edge in self.found.edges)


def part_drawing(piece: Piece, part: Part, writer: Writer) -> Drawing:
    """The drawing of one line of the cut list, from the first member it stands for."""
    member = piece.member(part.keys[0])
    way = laid(member)
    found = features(way.rings)
    short = shortened(found)
    rounds = rounded(piece, member, way, found.size)
    wide = short(found.size[0]) + 2 * found.size[2]

    def drawn(height: float) -> Drawing:
        return replace(_drawn(_Sheet(part, way, found, short, rounds, writer, height)), again=drawn)

    return readable(drawn, _FIRST_TRY * wide)


def worth_drawing(part: Part) -> bool:
    """Whether a part has work on it that its three sizes do not tell."""
    return bool(part.shape) and part.material != "roll"


def _drawn(sheet: _Sheet) -> Drawing:
    part, (length, width, thickness), h = sheet.part, sheet.size, sheet.height
    down = -sheet.gap - thickness
    shapes: list[Shape] = [*_view(sheet, sheet.laid.seen(FACE), 0.0),
                           *_view(sheet, sheet.laid.seen(EDGE), down)]
    if sheet.ended:
        off = length + sheet.beside + thickness
        shapes += [Line(((a[0] + off, a[1]), (b[0] + off, b[1])), "visible")
                   for a, b in sheet.laid.seen(END)]
    shapes += [*_holes(sheet), *_squares(sheet), *_along(sheet, down), *_across(sheet),
               *_right_end(sheet), *_thickness(sheet, down)]
    body = Bounds((0.0, 0.0), (length + (sheet.beside + thickness if sheet.ended else 0.0), width))
    taken = [text_box(s) for s in shapes if isinstance(s, Text)]
    shapes += placed(_callouts(sheet), body, taken, h)
    hand = f", {part.hand} hand" if part.hand else ""
    said = f"{part.name}{hand}, {_sizes(part, sheet.writer)}: {'; '.join(part.shape)}."
    return Drawing(f"{part.mark}  {part.name}{hand}", tuple(shapes), said, "part", margin_mm=0.3 * h,
                   item=part.item)


def _sizes(part: Part, writer: Writer) -> str:
    return " × ".join(writer.length(v) for v in (part.length_nm, part.width_nm, part.thickness_nm))


def _view(sheet: _Sheet, segments: Sequence[Segment], down: float) -> list[Shape]:
    """A view along the part, its middle left out where it is drawn short."""
    lines: list[Shape] = [Line(((a[0], a[1] + down), (b[0], b[1] + down)), "visible")
                          for a, b in sheet.short.lines(segments)]
    high = max(p[1] for s in segments for p in s)
    return [*lines, *sheet.short.breaks(down, down + high, 0.25 * sheet.height)]


def _holes(sheet: _Sheet) -> list[Shape]:
    """A cross through the middle of every hole."""
    found: list[Shape] = []
    for hole in sheet.found.holes:
        (x, y), r = (sheet.short(hole.centre[0]), hole.centre[1]), hole.radius_mm * 1.5
        found += [Line(((x - r, y), (x + r, y)), "centre"), Line(((x, y - r), (x, y + r)), "centre")]
    return found


def _squares(sheet: _Sheet) -> list[Shape]:
    """Where an end is off square on the face, the square line from its long point, and the angle's arc."""
    (length, width, _), found = sheet.size, []
    corners = [p for ring in sheet.laid.rings for p in ring]
    for end in sheet.found.ends:
        if not end.mitre_deg:
            continue
        x = 0.0 if end.left else length
        lower = (0.0 if end.left else sheet.found.size[0], 0.0)
        tip = 0.0 if any(_near(p, lower) for p in corners) else width
        way = 1.0 if tip == 0.0 else -1.0
        turn = 1.0 if end.left else -1.0
        reach = 0.8 * width
        arc = [(x + turn * reach * sin(radians(end.mitre_deg * k / 8)),
                tip + way * reach * cos(radians(end.mitre_deg * k / 8))) for k in range(9)]
        found += [Line(((x, tip), (x, tip + way * width)), "centre"), Line(tuple(arc), "dimension")]
    return list(found)


def _near(p: Sequence[float], at: Point) -> bool:
    return abs(p[0] - at[0]) < SAME_MM and abs(p[1] - at[1]) < SAME_MM


def _along(sheet: _Sheet, down: float) -> list[Shape]:
    """Under the edge view: shoulders and holes from the nearer end, short edges, the whole length."""
    whole, h, (length, _, _) = sheet.found.size[0], sheet.height, sheet.size
    places = [*sheet.found.along_mm, *(hole.centre[0] for hole in sheet.found.holes)]
    spans = {(0.0, round(p, 1)) if p <= whole / 2 else (round(p, 1), whole) for p in places}
    spans |= {(round(min(a.start[0], a.end[0]), 1), round(max(a.start[0], a.end[0]), 1))
              for a in sheet.found.arcs if SAME_MM < abs(a.end[0] - a.start[0]) < whole - 1.0}
    if any(end.mitre_deg for end in sheet.found.ends):
        shorter = {round(b - a, 1): (a, b) for a, b in _edge_runs(sheet) if b - a < whole - 1.0}
        spans |= set(shorter.values())
    shapes: list[Shape] = []
    off = 0.5 * h
    for first, last in sorted(spans, key=lambda s: (s[1] - s[0], s)):
        off += _ROW * h
        text = sheet.writer.mm(last - first)
        a, b = sheet.short(first), sheet.short(last)
        past = "near" if first == 0.0 else "far" if last > whole - 1.0 else "under"
        shapes += dimension((a, down), (b, down), text, h, off_mm=-off, gap_mm=0.4 * h, past=past)
        if past == "under" and beyond(text, b - a, h):
            off += 0.6 * h
    text = sheet.writer.length(sheet.part.length_nm)
    return [*shapes, *dimension((0.0, down), (length, down), text, h, off_mm=-off - _ROW * h, gap_mm=0.4 * h)]


def _edge_runs(sheet: _Sheet) -> set[tuple[float, float]]:
    """From where to where the lower and the upper edge of the face run."""
    _, width, thickness = sheet.found.size
    runs = set()
    for edge in (0.0, width):
        on = [p[0] for ring in sheet.laid.rings for p in ring
              if abs(p[1] - edge) < SAME_MM and p[2] > thickness - SAME_MM]
        if on and max(on) - min(on) > 1.0:
            runs.add((round(min(on), 1), round(max(on), 1)))
    return runs


def _across(sheet: _Sheet) -> list[Shape]:
    """Left of the face: shoulders, holes and the feet of curves from the nearer edge, the whole width."""
    width, h = sheet.size[1], sheet.height
    feet = [p[1] for arc in sheet.found.arcs for p in (arc.start, arc.end)]
    places = {round(p, 1) for p in (*sheet.found.across_mm, *(o.centre[1] for o in sheet.found.holes), *feet)
              if SAME_MM < p < width - SAME_MM}
    shapes: list[Shape] = []
    off = 0.0
    spans = sorted(((0.0, p) if p <= width / 2 or p in {round(f, 1) for f in feet} else (p, width)
                    for p in places), key=lambda s: (s[1] - s[0], s))
    words = [(low, high, sheet.writer.mm(high - low)) for low, high in spans]
    if end := sheet.found.left_end:
        words.insert(0, (*end, sheet.writer.mm(end[1] - end[0])))
    for low, high, text in [*words, (0.0, width, sheet.writer.length(sheet.part.width_nm))]:
        off += text_width(text, h) / 2 + (1.2 * h if not off else 0.5 * h)
        shapes += dimension((0.0, low), (0.0, high), text, h, off_mm=off, gap_mm=0.4 * h,
                            past="far" if low > 0.0 else "near")
        off += text_width(text, h) / 2 + 0.5 * h
    return shapes


def _right_end(sheet: _Sheet) -> list[Shape]:
    """Right of the face: the width of that end where it is narrower than the part."""
    if not (end := sheet.found.right_end):
        return []
    h, x = sheet.height, sheet.size[0]
    text = sheet.writer.mm(end[1] - end[0])
    return list(dimension((x, end[0]), (x, end[1]), text, h, off_mm=-(text_width(text, h) / 2 + 1.2 * h),
                          gap_mm=0.4 * h, past="near"))


def _thickness(sheet: _Sheet, down: float) -> list[Shape]:
    """Left of the edge view."""
    h, thick = sheet.height, sheet.size[2]
    text = sheet.writer.length(sheet.part.thickness_nm)
    off = text_width(text, h) / 2 + 1.2 * h
    return list(dimension((0.0, down), (0.0, down + thick), text, h, off_mm=off, gap_mm=0.4 * h, past="near"))


def _callouts(sheet: _Sheet) -> list[Callout]:
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
    sizes = Counter(round(2 * hole.radius_mm, 2) for hole in found.holes)
    for diameter, count in sizes.items():
        first = next(o for o in found.holes if round(2 * o.radius_mm, 2) == diameter)
        many = f"{count} holes" if count > 1 else "hole"
        at = (sheet.short(first.centre[0]), first.centre[1] + first.radius_mm)
        said.append(Callout(f"{many} {writer.mm(diameter)}", at))
    depths = Counter(writer.mm(deep) for _, deep in found.floors)
    for deep, count in depths.items():
        at = next(place for place, depth in found.floors if writer.mm(depth) == deep)
        many = f", {count} places" if count > 1 else ""
        said.append(Callout(f"{deep} deep{many}", (sheet.short(at[0]), at[1])))
    said += [Callout(text, (x * length, y)) for text, x, y in sheet.rounds]
    return list(dict.fromkeys(said))
