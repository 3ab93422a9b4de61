"""The nearest changes of an item that take one finding away: one change, or two where no single one does.

Sizes go by the template's own step: the end of the range that is still nearer than what was found; where it
serves, the least that does is found by halving. Where a trial takes little, or the end takes the finding away
but makes another, half and a quarter of the way are tried too. A change that leaves the finding as it was has
nothing to do with it, and takes no part in pairs. Where a trial takes a whole piece, all sizes, or all
options, are first changed at once: where that moves nothing, none of them does.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from ..domain.finding import Finding
from .changes import NOTHING, TIMBER_DISTANCE, Change, Way, at_once
from .trials import On, Trials, source

PROBES = (1.0, 0.5, 0.25)    # shares of the way tried before halving
FAR = float("inf")
LEAVING = 0.2                # further than one that leaves no caution and nothing unchecked
Serves = Callable[[Change], bool]


@dataclass(slots=True)
class Search:
    """What can be changed, what one finding is moved by, and what mends it but opens something else."""

    trials: Trials
    finding: Finding
    options: Sequence[Change]
    ways: Sequence[Way]
    on: On
    moves: list[Change] = field(default_factory=list)
    misses: list[Change] = field(default_factory=list)

    @property
    def over(self) -> bool:
        """Whether its share of the work is used up."""
        return self.trials.effort.stopped

    def clears(self, change: Change) -> bool:
        return self.trials.clears(change, self.finding, self.on)

    def held(self, change: Change) -> Change | None:
        """The change where it mends and opens nothing, further off where it leaves something to be minded;
        what opens something is kept for a pair."""
        if self.trials.proven(change, self.finding):
            if self.trials.difference(change) is None:
                return None
            further = LEAVING if self.trials.left(change) else 0.0
            return replace(change, distance=change.distance + further)
        if self.trials.opened(change):
            self.misses.append(change)
        return None

    def told(self, change: Change) -> tuple[tuple[str, str], ...] | None:
        """Measured and limit of the finding then; none where it is gone, None where nothing could be made."""
        return self.trials.told(change, self.finding, self.on)

    def moved(self, change: Change) -> bool:
        """Whether the finding is then gone or another, or nothing could be made."""
        told = self.told(change)
        return told is None or told != self.told(NOTHING)


def leave_out(search: Search) -> None:
    """Only what matters stays: sizes that way, and options, that change something all taken at once."""
    near = [o for o in search.options if o.distance < TIMBER_DISTANCE]
    if near and not any(search.moved(change) for change in at_once(near)):
        search.options = [o for o in search.options if o not in near]
    for signed in (1, -1):
        ways = [w for w in search.ways if w.step_nm * signed > 0]
        if ways and not any(search.moved(c) for c in at_once([w.change(w.most_steps) for w in ways])):
            search.ways = [w for w in search.ways if w not in ways]


def singles(search: Search, base: Change, serves: Serves, most: int) -> list[Change]:
    """Single changes on top of ``base`` that serve and hold, the nearest of each thing changed."""
    found: list[Change] = []
    near = [o for o in search.options if o.distance < TIMBER_DISTANCE]
    _take_options(search, base, near, serves, most, found)
    _take_ways(search, base, serves, most, found)
    _take_options(search, base, [o for o in search.options if o not in near], serves, most, found)
    return found


def _take_options(search: Search, base: Change, offered: Sequence[Change], serves: Serves, most: int,
                  found: list[Change]) -> None:
    done: set[str] = set()
    for option in offered:
        (name,) = option.names
        change = base.also(option)
        if search.over or name in done | base.names or change.distance >= _bound(found, most):
            continue
        if _tried(search, base, change, serves) and (held := search.held(change)):
            done.add(name)
            _keep(found, held, most)


def _tried(search: Search, base: Change, change: Change, serves: Serves) -> bool:
    """Whether it serves; a single change that does not but moves the finding is kept for pairs."""
    if serves(change):
        return True
    if base is NOTHING and search.moved(change) and search.told(change) is not None:
        search.moves.append(change)
    return False


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


def _take_ways(search: Search, base: Change, serves: Serves, most: int, found: list[Change]) -> None:
    """The least change each way, no further than the nearest that served so far; then these are proven, and
    where none holds, those further off."""
    for bounded in (True, False):
        least: list[tuple[Change, Way, int, int]] = []
        for way in search.ways:
            bound = min([_bound(found, most), *(one[0].distance for one in least if bounded and most == 1)])
            high = 0 if way.dimension.name in base.names or search.over else _far_enough(
                search, base, way, serves, bound - base.distance)
            if high:
                low = halved(base, way, serves, 0, high)
                least.append((base.also(way.change(low)), way, low, high))
        for change, way, low, high in sorted(least, key=lambda one: (one[0].distance, one[0].text)):
            if change.distance < _bound(found, most) and not search.over:
                _keep(found, search.held(change) or _further(search, base, way, change, low, high), most)
        if found or search.over or len(least) < 1:
            return


def _far_enough(search: Search, base: Change, way: Way, serves: Serves, within: float) -> int:
    """So many steps this way serve; 0 where none of those tried does."""
    most_steps = way.steps_within(within)
    for steps in dict.fromkeys(max(1, round(most_steps * share)) for share in PROBES if most_steps):
        change = base.also(way.change(steps))
        if _tried(search, base, change, serves):
            return steps
        told = search.told(change)
        if search.over or (base is NOTHING and steps == most_steps and not search.moved(change)):
            return 0
        if told and search.on is On.WHOLE:      # still there at the end: hardly gone before it
            return 0
    return 0


def _further(search: Search, base: Change, way: Way, missed: Change, low: int, high: int) -> Change | None:
    """The least change beyond ``low`` that mends the piece built and opens nothing that ``missed`` did."""
    opened = sorted({source(f) for f in search.trials.opened(missed) or ()})
    if search.over or low == high or (not opened and search.on is On.WHOLE):
        return None
    on = search.on if opened else On.WHOLE

    def serves(change: Change) -> bool:
        return search.trials.clears(change, search.finding, on, *opened)

    if not serves(base.also(way.change(high))):
        return None
    return search.held(base.also(way.change(halved(base, way, serves, low, high))))


def halved(base: Change, way: Way, serves: Serves, low: int, high: int) -> int:
    """The least number of steps that serves, where ``high`` does and ``low`` does not."""
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if serves(base.also(way.change(middle))) else (middle, high)
    return high
