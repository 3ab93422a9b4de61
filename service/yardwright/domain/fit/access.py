"""Whether a piece, or a part of one, can be carried in through every narrow place.

A box is tried on each of its sides, and tilted; an L besides with its true outline in plan (outline.py).
Sizes and openings in nm; everything is carried with 2 in to spare each way.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..finding import Finding, Level
from ..measure import INCH, Writer
from ..site import Access
from .model import Envelope, Fit
from .outline import l_outline, narrowest, round_the_post, turns_round

Sizes = tuple[int, int, int]     # length, depth, height as the piece stands

ROOM_NM = 2 * INCH               # beyond the piece's own size; on-site checklist of safe data, memory
RULE = "way in"
SOURCE = "geometry, with 2 in to spare each way; common practice, memory"
# The steepest stairs allowed in dwellings: risers of 7 3/4 in on treads of 10 in (IRC R311.7.5; memory)
STEEP = 7.75 / 10
STEPS = 48                       # of the angle round a turn, before the least is closed in on
CLOSER = 60                      # halvings by the golden section after that
GOLDEN = (math.sqrt(5) - 1) / 2
LEG_FIRST = "upright, one leg first and then turned round the post"
ROUND = "level, one leg first and then round the corner, turned over where the corner is to the other hand"
# (up, across, along) as indices into sizes, the ways people try first in front
WAYS = ((2, 1, 0, "upright"), (1, 2, 0, "on its back"), (2, 0, 1, "upright, broadside"),
        (1, 0, 2, "on its back, broadside"), (0, 1, 2, "on end"), (0, 2, 1, "on end, turned"))


def carried(sizes: Sizes, access: Access) -> str | None:
    """How a box goes through a place, in words ("upright", "on end", "on its back, tilted"); None = not.

    A height that was not measured is taken as open above, but nothing is stood on end or tilted there.
    """
    wide, onward, high = room_of(access)
    for tilted in (False, True) if access.height_nm is not None else (False,):
        for up, across, along, words in WAYS:
            box = (sizes[up], sizes[across], sizes[along])
            if access.height_nm is None and box[0] == max(sizes) > min(sizes):
                continue
            if _goes(access.kind, box, wide, onward, high, tilted):
                return f"{words}, tilted" if tilted else words
    return None


def room_of(access: Access) -> tuple[float, float, float]:
    """What a place leaves, less what is kept to spare: across, across after a turn, and high."""
    high = math.inf if access.height_nm is None else access.height_nm - ROOM_NM
    return access.width_nm - ROOM_NM, (access.width_after_nm or access.width_nm) - ROOM_NM, high


def _goes(kind: str, box: tuple[float, float, float], wide: float, onward: float, high: float,
          tilted: bool) -> bool:
    if kind == "turn":
        return any(_turns(b, wide, onward, high) for b in (_tilts(box, high) if tilted else (box,)))
    up, across, along = box
    if kind == "stairs":
        square = over_stairs(high)
        if tilted:
            return rectangle_in(across, up, wide, square)
        return across <= wide and (up <= square or up + along * STEEP <= high)
    return rectangle_in(across, up, wide, high) if tilted else across <= wide and up <= high


def over_stairs(high: float) -> float:
    """The headroom over stairs taken square to them."""
    return high / math.hypot(1.0, STEEP)


def rectangle_in(p: float, q: float, a: float, b: float) -> bool:
    """Whether a rectangle p x q goes into one a x b in any position, turned too.

    With p >= q and a >= b: p <= a and q <= b, or p > a, q <= b and
    b >= (2 p q a + (p2 - q2) sqrt(p2 + q2 - a2)) / (p2 + q2). Source: Carver's condition for fitting a
    rectangle in a rectangle (American Mathematical Monthly, 1957; memory), recomputed by brute force.
    """
    p, q = max(p, q), min(p, q)
    a, b = max(a, b), min(a, b)
    if q > b:
        return False
    if p <= a:
        return True
    square = p * p + q * q
    return b >= (2 * p * q * a + (p * p - q * q) * math.sqrt(square - a * a)) / square


def _tilts(box: tuple[float, float, float], high: float) -> Iterator[tuple[float, float, float]]:
    """The box with one end raised, and rolled on an edge, until it meets what is above.

    A side l with height u tilted by t is l sin t + u cos t high and takes l cos t + u sin t in plan, which
    is least lying, at the most that t may be, or standing.
    """
    up, across, along = box
    if up <= high < math.hypot(along, up):
        yield high, across, _tilted(along, up, high)
    if up <= high < math.hypot(across, up):
        yield high, _tilted(across, up, high), along


def _tilted(side: float, up: float, high: float) -> float:
    """What a side takes in plan, raised until it is ``high``."""
    t = math.asin(high / math.hypot(side, up)) - math.atan2(up, side)
    return side * math.cos(t) + up * math.sin(t)


def _turns(box: tuple[float, float, float], wide: float, onward: float, high: float) -> bool:
    """Slid on without turning, or turned round the corner as far as the widths let it."""
    up, across, along = box
    if up > high:
        return False
    if (across <= wide and along <= onward) or (along <= wide and across <= onward):
        return True
    return across <= min(wide, onward) and along <= longest_round(wide, onward, across)


def longest_round(wide: float, onward: float, across: float) -> float:
    """The longest rectangle ``across`` wide that turns from a passage ``wide`` into one ``onward``, square.

    With its outer long side on both outer walls at angle t the inner corner stands
    wide sin t + onward cos t - l sin t cos t off that side: the least over t of
    (wide sin t + onward cos t - across) / (sin t cos t). Source: geometry; for a rod across is 0 and
    this is (wide^(2/3) + onward^(2/3))^(3/2), a textbook result of calculus (memory, recomputed).
    """
    def room(t: float) -> float:
        return (wide * math.sin(t) + onward * math.cos(t) - across) / (math.sin(t) * math.cos(t))

    step = math.pi / 2 / STEPS
    best = min((n * step for n in range(1, STEPS)), key=room)
    low, high = max(best - step, step / 100), min(best + step, math.pi / 2 - step / 100)
    for _ in range(CLOSER):
        a, b = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
        low, high = (low, b) if room(a) <= room(b) else (a, high)
    return min(room((low + high) / 2), room(best))


def carried_whole(piece: Envelope, access: Access) -> str | None:
    """How the whole piece goes through, in words; an L as the box around it first, then as the L it is."""
    boxed = carried((piece.length_nm, piece.whole_depth_nm, piece.height_nm), access)
    outline = l_outline(piece)
    if boxed is not None or outline is None:
        return boxed
    wide, onward, high = room_of(access)
    if piece.height_nm > (over_stairs(high) if access.kind == "stairs" else high):
        return None
    if access.kind == "turn":
        return ROUND if turns_round((outline,), wide, onward) else None
    if narrowest(outline) <= wide:
        return "upright, askew"
    return LEG_FIRST if access.kind == "gate" and round_the_post(piece, wide) else None


def passes(piece: Envelope, access: Access) -> bool:
    """Whether the whole piece goes through."""
    return carried_whole(piece, access) is not None


def way_in(piece: Envelope, access: tuple[Access, ...], writer: Writer) -> tuple[Finding, ...]:
    """One finding for each narrow place; a caution where the whole piece does not pass."""
    return tuple(place_finding(piece, a, carried_whole(piece, a), writer) for a in access)


def goes_in_whole(fit: Fit) -> bool:
    """Whether none of the narrow places measured is too narrow for the whole piece."""
    return all(f.level is Level.OK for f in fit.findings if f.rule == RULE)


def place_finding(piece: Envelope, access: Access, how: str | None, writer: Writer) -> Finding:
    """What is said of one narrow place: ``how`` the whole piece passes it, or a caution where it does not."""
    sizes = (piece.length_nm, piece.whole_depth_nm, piece.height_nm)
    size, opening = in_words(sizes, writer), opening_in_words(access, writer)
    if how is not None:
        return Finding(RULE, Level.OK, "It can be carried in",
                       f"The whole piece passes the {access.kind}, carried {how}."
                       + _free_ground(piece, how, writer), size, opening, SOURCE,
                       working=f"{size} + {writer.length(ROOM_NM)} each way, carried {how}, within {opening}")
    return Finding(
        RULE, Level.CAUTION, f"It may not go through the {access.kind} whole",
        f"The piece is {size}; the {access.kind} is {opening}, and {writer.length(ROOM_NM)} more than the "
        f"piece is wanted. No way of carrying it was found, {_tried(piece, access)}.",
        size, opening, SOURCE,
        "Deliver it in parts: the quote says which, and prices the work on site. Or find another way in.",
        f"{size} + {writer.length(ROOM_NM)} each way against {opening}: on each of its sides, tilted, and an "
        "L by its outline")


def _tried(piece: Envelope, access: Access) -> str:
    """The ways that were looked at; without a height nothing is stood on end or tilted."""
    legs = ", level with one leg first" if piece.wing != "none" and access.kind in ("gate", "turn") else ""
    if access.height_nm is None:
        return (f"upright or on its back{legs}; its height was not measured, so on end and tilted were not "
                "tried: measure it")
    return f"on any of its sides, on end{legs} or tilted"


def _free_ground(piece: Envelope, how: str, writer: Writer) -> str:
    """What leg first takes for granted: room to swing the other leg."""
    if how != LEG_FIRST:
        return ""
    leg = writer.length(max(piece.length_nm, piece.whole_depth_nm))
    return f" That takes {leg} of free ground on both sides of it."


def in_words(sizes: Sizes, writer: Writer) -> str:
    """``20 in x 36 in x 44 in``, the least first."""
    return " x ".join(writer.length(nm) for nm in sorted(sizes))


def opening_in_words(access: Access, writer: Writer) -> str:
    """``36 in wide, 80 in high``."""
    onward = f" and {writer.length(access.width_after_nm)}" if access.width_after_nm is not None else ""
    high = f", {writer.length(access.height_nm)} high" if access.height_nm is not None else ""
    return f"{writer.length(access.width_nm)}{onward} wide{high}"
