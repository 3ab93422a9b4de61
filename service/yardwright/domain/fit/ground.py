"""What the fall of the ground asks of each foot, and what takes it up: shims, levelling feet, or a saw.

The ground is a plane falling ``fall_along`` along the wall, whichever way is worse for the piece, and
``fall_away`` towards the front, rise over run; drop at a foot = fall along x its distance from one end + fall
away x its distance from the back, less the least of them. mm.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from ..piece.model import Member, Piece
from ..site import Ground
from ..template.stands import IN_GROUND, ON_WALL

LONG_MM = 300.0                  # a foot longer than this stands at two places, its ends; judgement
LEVEL_MM = 1.0                   # less than this is no fall
ALIKE = 3                        # decimals of mm: falls nearer than this are alike, told as to the right
UPRIGHT = 0.7                    # cosine: a member this upright on the ground is a leg


@dataclass(frozen=True, slots=True)
class Foot:
    """One place where the piece stands, and how far the ground lies below it with the piece level."""

    name: str
    x_mm: float
    y_mm: float
    drop_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Levelling:
    """How the worse fall is made up: ``how`` "feet", "shims", "scribe"; ``way`` the fall along, in words."""

    how: str
    way: str
    most_mm: float
    feet: tuple[Foot, ...]
    legs: tuple[str, ...] = ()   # members that are cut longer, to be scribed

    @property
    def shimmed(self) -> int:
        """Feet that a shim goes under."""
        return sum(f.drop_mm >= LEVEL_MM for f in self.feet) if self.how == "shims" else 0

    @property
    def scribed(self) -> int:
        """Legs, made longer by the most, that are cut to the ground."""
        return sum(self.most_mm - f.drop_mm >= LEVEL_MM for f in self.feet) if self.how == "scribe" else 0


def levelling(piece: Piece, ground: Ground, standing_mm: float, shimmed_mm: float,
              travel_mm: float) -> Levelling | None:
    """What makes up the fall under a piece whose feet reach down to ``standing_mm``; None where nothing does.

    Up to ``shimmed_mm`` is shimmed and more cut to scribe; levelling feet take up to ``travel_mm``.
    """
    if piece.template.stands in (ON_WALL, IN_GROUND) or (not ground.fall_along and not ground.fall_away):
        return None
    both = {way: drops(piece, replace(ground, fall_along=along), standing_mm)
            for way, along in (("right", abs(ground.fall_along)), ("left", -abs(ground.fall_along)))}
    way = max(both, key=lambda w: round(max((foot.drop_mm for foot in both[w]), default=0.0), ALIKE))
    most = max((foot.drop_mm for foot in both[way]), default=0.0)
    if most < LEVEL_MM:
        return None
    screwed = has_levelling_feet(piece)
    how = ("feet" if screwed else "shims") if most <= (travel_mm if screwed else shimmed_mm) else "scribe"
    legs = tuple(m.key for m in piece.members if abs(m.frame.along[2]) > UPRIGHT
                 and min(z for _, _, z in m.corners) <= standing_mm)
    return Levelling(how, way, most, both[way], legs if how == "scribe" else ())


def has_levelling_feet(piece: Piece) -> bool:
    """Whether it stands on feet that screw in and out."""
    return any(h.kind == "levelling foot" and h.count > 0 for h in piece.hardware)


def drops(piece: Piece, ground: Ground, standing_mm: float) -> tuple[Foot, ...]:
    """Every foot with the drop under it, the highest at 0; a positive fall along is to the right."""
    feet = sorted(_feet(piece, standing_mm), key=lambda f: (-round(f.y_mm), round(f.x_mm)))
    if not feet:
        return ()
    low = [ground.fall_along * f.x_mm - ground.fall_away * f.y_mm for f in feet]
    return tuple(Foot(f.name, f.x_mm, f.y_mm, d - min(low)) for f, d in zip(feet, low, strict=True))


def _feet(piece: Piece, standing_mm: float) -> Iterator[Foot]:
    """Members that reach the ground; strips of one blank are one foot, a long one stands at its two ends."""
    blanks: dict[tuple[str, int], list[tuple[float, float]]] = {}
    alone: list[tuple[Member, list[tuple[float, float]]]] = []
    for member in piece.members:
        places = [(x, y) for x, y, z in member.corners if z <= standing_mm]
        if places and member.glue_up:
            blanks.setdefault((member.glue_up, member.glue_up_no), []).extend(places)
        elif places:
            alone.append((member, places))
    for (name, _), places in blanks.items():
        yield from _ends(name, places)
    for member, places in alone:
        yield from _ends(member.name, places)


def _ends(name: str, places: list[tuple[float, float]]) -> Iterator[Foot]:
    (left, right), (front, back) = ((min(v), max(v)) for v in zip(*places, strict=True))
    xs = (left, right) if right - left > LONG_MM else ((left + right) / 2,)
    ys = (front, back) if back - front > LONG_MM else ((front + back) / 2,)
    for x in xs:
        for y in ys:
            yield Foot(name, x, y)
