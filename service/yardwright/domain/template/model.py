"""A template as read: every formula already checked, its text kept for the working and for errors.

Coordinates of a piece: x along its length (left to right seen from the front), y from the front (0)
to the back, z up from the ground. Directions have names: left right front back up down.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from ..formula.model import Formula

Vector = tuple[float, float, float]

DIRECTIONS: Mapping[str, Vector] = {
    "left": (-1.0, 0.0, 0.0), "right": (1.0, 0.0, 0.0),
    "front": (0.0, -1.0, 0.0), "back": (0.0, 1.0, 0.0),
    "down": (0.0, 0.0, -1.0), "up": (0.0, 0.0, 1.0),
}


AS_USUAL = "usual"        # the choice of section that takes the first of ``sections`` the shop sells

Point = tuple[Formula, Formula, Formula]


@dataclass(frozen=True, slots=True)
class Dimension:
    """A size the customer chooses. All in nm; ``step`` and ``default`` by unit system.

    ``when``: whether it says anything at all, by the choices; None always does.
    """

    name: str
    label: str
    default_nm: Mapping[str, int]        # "in" | "mm" -> nm
    least_nm: int
    most_nm: int
    step_nm: Mapping[str, int]
    help: str = ""
    when: Formula | None = None
    measures: str = ""       # what else it is the size of, where its name is that of an overall size


@dataclass(frozen=True, slots=True)
class Choice:
    """What the customer chooses among. ``about``: "look" what it looks like or is good for, "make" how it is
    made or fixed (the first thing a mend changes), "place" how it is set in its place (changed first for what
    is found of the place, else never), "use" who uses it and for what (a mend never changes it).
    """

    name: str
    label: str
    options: tuple[tuple[str, str], ...]  # (id, label)
    default: str
    help: str = ""
    about: str = "look"


@dataclass(frozen=True, slots=True)
class Caution:
    """What the customer is told for safety; ``when`` by dimensions and choices, None always."""

    text: str
    when: Formula | None = None


@dataclass(frozen=True, slots=True)
class Role:
    """What a member may be made of: sections tried in order until the shop sells one in the timber.

    ``heavier`` sections are taken only where they are chosen, by the choice named ``chosen_by``.
    """

    name: str
    material: str                         # "board" | "sheet" | "roll"
    sections: tuple[str, ...] = ()        # boards: section ids; sheets and rolls: material words
    timber: str = ""                      # "" = the item's timber choice
    grade: str = ""                       # least grade, "" = any
    heavier: tuple[str, ...] = ()         # section ids, lightest first
    label: str = ""                       # "Seat boards", where heavier ones are offered

    @property
    def chosen_by(self) -> str:
        """The choice that takes a heavier section."""
        return f"{self.name}_section"


@dataclass(frozen=True, slots=True)
class Group:
    """Members that move together: a lid or a door turning about a hinge line, else "fixed"."""

    name: str
    along: str                            # direction of the hinge line: "length" | "depth" | "height"
    at: Point
    opens: Formula                        # angle, right-handed about +x, +y or +z
    when: Formula | None = None


@dataclass(frozen=True, slots=True)
class Repeat:
    index: str
    count: Formula


@dataclass(frozen=True, slots=True)
class Mirror:
    """A second copy mirrored across the plane normal to ``across`` at ``at``."""

    across: str                           # "length" | "depth" | "height"
    at: Formula


@dataclass(frozen=True, slots=True)
class End:
    """How one end is cut, through its end point.

    kind: "square"; "level" (horizontal); "plumb" (vertical, across the member's heading);
    "angle" (degrees off square, ``about`` "wide" or "thick"); "against" (flush on a face of the
    named member: the face that looks at this one).
    """

    kind: str
    angle: Formula | None = None
    about: str = ""
    against: str = ""


@dataclass(frozen=True, slots=True)
class Cut:
    """Shape work. ``values`` are formulas by name, ``words`` plain words.

    kind: "round over" (edges, radius: no solid change), "outline" (the wide face cut to a closed shape of
    points and arcs), "plane" (all beyond a plane goes), "pocket" (a box taken out), "hole" (round, through).
    """

    kind: str
    values: Mapping[str, Any] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    when: Formula | None = None
    where: str = ""


@dataclass(frozen=True, slots=True)
class MemberRule:
    """A member as declared; resolve turns it into placed members."""

    name: str
    role: str
    group: str
    start: Point
    end: Point
    wide: str | tuple[Formula, Formula, Formula]    # the way the width grows from the start-end line
    thick: str | tuple[Formula, Formula, Formula]   # the way the thickness grows from it
    width: Formula | None                           # None = the role's full width
    thickness: Formula | None
    ends: tuple[End, End]
    cuts: tuple[Cut, ...] = ()
    repeat: tuple[Repeat, ...] = ()
    mirror: tuple[Mirror, ...] = ()
    when: Formula | None = None
    grain: str = "along"                            # sheets and rolls: "along" | "either"
    finish: bool = True
    where: str = ""


@dataclass(frozen=True, slots=True)
class GlueUp:
    """Strips that become one blank. kind: "edge" | "face" | "L"."""

    name: str
    kind: str
    members: tuple[str, ...]
    matched: bool = False                           # strips come from one board
    where: str = ""


@dataclass(frozen=True, slots=True)
class Joint:
    """Members that touch and are held together. Names may end in ``*`` (any ending).

    fasten: "screws" | "lags" | "bolts" | "staples" | "nails" | "glue" | "none"; ``per_contact`` screws at
    each place two members meet, or ``spacing`` along the contact; ``may_share_mm3`` is the solid overlap
    allowed (half-laps, tenons: as volume at each meeting), 0 for plain contact.
    """

    name: str
    of: tuple[str, ...]
    to: tuple[str, ...]
    fasten: str
    per_contact: Formula | None = None
    spacing: Formula | None = None
    glue: bool = False
    may_share: Formula | None = None                # depth of the overlap (a length)
    when: Formula | None = None
    where: str = ""


@dataclass(frozen=True, slots=True)
class HardwareRule:
    """A bought thing: goods kind and how many, or how long."""

    name: str
    kind: str                                       # goods kind in the market
    count: Formula
    size: Mapping[str, Formula] = field(default_factory=dict)   # {"length": ...}
    words: Mapping[str, str] = field(default_factory=dict)
    operation: str = ""                             # time standard for fitting one
    when: Formula | None = None
    where: str = ""


@dataclass(frozen=True, slots=True)
class OperationRule:
    """Work that geometry does not show: a time standard and how often."""

    name: str
    standard: str
    count: Formula
    when: Formula | None = None
    where: str = ""


@dataclass(frozen=True, slots=True)
class AssemblyStep:
    """A step of putting together.

    ``joints``: joints made in it, though their members were there before; ``makes``: what its members have
    then become part of, in words; ``on_site``: left for the customer's place unless the whole piece is known
    to go in.
    """

    text: str
    members: tuple[str, ...] = ()
    when: Formula | None = None
    joints: tuple[str, ...] = ()
    makes: str = ""
    on_site: bool = False


@dataclass(frozen=True, slots=True)
class CheckRule:
    """Which check of domain/checks runs on what. ``values`` are formulas, ``words`` plain words."""

    rule: str
    values: Mapping[str, Formula] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    members: tuple[str, ...] = ()
    when: Formula | None = None
    where: str = ""


@dataclass(frozen=True, slots=True)
class FitRule:
    """What the fit needs, from dimensions and choices alone, so that it can travel to the phone.

    values: ordered (name, formula); envelope: formulas named length, depth, height (closed), and where
    given open_height, open_front, open_behind (how far the open piece stands out beyond the closed one),
    use_front (room in front to use it). A piece for a corner is an L: ``wing`` gives the end it is at
    ("left", "right" or "none"), wing_length how far it reaches out from the piece's back, wing_depth what
    it takes along the back wall; depth is then that of the part along the back wall alone.
    """

    values: tuple[tuple[str, Formula], ...]
    envelope: Mapping[str, Formula]
    priority: tuple[str, ...]                       # dimensions in the order they may be reduced
    wing: Formula | None = None                     # text: "left" | "right" | "none"


@dataclass(frozen=True, slots=True)
class Template:
    id: str
    revision: int
    name: str
    summary: str
    included: tuple[str, ...]                       # what the customer gets, in words
    dimensions: tuple[Dimension, ...]
    choices: tuple[Choice, ...]
    timbers: tuple[str, ...]                        # allowed timber ids, () = all the shop sells
    default_timber: str
    finishes: tuple[str, ...]                       # allowed finish ids; "none" is one
    default_finish: str
    roles: tuple[Role, ...]
    values: tuple[tuple[str, Formula], ...]
    overall: Mapping[str, Formula]                  # length, depth, height: must equal the solids' extent
    fit: FitRule
    groups: tuple[Group, ...]
    members: tuple[MemberRule, ...]
    glue_ups: tuple[GlueUp, ...]
    joints: tuple[Joint, ...]
    hardware: tuple[HardwareRule, ...]
    operations: tuple[OperationRule, ...]
    assembly: tuple[AssemblyStep, ...]
    checks: tuple[CheckRule, ...]
    cautions: tuple[Caution, ...] = ()
    stands: str = "on the ground"                   # one of stands.STANDS
    source: str = ""                                # file name for errors
    words: int = 0                                  # words and marks of all its formulas
