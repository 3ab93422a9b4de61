"""Shape work: what is cut away from a blank, and how a maker reads it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import combinations
from math import acos, atan, atan2, ceil, cos, degrees, hypot, pi, sin
from typing import Any

from ..errors import BadTemplate, Fault
from ..formula import Budget, Spent
from ..measure import Writer
from ..template.model import DIRECTIONS, Cut
from .model import ShapeWork
from .place import Placed
from .solid import CUT_STEPS, TOOL_STEPS, Solid, cut_off, kept_inside, prism, taken_out
from .vectors import Vector, dot, scaled, unit

MOST_CORNERS = 600       # of an outline, arcs flattened
CORNER_STEPS = 16        # of work, to raise one corner of an outline to a body
CHORD_MM = 0.2           # an arc is cut into chords that leave it by no more
SQUARE_DEG = 0.05        # an end nearer to square than this is square
EDGE_WORDS = {**{word: word for word in DIRECTIONS}, "top": "up", "bottom": "down"}

Flat = tuple[float, float]


def end_work(placed: Placed) -> list[ShapeWork]:
    """The mitres and bevels of both ends; parallel and opposed cuts read differently."""
    ends = [_angles(placed.start), _angles(placed.end)]
    cut = [(which, e) for which, e in zip(("start", "end"), ends, strict=True) if e != (0.0, 0.0)]
    metres = placed.width / 1000
    if len(cut) == 2 and tuple(map(abs, ends[0])) == tuple(map(abs, ends[1])):
        turned = (-ends[0][0], -ends[0][1])
        how = {ends[0]: "long on the same side", turned: "parallel"}.get(ends[1], "opposed")
        return [ShapeWork(_kind(ends[0]), f"both ends {_words(ends[0])}, {how}", "", 2 * metres, 2)]
    lead = "one end" if len(cut) == 1 else "each end its own:"
    return [ShapeWork(_kind(e), f"{lead} {_words(e)}", which, metres) for which, e in cut]


def _angles(slopes: tuple[float, float]) -> tuple[float, float]:
    """(mitre, blade tilt) in degrees, to a tenth, for a board lying on its wide face."""
    mitre = degrees(atan(slopes[0]))
    tilt = degrees(atan(slopes[1] / hypot(1.0, slopes[0])))
    return (_tenth(mitre), _tenth(tilt))


def _tenth(angle: float) -> float:
    return 0.0 if abs(angle) < SQUARE_DEG else round(angle, 1)


def _kind(angles: tuple[float, float]) -> str:
    return "compound" if all(angles) else "bevel"


def _words(angles: tuple[float, float]) -> str:
    mitre, tilt = abs(angles[0]), abs(angles[1])
    if mitre and tilt:
        return f"mitred {mitre:g}° with the blade tilted {tilt:g}°"
    return f"mitred {mitre:g}°" if mitre else f"bevelled {tilt:g}°"


def numbers_in(values: Any) -> Iterator[float]:
    """Every number among a cut's values."""
    if isinstance(values, float | int):
        yield float(values)
    elif not isinstance(values, str):
        for inner in values.values() if isinstance(values, Mapping) else values:
            yield from numbers_in(inner)


def least_steps(cut: Cut) -> int:
    """Work that a cut takes at least, seen from the template alone: an outline of n points is cut by a body
    of at least 4 (n - 1) triangles."""
    if cut.kind == "round over":
        return 0
    points = len(cut.values.get("points", ()))
    return CUT_STEPS + points * CORNER_STEPS + TOOL_STEPS * 4 * max(points - 1, 0)


def shaped(placed: Placed, cuts: Iterable[tuple[Cut, Mapping[str, Any]]], writer: Writer,
           budget: Budget) -> tuple[Solid, list[ShapeWork], list[Vector]]:
    """The blank after its cuts, the work in words, and marks (middles of rounded edges) for the hand."""
    solid, works, marks = placed.solid, end_work(placed), []
    for cut, values in cuts:
        if cut.kind == "round over":
            work, middles = _round_over(placed, cut, values, writer)
            marks.extend(middles)
        else:
            try:
                solid, work = _KINDS[cut.kind](placed, solid, cut, values, writer, budget)
            except Spent:
                raise
            except (ValueError, ArithmeticError) as trouble:
                raise BadTemplate(Fault(cut.where, f"this {cut.kind} cannot be cut: {trouble}")) from trouble
        works.append(work)
        if solid.volume_mm3 < 1.0:
            raise BadTemplate(Fault(cut.where, "the cut leaves nothing of the member"))
    return solid, works, marks


def local(placed: Placed, u: float, v: float, w: float) -> Vector:
    """A place given from the first end point (along, across, through) in the blank's own axes."""
    return (u - placed.near_shift, v, placed.thickness - w if placed.turned_over else w)


def _outline(placed: Placed, solid: Solid, cut: Cut, values: Mapping[str, Any],
             writer: Writer, budget: Budget) -> tuple[Solid, ShapeWork]:
    corners = flattened(values["points"])
    if len(corners) > MOST_CORNERS:
        raise ValueError(f"its arcs come out as {len(corners)} chords, more than {MOST_CORNERS}")
    budget.spend(len(corners) * CORNER_STEPS)
    loop = [local(placed, u, v, 0.0)[:2] for u, v in corners]
    if sum(loop[i - 1][0] * y - loop[i - 1][1] * x for i, (x, y) in enumerate(loop)) < 0:
        loop.reverse()
    f = placed.frame
    body = prism(loop, placed.thickness + 2, f.to_world(0, 0, -1), f.along, f.wide, f.thick)
    metres = sum(hypot(x - loop[i - 1][0], y - loop[i - 1][1]) for i, (x, y) in enumerate(loop)
                 if _inside(placed, (x + loop[i - 1][0]) / 2, (y + loop[i - 1][1]) / 2)) / 1000
    curved = any(kind == "arc" for kind, *_ in values["points"])
    text = cut.words.get("text") or ("edge cut to a curve" if curved else "cut to outline")
    return kept_inside(solid, body, budget), ShapeWork("outline", text, metres=metres)


def _inside(placed: Placed, u: float, v: float) -> bool:
    return 0.1 < u < placed.length - 0.1 and 0.1 < v < placed.width - 0.1


def flattened(points: Sequence[tuple[Any, ...]]) -> list[Flat]:
    """A closed outline's corners; an arc (to, through) becomes chords within 0.2 mm of it."""
    out: list[Flat] = []
    for kind, to, *through in points:
        if kind == "arc" and out:
            out.extend(_arc(out[-1], through[0], to))
        out.append(to)
    return out


def _arc(a: Flat, through: Flat, b: Flat) -> list[Flat]:
    """Points strictly between a and b on the circle through the three."""
    (ax, ay), (mx, my), (bx, by) = a, through, b
    twice = 2 * (ax * (my - by) + mx * (by - ay) + bx * (ay - my))
    if abs(twice) < 1e-6 * max(hypot(bx - ax, by - ay), 1.0):
        return []
    sa, sm, sb = ax * ax + ay * ay, mx * mx + my * my, bx * bx + by * by
    cx = (sa * (my - by) + sm * (by - ay) + sb * (ay - my)) / twice
    cy = (sa * (bx - mx) + sm * (ax - bx) + sb * (mx - ax)) / twice
    radius = hypot(ax - cx, ay - cy)
    from_, mid, to = (_bearing(p, cx, cy) for p in (a, through, b))
    sweep = (to - from_) % (2 * pi)
    if (mid - from_) % (2 * pi) > sweep:
        sweep -= 2 * pi
    step = 2 * acos(max(0.0, 1 - CHORD_MM / radius))
    count = min(max(2, ceil(abs(sweep) / step)), 200)
    return [(cx + radius * cos(from_ + sweep * k / count), cy + radius * sin(from_ + sweep * k / count))
            for k in range(1, count)]


def _bearing(p: Flat, cx: float, cy: float) -> float:
    return atan2(p[1] - cy, p[0] - cx)


def _plane(placed: Placed, solid: Solid, cut: Cut, values: Mapping[str, Any],
           writer: Writer, budget: Budget) -> tuple[Solid, ShapeWork]:
    normal = unit(values["normal"])
    f = placed.frame
    near, side = max((round(abs(dot(normal, d)), 9), word) for d, word in (
        (f.along, "square"), (f.wide, "the edge"), (f.thick, "the face")))
    off = degrees(acos(min(1.0, near)))
    text = cut.words.get("text") or "cut to a plane"
    text = text if "°" in text else f"{text}, {off:.1f}° off {side}"
    along = abs(dot(normal, f.along)) < 0.5
    metres = (placed.length if along else placed.width) / 1000
    return cut_off(solid, values["at"], normal, budget), ShapeWork("plane", text, metres=metres)


def _pocket(placed: Placed, solid: Solid, cut: Cut, values: Mapping[str, Any],
            writer: Writer, budget: Budget) -> tuple[Solid, ShapeWork]:
    a, b = local(placed, *values["from"]), local(placed, *values["to"])
    low = [min(a[k], b[k]) for k in range(3)]
    high = [max(a[k], b[k]) for k in range(3)]
    f = placed.frame
    sizes = [high[k] - low[k] for k in range(3)]
    loop = [(0.0, 0.0), (sizes[0], 0.0), (sizes[0], sizes[1]), (0.0, sizes[1])]
    body = prism(loop, sizes[2], f.to_world(low[0], low[1], low[2]), f.along, f.wide, f.thick)
    blank = (placed.length, placed.width, placed.thickness)
    inside = [max(0.0, min(high[k], blank[k]) - max(low[k], 0.0)) for k in range(3)]   # as a maker measures
    said = f"{cut.words['text']}, " if "text" in cut.words else "pocket "
    text = said + " x ".join(writer.mm(s) for s in inside)
    around = 2 * (inside[0] + inside[1]) / 1000
    return taken_out(solid, body, budget), ShapeWork("pocket", text, metres=around)


def _hole(placed: Placed, solid: Solid, cut: Cut, values: Mapping[str, Any],
          writer: Writer, budget: Budget) -> tuple[Solid, ShapeWork]:
    f, radius = placed.frame, values["diameter"] / 2
    if radius <= 0:
        raise ValueError("its diameter is nothing")
    sides = max(12, ceil(pi / acos(max(0.5, 1 - CHORD_MM / max(radius, CHORD_MM)))))
    u, v = values["at"]
    cu, cv, _ = local(placed, u, v, 0.0)
    budget.spend(sides * 6)
    turns = [2 * pi * k / sides for k in range(sides)]
    loop = [(cu + radius * cos(t), cv + radius * sin(t)) for t in turns]
    body = prism(loop, placed.thickness + 2, f.to_world(0, 0, -1), f.along, f.wide, f.thick)
    text = cut.words.get("text") or f"hole {writer.mm(2 * radius)} through"
    return taken_out(solid, body, budget), ShapeWork("hole", text)


_KINDS = {"outline": _outline, "plane": _plane, "pocket": _pocket, "hole": _hole}


def _round_over(placed: Placed, cut: Cut, values: Mapping[str, Any],
                writer: Writer) -> tuple[ShapeWork, list[Vector]]:
    middles, run = [], 0.0
    for one, other in combinations(range(6), 2):
        if one // 2 == other // 2:
            continue
        sides = {_facing(placed, one), _facing(placed, other)}
        if not any({EDGE_WORDS[w] for w in edge.split()} <= sides for edge in cut.words["edges"].split(",")):
            continue
        sizes = (placed.length, placed.width, placed.thickness)
        rest = next(k for k in range(3) if k not in (one // 2, other // 2))
        middle = [sizes[k] / 2 for k in range(3)]
        for side in (one, other):
            middle[side // 2] = sizes[side // 2] if side % 2 else 0.0
        middles.append((middle[0], middle[1], middle[2]))
        run += sizes[rest]
    edges = "edge" if len(middles) == 1 else f"{len(middles)} edges"
    radius = writer.mm(values["radius"])
    text = cut.words.get("text") or f"round over {cut.words['edges']} {edges}, radius {radius}"
    return ShapeWork("round over", text, metres=run / 1000, count=len(middles)), middles


def _facing(placed: Placed, side: int) -> str:
    """The direction word a side of the blank looks: sides 0..5 = start, end, near, far, under, over."""
    f = placed.frame
    normal = scaled((f.along, f.wide, f.thick)[side // 2], 1.0 if side % 2 else -1.0)
    return max(DIRECTIONS, key=lambda word: dot(DIRECTIONS[word], normal))
