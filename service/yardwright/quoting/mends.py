"""The change that would mend it: looked for by building the item again with one thing changed, and repriced.

For each ``stop`` and ``caution`` of an item the nearest option, timber and size are looked for that take it
away and bring neither a new stop nor a new caution. A size is tried at the end of its range first; where that
serves, the smallest change that does is found by halving. Work is counted, never timed: so many items built
again, so many jobs priced again. Only when a job asks for it, and only where there is something to mend.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace

from ..domain import checks, measure
from ..domain.errors import Refused
from ..domain.finding import Finding, Level, Mend
from ..domain.fit import Fit
from ..domain.job import Item, Job
from ..domain.piece.model import Piece
from ..domain.quote import Quote, QuotedItem
from ..domain.shop import Shop
from .changes import Change, Way, options, ways
from .pipeline import fit_of, make_quote, piece_of

SERIOUS = (Level.STOP, Level.CAUTION)
WORTH = (Level.STOP, Level.CAUTION, Level.NOT_CHECKED)
CHECKED = frozenset((*checks.RULES, *(rule.name for rule in checks.ALWAYS)))
PROBES = (1.0, 0.5, 0.25)    # shares of a dimension's range tried before halving
NOT_BY_CHANGE = frozenset({"drop behind", "fall of the ground"})    # of the place, not of the piece
MOST_BUILT = 60
MOST_PRICED = 8
MOST_MENDS = 3               # of one finding


@dataclass(slots=True)
class Trials:
    """Items built again for one item of the job, each once, out of a count shared by all."""

    item: Item
    quoted: QuotedItem
    job: Job
    shop: Shop
    left: list[int]
    built: dict[Change, tuple[Piece, Fit | None] | None] = field(default_factory=dict)
    known: dict[tuple[Change, str], tuple[Finding, ...]] = field(default_factory=dict)

    def mends(self, finding: Finding, change: Change) -> bool:
        """Whether the change takes the finding away and brings nothing serious that was not there before."""
        alone = self._findings(change, _source(finding))
        if alone is None or any(f.title == finding.title for f in alone if f.level in SERIOUS):
            return False
        before = {(f.rule, f.title): f.level for f in self.quoted.findings if f.level in WORTH}
        return all(_no_worse(f, before.get((f.rule, f.title)))
                   for f in self._findings(change, "") or () if f.level in WORTH)

    def _findings(self, change: Change, rule: str) -> tuple[Finding, ...] | None:
        """What one check ("" = all) says of the changed item; None where it cannot be made."""
        if change not in self.built:
            if self.left[0] <= 0:
                return None
            self.left[0] -= 1
            self.built[change] = self._made(change)
        made = self.built[change]
        if made is None:
            return None
        if (change, rule) not in self.known:
            writer = measure.Writer(self.job.units)
            self.known[change, rule] = checks.run(*made, self.job.site, self.shop, writer, rule)
        return self.known[change, rule]

    def _made(self, change: Change) -> tuple[Piece, Fit | None] | None:
        try:
            made = piece_of(change.of(self.item, self.quoted.piece), self.job.units, self.shop)
            return made, fit_of(made, self.job.site, self.job.units, self.shop)
        except Refused:
            return None


def _source(finding: Finding) -> str:
    """The check that gives the finding: what the fit found is handed on by the check named fit."""
    return finding.rule if finding.rule in CHECKED else "fit"


def _no_worse(finding: Finding, before: Level | None) -> bool:
    return before is not None and WORTH.index(finding.level) >= WORTH.index(before)


def with_mends(quote: Quote, shop: Shop) -> Quote:
    """The quote with mends on the stops and cautions of its items; itself where there is nothing to mend."""
    built, priced = [MOST_BUILT], [MOST_PRICED]
    prices: dict[tuple[int, Change], Mend | None] = {}
    items = []
    for index, quoted in enumerate(quote.items):
        targets = [f for f in quoted.findings if f.level in SERIOUS and f.rule not in NOT_BY_CHANGE]
        trials = Trials(quote.job.items[index], quoted, quote.job, shop, built)
        found = {f: _mends(quote, shop, index, trials, f, prices, priced) for f in targets}
        items.append(replace(quoted, findings=tuple(_mended(f, found.get(f, ())) for f in quoted.findings)))
    if all(not f.mends for item in items for f in item.findings):
        return quote
    of_items = {(f.rule, f.level, f.title, f.detail): f for item in items for f in item.findings}
    held = tuple(of_items.get((f.rule, f.level, f.title, f.detail), f) for f in quote.stopped_by)
    return replace(quote, items=tuple(items), stopped_by=held)


def _mended(finding: Finding, mends: Sequence[Mend]) -> Finding:
    if not mends:
        return finding
    told = "; or ".join(f"{m.text} ({_signed(m)})" for m in mends)
    kept = finding.mend.rstrip(". ")
    return replace(finding, mends=tuple(mends), mend=(f"{kept}; or {told}." if kept else
                                                      f"{told[0].upper()}{told[1:]}."))


def _signed(mend: Mend) -> str:
    sign = "+" if mend.difference.minor >= 0 else ""
    return f"{sign}{mend.difference.text()} {mend.difference.currency}"


def _mends(quote: Quote, shop: Shop, index: int, trials: Trials, finding: Finding,
           prices: dict[tuple[int, Change], Mend | None], priced: list[int]) -> list[Mend]:
    """The nearest changes of each kind that mend the finding, priced, nearest first."""
    found = sorted(_changes(trials, finding, quote.job.units, shop), key=lambda c: (c.distance, c.text))
    mends: list[Mend] = []
    for change in found[:MOST_MENDS]:
        known = (index, change)
        if known not in prices and priced[0] > 0:
            priced[0] -= 1
            prices[known] = _priced(quote, shop, index, trials, change)
        mend = prices.get(known)
        mends += [mend] if mend else []
    return mends


def _changes(trials: Trials, finding: Finding, units: str, shop: Shop) -> Iterable[Change]:
    """One option of each choice at most, one size of each dimension at most."""
    made = trials.quoted.piece
    done: set[str] = set()
    for change in sorted(options(made, shop), key=lambda c: c.distance):
        if change.name not in done and trials.mends(finding, change):
            done.add(change.name)
            yield change
    nearest: dict[str, Change] = {}
    for way in ways(made, units):
        least = _least(way, units, lambda c: trials.mends(finding, c))
        if least and least.distance <= nearest.get(least.name, least).distance:
            nearest[least.name] = least
    yield from nearest.values()


def _least(way: Way, units: str, serves: Callable[[Change], bool]) -> Change | None:
    """The smallest number of steps that serves, if the whole way does, or half, or a quarter of it."""
    probes = dict.fromkeys(max(1, round(way.most_steps * share)) for share in PROBES)
    high = next((n for n in probes if serves(way.change(n, units))), 0)
    low = 0
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if serves(way.change(middle, units)) else (middle, high)
    return way.change(high, units) if high else None


def _priced(quote: Quote, shop: Shop, index: int, trials: Trials, change: Change) -> Mend | None:
    items = list(quote.job.items)
    items[index] = change.of(trials.item, trials.quoted.piece)
    try:
        again = make_quote(replace(quote.job, items=tuple(items)), shop)
    except Refused:
        return None
    dimensions = ((change.name, change.size_nm),) if change.size_nm is not None else ()
    choices = ((change.name, change.option),) if change.size_nm is None else ()
    return Mend(dimensions, choices, change.text, again.price.total - quote.price.total)
