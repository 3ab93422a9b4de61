"""The measured space in plan with the piece standing in it: walls, what is on them, how far out it is free.

Everything is drawn where it was measured: the shortest reading of a run counts, corners take their angle.
Things on walls carry a number; notes under the plan say what they are, what is free and how walls lean.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import acos, cos, degrees, radians, sin
from typing import TYPE_CHECKING

from yardwright.domain.measure import Writer, to_mm
from yardwright.domain.site import Corner, Obstruction, Site

from .callouts import readable
from .clear_space import depth_of, in_front, space_notes
from .legs import Legs, within
from .model import Bounds, Drawing, Line, Point, Polygon, Shape, Text, text_width
from .projection import VIEWS, Ring
from .shapes import broken, dimension, hatched
from .visible import visible_lines

if TYPE_CHECKING:
    from yardwright.domain.fit import Fit

Segment = tuple[Point, Point]

_TEXT_SHARE = 0.036
_PAPER = 1.3                 # on paper the plan stands beside a table, half a page wide


@dataclass(frozen=True, slots=True)
class Side:
    """A wall in plan: from the ``foot``, ``along`` it, the ``inward`` direction, and how long it is."""

    name: str
    foot: Point
    along: Point
    inward: Point
    run_mm: float

    def at(self, along_mm: float, inward_mm: float) -> Point:
        """A point so far along the wall and so far out from it into the space."""
        (x, y), (ax, ay), (nx, ny) = self.foot, self.along, self.inward
        return (x + ax * along_mm + nx * inward_mm, y + ay * along_mm + ny * inward_mm)


def site_plan(members: Sequence[Sequence[Ring]], site: Site, fit: Fit | None, writer: Writer,
              name: str, listed: bool = True, legs: Legs | None = None) -> Drawing:
    """The piece in its place; the back wall above, the yard below.

    ``listed`` sets the notes (things on walls, free distances, leaning walls) under the plan; without it
    they are only in the drawing's ``notes``, for a paper that prints them beside it.
    """
    outline, inner = visible_lines(members, VIEWS["plan"])
    body = Drawing("", tuple(Line(s) for s in (*outline, *inner))).bounds
    high = max(p[2] for rings in members for ring in rings for p in ring)
    run, out = _back_run(site, body), _free_depth(site, body)
    shift = (_left_end(site, fit, run, body.width) - body.low[0], -_behind(site, fit, high) - body.high[1])
    piece = [*(Line(_shifted(s, shift), "thin") for s in inner),
             *(Line(_shifted(s, shift), "outline") for s in outline)]
    stand = Bounds(*_shifted((body.low, body.high), shift))
    height = _TEXT_SHARE * max(run, 1.4 * out)

    def drawn(h: float) -> Drawing:
        plan = _planned(piece, stand, _sides(site, run, out), site, fit, writer, h, listed, legs)
        said = f"{name} in the measured space, seen from above, the wall behind it at the top."
        return replace(plan, title=f"{name}: the measured space", description=said, again=drawn)

    return readable(drawn, height) if listed else drawn(_PAPER * height)


def _planned(piece: Sequence[Line], stand: Bounds, sides: Sequence[Side], site: Site, fit: Fit | None,
             writer: Writer, height: float, listed: bool, legs: Legs | None) -> Drawing:
    run = sides[0].run_mm
    shapes: list[Shape] = [s for side in sides for s in _wall(side, height * 1.6)]
    things = [(side, o) for side in sides for o in _on(site, side.name)]
    for number, (side, thing) in enumerate(things, 1):
        shapes += _thing(side, thing, number, height)
    around = [*_depth_line(site, run, writer, height), *_run_of_wall(site, run, writer, height)]
    deep = () if legs else depth_of(stand, (*shapes, *around), writer, height)
    shapes += [*piece, *around, *deep, *_standing(stand, writer, height, legs),
               *(s for side in sides for s in _leaning(site, side))]
    measured = _shortest([d.value_nm for d in site.depths])
    shapes += in_front(fit, legs.main(stand) if legs else stand, -measured if measured else None, shapes,
                       writer, height)
    notes = (*(_said(n, side, thing, writer) for n, (side, thing) in enumerate(things, 1)),
             *(() if deep or legs else (f"The piece is {writer.mm(stand.height)} deep",)),
             *space_notes(site, fit, writer))
    if listed:
        shapes += _listed(notes, shapes, height)
    return Drawing("", tuple(shapes), view="site", margin_mm=0.5 * height, notes=notes)


def _leaning(site: Site, side: Side) -> tuple[Shape, ...]:
    """Where the top of a wall that leans stands over the ground, dashed."""
    wall = site.wall(side.name)
    if wall is None or not wall.out_of_plumb_nm:
        return ()
    off = to_mm(wall.leaning_nm)
    return (Line((side.at(0, off), side.at(side.run_mm, off)), "open"),)


def _shifted(segment: tuple[Point, Point], by: Point) -> tuple[Point, Point]:
    (a, b), (c, d) = segment
    return ((a + by[0], b + by[1]), (c + by[0], d + by[1]))


def _shortest(values: Sequence[int]) -> float | None:
    return to_mm(min(values)) if values else None


def _back_run(site: Site, body: Bounds) -> float:
    """Shortest reading along the back wall; without one, the piece and a third more."""
    wall = site.wall("back")
    found = _shortest([r.value_nm for r in wall.readings]) if wall else None
    ends = [to_mm(o.to_nm) for o in wall.obstructions] if wall else []
    return found or max([body.width * 1.35, *(e * 1.05 for e in ends)])


def _free_depth(site: Site, body: Bounds) -> float:
    """How far out the plan is drawn: the shortest depth reading, and room for the piece."""
    return max(_shortest([d.value_nm for d in site.depths]) or 0.0, body.height * 1.25)


def _left_end(site: Site, fit: Fit | None, run: float, wide: float) -> float:
    """Where the piece stands: in the middle of where it can stand, in a corner at that end."""
    if fit is None or not fit.positions:
        return (run - wide) / 2
    first, last = (to_mm(v) for v in fit.positions[0])
    held = {c.at for c in site.corners} | {w.side for w in site.walls if w.side != "back"}
    if site.kind == "corner":
        return to_mm(fit.positions[-1][1]) if held == {"right"} else first
    return (first + last) / 2


def _behind(site: Site, fit: Fit | None, high_mm: float) -> float:
    """How far off the foot of the back wall it stands: what is free behind it, and what the wall leans in."""
    free = next((to_mm(c.clearance_nm) for c in fit.clearances if c.side == "behind"), 0.0) if fit else 0.0
    wall = site.wall("back")
    over = to_mm(wall.plumb_over_nm) if wall and wall.plumb_over_nm else high_mm
    lean = max(0.0, to_mm(wall.leaning_nm)) / over if wall and wall.out_of_plumb_nm else 0.0
    return max(0.0, free) + lean * high_mm


def _angle(corner: Corner | None) -> float:
    """Degrees inside the corner; from three tape readings by the law of cosines."""
    if corner is None:
        return 90.0
    if corner.angle_deg is not None:
        return corner.angle_deg
    found = [degrees(acos(max(-1.0, min(1.0, (d.along_nm ** 2 + d.out_nm ** 2 - d.across_nm ** 2)
                                        / (2 * d.along_nm * d.out_nm))))) for d in corner.diagonals
             if d.along_nm and d.out_nm]
    return min(found, default=90.0)


def _sides(site: Site, run: float, out: float) -> list[Side]:
    """The walls there are; ``between walls`` has both sides, a corner the one that was measured."""
    corners = {c.at: c for c in site.corners}
    named = {w.side for w in site.walls} | set(corners)
    if site.kind == "between walls":
        named |= {"left", "right"}
    elif site.kind == "corner" and not named & {"left", "right"}:
        named.add("left")
    sides = [Side("back", (0.0, 0.0), (1.0, 0.0), (0.0, -1.0), run)]
    for name, x, sign in (("left", 0.0, 1.0), ("right", run, -1.0)):
        if name in named:
            angle = radians(_angle(corners.get(name)))
            wall = site.wall(name)
            reach = max(out, _shortest([r.value_nm for r in wall.readings]) or 0.0) if wall else out
            sides.append(Side(name, (x, 0.0), (sign * cos(angle), -sin(angle)),
                              (sign * sin(angle), cos(angle)), min(reach, 2 * out)))
    return sides


def _wall(side: Side, thick: float) -> tuple[Shape, ...]:
    """The face of a wall, hatched behind; the corners' hatching overlaps and reads as one wall."""
    ends = (-thick, side.run_mm + thick) if side.name == "back" else (0.0, side.run_mm)
    ring = (side.at(ends[0], 0), side.at(ends[1], 0), side.at(ends[1], -thick), side.at(ends[0], -thick))
    return (*hatched(ring, thick * 0.4), Line((side.at(0, 0), side.at(side.run_mm, 0)), "outline"))


def _on(site: Site, name: str) -> tuple[Obstruction, ...]:
    wall = site.wall(name)
    return wall.obstructions if wall else ()


def _thing(side: Side, thing: Obstruction, number: int, height: float) -> tuple[Shape, ...]:
    """An obstruction as it stands out from its wall, with its number in the wall."""
    a, b = to_mm(thing.from_nm), to_mm(thing.to_nm)
    out = max(to_mm(thing.projection_nm), 0.4 * height)
    ring = (side.at(a, 0), side.at(b, 0), side.at(b, out), side.at(a, out))
    centre = side.at((a + b) / 2, -0.8 * height)
    return (Polygon(ring, 0.72, "site"), _disc(centre, 0.75 * height),
            Text(centre, str(number), height, bold=True))


def _disc(centre: Point, radius: float) -> Polygon:
    points = tuple((centre[0] + radius * cos(radians(a)), centre[1] + radius * sin(radians(a)))
                   for a in range(0, 360, 20))
    return Polygon(points, 1.0, "thin")


def _depth_line(site: Site, run: float, writer: Writer, height: float) -> tuple[Shape, ...]:
    """How far out from the wall it is free, where that was measured; measured at the left."""
    out = _shortest([d.value_nm for d in site.depths])
    if not out:
        return ()
    text = f"{writer.mm(out)} free"
    off = text_width(text, height) / 2 + 2.6 * height
    return (Line(((0.0, -out), (run, -out)), "open"),
            *dimension((0.0, -out), (0.0, 0.0), text, height, off_mm=off, gap_mm=2 * height))


def _run_of_wall(site: Site, run: float, writer: Writer, height: float) -> tuple[Shape, ...]:
    """The run of the back wall, above it, where it was measured."""
    wall = site.wall("back")
    if not (wall and wall.readings):
        return ()
    least = " least" if len({r.value_nm for r in wall.readings}) > 1 else ""
    return dimension((0.0, 0.0), (run, 0.0), f"{writer.mm(run)}{least}", height, off_mm=4.2 * height,
                     gap_mm=2 * height)


def _standing(stand: Bounds, writer: Writer, height: float, legs: Legs | None) -> tuple[Shape, ...]:
    """The piece's length as it stands, and the legs of an L."""
    shapes = dimension(stand.low, (stand.high[0], stand.low[1]), writer.mm(stand.width), height,
                       off_mm=(-4.0 if legs else -1.9) * height, gap_mm=0.5 * height, past="under")
    shapes += within(legs, stand, writer, height) if legs is not None else ()
    return tuple(replace(s, halo=True) if isinstance(s, Text) else s for s in shapes)


def _listed(notes: Sequence[str], drawn: Sequence[Shape], height: float) -> list[Shape]:
    """The notes under everything drawn, long ones on several lines."""
    box = Drawing("", tuple(drawn)).bounds
    room = max(box.width, 24 * height)
    rows = [line for note in notes for line in broken(note, room, height)]
    return [Text((box.low[0], box.low[1] - (1.4 * number + 0.6) * height), line, height, "start")
            for number, line in enumerate(rows, 1)]


def _said(number: int, side: Side, thing: Obstruction, writer: Writer) -> str:
    where = "" if side.name == "back" else f" on the {side.name} wall"
    said = (f"{number}  {thing.kind}{where}, {writer.length(thing.from_nm)} to {writer.length(thing.to_nm)}, "
            f"out {writer.length(thing.projection_nm)}")
    if thing.bottom_nm is not None:
        said += f", from {writer.length(thing.bottom_nm)} high"
    if thing.top_nm is not None:
        said += f", up to {writer.length(thing.top_nm)}"
    return said
