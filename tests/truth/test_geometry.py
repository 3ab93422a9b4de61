"""Volumes, areas and centres of gravity of the shipped templates against trimesh and shapely.

Every member is made a second time from its rule: a bar along its from-to line as a trimesh box, sliced by its
end planes and cuts, curved outlines by shapely, mirrored as a mesh; pockets are sliced out as bars of their
own and taken off volume and moment. Nothing of our solids is used, only the
formulas' values. trimesh 5 and shapely 2 are general-purpose geometry libraries. Status: recomputed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from random import Random
from typing import Any

import numpy as np
import pytest
import shapely
import trimesh

from builders import DATA, demo_shop, demo_shop_metric
from yardwright.domain import formula
from yardwright.domain.piece import build
from yardwright.domain.piece.model import Piece
from yardwright.domain.template.model import DIRECTIONS, MemberRule, Template
from yardwright.files.templates import load

FAR = 4000.0
AXES = ("length", "depth", "height")
TEMPLATES = {name: load(DATA / "templates" / f"{name}.toml") for name in (
    "planter-box", "storage-bench", "lounge-chair", "picnic-table", "corner-bench")}


@dataclass(frozen=True)
class Remade:
    """A member made a second time: a convex or extruded mesh, and the bars taken out of it."""

    mesh: Any
    gone: tuple[Any, ...] = ()

    @property
    def volume(self) -> float:
        return float(self.mesh.volume - sum(g.volume for g in self.gone))

    @property
    def centre(self) -> np.ndarray:
        moment = self.mesh.center_mass * self.mesh.volume - sum(g.center_mass * g.volume for g in self.gone)
        return np.asarray(moment / self.volume)

    def flipped(self, flip: np.ndarray) -> Remade:
        return Remade(flipped(self.mesh, flip), tuple(flipped(g, flip) for g in self.gone))


def number(made: Any, values: dict[str, Any]) -> Any:
    return formula.evaluate(made, values)


def vector(given: Any, values: dict[str, Any]) -> np.ndarray:
    return np.array(DIRECTIONS[given] if isinstance(given, str) else [number(g, values) for g in given])


def environments(rule: MemberRule, values: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """One set of names for each repeat of the rule; none when its condition does not hold."""
    if rule.when is not None and not number(rule.when, values):
        return
    counts = [range(round(number(r.count, values))) for r in rule.repeat]
    for numbers in product(*counts):
        yield values | {r.index: float(n) for r, n in zip(rule.repeat, numbers, strict=True)}


def bar(
    rule: MemberRule, values: dict[str, Any], sizes: tuple[float, float], panel: np.ndarray | None
) -> Remade:
    """The member as a mesh, from its rule."""
    start, end = vector(rule.start, values), vector(rule.end, values)
    along = (end - start) / np.linalg.norm(end - start)
    wide = vector(rule.wide, values)
    wide = wide - along * (wide @ along)
    wide /= np.linalg.norm(wide)
    thick = np.cross(along, wide)
    thick *= np.sign(thick @ vector(rule.thick, values))
    width, thickness = sizes
    frame = np.eye(4)
    frame[:3, :3] = np.column_stack([along, wide, thick])
    frame[:3, 3] = start
    mesh = trimesh.creation.box(bounds=[[-FAR, 0, 0], [FAR, width, thickness]])
    for cut in rule.cuts:
        if cut.kind == "outline" and (cut.when is None or number(cut.when, values)):
            mesh = trimesh.creation.extrude_polygon(outline(cut.values["points"], values), thickness)
            mesh.apply_transform(frame)
            return Remade(mesh)  # both ends square: the outline ends it
    mesh.apply_transform(frame)
    for point, outward, kind in ((start, -along, rule.ends[0]), (end, along, rule.ends[1])):
        normal = outward
        if kind.kind == "level":
            normal = np.array([0, 0, np.sign(outward[2])])
        elif kind.kind == "plumb":
            normal = np.array([outward[0], outward[1], 0]) / np.hypot(outward[0], outward[1])
        elif kind.kind == "angle":
            turn = np.radians(number(kind.angle, values))
            side = wide if kind.about == "thick" else thick
            normal = np.cos(turn) * outward - np.sin(turn) * side
        elif kind.kind == "against":
            assert panel is not None
            point, normal = panel
        mesh = sliced(mesh, point, normal)
    for cut in rule.cuts:
        if cut.kind == "plane" and (cut.when is None or number(cut.when, values)):
            mesh = sliced(mesh, vector(cut.values["at"], values), vector(cut.values["normal"], values))
    pockets = [c.values for c in rule.cuts
               if c.kind == "pocket" and (c.when is None or number(c.when, values))]
    return Remade(mesh, tuple(pocket(mesh, frame, p, values) for p in pockets))


def pocket(mesh: Any, frame: np.ndarray, corners: Any, values: dict[str, Any]) -> Any:
    """What a box (along, across, through from the first end) takes out of the mesh."""
    low, high = np.sort([[number(f, values) for f in corners[name]] for name in ("from", "to")], axis=0)
    for axis in range(3):
        for at, way in ((low[axis], -1.0), (high[axis], 1.0)):
            mesh = sliced(mesh, frame[:3, 3] + at * frame[:3, axis], way * frame[:3, axis])
    return mesh


def sliced(mesh: Any, point: np.ndarray, outward: np.ndarray) -> Any:
    """What lies behind the plane, closed again: a convex body's cut is its hull."""
    return mesh.slice_plane(point, -outward).convex_hull


def outline(points: Any, values: dict[str, Any]) -> shapely.Polygon:
    """A closed outline with arcs as 720 chords each: far finer than ours."""
    out: list[tuple[float, float]] = []
    for kind, to, *through in points:
        end = tuple(number(f, values) for f in to)
        if kind == "arc":
            middle = tuple(number(f, values) for f in through[0])
            out.extend(arc(np.array(out[-1]), np.array(middle), np.array(end)))
        out.append(end)
    return shapely.Polygon(out)


def arc(a: np.ndarray, b: np.ndarray, c: np.ndarray) -> list[tuple[float, float]]:
    """Points on the circle through three: the centre solves |p - a| = |p - b| = |p - c|."""
    centre = np.linalg.solve(2 * np.array([b - a, c - a]), [b @ b - a @ a, c @ c - a @ a])
    angles = [np.arctan2(*(p - centre)[::-1]) for p in (a, b, c)]
    sweep = np.unwrap(angles)
    radius = np.linalg.norm(a - centre)
    turns = np.linspace(sweep[0], sweep[2], 721)[1:-1]
    return [tuple(centre + radius * np.array([np.cos(t), np.sin(t)])) for t in turns]


def remade(piece: Piece, rule: MemberRule) -> list[Remade]:
    """Meshes of all members of a rule, in the piece's order."""
    values = dict(piece.values)
    like = next((m for m in piece.members if m.name == rule.name), None)
    meshes = []
    for env in environments(rule, values):
        role = rule.role
        width = number(rule.width, env) if rule.width else values[f"{role}.width"]
        thick = number(rule.thickness, env) if rule.thickness else like.thickness_mm  # type: ignore[union-attr]
        copies = [bar(rule, env, (width, thick), against(piece, rule, env))]
        for mirror in rule.mirror:
            flip = np.eye(4)
            axis = AXES.index(mirror.across)
            flip[axis, axis], flip[axis, 3] = -1, 2 * number(mirror.at, env)
            copies += [made.flipped(flip) for made in copies]
        meshes += copies
    return meshes


def flipped(mesh: Any, flip: np.ndarray) -> Any:
    other = mesh.copy()
    other.apply_transform(flip)
    if other.volume < 0:
        other.invert()
    return other


def against(piece: Piece, rule: MemberRule, env: dict[str, Any]) -> Any:
    """The face that the member's end lies on, from the template's own values."""
    if not any(e.kind == "against" for e in rule.ends):
        return None
    v = piece.values
    if piece.template.id == "picnic-table":  # a brace on the inner face of the leaning seat bearer
        return np.array([v["in_x"], 0.0, 0.0]), np.array([-v["ca"], 0.0, v["sa"]])
    if piece.template.id == "corner-bench":  # a main back board on the front of the wing's
        t = v["slat.thickness"]
        x = v["x0"] + v["m"] * (v["length"] - v["b"] - t * v["cr"])
        return (np.array([x, 0.0, v["seat_height"] + t * v["sr"]]),
                np.array([v["m"] * v["cr"], 0.0, -v["sr"]]))
    point = np.array([0.0, v["foot_y"] + v["under_seat"] * v["lean"] - v["q_in"] / v["cr"], v["under_seat"]])
    return point, np.array([0.0, v["cr"], -v["sr"]])


def pieces(name: str, count: int) -> Iterator[Piece]:
    """The template at random sizes and choices, the two shops in turn."""
    template: Template = TEMPLATES[name]
    random = Random(f"{name} geometry")
    for k in range(count):
        shop = (demo_shop, demo_shop_metric)[k % 2]()
        sizes = {
            d.name: random.randint(d.least_nm // 100_000, d.most_nm // 100_000) * 100_000
            for d in template.dimensions
        }
        sizes = {d.name: min(max(sizes[d.name], d.least_nm), d.most_nm) for d in template.dimensions}
        chosen = {c.name: random.choice(c.options)[0] for c in template.choices}
        yield build(template, sizes, chosen | {"timber": "western-red-cedar"}, shop, shop.units)


@pytest.mark.parametrize("name", TEMPLATES)
def test_members_have_the_volume_area_and_centre_that_an_independent_construction_gives(name: str) -> None:
    random = Random(7)
    for piece in pieces(name, 20 if name in ("planter-box", "storage-bench") else 8):
        rules = random.sample(piece.template.members, 9)
        for rule in rules:
            ours = [m for m in piece.members if m.name == rule.name]
            meshes = remade(piece, rule)
            assert len(ours) == len(meshes), rule.name
            for member, made in list(zip(ours, meshes, strict=True))[:: max(1, len(ours) // 3)]:
                mesh = made.mesh
                curved = any(s.text.endswith("curve") for s in member.shape)
                close = 5e-3 if curved else 1e-9        # chords within 0.2 mm, on a bracket 57 mm wide
                assert mesh.is_watertight
                assert member.volume_mm3 == pytest.approx(made.volume, rel=close), member.key
                if not made.gone:
                    assert member.surface_mm2 == pytest.approx(mesh.area, rel=close), member.key
                assert member.centre == pytest.approx(made.centre, abs=0.2 if curved else 1e-6), (
                    member.key
                )
                low, high = member.solid.box
                if not made.gone:  # a notch may take the longest point away
                    assert [*low, *high] == pytest.approx(mesh.bounds.ravel(), abs=1e-6), member.key


@pytest.mark.parametrize("name", TEMPLATES)
def test_the_piece_weighs_and_balances_as_its_meshes_do(name: str) -> None:
    for piece in pieces(name, 3):
        mass, moment = 0.0, np.zeros(3)
        for rule in piece.template.members:
            ours = [m for m in piece.members if m.name == rule.name]
            for member, made in zip(ours, remade(piece, rule), strict=True):
                mass += made.volume * 1e-9 * member.density_kg_m3
                moment += made.centre * made.volume * 1e-9 * member.density_kg_m3
        assert piece.mass_kg == pytest.approx(mass, rel=1e-4)
        assert piece.centre == pytest.approx(moment / mass, abs=0.05)
