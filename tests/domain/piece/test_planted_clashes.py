"""A clash planted in a template is found: wherever it lies, however thin, a lid on its way too.

What is planted is a peg of known size that reaches a known way into a member, so that depth and volume are
known without the program: w x h x depth. Between 0.05 mm deep, which is rounding, and 3 mm.
"""

from __future__ import annotations

import copy
import tomllib
from collections.abc import Sequence
from math import cos, hypot, radians, sin
from typing import Any

import pytest
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from builders import DATA, INCH, demo_shop
from yardwright.domain.piece import Piece, build, faults_of
from yardwright.domain.piece.model import Clash, Vector
from yardwright.domain.piece.values import MOST_CLASHES
from yardwright.domain.template import read_template

RAW: dict[str, Any] = {path.stem: tomllib.loads(path.read_text(encoding="utf-8"))
                       for path in sorted((DATA / "templates").glob("*.toml"))}
PEG_MM = 8.0
THIN = st.floats(0.06, 3.0)
SIXTEENTH = INCH // 16
UNSHRUNK = (Phase.generate,)         # a piece takes long to build; what fails names its members


def drawn(name: str, data: st.DataObject) -> tuple[dict[str, int], dict[str, str]]:
    """Sizes in range, to the sixteenth of an inch, and choices."""
    template = demo_shop().templates[name]
    sizes = {d.name: SIXTEENTH * data.draw(st.integers(-(-d.least_nm // SIXTEENTH), d.most_nm // SIXTEENTH))
             for d in template.dimensions}
    return sizes, {c.name: data.draw(st.sampled_from([o for o, _ in c.options])) for c in template.choices}


def built(raw: dict[str, Any], sizes: dict[str, int], choices: dict[str, str]) -> Piece:
    return build(read_template(raw), sizes, choices, demo_shop(), "in")


def with_peg(name: str, start: Sequence[float], end: Sequence[float], wide: Vector, thick: Vector,
             group: str = "fixed") -> dict[str, Any]:
    """The template with a peg of 8 x 8 mm from one place to another, given in mm."""
    raw = copy.deepcopy(RAW[name])
    raw["members"].append({
        "name": "Peg", "board": next(iter(raw["boards"])), "group": group,
        "width": f"{PEG_MM}*mm", "thickness": f"{PEG_MM}*mm",
        "from": [f"{at:.9f}*mm" for at in start], "to": [f"{at:.9f}*mm" for at in end],
        "wide": [f"{at:.12f}" for at in wide], "thick": [f"{at:.12f}" for at in thick]})
    return raw


def of_peg(piece: Piece, key: str = "") -> list[Clash]:
    return [c for c in piece.clashes if "Peg" in (c.first, c.second) and key in (c.first, c.second, "")]


def along(a: Vector, *ways: tuple[Vector, float]) -> Vector:
    """A place moved along ways, each by so much."""
    x, y, z = (a[k] + sum(way[k] * far for way, far in ways) for k in range(3))
    return x, y, z


def crossed(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


@pytest.mark.parametrize("name", RAW)
@settings(max_examples=12, deadline=None, derandomize=True, phases=UNSHRUNK)
@given(st.data(), THIN)
def test_a_peg_anywhere_in_a_member_is_found_and_one_that_only_touches_is_not(
        name: str, data: st.DataObject, deep: float) -> None:
    """Its end stands square on a face drawn by chance, at a place drawn by chance, and reaches in."""
    sizes, choices = drawn(name, data)
    other = data.draw(st.sampled_from([m for m in built(RAW[name], sizes, choices).members
                                       if m.material == "board"]))
    face = data.draw(st.sampled_from(other.solid.faces))
    base, (_, first, *_) = face.outline[0], face.outline
    u = tuple((b - a) / hypot(*(q - p for p, q in zip(base, first, strict=True)))
              for a, b in zip(base, first, strict=True))
    v = crossed(face.normal, u)
    flat = Polygon([(sum((p[k] - base[k]) * u[k] for k in range(3)),
                     sum((p[k] - base[k]) * v[k] for k in range(3))) for p in face.outline])
    left, low, right, high = flat.bounds
    a = left + data.draw(st.floats(0, 1)) * max(right - left - PEG_MM, 0)
    b = low + data.draw(st.floats(0, 1)) * max(high - low - PEG_MM, 0)
    assume(len(face.loops) == 1 and flat.buffer(-4.0).contains(box(a, b, a + PEG_MM, b + PEG_MM)))
    corner = along(base, (u, a), (v, b))

    def reaching(in_mm: float) -> list[Clash]:
        out, into = along(corner, (face.normal, 40.0)), along(corner, (face.normal, -in_mm))
        raw = with_peg(name, out, into, u, v, other.group)
        found = of_peg(built(raw, sizes, choices), other.key)
        return [clash for clash in found if not clash.opened_deg]

    assert reaching(-0.02) == reaching(0.04) == []
    (clash,) = reaching(deep)
    assert clash.depth_mm == pytest.approx(deep, abs=1e-3)
    assert clash.volume_mm3 == pytest.approx(PEG_MM**2 * deep, rel=1e-3)


@settings(max_examples=25, deadline=None, derandomize=True, phases=UNSHRUNK)
@given(st.data(), st.floats(0.5, 3.0))
def test_a_peg_that_the_lid_only_grazes_on_its_way_is_found(data: st.DataObject, deep: float) -> None:
    """It stands in the way of the lid's outmost corner, at an angle drawn by chance, and leaves it too little
    room by so much; with a hair more room nothing is told."""
    sizes, choices = drawn("storage-bench", data)
    piece = built(RAW["storage-bench"], sizes, choices)
    ((about, axis, opens),) = piece.moving.values()
    assert axis == (1.0, 0.0, 0.0)
    lid = [m for m in piece.members if m.group == "lid"]
    corners = [p for m in lid for p in m.solid.corners]
    reach = max(hypot(p[1] - about[1], p[2] - about[2]) for p in corners)
    out = next(p for p in corners if hypot(p[1] - about[1], p[2] - about[2]) > reach - 1e-9)
    turned = radians(opens * data.draw(st.floats(0.3, 0.95)))
    y, z = (out[1] - about[1]) / reach, (out[2] - about[2]) / reach
    u = (0.0, y * cos(turned) - z * sin(turned), y * sin(turned) + z * cos(turned))
    low, high = min(p[0] for p in corners), max(p[0] for p in corners)
    at = low + data.draw(st.floats(0.05, 0.95)) * (high - low - 60.0)
    side = crossed(u, axis)

    def standing(away_mm: float) -> list[Clash]:
        start = along((at, about[1], about[2]), (u, away_mm), (side, -PEG_MM / 2))
        raw = with_peg("storage-bench", start, along(start, (axis, 60.0)), u, side)
        return of_peg(built(raw, sizes, choices))

    keys = {m.key for m in lid}
    found = [c for c in standing(reach - deep) if keys & {c.first, c.second}]
    assert found and all(c.opened_deg != 0 and c.depth_mm < 2 * deep for c in found)
    assert [c for c in standing(reach + 0.1) if keys & {c.first, c.second}] == []


@settings(max_examples=25, deadline=None, derandomize=True, phases=UNSHRUNK)
@given(st.data())
def test_a_peg_in_the_middle_of_the_lids_way_is_found(data: st.DataObject) -> None:
    """At a place within a board of the lid, turned by an angle drawn by chance."""
    sizes, choices = drawn("storage-bench", data)
    piece = built(RAW["storage-bench"], sizes, choices)
    ((about, _, opens),) = piece.moving.values()
    own = data.draw(st.sampled_from([m for m in piece.members if m.group == "lid"]))
    shares = [data.draw(st.floats(0.1, 0.9)) for _ in range(3)]
    at = own.frame.to_world(shares[0] * own.length_mm, shares[1] * own.width_mm, shares[2] * own.thickness_mm)
    turned = radians(opens * data.draw(st.floats(0.05, 1.0)))
    y, z = at[1] - about[1], at[2] - about[2]
    up, over = y * sin(turned) + z * cos(turned), y * cos(turned) - z * sin(turned)
    there = (at[0], about[1] + over, about[2] + up)
    start = along(there, ((0.0, 1.0, 0.0), -PEG_MM / 2), ((0.0, 0.0, 1.0), -PEG_MM / 2))
    end = along(start, ((1.0, 0.0, 0.0), 10.0))
    spoilt = built(with_peg("storage-bench", start, end, (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)), sizes, choices)
    assert any(own.key in (c.first, c.second) for c in of_peg(spoilt))
    assert any("overlap" in f.detail and "Peg" in f.detail for f in faults_of(spoilt, demo_shop()))


@pytest.mark.parametrize("name", RAW)
@settings(max_examples=10, deadline=None, derandomize=True, phases=UNSHRUNK)
@given(st.data(), THIN)
def test_a_rule_moved_a_little_into_what_it_lies_on_is_found(name: str, data: st.DataObject,
                                                             deep: float) -> None:
    """One rule's `from` and `to` are moved along the normal of a place where it touches another's member."""
    raw, shop = copy.deepcopy(RAW[name]), demo_shop()
    piece = built(raw, {}, {})
    members = {m.key: m for m in piece.members}
    rules = {rule["name"]: rule for rule in raw["members"]}
    sharing = {(a, b) for j in piece.joints if j.rule.may_share is not None
               for c in j.contacts for a, b in ((c.first, c.second), (c.second, c.first))}
    firsts = {name: key for key, name in reversed([(m.key, m.name) for m in piece.members])}.values()

    def stays(one: str) -> bool:
        """Whether it may keep an end or a cut where it is when something is moved."""
        planes = [cut for cut in rules[one].get("cuts", ()) if cut["kind"] == "plane"]
        return bool(planes) or "against" in str(rules[one].get("ends", ()))

    def moves_into(a: str, b: str) -> bool:
        one, other = members[a], members[b]
        return (a in firsts and (a, b) not in sharing and one.name != other.name
                and one.solid.convex and other.solid.convex
                and not stays(one.name) and not stays(other.name))

    touching = [(a, b, tuple(way * sign for way in c.normal)) for c in piece.contacts if c.area_mm2 > 400
                for a, b, sign in ((c.first, c.second, 1), (c.second, c.first, -1)) if moves_into(a, b)]
    one, other, way = data.draw(st.sampled_from(touching))
    rule = rules[members[one].name]
    for end in ("from", "to"):
        rule[end] = [f"{at} + ({deep * step:.9f})*mm" for at, step in zip(rule[end], way, strict=True)]
    spoilt = built(raw, {}, {})
    said = [fault.detail for fault in faults_of(spoilt, shop) if "overlap" in fault.detail]
    if len(spoilt.clashes) < MOST_CLASHES:      # a long side moved clashes with all that it holds
        assert any({one, other} == {c.first, c.second} and c.depth_mm <= deep + 1e-3 for c in spoilt.clashes)
        assert any(one in words and other in words for words in said)
    assert said
