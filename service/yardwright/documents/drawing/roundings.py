"""Rounded edges of a part: the solid keeps its corners sharp, so they are found from the words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .part_axes import Laid
from .projection import Vector

if TYPE_CHECKING:
    from yardwright.domain.piece.model import Member, Piece

# The directions of a piece as templates name them.
_WAYS: dict[str, Vector] = {"left": (-1, 0, 0), "right": (1, 0, 0), "front": (0, -1, 0), "back": (0, 1, 0),
                            "down": (0, 0, -1), "up": (0, 0, 1)}
_SAME = {"top": "up", "bottom": "down"}


def rounded(piece: Piece, member: Member, way: Laid, size: Vector) -> tuple[tuple[str, float, float], ...]:
    """(words, share of the length, height on the face) for each rounded side of the face."""
    found: dict[tuple[str, str], set[str]] = {}
    for said, edges in _edges_named(piece, member):
        for edge in edges:
            sides = _sides(way, edge)
            if sides is not None:
                found.setdefault((said, sides[0]), set()).add(sides[1])
    at = {"lower": (0.3, 0.0), "upper": (0.45, size[1]), "left": (0.0, size[1] / 2),
          "right": (1.0, size[1] / 2)}
    said_at: dict[str, list[str]] = {}
    for (said, side), faces in sorted(found.items()):
        said_at.setdefault(f"{said}, {_which(faces)}", []).append(side)
    return tuple((said if len(sides) == 1 else f"{said}, {len(sides)} edges", *at[max(sides)])
                 for said, sides in said_at.items())


def _which(faces: set[str]) -> str:
    if len(faces) == 2:
        return "both faces"
    return "this face" if faces == {"near"} else "far face"


def _edges_named(piece: Piece, member: Member) -> list[tuple[str, list[frozenset[str]]]]:
    """The rounding in words with its radius, and the edges as pairs of directions."""
    rules = [r for r in piece.template.members if r.name == member.name]
    works = [w.text for w in member.shape if w.kind == "round over"]
    found = []
    for cut in (c for r in rules for c in r.cuts if c.kind == "round over"):
        words = cut.words.get("edges", "")
        text = next((t for t in works if words in t or t == cut.words.get("text")), None)
        if text is None:
            continue
        radius = text.rpartition("radius ")[2] if "radius " in text else ""
        said = f"round over {radius}" if radius else text
        found.append((said, [frozenset(_SAME.get(w, w) for w in edge.split()) for edge in words.split(",")]))
    return found


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
