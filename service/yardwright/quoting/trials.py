"""An item built again with something changed, and what its checks then say: the trials a mend is found by.

The work is counted, never timed, out of one count for the whole quote. While a change is looked for, only the
check that gave the finding is run again, on figures alone where that check needs no solids; what comes out is
held against all of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from ..domain import checks, measure
from ..domain.errors import Refused
from ..domain.finding import Finding, Level
from ..domain.fit import Fit
from ..domain.job import Job
from ..domain.money import Money
from ..domain.piece.model import Piece
from ..domain.quote import Quote, QuotedItem
from ..domain.shop import Shop
from .changes import Change, Key
from .pipeline import Costed, costed, fit_of, piece_of

SERIOUS = (Level.STOP, Level.CAUTION)
WORTH = (Level.STOP, Level.CAUTION, Level.NOT_CHECKED)
CHECKED = {**checks.RULES, **{rule.name: rule for rule in checks.ALWAYS}}
PIECE, FIGURES = 8, 1        # what work counts: a piece built, or held against every check; its figures alone
ALL = ""                     # every rule


@dataclass(slots=True)
class Effort:
    """What may still be done (in units of FIGURES) and priced (items); ``stopped`` when it ran out."""

    work: int
    items: int
    stopped: bool = False
    kept: int = 0                # for the findings that come after

    def begin(self, findings: int) -> None:
        """The next of so many findings may use its share of the work that is left."""
        self.kept, self.stopped = self.work - self.work // max(findings, 1), False

    def spend(self, work: int) -> bool:
        """Whether so much may be done; then it counts."""
        if self.work - self.kept < work:
            self.stopped = True
            return False
        self.work -= work
        return True

    def price(self, items: int) -> bool:
        """Whether a job of so many items may be priced; the first always may."""
        if self.items <= 0:
            self.stopped = True
            return False
        self.items -= items
        return True


@dataclass(slots=True)
class Trials:
    """Changes of one item of a quote, each built once, checked once by each rule, priced once."""

    quote: Quote
    index: int
    shop: Shop
    effort: Effort
    made: dict[tuple[Key, bool], tuple[Piece, Fit | None] | None] = field(default_factory=dict)
    known: dict[tuple[Key, str], tuple[Finding, ...]] = field(default_factory=dict)
    costs: dict[Key, Costed | None] = field(default_factory=dict)
    before: Mapping[tuple[str, str], Level] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.before = {(f.rule, f.title): f.level for f in self.quoted.findings if f.level in WORTH}

    @property
    def quoted(self) -> QuotedItem:
        return self.quote.items[self.index]

    @property
    def job(self) -> Job:
        return self.quote.job

    def findings(self, change: Change, rule: str) -> tuple[Finding, ...] | None:
        """What one rule (or ALL) says of the changed item; None where it cannot be made or is not tried."""
        built = self._built(change, rule == ALL or CHECKED[rule].solids)
        if built is None:
            return None
        if (change.key, rule) not in self.known:
            if rule == ALL and not self.effort.spend(PIECE):
                return None
            writer = measure.Writer(self.job.units)
            self.known[change.key, rule] = checks.run(*built, self.job.site, self.shop, writer, rule)
        return self.known[change.key, rule]

    def told(self, change: Change, rule: str) -> tuple[tuple[str, str, str], ...] | None:
        """What a rule finds, in words: the same as before where the change has nothing to do with it."""
        found = self.findings(change, rule)
        return None if found is None else tuple((f.title, f.measured, f.limit) for f in found)

    def clears(self, change: Change, finding: Finding, *rules: str) -> bool:
        """Whether the finding is gone and its own rule, and these, say nothing worse than before."""
        own = self.findings(change, source(finding))
        if own is None or any(f.title == finding.title for f in own if f.level in SERIOUS):
            return False
        if self._worse(own):
            return False
        others = (self.findings(change, rule) for rule in rules)
        return all(found is not None and not self._worse(found) for found in others)

    def opened(self, change: Change) -> tuple[Finding, ...] | None:
        """What all checks find of the changed item that is new or graver; None where that is not known."""
        found = self.findings(change, ALL)
        return None if found is None else tuple(self._worse(found))

    def _worse(self, findings: Iterable[Finding]) -> list[Finding]:
        """New stops, cautions and things not checked, and those graver than before."""
        return [f for f in findings if f.level in WORTH
                and WORTH.index(f.level) < self._level_before(f)]

    def _level_before(self, finding: Finding) -> int:
        before = self.before.get((finding.rule, finding.title))
        return len(WORTH) if before is None else WORTH.index(before)

    def difference(self, change: Change) -> Money | None:
        """New total of the whole job less the present one; None where the price itself gives new concern."""
        if change.key not in self.costs:
            self.costs[change.key] = self._costed(change)
        cost = self.costs[change.key]
        return None if cost is None else cost.price.total - self.quote.price.total

    def _costed(self, change: Change) -> Costed | None:
        """The whole job's cost with this item changed; the other pieces stay as they were built."""
        built = self._built(change, True)
        if built is None or not self.effort.price(len(self.quote.items)):
            return None
        items, pieces = list(self.job.items), [item.piece for item in self.quote.items]
        items[self.index] = change.of(items[self.index], self.quoted.piece)
        pieces[self.index] = built[0]
        counted = tuple((piece, item.quantity) for piece, item in zip(pieces, items, strict=True))
        try:
            cost = costed(replace(self.job, items=tuple(items)), counted, self.shop)
        except Refused:
            return None
        before = {(f.rule, f.title) for f in self.quote.findings if f.level in WORTH}
        fresh = [f for f in cost.findings if f.level in WORTH and (f.rule, f.title) not in before]
        return None if fresh else cost

    def _built(self, change: Change, solids: bool) -> tuple[Piece, Fit | None] | None:
        if not solids and (change.key, True) in self.made:
            solids = True
        if (change.key, solids) not in self.made:
            if not self.effort.spend(PIECE if solids else FIGURES):
                return None
            self.made[change.key, solids] = self._make(change, solids)
        return self.made[change.key, solids]

    def _make(self, change: Change, solids: bool) -> tuple[Piece, Fit | None] | None:
        try:
            item = change.of(self.job.items[self.index], self.quoted.piece)
            piece = piece_of(item, self.job.units, self.shop, solids)
            return piece, fit_of(piece, self.job.site, self.job.units, self.shop) if solids else None
        except Refused:
            return None


def source(finding: Finding) -> str:
    """The check that gives the finding: what the fit found is handed on by the check named fit."""
    return finding.rule if finding.rule in CHECKED else "fit"
