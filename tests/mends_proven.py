"""A mend taken as somebody takes it who types it in: its job built, checked and priced afresh."""

from __future__ import annotations

from dataclasses import replace

from yardwright.domain.finding import Finding, Level, Mend
from yardwright.domain.job import Job
from yardwright.domain.quote import Quote
from yardwright.domain.shop import Shop
from yardwright.quoting import make_quote, trials


def serious(quote: Quote) -> dict[tuple[str, str], Finding]:
    """The stops and cautions of its only item, by rule and title."""
    return {(f.rule, f.title): f for f in quote.items[0].findings if f.level in trials.SERIOUS}


def taken(asked: Job, mend: Mend) -> Job:
    """The job with the mend's sizes and choices asked for."""
    item = asked.items[0]
    changed = replace(item, dimensions={**item.dimensions, **dict(mend.dimensions)},
                      choices={**item.choices, **dict(mend.choices)})
    return replace(asked, items=(changed,), mends=False)


def proven(asked: Job, finding: Finding, before: Quote, shop: Shop) -> Mend:
    """The finding's nearest mend, after it and every other of its mends was quoted: each takes the finding
    away, brings no stop and no caution that was not there, unless a rule's stop comes down to a caution, and
    costs what it says."""
    assert finding.searched == "found" and finding.mends
    for mend in finding.mends:
        again = make_quote(taken(asked, mend), shop)
        assert (finding.rule, finding.title) not in serious(again)
        stops = {f.rule for f in serious(before).values() if f.level == Level.STOP}
        fresh = [f for named, f in serious(again).items() if named not in serious(before)]
        assert all(f.level == Level.CAUTION and f.rule in stops for f in fresh)
        assert {f.title for f in again.findings} <= {f.title for f in before.findings}
        assert mend.difference == again.price.total - before.price.total
        if mend.measured:
            after = [f for f in again.items[0].findings if f.title == mend.after.split("; ")[0]]
            assert (mend.measured, mend.limit) in [(f.measured, f.limit) for f in after]
    return finding.mends[0]
