"""Two changes at once, where no single one mends: what closes that which one opens, then two that each help.

How much a change helps is read from the figures of the finding: how far what is measured then lies from its
limit. Pairs that should reach it by these are tried first, nearest first; then those that help most.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import combinations

from .changes import NOTHING, Change, Way
from .search import Search, halved, leave_out, singles
from .trials import On, source

MOST_MISSES = 3              # changes that mend but open something, and are tried with another
MOST_MOVES = 8               # changes that help
FIGURE = re.compile(r"(-?)(\d+(?:\.\d+)?)(?: (\d+)/(\d+)|/(\d+))?")


def mending(search: Search, most: int) -> list[Change]:
    """Up to ``most`` changes that mend, nearest first, each of other things; else pairs."""
    if search.on is On.WHOLE:
        leave_out(search)
    return singles(search, NOTHING, search.clears, most) or _closed(search, most) or _helped(search)


def _closed(search: Search, most: int) -> list[Change]:
    """What mends but opens something, with what closes that."""
    for miss in sorted(_distinct(search.misses), key=lambda c: c.distance)[:MOST_MISSES]:
        rules = sorted({source(f) for f in search.trials.opened(miss) or ()})
        found = singles(search, miss, lambda c, rules=rules: search.trials.clears(  # type: ignore[misc]
            c, search.finding, search.on, *rules), most)
        if found or search.over:
            return found
    return []


def _helped(search: Search) -> list[Change]:
    """Two that each help, the sizes among them no larger than they need to be."""
    before = _lack(search.told(NOTHING))
    gains = {move.key: before - _lack(search.told(move)) for move in search.moves}
    moves = sorted(_distinct(search.moves), key=lambda c: (-gains[c.key], c.distance))
    best = list({(move.names, _sign(search, move)): move for move in reversed(moves)}.values())
    best = sorted(best, key=lambda c: (-gains[c.key], c.distance))[:MOST_MOVES]
    pairs = [(a, b) for a, b in combinations(best, 2) if a.names != b.names]

    def order(pair: tuple[Change, Change]) -> tuple[bool, float]:
        gain, near = sum(gains[one.key] for one in pair), sum(one.distance for one in pair)
        return (False, near) if gain >= before > 0 else (True, -gain)

    for first, second in sorted(pairs, key=order):
        if search.clears(first.also(second)):
            least = _least_of(search, first, second)
            pair = _least_of(search, least, first).also(least)
            if held := search.held(pair) or search.held(first.also(second)):
                return [held]
        if search.over:
            break
    return []


def _distinct(changes: Sequence[Change]) -> list[Change]:
    return list({change.key: change for change in changes}.values())


def _sign(search: Search, move: Change) -> int:
    """Whether a size is made larger (1) or smaller (-1); 0 for an option."""
    return next((1 if size > _way(search, name, size).now_nm else -1 for name, size in move.dimensions), 0)


def _way(search: Search, name: str, size: int) -> Way:
    return next(w for w in search.ways if w.dimension.name == name and (size > w.now_nm) == (w.step_nm > 0))


def _least_of(search: Search, other: Change, one: Change) -> Change:
    """The change beside another, where it is a size, made no larger than the two together need."""
    if not one.dimensions:
        return one
    (name, size), = one.dimensions
    way = _way(search, name, size)
    high = next(n for n in range(1, way.most_steps + 1) if dict(way.change(n).dimensions)[name] == size)
    return way.change(halved(other, way, search.clears, 0, high))


def _lack(told: Sequence[tuple[str, str]] | None) -> float:
    """How far what is measured lies from its limit, as a share of it, at worst; 0 where it is gone."""
    return max((_apart(measured, limit) for measured, limit in told or ()), default=0.0)


def _apart(measured: str, limit: str) -> float:
    found, most = _figure(measured), _figure(limit)
    if found is None or most is None:
        return 0.0
    return abs(found - most) / (abs(most) or 1.0)


def _figure(text: str) -> float | None:
    """The first figure of a text: "6 9/16 in" is 6.5625."""
    found = FIGURE.search(text)
    if found is None:
        return None
    sign, whole, over, under, alone = found.groups()
    value = float(whole) / int(alone) if alone else float(whole) + (int(over) / int(under) if over else 0.0)
    return -value if sign else value
