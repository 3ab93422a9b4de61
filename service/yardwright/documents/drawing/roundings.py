"""Rounded edges of a part: the solid keeps its corners sharp, so they are found from the words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from yardwright.domain.measure import Reading, examine, to_mm

from .features import Features
from .part_axes import Laid
from .projection import Vector

if TYPE_CHECKING:
    from yardwright.domain.piece.model import Member, Piece

Segment = tuple[tuple[float, float], tuple[float, float]]

# The directions of a piece as templates name them.
_WAYS: dict[str, Vector] = {"left": (-1, 0, 0), "right": (1, 0, 0), "front": (0, -1, 0), "back": (0, 1, 0),
                            "down": (0, 0, -1), "up": (0, 0, 1)}
_SAME = {"top": "up", "bottom": "down"}
_MIRRORED = {"length": {"left": "right", "right": "left"}, "depth": {"front": "back", "back": "front"},
             "height": {"up": "down", "down": "up"}}


@dataclass(frozen=True, slots=True)
class Rounding:
    """A rounded side of the face: "lower", "upper", "left" or "right", on this face, the far one or both."""

    said: str
    side: str
    near: bool
    far: bool
    radius_mm: float             # 0 where the words name none


def rounded(piece: Piece, member: Member, way: Laid) -> tuple[Rounding, ...]:
    """The rounded sides of the part's face as it lies."""
    found: dict[tuple[str, float, str], set[str]] = {}
    for said, radius_mm, edges in _edges_named(piece, member):
        for edge in edges:
            if (sides := _sides(way, edge)) is not None:
                found.setdefault((said, radius_mm, sides[0]), set()).add(sides[1])
    return tuple(Rounding(said, side, "near" in faces, "far" in faces, radius_mm)
                 for (said, radius_mm, side), faces in sorted(found.items()))


def towards_you(rounds: Sequence[Rounding]) -> int:
    """How many rounded edges lie on the face looked at."""
    return sum(r.near for r in rounds)


def told(rounds: Sequence[Rounding], size: Vector) -> list[tuple[str, float, float]]:
    """(words, share of the length, height on the face), rounded alike said once."""
    at = {"lower": (0.3, 0.0), "upper": (0.45, size[1]), "left": (0.0, size[1] / 2),
          "right": (1.0, size[1] / 2)}
    alike: dict[str, list[str]] = {}
    for r in rounds:
        alike.setdefault(f"{r.said}, {_which(r)}", []).append(r.side)
    return [(said if len(sides) == 1 else f"{said}, {len(sides)} edges", *at[max(sides)])
            for said, sides in alike.items()]


def begins(rounds: Sequence[Rounding], found: Features) -> Iterator[Segment]:
    """Where the rounding of each edge of this face begins, a radius in from it."""
    long, wide, _ = found.size
    for r in (r for r in rounds if r.near and r.radius_mm):
        if r.side in ("lower", "upper"):
            y = r.radius_mm if r.side == "lower" else wide - r.radius_mm
            left, right = found.run(y)
            yield (left, y), (right, y)
        else:
            x = r.radius_mm if r.side == "left" else long - r.radius_mm
            yield (x, 0.0), (x, wide)


def _which(rounding: Rounding) -> str:
    if rounding.near and rounding.far:
        return "both faces"
    return "this face" if rounding.near else "far face"


def _edges_named(piece: Piece, member: Member) -> Iterator[tuple[str, float, list[frozenset[str]]]]:
    """The rounding in words, its radius, and the edges as pairs of directions."""
    rules = [r for r in piece.template.members if r.name == member.name]
    works = [w.text for w in member.shape if w.kind == "round over"]
    for rule, cut in ((r, c) for r in rules for c in r.cuts if c.kind == "round over"):
        words = cut.words.get("edges", "")
        text = next((t for t in works if words in t or t == cut.words.get("text")), None)
        if text is None:
            continue
        radius = text.rpartition("radius ")[2] if "radius " in text else ""
        said = f"round over {radius}" if radius else text
        turned = _MIRRORED[rule.mirror[0].across] if _mirrored(member) and len(rule.mirror) == 1 else {}
        named = [[_SAME.get(w, w) for w in edge.split()] for edge in words.split(",")]
        edges = [frozenset(turned.get(w, w) for w in edge) for edge in named]
        measured = examine(radius, None)
        yield said, to_mm(measured.nm) if isinstance(measured, Reading) else 0.0, edges


def _mirrored(member: Member) -> bool:
    """Whether it is a mirror image of what the template describes: its frame is left-handed."""
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = member.frame.along, member.frame.wide, member.frame.thick
    return (ay * bz - az * by) * cx + (az * bx - ax * bz) * cy + (ax * by - ay * bx) * cz < 0.0


def _sides(way: Laid, edge: frozenset[str]) -> tuple[str, str] | None:
    """Which side of the face an edge is on, and whether on this face or the far one."""
    axes = {"left": _back(way.right), "right": way.right, "lower": _back(way.up), "upper": way.up,
            "far": _back(way.towards), "near": way.towards}
    on = {side for side, normal in axes.items() if _word(normal) in edge}
    side = on & {"lower", "upper"} or on & {"left", "right"}
    face = on & {"near", "far"}
    return (min(side), min(face)) if side and face else None


def _word(normal: Vector) -> str:
    return max(_WAYS, key=lambda w: sum(a * b for a, b in zip(_WAYS[w], normal, strict=True)))


def _back(v: Vector) -> Vector:
    return (-v[0], -v[1], -v[2])
