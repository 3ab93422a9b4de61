"""Which members touch which, seen from each side, and whether a joint holds them there.

Built once a piece from its contacts and joints; the checks find supports here, so a board that lies on
nothing is noticed. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from ..piece.model import Contact, Member, Piece, Vector
from ..template.stands import IN_GROUND


@dataclass(frozen=True, slots=True)
class Touch:
    """One place where a member meets ``other``; ``normal`` points away from the member into the other."""

    other: str
    normal: Vector
    centre: Vector
    low: Vector
    high: Vector
    fasteners: float             # screws, bolts... at this place
    glued: bool
    kind: str = ""               # "screws", "bolts"... the joint's fasteners
    area_mm2: float = 0.0

    @property
    def held(self) -> bool:
        """Whether a joint keeps the two together here."""
        return self.glued or self.fasteners > 0


def touches(piece: Piece) -> Mapping[str, tuple[Touch, ...]]:
    """Member key -> its touches, each with its joint's fasteners; strips of one glue-up are glued."""
    held = _held(piece)
    found: dict[str, list[Touch]] = {m.key: [] for m in piece.members}
    blank = {m.key: (m.glue_up, m.glue_up_no) if m.glue_up else None for m in piece.members}
    for c in piece.contacts:
        fasteners, glued, kind = held.get(_same(c), (0.0, False, ""))
        glued = glued or (blank[c.first] is not None and blank[c.first] == blank[c.second])
        back = (-c.normal[0], -c.normal[1], -c.normal[2])
        for one, other, normal in ((c.first, c.second, c.normal), (c.second, c.first, back)):
            found[one].append(Touch(other, normal, c.centre, c.low, c.high, fasteners, glued, kind,
                                    c.area_mm2))
    return {key: tuple(list_) for key, list_ in found.items()}


def _held(piece: Piece) -> dict[tuple[object, ...], tuple[float, bool, str]]:
    held: dict[tuple[object, ...], tuple[float, bool, str]] = {}
    for joint in piece.joints:
        glued = joint.rule.glue or joint.rule.fasten == "glue"
        for c, each in zip(joint.contacts, joint.shares, strict=True):
            before = held.get(_same(c), (0.0, False, ""))
            kind = joint.rule.fasten if each else before[2]
            held[_same(c)] = (before[0] + each, before[1] or glued, kind)
    return held


def _same(c: Contact) -> tuple[object, ...]:
    return (*sorted((c.first, c.second)), *(round(x, 2) for x in c.centre))


UP: Vector = (0.0, 0.0, 1.0)


def dot(a: Vector, b: Vector) -> float:
    """Scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def along(member: Member, touch: Touch) -> tuple[float, float]:
    """The touching patch along the member's length, from..to in mm from its start."""
    axis = member.frame.along
    o, c = member.frame.origin, touch.centre
    middle = dot((c[0] - o[0], c[1] - o[1], c[2] - o[2]), axis)
    half = sum(abs(axis[k]) * (touch.high[k] - touch.low[k]) / 2 for k in range(3))
    return middle - half, middle + half


def corners(member: Member) -> tuple[Vector, ...]:
    """The corners of the member's solid; of its blank where it has none."""
    return member.corners


def apart(places: Iterable[float], least_mm: float) -> list[float]:
    """The places in order, each further than ``least_mm`` from the one before it: nearer ones are one."""
    kept: list[float] = []
    for place in sorted(places):
        if not kept or place - kept[-1] > least_mm:
            kept.append(place)
    return kept


def reach(member: Member, direction: Vector) -> tuple[float, float]:
    """From..to of the member along a direction (a unit vector), in mm."""
    places = [dot(c, direction) for c in corners(member)]
    return min(places), max(places)


def ground(piece: Piece) -> float:
    """The height that the piece stands at: its lowest member's underside (feet under it are hardware), the
    face of the ground where its posts reach into it."""
    lowest = piece.closed.low[2]
    return max(lowest, 0.0) if piece.template.stands == IN_GROUND else lowest
