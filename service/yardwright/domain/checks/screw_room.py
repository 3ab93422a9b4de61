"""Screw spacing: as many fasteners as a joint counts must find room, or the wood splits along their row.

For each place that fasteners hold, the touching patch takes staggered rows, bored first: 5 diameters apart
along the grain, rows 2.5 apart, 1.5 from an edge, 2.5 from an end; bolts 4 apart each way. More than find
room: a note for the workshop; more than twice as many, which no factor of the standard lets stand: a
caution. Without a bored hole three times as much is asked along the grain and 5 times at an end, so that
the finding for the workshop names what is bored first, and with which bit: 70 % of the screw's root in
softwood, 90 % in hardwood (seen). Always runs. Diameters are the shank's. mm. Limits of validity: patches
are taken as rectangles of their own area; screws of a third member that cross there are not seen. Sources:
EN 1995-1-1 Table 8.2, NDS 12.5.1 and commentary (memory); joints.toml.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor, sqrt

from ..finding import Finding, Level
from ..measure import Writer
from ..piece.model import AskedCheck, Member, Vector
from .fixings import KINDS, fastener_size
from .rule import Case, NoneSold, Rule
from .touches import Touch, corners, dot
from .words import INCH_MM

_ALONG = 0.7                 # cosine: a direction this near the grain is along it
_FLUSH_MM = 12.7             # a member that ends this near the patch's edge ends there
_ROOT = 0.683                # least root over shank: gauge 8 0.112/0.164 (Wood Screw Pilot Hole Sizes; seen)
_PILOT = {"softwood": 0.70, "hardwood": 0.90}


@dataclass(frozen=True, slots=True)
class _Place:
    one: Member
    other: Member
    touch: Touch
    shank_mm: float
    room: int                    # bored first
    unbored: int

    @property
    def number(self) -> int:
        """Fasteners here, whole."""
        return ceil(self.touch.fasteners - 1e-6)

    @property
    def share(self) -> float:
        """Fasteners over what finds room."""
        return self.number / max(self.room, 0.4)


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A caution for each pair of names whose joint is crowded, else one ok; a note on what is bored first."""
    places = list(_places(case))
    if not places:
        return ()
    worst: dict[tuple[str, str], _Place] = {}
    for p in places:
        pair = (p.one.name, p.other.name)
        if pair not in worst or p.share > worst[pair].share:
            worst[pair] = p
    crowded = [p for p in worst.values() if p.share > 1.0]
    told = [_crowded(asked, case, p) for p in crowded] or [_roomy(asked, case, max(
        worst.values(), key=lambda p: p.share))]
    return (*told, _bored(asked, case, places))


def _places(case: Case) -> Iterator[_Place]:
    for key, touches in case.touches.items():
        for touch in touches:
            if key < touch.other and touch.fasteners > 0 and touch.kind in KINDS:
                one, other = case.member(key), case.member(touch.other)
                if "roll" in (one.material, other.material):
                    continue
                try:
                    shank = fastener_size(case, one, touch)[0]
                except NoneSold:
                    continue                     # nothing sold suits it: the joints rule and the price say so
                yield _Place(one, other, touch, shank, room(case, one, other, touch, shank, True),
                             room(case, one, other, touch, shank, False))


def room(case: Case, one: Member, other: Member, touch: Touch, shank_mm: float, bored: bool) -> int:
    """How many fasteners find room in a patch, bored first or not."""
    bolts = touch.kind in ("bolts", "lags")
    row, end = case.limit("joints.rows_apart"), case.limit("joints.end_distance")
    edge, apart = case.limit("joints.edge_distance"), case.limit("joints.apart_along") / row
    if bolts:
        row, apart = case.limit("joints.bolts_apart"), 1.0
    elif not bored:
        end, apart = case.limit("joints.end_unbored"), case.limit("joints.apart_unbored") / row
    first = _in_plane(other if abs(dot(one.frame.along, touch.normal)) > _ALONG else one, touch)
    second = _cross(first, touch.normal)
    sizes = [_extent(touch, first), _extent(touch, second)]
    shrink = min(1.0, sqrt(touch.area_mm2 / max(sizes[0] * sizes[1], 1e-9)))
    lines = []
    for way, size in zip((first, second), sizes, strict=True):
        ends = sum(max(_ends(m, touch, way, side) for m in (one, other)) for side in (-1.0, 1.0))
        free = size * shrink - shank_mm * (ends * end + (2 - ends) * edge)
        lines.append(floor(free / (shank_mm * row) + 1e-6) + 1 if free >= -1.0 else 0)
    return ceil(lines[0] * lines[1] / apart - 1e-6)


def _ends(member: Member, touch: Touch, way: Vector, side: float) -> int:
    """1 where the member's own end lies at this side of the patch."""
    if abs(dot(member.frame.along, way)) < _ALONG:
        return 0
    edge = max(side * dot(p, way) for p in (touch.low, touch.high, *_box(touch)))
    return int(max(side * dot(c, way) for c in corners(member)) - edge < _FLUSH_MM)


def _box(touch: Touch) -> list[Vector]:
    return [(x, y, z) for x in (touch.low[0], touch.high[0]) for y in (touch.low[1], touch.high[1])
            for z in (touch.low[2], touch.high[2])]


def _in_plane(member: Member, touch: Touch) -> Vector:
    """The member's grain, laid into the plane of the touch."""
    a, n = member.frame.along, touch.normal
    off = dot(a, n)
    flat = (a[0] - off * n[0], a[1] - off * n[1], a[2] - off * n[2])
    size = sqrt(dot(flat, flat))
    return (flat[0] / size, flat[1] / size, flat[2] / size) if size > 1e-6 else member.frame.wide


def _cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _extent(touch: Touch, way: Vector) -> float:
    return sum(abs(way[k]) * (touch.high[k] - touch.low[k]) for k in range(3))


def _crowded(asked: AskedCheck, case: Case, p: _Place) -> Finding:
    words = case.words
    kind, most = KINDS[p.touch.kind], case.limit("joints.crowded_from")
    return Finding(
        asked.rule.rule, Level.CAUTION if p.share > most else Level.NOTE,
        f"{p.one.name} to {p.other.name}: " + (f"too many {kind}s for the room" if p.share > most else
                                               f"{kind}s close together"),
        f"{p.number} of {words.fine(p.shank_mm)} on {words.area(p.touch.area_mm2)} where {p.one.key} meets "
        f"{p.other.key}; bored first {p.room} find room before the wood splits.", f"{p.number}", f"{p.room}",
        _source(case),
        "Bore them, in staggered rows; where there are too many use fewer, thicker ones or a wider board.",
        _worked(case, p), customer=False)


def _roomy(asked: AskedCheck, case: Case, p: _Place) -> Finding:
    return Finding(
        asked.rule.rule, Level.OK, "Fasteners have room",
        f"Tightest where {p.one.key} meets {p.other.key}.", f"{p.number}",
        f"{p.room} bored first", _source(case), working=_worked(case, p), customer=False)


def _worked(case: Case, p: _Place) -> str:
    """The distances that ``room`` counted with, in lengths of this fastener."""
    def apart(name: str) -> str:
        diameters = case.limit(f"joints.{name}")
        return f"{diameters:g} d = {case.words.fine(diameters * p.shank_mm)}"

    bolts = p.touch.kind in ("bolts", "lags")
    along, rows = ("bolts_apart", "bolts_apart") if bolts else ("apart_along", "rows_apart")
    return (f"d = {case.words.fine(p.shank_mm)}; {apart(along)} along the grain, rows {apart(rows)}, edges "
            f"{apart('edge_distance')}, ends {apart('end_distance')} on {case.words.area(p.touch.area_mm2)}: "
            f"room for {p.room}, {p.unbored} unbored; {p.number} wanted")


def _bored(asked: AskedCheck, case: Case, places: list[_Place]) -> Finding:
    """What is bored first: every place that unbored screws would split, by shank and hardness."""
    first = [p for p in places if p.touch.kind == "screws" and p.number > p.unbored]
    bits: dict[tuple[float, str], None] = {}
    for p in sorted(places, key=lambda p: p.shank_mm):
        if p.touch.kind == "screws":
            bits.setdefault((round(p.shank_mm, 2), case.timber(p.other).kind))
    told = "; ".join(f"{case.words.fine(shank)} screws in {kind}: {pilot(shank, kind, case.writer)}"
                     for shank, kind in bits)
    names = sorted({f"{p.one.name} to {p.other.name}" for p in first})
    shown = "; ".join(names[:12]) + (f"; and {len(names) - 12} more" if len(names) > 12 else "")
    return Finding(
        asked.rule.rule, Level.NOTE, "Bore first" if names else "Boring first is good practice",
        (f"Near ends and in close rows screws split the wood unless bored for: {shown}." if names else
         "No joint is so close to an end or so tight that it asks for it.")
        + f" Bits: {told or 'bolts only'}.",
        "", "", _source(case), customer=False)


def pilot(shank_mm: float, kind: str, writer: Writer) -> str:
    """The bit for a screw: the next 1/64 in, or 1/2 mm, to 70 % (hardwood 90 %) of its root."""
    bit = shank_mm * _ROOT * _PILOT.get(kind, 0.9)
    if writer.units == "mm":
        return f"{round(bit * 2) / 2:g} mm"
    parts = Fraction(ceil(bit / INCH_MM * 64 - 0.05), 64)
    return f"{parts} in"


def _source(case: Case) -> str:
    return case.source("joints.apart_along", "joints.rows_apart", "joints.edge_distance",
                       "joints.end_distance", "joints.apart_unbored")


RULE = Rule("screw spacing", check)
