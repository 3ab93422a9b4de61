"""Where a piece is said to stand it touches nothing, shut or open, at any height: hundreds of yards by lot.

The true yard is drawn first (walls that lean and slant, things at heights), then measured with errors as
large as the tape allows; what the service answers from the readings is held against the truth with Shapely
(a general-purpose planar geometry library), height by height. Walls and things are flat, so the heights at
which something begins or ends say all. Status: recomputed.
"""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest
from shapely import union_all
from shapely.geometry import Polygon, box

import fit_cases
from yards import OnWall, Yard, measured, yard
from yardwright.domain.fit import Envelope, Fit, envelope, fit
from yardwright.domain.measure import MM
from yardwright.domain.shop import KeepClear, Shop
from yardwright.domain.template import Template

SHOP: Shop = fit_cases.shop()
PIECES = {name: fit_cases.template(fit_cases.VECTORS["templates"][name])
          for name in ("bench", "chest", "cupboard", "corner")}
YARDS = 300
TOUCH_MM2 = 1.0


def sizes(template: Template, chance: random.Random) -> dict[str, int]:
    found = {}
    for d in template.dimensions:
        step, share = d.step_nm["mm"], chance.choice((0.3, 0.6, 1.0))
        least, most = -(-d.least_nm // step), d.most_nm // step
        found[d.name] = step * chance.randint(least, max(least, round(least + (most - least) * share)))
    return found


def body(piece: Envelope, x: float, gap: float, opened: bool) -> Polygon:
    """The piece in plan with its left end at ``x``; opened, with all that its lids and doors sweep."""
    mm = {n: getattr(piece, n) / MM for n in ("length_nm", "depth_nm", "wing_length_nm")}
    front, behind = (piece.open_front_nm / MM, piece.open_behind_nm / MM) if opened else (0.0, 0.0)
    parts = [box(x, gap - behind, x + mm["length_nm"], gap + mm["depth_nm"] + front)]
    if piece.wing != "none":
        low, high = (v / MM for v in piece.wing_stretch)
        a, b = (low - behind, high + front) if piece.wing == "left" else (low - front, high + behind)
        parts.append(box(x + a, gap - behind, x + b, gap + mm["wing_length_nm"]))
    return union_all(parts)


def touched(true: Yard, piece: Envelope, found: Fit) -> Iterator[str]:
    """Everything that a place the piece is given lets it touch."""
    gap = next((c.clearance_nm for c in found.clearances if c.side == "behind"), 0) / MM
    gap += max(0.0, true.lean["back"]) * piece.open_height_nm / MM
    if true.under is not None and piece.open_height_nm / MM > true.under + 0.01:
        yield "what is above"
    if gap + piece.depth_nm / MM > true.free_out + 0.01:
        yield "what is in front"
    for place in {p for a, b in found.positions for p in (a, (a + b) / 2, b)}:
        for opened, high in ((False, piece.height_nm / MM), (True, piece.open_height_nm / MM)):
            shape = body(piece, place / MM, gap, opened)
            ends = (v for t in true.things for v in (t.bottom or 0.0, t.top or high))
            for z in {0.0, high, *(min(v, high) for v in ends)}:
                if shape.difference(true.free(z)).area > TOUCH_MM2:
                    yield f"a wall {z} up"
                yield from (f"{t} {z} up" for t in true.things if t.at(z) and (t.bottom or 0.0) < high
                            and shape.intersection(true.body(t, z)).area > TOUCH_MM2)


def in_a_room(true: Yard, piece: Envelope, found: Fit, rule: KeepClear) -> Iterator[str]:
    """Every place it is given, shut, inside the room that a thing wants around it."""
    gap = next((c.clearance_nm for c in found.clearances if c.side == "behind"), 0) / MM
    gap += max(0.0, true.lean["back"]) * piece.open_height_nm / MM
    high = piece.height_nm / MM
    for t in (t for t in true.things if (t.bottom or 0.0) - rule.below_nm / MM < high):
        room = OnWall(t.wall, t.start - rule.sides_nm / MM, t.end + rule.sides_nm / MM,
                      t.out + rule.front_nm / MM, None, None)
        for place in {p for a, b in found.positions for p in (a, (a + b) / 2, b)}:
            shape = body(piece, place / MM, gap, opened=False)
            yield from (f"{t} {z} up" for z in (min(t.bottom or 0.0, high), min(t.top or high, high))
                        if shape.intersection(true.body(room, z)).area > TOUCH_MM2)


@pytest.mark.parametrize("kind", ["gas meter", "door", "tap"])
def test_a_piece_that_nothing_is_said_of_keeps_out_of_the_room_of_things(kind: str) -> None:
    free = 0
    for seed in range(YARDS):
        chance = random.Random(f"{kind} {seed}")
        name = chance.choice(list(PIECES))
        true, dimensions = yard(chance), sizes(PIECES[name], chance)
        choices = {"lid": "none", "side": chance.choice(("left", "right"))}
        site = measured(true, kind, SHOP.fitting.reading_nm, chance)
        found = fit(PIECES[name], dimensions, choices, site, SHOP, "mm", sized=False)
        if found.fits and not any(f.rule == "keep clear" for f in found.findings):
            free += bool(true.things)
            wrong = list(in_a_room(true, envelope(PIECES[name], dimensions, choices), found,
                                   SHOP.keep_clear[kind]))
            assert not wrong, (seed, name, dimensions, wrong)
    assert free > YARDS / 10


@pytest.mark.parametrize("name", PIECES)
def test_a_piece_that_fits_touches_nothing_at_any_height(name: str) -> None:
    fitted = 0
    for seed in range(YARDS):
        chance = random.Random(f"{name} {seed}")
        true, dimensions = yard(chance), sizes(PIECES[name], chance)
        choices = {"lid": chance.choice(("full", "none")), "side": chance.choice(("left", "right"))}
        site = measured(true, "downpipe", SHOP.fitting.reading_nm, chance)
        found = fit(PIECES[name], dimensions, choices, site, SHOP, "mm", sized=False)
        if found.fits:
            fitted += 1
            wrong = list(touched(true, envelope(PIECES[name], dimensions, choices), found))
            assert not wrong, (seed, dimensions, wrong)
    assert fitted > YARDS / 5
