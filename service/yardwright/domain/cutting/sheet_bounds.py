"""What no cutting of sheets can cost less than, whatever the cuts: parts weighed so that no sheet holds more
than its own weight of them.

A part weighs f(length) x g(width), where f and g are such that extents that go into a span together never
weigh more than the span. Besides the plain area: extents over half a span weigh all of it, small ones
nothing; or only whole fractions of the span count. S. P. Fekete and J. Schepers, "New classes of fast lower
bounds for bin packing problems", Mathematical Programming 91 (2001) (memory); every function is held to its
rule by a test. Extents and spans carry one kerf each.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from .guillotine import Kind, Room
from .pool import Array

_FRACTIONS = (1, 2, 3, 4)
_MOST_WEIGHED = 2_000_000
_MOST_STEPS = 24  # extents that serve as thresholds, for each direction


@dataclass(frozen=True, slots=True)
class Offer:
    """A sheet that can be bought: its rooms (several where zones are blocked), price, how many."""

    room: Room
    price: float
    count: int | None


def weights(extents: Array, span: int, thresholds: Sequence[int]) -> Array:
    """One row per function, one column per extent: its share of the span by that function."""
    rows = [extents / span]
    for k in _FRACTIONS:
        whole = (k + 1) * extents % span == 0
        rows.append(np.where(whole, extents / span, ((k + 1) * extents // span) / k))
    for least in thresholds:
        rows.append(np.where(extents > span - least, 1.0, np.where(extents < least, 0.0, extents / span)))
        parts = span // least
        large = 1.0 - ((span - extents) // least) / parts
        rows.append(np.where(2 * extents > span, large, np.where(extents < least, 0.0, 1.0 / parts)))
    return np.stack(rows)


def weight_bound(kinds: Sequence[Kind], offers: Sequence[Offer]) -> float:
    """The greatest of these bounds; infinite where the counted sheets cannot weigh as much as the parts."""
    offers = [o for o in offers if o.count != 0 and o.room[0] > 0 and o.room[1] > 0]
    if not kinds:
        return 0.0
    if not offers:
        return math.inf
    along, across = ([_thresholds(kinds, o.room[d]) for o in offers] for d in (0, 1))
    few = _MOST_WEIGHED // (len(offers) * len(kinds))  # pairs of functions; what is kept in memory grows so
    number = min(*(len(t) for t in (*along, *across)), max(0, math.isqrt(few) // 2 - 2))
    each = [
        _by_pairs(kinds, o.room, a[:number], b[:number])
        for o, a, b in zip(offers, along, across, strict=True)
    ]
    best = 0.0
    areas = [float(o.room[0] * o.room[1]) for o in offers]
    for sizes in (areas, [o.price for o in offers]):
        if min(sizes) > 0:
            best = max(best, _cheapest(kinds, offers, each, sizes))
    return best


def _thresholds(kinds: Sequence[Kind], span: int) -> list[int]:
    """Parts' extents no longer than half the span, and what is left beside longer ones."""
    extents = {e for kind in kinds for e in (kind.x_nm, kind.y_nm) if e <= span}
    halves = sorted({min(e, span - e + 1) for e in extents if 0 < min(e, span - e + 1) <= span // 2})
    if len(halves) > _MOST_STEPS:
        halves = halves[:: -(-len(halves) // _MOST_STEPS)]
    return halves


def _by_pairs(kinds: Sequence[Kind], room: Room, along: Sequence[int], across: Sequence[int]) -> Array:
    """By pair of functions and kind: its least share of the room, lying either way; infinite if neither."""
    fits = [kind.x_nm <= room[0] and kind.y_nm <= room[1] for kind in kinds]
    lies = [(k.x_nm, k.y_nm) if ok else room for k, ok in zip(kinds, fits, strict=True)]
    share = _pairs(lies, room, along, across)
    share[:, ~np.array(fits)] = np.inf
    turns = [
        k.turned is not None and k.turned[0] <= room[0] and k.turned[1] <= room[1] for k in kinds
    ]
    if any(turns):
        lies = [k.turned if k.turned and ok else room for k, ok in zip(kinds, turns, strict=True)]
        other = _pairs(lies, room, along, across)
        other[:, ~np.array(turns)] = np.inf
        share = np.minimum(share, other)
    return share


def _pairs(lies: Sequence[Room], room: Room, along: Sequence[int], across: Sequence[int]) -> Array:
    x = weights(np.array([r[0] for r in lies], dtype=np.int64), room[0], along)
    y = weights(np.array([r[1] for r in lies], dtype=np.int64), room[1], across)
    return (x[:, None, :] * y[None, :, :]).reshape(-1, len(lies))


def _cheapest(
    kinds: Sequence[Kind], offers: Sequence[Offer], each: Sequence[Array], sizes: Sequence[float]
) -> float:
    """A sheet holds no more than its size of the parts' weights: so much must be bought, cheapest first."""
    weight = np.min([share * size for share, size in zip(each, sizes, strict=True)], axis=0)
    if not np.isfinite(weight).all():
        return math.inf
    wanted = weight @ np.array([kind.most for kind in kinds], dtype=float)
    total = np.zeros(len(wanted))
    for offer, size in sorted(zip(offers, sizes, strict=True), key=lambda entry: entry[0].price / entry[1]):
        most = np.inf if offer.count is None else size * offer.count
        taken = np.minimum(wanted, most)
        total += taken * (offer.price / size)
        wanted = wanted - taken
    total[wanted > 1e-9 * max(sizes)] = np.inf
    return float(total.max())
