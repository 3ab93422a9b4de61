"""A piece: placed solid members, and what follows from geometry alone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from ..template.model import AssemblyStep, CheckRule, GlueUp, Joint, OperationRule, Template
from ..template.sizes import holding
from ..template.stands import IN_GROUND

Vector = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Frame:
    """Where a blank lies: ``origin`` is its corner, the three unit vectors its own axes.

    Local coordinates (u, v, w): u along the grain 0..length, v across 0..width, w through 0..thickness.
    A mirrored member has a left-handed frame.
    """

    origin: Vector
    along: Vector
    wide: Vector
    thick: Vector

    def to_world(self, u: float, v: float, w: float) -> Vector:
        o, a, b, c = self.origin, self.along, self.wide, self.thick
        return (o[0] + u * a[0] + v * b[0] + w * c[0],
                o[1] + u * a[1] + v * b[1] + w * c[1],
                o[2] + u * a[2] + v * b[2] + w * c[2])


@dataclass(frozen=True, slots=True)
class ShapeWork:
    """Work on a blank beyond square ends, in words a maker reads; equal works compare equal.

    kind: "bevel" (about the wide or thick axis), "compound", "outline", "plane", "pocket", "hole",
    "round over". ``metres`` is the length of cut or routed edge, ``count`` holes.
    """

    kind: str
    text: str
    end: str = ""                # "start" | "end" | ""
    metres: float = 0.0
    count: int = 1


@dataclass(frozen=True, slots=True)
class Member:
    """One placed solid. Sizes of the finished blank in mm (long point to long point)."""

    key: str                     # unique in the piece: "Seat board 3", "Corner leg, wide strip 2L"
    name: str
    role: str
    material: str                # "board" | "sheet" | "roll"
    group: str                   # "fixed" or a group's name
    section: str                 # section id; sheet or roll code
    timber: str
    grade: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    stock_width_mm: float        # full width of the section as delivered
    frame: Frame
    solid: Any                   # kernel solid in world coordinates, see piece/solid.py
    volume_mm3: float
    centre: Vector               # centre of gravity of the solid
    surface_mm2: float           # all faces that take finish, end grain included
    end_grain_mm2: float
    density_kg_m3: float
    shape: tuple[ShapeWork, ...]
    hand: str                    # "" | "left" | "right"
    grain: str
    finish: bool
    glue_up: str = ""            # name of the glue-up this strip goes into
    glue_up_no: int = 0          # which one of several

    @property
    def mass_kg(self) -> float:
        return self.volume_mm3 * 1e-9 * self.density_kg_m3

    @property
    def corners(self) -> tuple[Vector, ...]:
        """The corners of its solid; of its blank where it has none."""
        if self.solid is not None:
            return tuple(self.solid.corners)
        sizes = (self.length_mm, self.width_mm, self.thickness_mm)
        return tuple(self.frame.to_world(u, v, w) for u in (0.0, sizes[0]) for v in (0.0, sizes[1])
                     for w in (0.0, sizes[2]))


@dataclass(frozen=True, slots=True)
class Contact:
    """Where two members touch, face on face. ``normal`` points from ``first`` into ``second``."""

    first: str                   # member keys
    second: str
    area_mm2: float
    normal: Vector
    centre: Vector
    low: Vector                  # bounds of the touching patch
    high: Vector


@dataclass(frozen=True, slots=True)
class Clash:
    """Two solids share room beyond what their joint allows. ``opened_deg``: the lid angle, 0 shut."""

    first: str
    second: str
    volume_mm3: float
    depth_mm: float
    opened_deg: float = 0.0


@dataclass(frozen=True, slots=True)
class MadeJoint:
    """A joint as found: the rule and the contacts that it holds."""

    rule: Joint
    contacts: tuple[Contact, ...]
    fasteners: int               # screws, staples... in all
    each: tuple[int, ...] = ()   # of each contact in order; () = shared evenly

    @property
    def shares(self) -> tuple[float, ...]:
        """Fasteners of each contact, in the order of ``contacts``."""
        if len(self.each) == len(self.contacts):
            return tuple(float(n) for n in self.each)
        return (self.fasteners / len(self.contacts),) * len(self.contacts) if self.contacts else ()


@dataclass(frozen=True, slots=True)
class FittedHardware:
    name: str
    kind: str
    count: float
    size: Mapping[str, float]    # lengths in mm
    words: Mapping[str, str]
    operation: str


@dataclass(frozen=True, slots=True)
class DoneOperation:
    rule: OperationRule
    count: float


@dataclass(frozen=True, slots=True)
class AskedCheck:
    """A check with its formulas worked out: lengths in mm, angles in degrees."""

    rule: CheckRule
    values: Mapping[str, Any]
    members: tuple[str, ...]     # member keys


@dataclass(frozen=True, slots=True)
class Box:
    low: Vector
    high: Vector

    @property
    def size(self) -> Vector:
        return (self.high[0] - self.low[0], self.high[1] - self.low[1], self.high[2] - self.low[2])


@dataclass(frozen=True, slots=True)
class Piece:
    """An item resolved: the thing that will stand in the yard."""

    template: Template
    dimensions_nm: Mapping[str, int]
    choices: Mapping[str, str]   # includes "timber" and "finish"
    values: Mapping[str, Any]    # every named value worked out, for the working
    members: tuple[Member, ...]
    contacts: tuple[Contact, ...]
    joints: tuple[MadeJoint, ...]
    glue_ups: tuple[GlueUp, ...]
    hardware: tuple[FittedHardware, ...]
    operations: tuple[DoneOperation, ...]
    assembly: tuple[AssemblyStep, ...]
    checks: tuple[AskedCheck, ...]
    closed: Box
    opened: Box                  # closed and every open position together
    clashes: tuple[Clash, ...]
    mass_kg: float
    centre: Vector
    notes: tuple[str, ...] = ()  # what a spread did instead, sections that stood in for others
    moving: Mapping[str, tuple[Vector, Vector, float]] = field(default_factory=dict)
    # group -> (hinge point, hinge axis, degrees it opens)

    @property
    def standing_mm(self) -> Vector:
        """Length, depth and height of the closed piece as it stands: height from the ground up."""
        (length_mm, depth_mm, _), dug = self.closed.size, self.template.stands == IN_GROUND
        return (length_mm, depth_mm, self.closed.high[2] - (0.0 if dug else min(0.0, self.closed.low[2])))

    @property
    def used_nm(self) -> Mapping[str, int]:
        """The sizes that say something with these choices, in nm."""
        used = holding(self.template.dimensions, self.dimensions_nm, self.choices)
        return {d.name: self.dimensions_nm[d.name] for d in used if d.name in self.dimensions_nm}

    @property
    def cautions(self) -> tuple[str, ...]:
        """What the customer is told for safety with these sizes and choices."""
        return tuple(c.text for c in holding(self.template.cautions, self.dimensions_nm, self.choices))

    def member(self, key: str) -> Member:
        return next(m for m in self.members if m.key == key)

    def group(self, name: str) -> tuple[Member, ...]:
        return tuple(m for m in self.members if m.group == name)

