"""Outlines in plan carried through narrow places: an L round a corner, or leg first through a gate.

What is said to pass passes: every stretch of a motion is proved by how far a point can move in it, never by
trying places only; where the proof would be finer than a millimetre it counts as blocked. nm, radians.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from ..measure import MM
from .model import Envelope

Spot = tuple[float, float]
Outline = Sequence[Spot]

FULL = 2 * math.pi
FINEST_NM = MM                   # a stretch of turning proved no finer than this counts as blocked
POST_NM = 150 * MM               # how thick a gate's posts or the wall it is in may be; judgement
TURNS = 720                      # steps of the quarter turn round a gate's post
CLEAR = 3                        # how far the turn begins and ends from the corner, in what a step moves


def l_outline(piece: Envelope) -> Outline | None:
    """The plan of an L: outer corner at (0, 0), the part along the wall on x, the wing on y; else None."""
    if piece.wing == "none":
        return None
    a, b, c, d = piece.length_nm, piece.depth_nm, piece.wing_depth_nm, piece.wing_length_nm
    return ((0, 0), (a, 0), (a, b), (c, b), (c, d), (0, d))


def hull(places: Sequence[Spot]) -> list[Spot]:
    """The convex outline around places, counter-clockwise (monotone chain)."""
    spots = sorted(set(places))
    if len(spots) < 3:
        return spots

    def half(order: Sequence[Spot]) -> list[Spot]:
        chain: list[Spot] = []
        for p in order:
            while len(chain) > 1 and _left_of(chain[-2], chain[-1], p) <= 0:
                chain.pop()
            chain.append(p)
        return chain[:-1]

    return [*half(spots), *half(spots[::-1])]


def _left_of(a: Spot, b: Spot, p: Spot) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def headings(outline: Outline) -> Iterator[float]:
    """Turns that lay a side of the outline's hull upright in plan: where it is narrowest is among them."""
    around = hull(outline)
    for (ax, ay), (bx, by) in pairwise([*around, around[0]]):
        yield math.pi / 2 - math.atan2(by - ay, bx - ax)


def narrowest(outline: Outline) -> float:
    """The least width between two parallel lines around an outline: one of them holds a side of its hull."""
    if len(hull(outline)) < 3:
        return 0.0
    return min(_wide(turned(outline, t)) for t in headings(outline))


def turned(outline: Outline, angle: float) -> list[Spot]:
    """The outline turned counter-clockwise about (0, 0)."""
    c, s = math.cos(angle), math.sin(angle)
    return [(x * c - y * s, x * s + y * c) for x, y in outline]


def _wide(outline: Outline) -> float:
    xs = [p[0] for p in outline]
    return max(xs) - min(xs)


def turns_round(rings: Sequence[Outline], wide: float, onward: float) -> bool:
    """Whether a body, turned over or not, goes round a square turn from a passage ``wide`` to ``onward``.

    ``rings`` are the outlines that together cover it in plan. Outer walls x = 0 and y = 0, inner corner at
    (wide, onward). Moving towards the outer walls never brings it nearer to the inner corner, so at each
    angle it need be tried against both outer walls only, and the motion exists where one stretch of free
    angles holds one at which it is no wider than each passage.
    Source: geometry (argued here); checked against a search of all positions.
    """
    return _rounds(rings, wide, onward) or (wide != onward and _rounds(rings, onward, wide))


def _rounds(rings: Sequence[Outline], wide: float, onward: float) -> bool:
    around = hull([p for ring in rings for p in ring])
    flush = [t % FULL for t in headings(around)]
    first = [t for t in flush if _wide(turned(around, t)) <= wide]
    last = [t for f in flush for t in ((f + math.pi / 2) % FULL, (f - math.pi / 2) % FULL)
            if _high(turned(around, t)) <= onward]
    first += [(t + math.pi) % FULL for t in first]
    stops = sorted({*first, *last})
    if not first or not last:
        return False
    reach = max(math.dist(p, q) for p in around for q in around)
    run = [stops[0]]
    runs = [run]
    for a, b in pairwise(stops):
        if _free(rings, wide, onward, a, b, reach):
            run.append(b)
        else:
            run = [b]
            runs.append(run)
    if len(runs) > 1 and _free(rings, wide, onward, stops[-1], stops[0] + FULL, reach):
        runs[0] = [*runs.pop(), *runs[0]]
    starts, ends = set(first), set(last)
    return any(starts.intersection(r) and ends.intersection(r) for r in runs)


def _high(outline: Outline) -> float:
    ys = [p[1] for p in outline]
    return max(ys) - min(ys)


def _free(rings: Sequence[Outline], wide: float, onward: float, low: float, high: float,
          reach: float) -> bool:
    """Whether it is clear of the inner corner at every angle between: halved until proved or too fine."""
    middle, half = (low + high) / 2, (high - low) / 2
    into = _into([turned(ring, middle) for ring in rings], wide, onward)
    if into + half * reach <= 0:
        return True
    if into > 0 or half * reach < FINEST_NM:
        return False
    return (_free(rings, wide, onward, low, middle, reach)
            and _free(rings, wide, onward, middle, high, reach))


def _into(rings: Sequence[Outline], wide: float, onward: float) -> float:
    """How far it reaches past the inner corner, lying against both outer walls; negative = clear by that."""
    left = min(x for ring in rings for x, _ in ring) + wide
    low = min(y for ring in rings for _, y in ring) + onward
    return max(_past([(x - left, y - low) for x, y in ring]) for ring in rings)


def _past(past: Outline) -> float:
    most = max(min(p) for p in past)
    for (ax, ay), (bx, by) in pairwise([*past, past[0]]):
        across = (ax - ay) - (bx - by)
        if across and 0 < (share := (ax - ay) / across) < 1:
            most = max(most, ax + share * (bx - ax))
    return most


def round_the_post(piece: Envelope, wide: float) -> bool:
    """Whether an L goes through a gate leg first, turned a quarter about its inner corner at the post.

    Seen from the L a strip as thick as the wall slides along one leg nearly to the inner corner, turns past
    it and slides along the other; what of the L lies in the strip must never be longer than the gate is wide.
    Proved for every step with the strip made wider by what a point can move in it. Free ground on both
    sides is taken for granted. Source: geometry; checked against a search of all positions.
    """
    outline = l_outline(piece)
    if outline is None or max(piece.depth_nm, piece.wing_depth_nm) > wide:
        return False
    at = (float(piece.wing_depth_nm), float(piece.depth_nm))
    about = [(x - at[0], y - at[1]) for x, y in outline]
    step = math.pi / 2 / TURNS
    swings = max(math.hypot(*p) for p in about) * step / 2
    run = POST_NM + 2 * CLEAR * swings           # of the strip across itself, from one side of the corner to
    moves = swings + run / TURNS / 2             # the other
    return all(_in_strip(about, (n + 0.5) * step, CLEAR * swings - run * (n + 0.5) / TURNS, moves) <= wide
               for n in range(TURNS))


def _in_strip(about: Outline, angle: float, low: float, more: float) -> float:
    """How long the part of an outline is that lies in a strip along ``angle``, both taken at their worst."""
    flat = turned(about, -angle)
    low, high = low - more, low + POST_NM + more
    found: list[float] = []
    for (ax, ay), (bx, by) in pairwise([*flat, flat[0]]):
        for x, y in ((ax, ay), *(((ax + (edge - ay) / (by - ay) * (bx - ax)), edge)
                                 for edge in (low, high) if (ay < edge) != (by < edge))):
            if low <= y <= high:
                found.append(x)
    return max(found) - min(found) + 2 * more if found else 0.0
