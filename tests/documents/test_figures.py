"""Every figure printed on a drawing against the piece's own solids, for pieces drawn by lot.

Nothing here asks the drawing's modules what they meant: figures and arrows are read back from the shapes, and
held against the corners and faces of the solids in the frame of each member.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from functools import cache
from math import asin, atan, atan2, degrees, hypot
from typing import Any

import pytest

from documents.dimensions import in_mm, measured
from documents.pieces import TEMPLATES, parts_of, random_piece
from yardwright.documents.drawing.draw import draw
from yardwright.documents.drawing.model import Text
from yardwright.documents.drawing.part_drawing import part_drawing, worth_drawing
from yardwright.domain.errors import Refused
from yardwright.domain.measure import Writer, to_mm
from yardwright.domain.parts import Part
from yardwright.domain.piece.faces import edges
from yardwright.domain.piece.model import Member, Piece

SEEDS = range(int(os.environ.get("PIECES", "6")))
ROUNDED = {"in": 0.81, "mm": 0.51}      # half a sixteenth, half a millimetre
STEP = 1.6                              # finished lengths are rounded down by at most a sixteenth
LEAST_MM = 0.5                          # steps smaller than this are no work


@cache
def pieces(name: str) -> tuple[tuple[Piece, str], ...]:
    found = []
    for seed in SEEDS:
        try:
            found.append(random_piece(name, seed))
        except Refused:
            continue
    return tuple(found)


def drawn_parts(name: str) -> Iterator[tuple[Piece, str, Part]]:
    for piece, units in pieces(name):
        for part in parts_of(piece):
            if worth_drawing(part):
                yield piece, units, part


def own(member: Member, p: tuple[float, float, float]) -> tuple[float, float, float]:
    """A place in the blank's own axes, from its corner."""
    f = member.frame
    off = [p[k] - f.origin[k] for k in range(3)]
    u, v, w = (sum(off[k] * axis[k] for k in range(3)) for axis in (f.along, f.wide, f.thick))
    return u, v, w


def turned(member: Member, n: tuple[float, float, float]) -> tuple[float, float, float]:
    f = member.frame
    u, v, w = (sum(n[k] * axis[k] for k in range(3)) for axis in (f.along, f.wide, f.thick))
    return u, v, w


def said(piece: Piece, units: str, part: Part) -> list[str]:
    drawing = part_drawing(piece, part, Writer(units))
    return [s.text for s in drawing.shapes if isinstance(s, Text)]


def lengths(words: list[str]) -> list[float]:
    return [in_mm(w) for w in words if w.endswith((" in", " mm")) and w[0].isdigit()]


def holds(figures: list[float], value_mm: float, more: float) -> bool:
    return any(abs(f - value_mm) < more for f in figures)


@pytest.mark.parametrize("name", TEMPLATES)
def test_every_length_on_a_part_is_one_between_corners_of_its_blank_or_solid(name: str) -> None:
    for piece, units, part in drawn_parts(name):
        member = piece.member(part.keys[0])
        corners = [own(member, p) for p in member.solid.corners]
        sizes = (member.length_mm, member.width_mm, member.thickness_mm)
        for figure in lengths(said(piece, units, part)):
            places = [(sorted({0.0, sizes[k], *(c[k] for c in corners)})) for k in range(3)]
            apart = (b - a for p in places for i, a in enumerate(p) for b in p[i + 1:])
            off = min(abs(d - figure) for d in apart)
            assert off < ROUNDED[units] + STEP, (part.mark, part.name, figure)


@pytest.mark.parametrize("name", TEMPLATES)
def test_length_width_and_thickness_on_a_part_are_those_of_the_cut_list(name: str) -> None:
    for piece, units, part in drawn_parts(name):
        words = said(piece, units, part)
        writer = Writer(units)
        for nm in (part.length_nm, part.width_nm, part.thickness_nm):
            assert writer.length(nm) in words, part.name


@pytest.mark.parametrize("name", TEMPLATES)
def test_every_cut_of_a_part_has_its_numbers(name: str) -> None:
    for piece, units, part in drawn_parts(name):
        member = piece.member(part.keys[0])
        words = said(piece, units, part)
        missing = [what for what in wanted(member) if not what[1](words, ROUNDED[units] + 0.3)]
        assert not missing, (part.name, [m[0] for m in missing], words)


def wanted(member: Member) -> Iterator[tuple[str, Any]]:
    """What a maker must be told to cut each face of the solid that is no face of the blank."""
    sizes = (member.length_mm, member.width_mm, member.thickness_mm)
    for face in member.solid.faces:
        n = turned(member, face.normal)
        corners = [own(member, p) for p in face.outline]
        square = next((k for k in range(3) if abs(n[k]) > 1 - 1e-6), None)
        if square is not None:
            at = corners[0][square]
            if LEAST_MM < at < sizes[square] - LEAST_MM:
                yield f"shoulder at {at:.1f}", placed(at, sizes[square])
        elif len(corners) == 4 and curved(member, face):
            continue
        elif abs(n[0]) >= 0.5:
            mitre, bevel = degrees(atan(n[1] / n[0])), degrees(asin(n[2]))
            yield f"end {mitre:.1f} {bevel:.1f}", end_said(abs(mitre), abs(bevel))
        else:
            off = degrees(asin(min(abs(n[1]), abs(n[2]))) if abs(n[0]) < 1e-3 else asin(abs(n[0])))
            yield f"edge {off:.1f}", edge_said(off)


def placed(at: float, size: float) -> Any:
    return lambda words, more: any(holds(placing(words), v, more) for v in (at, size - at))


def placing(words: list[str]) -> list[float]:
    """Lengths that place something, and depths: not angles, radii and the sizes of holes."""
    return [in_mm(w) for w in words if w[0].isdigit() and "°" not in w and "hole" not in w]


def end_said(mitre: float, bevel: float) -> Any:
    def told(words: list[str], more: float) -> bool:
        parts = [f"mitre {a:g}°" for a in near(mitre)] if mitre >= 0.05 else [""]
        tilts = [f"bevel {a:g}°" for a in near(bevel)] if bevel >= 0.05 else [""]
        return any(p in w and t in w and w.startswith(("mitre", "bevel")) for p in parts for t in tilts
                   for w in words)
    return told


def edge_said(off: float) -> Any:
    return lambda words, more: any(w == f"{kind} {a:g}°" for w in words for a in near(off)
                                   for kind in ("edge bevel", "taper", "thinning"))


def near(angle: float) -> tuple[float, ...]:
    return tuple({round(angle + by, 1) for by in (-0.051, 0.0, 0.051)})


def curved(member: Member, face: Any) -> bool:
    """One chord of an arc: as deep as the part is thick, a neighbour turned by less than the arc's step."""
    others = [f for f in member.solid.faces if f is not face]
    return any(sum(a * b for a, b in zip(face.normal, f.normal, strict=True)) > 0.9
               and set(face.outline) & set(f.outline) for f in others)


@pytest.mark.parametrize("name", TEMPLATES)
def test_the_radius_and_rise_of_a_curve_put_its_corners_on_one_circle(name: str) -> None:
    """From chord c and rise h the radius is (c²/4 + h²)/2h (geometry of the segment)."""
    for piece, units, part in drawn_parts(name):
        for text in (w for w in said(piece, units, part) if w.startswith("rise ")):
            rise, radius = (in_mm(t.split(" ", 1)[1]) for t in text.split(", "))
            half = hypot(*chord(piece.member(part.keys[0]))) / 2
            worked = (half * half + rise * rise) / (2 * rise)
            # A rise rounded by r moves the radius by about radius r / rise.
            assert abs(worked - radius) < ROUNDED[units] * (1 + radius / rise), (part.name, text)


def chord(member: Member) -> tuple[float, float]:
    """Ends of the run of curved faces, seen on the wide face."""
    faces = [f for f in member.solid.faces if len(f.outline) == 4 and curved(member, f)]
    count: dict[tuple[float, float], int] = {}
    for face in faces:
        for p in face.outline:
            u, v, w = own(member, p)
            if w < 0.1:
                count[round(u, 2), round(v, 2)] = count.get((round(u, 2), round(v, 2)), 0) + 1
    ends = [at for at, times in count.items() if times == 1]
    assert len(ends) == 2
    return ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]


@pytest.mark.parametrize("view", ["front", "side", "plan"])
@pytest.mark.parametrize("name", TEMPLATES)
def test_figures_on_the_views_are_as_long_as_their_arrows_reach_and_lie_on_the_piece(name: str,
                                                                                    view: str) -> None:
    for piece, units in pieces(name):
        for opened in {False, bool(piece.moving)}:
            sizes = measured(draw(piece, view, units, opened))
            assert len(sizes) >= 2
            for size in sizes:
                assert abs(size.said_mm - size.drawn_mm) < ROUNDED[units], (view, size)


@pytest.mark.parametrize("name", TEMPLATES)
def test_overall_sizes_of_the_views_are_those_asked_for(name: str) -> None:
    for piece, units in pieces(name):
        length, depth, height = piece.standing_mm
        for view, (across, up) in {"front": (length, height), "side": (depth, height),
                                   "plan": (length, depth)}.items():
            said_mm = [m.said_mm for m in measured(draw(piece, view, units))]
            assert holds(said_mm, across, ROUNDED[units]) and holds(said_mm, up, ROUNDED[units])
        assert abs(to_mm(piece.used_nm["length"]) - length) < 1.0


def test_a_part_without_a_drawing_is_a_plain_box() -> None:
    for name in TEMPLATES:
        for piece, _ in pieces(name):
            for part in (p for p in parts_of(piece) if not worth_drawing(p) and p.material == "board"):
                member = piece.member(part.keys[0])
                volume = member.length_mm * member.width_mm * member.thickness_mm
                assert member.volume_mm3 == pytest.approx(volume, rel=1e-6), part.name


@pytest.mark.parametrize("view", ["front", "side"])
@pytest.mark.parametrize("name", TEMPLATES)
def test_an_angle_called_out_on_a_view_is_that_of_an_edge_of_the_solids(name: str, view: str) -> None:
    across = {"front": 0, "side": 1}[view]
    for piece, units in pieces(name):
        shown = [s.text for s in draw(piece, view, units).shapes if isinstance(s, Text) and "° off" in s.text]
        for text in shown:
            angle, _, of = text.partition("° off ")
            runs = [(abs(b[across] - a[across]), abs(b[2] - a[2]))
                    for m in piece.members for a, b in edges(m)]
            leans = [atan2(*(run if of == "plumb" else run[::-1])) for run in runs if hypot(*run) > 50.0]
            assert any(abs(degrees(lean) - float(angle)) < 0.06 for lean in leans), (name, text)
