"""What a drawing needs of a member: its flat faces and its edges, in world mm."""

from __future__ import annotations

from math import cos, radians

from .flat_faces import Loop
from .model import Member
from .solid import Solid
from .vectors import Vector, dot

SMOOTH_DEG = 12.0        # chords of an arc meet at less than this and draw no line


def faces(member: Member) -> list[list[Vector]]:
    """The member's flat faces as closed loops, counter-clockwise from outside; a hole is bridged in."""
    solid: Solid = member.solid
    return [_bridged(f.outline, f.holes) for f in solid.faces]


def edges(member: Member) -> list[tuple[Vector, Vector]]:
    """The edges a drawing shows: where two faces meet, arcs' chords left out."""
    limit = cos(radians(SMOOTH_DEG))
    met: dict[tuple[Vector, Vector], list[Vector]] = {}
    for f in member.solid.faces:
        for loop in f.loops:
            for i, b in enumerate(loop):
                a = loop[i - 1]
                met.setdefault((min(a, b), max(a, b)), []).append(f.normal)
    return [ends for ends, normals in met.items() if len(normals) < 2 or dot(normals[0], normals[1]) < limit]


def _bridged(outline: Loop, holes: tuple[Loop, ...]) -> list[Vector]:
    loop = list(outline)
    for hole in holes:
        near = min(((i, j) for i in range(len(loop)) for j in range(len(hole))),
                   key=lambda ij: sum((loop[ij[0]][k] - hole[ij[1]][k]) ** 2 for k in range(3)))
        i, j = near
        loop[i:i] = [loop[i], *hole[j:], *hole[:j], hole[j]]
    return loop
