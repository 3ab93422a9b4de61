"""An item tried with something changed, and what its checks then say: the trials a mend is found by.

While a change is looked for, only the check that gave the finding is run again, on as little as that check
looks at: the outline in the measured place, the figures, or the whole piece built. What comes out is built,
held against all checks and priced with the whole job.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import IntEnum
from functools import cached_property

from ..domain import checks, fit, labour, measure, piece
from ..domain.errors import Refused
from ..domain.finding import Finding, Level
from ..domain.fit import Fit
from ..domain.job import Job
from ..domain.money import Money
from ..domain.piece.model import Piece
from ..domain.quote import Quote, QuotedItem
from ..domain.shop import Shop
from ..domain.template import sizes
from . import effort
from .changes import NOTHING, Change, Key
from .effort import Effort
from .makeable import not_makeable
from .pipeline import Costed, costed

SERIOUS = (Level.STOP, Level.CAUTION)
WORTH = (Level.STOP, Level.CAUTION, Level.NOT_CHECKED)
CHECKED = {**checks.RULES, **{rule.name: rule for rule in checks.ALWAYS}}
ALL, FIT, WAY_IN = "", "fit", "way in"
Named = Mapping[tuple[str, str], Level]


class On(IntEnum):
    """How much of the changed item a trial makes."""

    PLACE = 0                    # its outline by the template's fit formulas: room and the way in
    FIGURES = 1                  # its values, no member
    WHOLE = 2


@dataclass
class Trials:
    """Changes of one item of a quote, each made once, checked once by each rule, priced once."""

    quote: Quote
    index: int
    shop: Shop
    effort: Effort
    made: dict[tuple[Key, On], Piece | None] = field(default_factory=dict)
    known: dict[tuple[Key, str, On], tuple[Finding, ...]] = field(default_factory=dict)
    costs: dict[Key, Costed | None] = field(default_factory=dict)

    @property
    def quoted(self) -> QuotedItem:
        return self.quote.items[self.index]

    @property
    def job(self) -> Job:
        return self.quote.job

    @property
    def members(self) -> int:
        return len(self.quoted.piece.members)

    @cached_property
    def writer(self) -> measure.Writer:
        return measure.Writer(self.job.units)

    def on(self, finding: Finding) -> On:
        """The least that shows the finding."""
        least = _least(source(finding))
        shown = self.findings(NOTHING, source(finding), least) or ()
        return least if any(f.title == finding.title for f in shown) else On.WHOLE

    def sold(self, change: Change) -> bool:
        """Whether the shop has what it is then made of."""
        return self._made(change, On.FIGURES) is not None

    def findings(self, change: Change, rule: str, on: On) -> tuple[Finding, ...] | None:
        """What one rule (or ALL) says of the changed item; None where it cannot be made or is not tried."""
        if change is NOTHING and on is On.WHOLE:
            return tuple(f for f in self.quoted.findings if rule in (ALL, source(f)))
        made = self._made(change, on)
        if made is None:
            return None
        if (change.key, rule, on) not in self.known:
            if on is On.WHOLE and not self.effort.spend(self._checking(rule)):
                return None
            self.known[change.key, rule, on] = self._checked(made, rule, on)
        return self.known[change.key, rule, on]

    def _checking(self, rule: str) -> int:
        carried = effort.carried(len(self.job.site.access)) if rule in (ALL, FIT, WAY_IN) else 0
        every = effort.every_check(self.members)
        return carried + (every if rule == ALL else effort.one_check(self.members, rule))

    def _checked(self, made: Piece, rule: str, on: On) -> tuple[Finding, ...]:
        only = FIT if rule == WAY_IN else rule
        found = self._fit(made, on) if rule in (ALL, FIT, WAY_IN) else None
        told = checks.run(made, found, self.job.site, self.shop, self.writer, only,
                          labour.at_the_customers(self.job))
        return tuple(f for f in told if source(f) == rule) if only == FIT else told

    def _fit(self, made: Piece, on: On) -> Fit | None:
        """How it fits: by its outline alone, or as it is built; the largest of each size is not wanted."""
        if self.quoted.fit is None:
            return None
        found = fit.fit(made.template, made.dimensions_nm, made.choices, self.job.site, self.shop,
                        self.job.units, sized=False)
        return found if on is On.PLACE else fit.with_way_in(found, made, self.job.site.access, self.writer)

    def told(self, change: Change, finding: Finding, on: On) -> tuple[tuple[str, str], ...] | None:
        """What its rule still says of the finding: as before where the change does not matter to it."""
        found = self.findings(change, source(finding), on)
        named = (f for f in found or () if f.title == finding.title)
        return None if found is None else tuple((f.measured, f.limit) for f in named)

    def clears(self, change: Change, finding: Finding, on: On, *rules: str) -> bool:
        """Whether the finding is gone and its own rule, and these, say nothing worse than before."""
        own = self.findings(change, source(finding), on)
        if own is None or _there(finding, own) or self._worse(own, source(finding), on):
            return False
        for rule in rules:
            least = On.WHOLE if rule == WAY_IN else _least(rule)
            found = self.findings(change, rule, least)
            if found is None or self._worse(found, rule, least):
                return False
        return True

    def proven(self, change: Change, finding: Finding) -> bool:
        """Whether all checks find the finding gone from the piece built, and nothing new or graver."""
        found = self.findings(change, ALL, On.WHOLE)
        return found is not None and not _there(finding, found) and not self.opened(change)

    def opened(self, change: Change) -> tuple[Finding, ...] | None:
        """What all checks find of the changed item that is new or graver; None where that is not known."""
        found = self.findings(change, ALL, On.WHOLE)
        return None if found is None else tuple(self._worse(found, ALL, On.WHOLE))

    def _worse(self, findings: Sequence[Finding], rule: str, on: On) -> list[Finding]:
        """New stops, cautions and things not checked, and those graver than before; where stops are gone, not
        what is left of them: the cautions of the same rules, and what is then not checked."""
        fresh = self._fresh(findings, rule, on)
        gone = self._stops_gone(findings, rule, on)
        return [f for f in fresh if not (f.rule in gone if f.level is Level.CAUTION
                                         else gone - {f.rule} and f.level is Level.NOT_CHECKED)]

    def _fresh(self, findings: Iterable[Finding], rule: str, on: On) -> list[Finding]:
        before = self._before(rule, on)
        return [f for f in findings if f.level in WORTH
                and WORTH.index(f.level) < WORTH_OR_LESS[before.get((f.rule, f.title))]]

    def _stops_gone(self, findings: Iterable[Finding], rule: str, on: On) -> frozenset[str]:
        there = {(f.rule, f.title) for f in findings}
        before = self._before(rule, on).items()
        return frozenset(named[0] for named, level in before if level is Level.STOP and named not in there)

    def left(self, change: Change) -> tuple[Finding, ...]:
        """What a change that mends leaves to be minded, or not checked, that was not there before."""
        return tuple(self._fresh(self.findings(change, ALL, On.WHOLE) or (), ALL, On.WHOLE))

    def _before(self, rule: str, on: On) -> Named:
        return {(f.rule, f.title): f.level for f in self.findings(NOTHING, rule, on) or ()}

    def difference(self, change: Change) -> Money | None:
        """New total of the whole job less the present one; None where the price itself gives new concern."""
        if change.key not in self.costs:
            self.costs[change.key] = self._costed(change)
        cost = self.costs[change.key]
        return None if cost is None else cost.price.total - self.quote.price.total

    def _costed(self, change: Change) -> Costed | None:
        """The whole job's cost with this item changed; the other pieces stay as they were built."""
        made = self._made(change, On.WHOLE)
        if made is None or not self.effort.spend(self._pricing):
            return None
        pieces = [item.piece for item in self.quote.items]
        items = list(self.job.items)
        items[self.index] = change.of(items[self.index], self.quoted.piece)
        pieces[self.index] = made
        counted = tuple((one, item.quantity) for one, item in zip(pieces, items, strict=True))
        try:
            if self._sent_with_the_job and any(self._faults(made)):
                return None
            cost = costed(replace(self.job, items=tuple(items)), counted, self.shop)
        except Refused:
            return None
        before = {(f.rule, f.title) for f in self.quote.findings if f.level in WORTH}
        fresh = [f for f in cost.findings if f.level in WORTH and (f.rule, f.title) not in before]
        return None if fresh else cost

    @property
    def _pricing(self) -> int:
        return effort.priced(sum(len(item.piece.members) for item in self.quote.items))

    @property
    def proof(self) -> int:
        """What it takes to build, check and price one change."""
        return effort.built(self.members) + self._checking(ALL) + self._pricing

    @property
    def _sent_with_the_job(self) -> bool:
        return self.job.items[self.index].inline is not None

    def _faults(self, made: Piece) -> Iterable[object]:
        """For what a template that came with the job would be refused at these sizes."""
        yield from piece.faults_of(made, self.shop)
        yield from not_makeable(made, self.shop, self.job.on_hand)

    def _made(self, change: Change, on: On) -> Piece | None:
        if (change.key, on) not in self.made:
            counts = {On.PLACE: effort.PLACED, On.FIGURES: effort.FIGURES}
            if not self.effort.spend(counts.get(on) or effort.built(self.members)):
                return None
            self.made[change.key, on] = self._make(change, on)
        return self.made[change.key, on]

    def _make(self, change: Change, on: On) -> Piece | None:
        present, units = self.quoted.piece, self.job.units
        asked_nm = {**present.dimensions_nm, **dict(change.dimensions)}
        wanted = {**present.choices, **dict(change.choices)}
        try:
            dimensions_nm, choices = sizes(present.template, asked_nm, wanted, units)
            if on is On.PLACE:    # the fit's check looks at no member
                return replace(present, dimensions_nm=dimensions_nm, choices=choices, members=(), contacts=(),
                               joints=())
            if on is On.FIGURES:
                return piece.figures(present.template, dimensions_nm, choices, self.shop, units)
            allowance = piece.INLINE if self._sent_with_the_job else piece.OWN
            return piece.build(present.template, dimensions_nm, choices, self.shop, units, allowance)
        except Refused:
            return None


WORTH_OR_LESS: Mapping[Level | None, int] = {
    level: WORTH.index(level) if level in WORTH else len(WORTH) for level in (None, *Level)}


def _least(rule: str) -> On:
    """The least that a rule looks at."""
    return On.PLACE if rule in (FIT, WAY_IN) else On.WHOLE if CHECKED[rule].solids else On.FIGURES


def _there(finding: Finding, found: Iterable[Finding]) -> bool:
    return any((f.rule, f.title) == (finding.rule, finding.title) for f in found if f.level in SERIOUS)


def source(finding: Finding) -> str:
    """The check that gives the finding; what the fit's check hands on is the way in, or of the place."""
    return finding.rule if finding.rule in CHECKED or finding.rule == WAY_IN else FIT
