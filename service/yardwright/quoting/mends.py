"""The change that would mend it: looked for in the template's own sizes and choices, proven, repriced.

For each ``stop`` and ``caution`` of an item the nearest change is looked for that takes it away and brings
neither a new stop nor a new caution: an option, a heavier section, more posts, the timber, a size; two at
once where no single one does. What is found is held against every check and priced with the whole job. A
piece that is sound costs nothing. Work is counted, never timed, and shared out among the findings; a search
that was stopped says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..domain.finding import Finding, Mend
from ..domain.quote import Quote, QuotedItem
from ..domain.shop import Shop
from .changes import Change, options, ways
from .search import Search, mending
from .trials import ALL, CHECKED, PIECE, SERIOUS, Effort, Trials, source

NOT_BY_CHANGE = frozenset({"drop behind", "fall of the ground"})    # of the place, not of the piece
MOST_BUILT = 50              # pieces built or checked in trials, of one quote that did not ask for mends
MOST_PRICED = 6              # items priced again
MOST_MENDS = 3               # of one finding, for a job that asks for several
ASKED = 4                    # times the work for such a job
NONE_FOUND = "No change of this template's sizes and choices that was tried mends it, nor two at once."
STOPPED = "The search for a change that mends it was stopped after its share of work."


def with_mends(quote: Quote, shop: Shop) -> Quote:
    """The quote with mends on the stops and cautions of its items; itself where there is nothing to mend.

    A job that says ``mends`` gets up to three of each finding and four times the work (once the work where a
    template came with it); one that says nothing gets one, for templates of the shop's own; one that says no
    gets none.
    """
    asked = quote.job.mends
    if asked is False or not any(_targets(item) for item in quote.items):
        return quote
    inline = any(item.inline is not None for item in quote.job.items)     # nobody knows what these cost
    times, most = (1 if inline else ASKED, MOST_MENDS) if asked else (1, 1)
    effort = Effort(MOST_BUILT * PIECE * times, MOST_PRICED * times)
    told = [index for index, item in enumerate(quote.job.items) if asked or item.inline is None]
    left = sum(len(_targets(quote.items[index])) for index in told)
    items = list(quote.items)
    for index in told:
        items[index] = _mended_item(Trials(quote, index, shop, effort), most, left)
        left -= len(_targets(quote.items[index]))
    of_items = {(f.rule, f.level, f.title, f.detail): f for item in items for f in item.findings}
    held = tuple(of_items.get((f.rule, f.level, f.title, f.detail), f) for f in quote.stopped_by)
    return replace(quote, items=tuple(items), stopped_by=held)


def _targets(item: QuotedItem) -> list[Finding]:
    return [f for f in item.findings if f.level in SERIOUS and f.rule not in NOT_BY_CHANGE]


def _mended_item(trials: Trials, most: int, left: int) -> QuotedItem:
    """The item with its findings mended, ``left`` of the quote's still to come, those looked at on figures
    alone first; a change found for one that mends the next too is taken for both."""
    found: dict[Finding, Finding] = {}
    known: list[Change] = []
    made = trials.quoted.piece
    offered, sizes = options(made, trials.shop), tuple(ways(made, trials.job.units))
    cheapest = sorted(_targets(trials.quoted), key=lambda f: CHECKED[source(f)].solids)
    for number, finding in enumerate(cheapest):
        trials.effort.begin(left - number)
        search = Search(trials, finding, offered, sizes)
        changes = [c for c in known if most == 1 and _also(trials, c, finding)][:1] or mending(search, most)
        known += [c for c in changes if c not in known]
        mends = [mend for change in changes if (mend := _mend(search, change))]
        found[finding] = _mended(finding, mends, trials.effort.stopped)
    return replace(trials.quoted, findings=tuple(found.get(f, f) for f in trials.quoted.findings))


def _also(trials: Trials, change: Change, finding: Finding) -> bool:
    """Whether a change found for another finding takes this one away too."""
    return all((f.rule, f.title) != (finding.rule, finding.title)
               for f in trials.findings(change, ALL) or (finding,) if f.level in SERIOUS)


def _mend(search: Search, change: Change) -> Mend | None:
    difference = search.trials.difference(change)
    if difference is None:
        return None
    after = _after(search.finding, search.trials.findings(change, ALL) or ())
    told = (after.title, after.measured, after.limit) if after else ("", "", "")
    return Mend(change.dimensions, change.choices, change.text, difference, *told)


def _after(before: Finding, findings: Sequence[Finding]) -> Finding | None:
    """What the same check then finds of the same thing: by its title, its limit, or alone."""
    same = [f for f in findings if source(f) == source(before) and f.measured and f.level not in SERIOUS]
    named = [f for f in same if f.title.split(":")[0] == before.title.split(":")[0]]
    limited = [f for f in same if f.limit and f.limit == before.limit]
    found = named or limited or (same if len(same) == 1 else [])
    return found[0] if found else None


def _mended(finding: Finding, mends: Sequence[Mend], stopped: bool) -> Finding:
    kept = finding.mend.rstrip(". ")
    if not mends:
        said = STOPPED if stopped else NONE_FOUND
        return replace(finding, searched="stopped" if stopped else "nothing",
                       mend=f"{kept}. {said}" if kept else said)
    told = "; or ".join(f"{m.text} ({_signed(m)}{_then(m)})" for m in mends)
    mend = f"{kept}; or {told}." if kept else f"{told[0].upper()}{told[1:]}."
    return replace(finding, mends=tuple(mends), searched="found", mend=mend)


def _signed(mend: Mend) -> str:
    sign = "+" if mend.difference.minor >= 0 else ""
    return f"{sign}{mend.difference.text()} {mend.difference.currency}"


def _then(mend: Mend) -> str:
    if not mend.measured:
        return ""
    told = f"{mend.after[0].lower()}{mend.after[1:]}"
    return f"; then {told}, {mend.measured}" + (f", limit {mend.limit}" if mend.limit else "")
