"""The nearest changes of an item that take one finding away: one change, or two where no single one does.

Sizes go by the template's own step: the end of the range that is still nearer than what was found, half and
a quarter of the way; where one of them serves, the least that does is found by halving. A change that leaves
what the check finds as it was has nothing to do with it, and takes no part in pairs.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from ..domain.finding import Finding
from .changes import NOTHING, TIMBER_DISTANCE, Change, Way
from .trials import Trials, source

PROBES = (1.0, 0.5, 0.25)    # shares of the way tried before halving
FAR = float("inf")
BASES = 6                    # changes that pairs are built on
Serves = Callable[[Change], bool]


@dataclass(slots=True)
class Search:
    """What can be changed, what one finding is moved by, and what mends it but opens something else."""

    trials: Trials
    finding: Finding
    options: Sequence[Change]
    ways: Sequence[Way]
    moves: list[Change] = field(default_factory=list)
    misses: list[Change] = field(default_factory=list)

    def clears(self, change: Change) -> bool:
        return self.trials.clears(change, self.finding)

    def holds(self, change: Change) -> bool:
        """Whether it mends and opens nothing; what opens something is kept for a pair."""
        opened = self.trials.opened(change)
        if opened:
            self.misses.append(change)
        return opened == () and self.trials.difference(change) is not None

    def moved(self, change: Change) -> bool:
        """Whether the finding's own check now finds something else, or nothing could be built."""
        rule = source(self.finding)
        told = self.trials.told(change, rule)
        return told is None or told != tuple(
            (f.title, f.measured, f.limit) for f in self.trials.quoted.findings if source(f) == rule)


def mending(search: Search, most: int) -> list[Change]:
    """Up to ``most`` changes that mend, nearest first, each of other things; else pairs."""
    found = singles(search, NOTHING, search.clears, most)
    return found or _pairs(search, most)


def singles(search: Search, base: Change, serves: Serves, most: int,
            among: frozenset[str] | None = None) -> list[Change]:
    """Single changes on top of ``base`` that serve and hold, the nearest of each thing changed."""
    found: list[Change] = []
    near = [o for o in search.options if o.distance < TIMBER_DISTANCE]
    _take_options(search, base, near, serves, most, among, found)
    for way in search.ways:
        if not _free(base, way.dimension.name, among):
            continue
        least = _least(search, base, way, serves, _bound(found, most) - base.distance)
        _keep(found, least, most)
    _take_options(search, base, [o for o in search.options if o not in near], serves, most, among, found)
    return found


def _take_options(search: Search, base: Change, offered: Sequence[Change], serves: Serves, most: int,
                  among: frozenset[str] | None, found: list[Change]) -> None:
    done: set[str] = set()
    for option in offered:
        (name,) = option.names
        change = base.also(option)
        if name in done or not _free(base, name, among) or change.distance >= _bound(found, most):
            continue
        if _tried(search, base, change, serves) and search.holds(change):
            done.add(name)
            _keep(found, change, most)


def _tried(search: Search, base: Change, change: Change, serves: Serves) -> bool:
    """Whether it serves; a single change that does not but moves the finding is kept for pairs."""
    if serves(change):
        return True
    if base is NOTHING and search.moved(change) and search.trials.told(change, source(search.finding)):
        search.moves.append(change)
    return False


def _free(base: Change, name: str, among: frozenset[str] | None) -> bool:
    return name not in base.names and (among is None or name in among)


def _bound(found: Sequence[Change], most: int) -> float:
    """Further changes need not be looked at."""
    return found[most - 1].distance if len(found) >= most else FAR


def _keep(found: list[Change], change: Change | None, most: int) -> None:
    """Among the nearest, one of each thing changed."""
    if change is None:
        return
    rivals = [f for f in found if f.names == change.names]
    if any(f.distance <= change.distance for f in rivals):
        return
    rest = [f for f in found if f not in rivals]
    found[:] = sorted((*rest, change), key=lambda f: (f.distance, f.text))[:most]


def _least(search: Search, base: Change, way: Way, serves: Serves, within: float) -> Change | None:
    """The smallest change this way that serves and holds."""
    most_steps = way.steps_within(within)
    high = 0
    for steps in dict.fromkeys(max(1, round(most_steps * share)) for share in PROBES if most_steps):
        change = base.also(way.change(steps))
        if _tried(search, base, change, serves):
            high = steps
            break
        if base is NOTHING and steps == most_steps and not search.moved(change):
            return None
    if not high:
        return None
    least = _halved(base, way, serves, 0, high)
    change = base.also(way.change(least))
    if search.holds(change):
        return change
    opened = {source(f) for f in search.trials.opened(change) or ()}
    if least == high or not opened:
        return None
    return _further(search, base, way, sorted(opened), least, high)


def _further(search: Search, base: Change, way: Way, opened: Sequence[str], low: int,
             high: int) -> Change | None:
    """The least change beyond ``low`` that mends and does not open what the smaller one opened."""
    def serves(change: Change) -> bool:
        return search.trials.clears(change, search.finding, *opened)

    if not serves(base.also(way.change(high))):
        return None
    change = base.also(way.change(_halved(base, way, serves, low, high)))
    return change if search.holds(change) else None


def _halved(base: Change, way: Way, serves: Serves, low: int, high: int) -> int:
    """The least number of steps that serves, where ``high`` does and ``low`` does not."""
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if serves(base.also(way.change(middle))) else (middle, high)
    return high


def _pairs(search: Search, most: int) -> list[Change]:
    """Two changes at once: what mends but opens something with what closes that, then two that each help."""
    for miss in sorted(_distinct(search.misses), key=lambda c: c.distance)[:BASES]:
        rules = sorted({source(f) for f in search.trials.opened(miss) or ()})
        found = singles(search, miss, lambda c, rules=rules: search.trials.clears(  # type: ignore[misc]
            c, search.finding, *rules), most)
        if found:
            return found
    moves = sorted(_distinct(search.moves), key=lambda c: c.distance)[:BASES]
    names = frozenset(name for move in moves for name in move.names)
    for move in moves:
        found = singles(search, move, search.clears, most, names)
        if found:
            return [_shorter(search, move, pair) for pair in found]
    return []


def _distinct(changes: Sequence[Change]) -> list[Change]:
    return list({change.key: change for change in changes}.values())


def _shorter(search: Search, base: Change, pair: Change) -> Change:
    """The pair with its first change, where that is a size, made no larger than the second needs."""
    if not base.dimensions:
        return pair
    (name, size), = base.dimensions
    way = next(w for w in search.ways if w.dimension.name == name and (size > w.now_nm) == (w.step_nm > 0))
    rest = Change(tuple(d for d in pair.dimensions if d[0] != name), pair.choices, pair.text.removeprefix(
        f"{base.text} and "), pair.distance - base.distance)
    high = next(n for n in range(1, way.most_steps + 1) if dict(way.change(n).dimensions)[name] == size)
    least = rest.also(way.change(_halved(rest, way, search.clears, 0, high)))
    return least if search.holds(least) else pair
