"""The change that would mend it: looked for in the template's own sizes and choices, proven, repriced.

For each ``stop`` and ``caution`` of an item the nearest change is looked for that takes it away and brings
neither a new stop nor a new caution: an option, a heavier section, more posts, the timber, a size; two at
once where no single one does. Where a stop comes down to a caution of its own check, or to something not
checked, that is told, and comes after what leaves nothing. What is found is held against every check and
priced with the whole job. A piece that is sound costs nothing. Work is counted, never timed, and shared out
among the findings; that a search found nothing or was stopped is told by ``searched`` alone, for the phone to
say and to offer more.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..domain.finding import Finding, Level, Mend
from ..domain.quote import Quote, QuotedItem
from ..domain.shop import Shop
from . import effort
from .changes import Change, options, ways
from .effort import Effort
from .pairs import mending
from .search import Search
from .trials import ALL, FIT, SERIOUS, WAY_IN, On, Trials, source

NOT_BY_CHANGE = frozenset({"drop behind", "fall of the ground"})    # of the place, not of the piece
MOST_WORK = 3000             # units of trials, of one quote that did not ask for mends
OF_INLINE = 1500             # of one that asked, with a template that came with it
MOST_MENDS = 3               # of one finding, for a job that asks for several
ASKED = 4                    # times the work for such a job
PROOFS = 2.5                 # of changes that each finding may have, while there is work left
TIMES_QUOTE = 2              # a quote of much more than that may take so many times its own work


def with_mends(quote: Quote, shop: Shop) -> Quote:
    """The quote with mends on the stops and cautions of its items; itself where there is nothing to mend.

    A job that says ``mends`` gets up to three of each finding and four times the work (half the work where a
    template came with it); one that says nothing gets one, for templates of the shop's own; one that says no
    gets none.
    """
    asked = quote.job.mends
    if asked is False or not any(_targets(item) for item in quote.items):
        return quote
    inline = any(item.inline is not None for item in quote.job.items)     # nobody knows what these cost
    left_to_do = Effort(_most_work(quote, bool(asked), inline))
    most = MOST_MENDS if asked else 1
    told = [index for index, item in enumerate(quote.job.items) if asked or item.inline is None]
    left = sum(len(_targets(quote.items[index])) for index in told)
    items = list(quote.items)
    for index in told:
        items[index] = _mended_item(Trials(quote, index, shop, left_to_do), most, left)
        left -= len(_targets(quote.items[index]))
    of_items = {(f.rule, f.level, f.title, f.detail): f for item in items for f in item.findings}
    held = tuple(of_items.get((f.rule, f.level, f.title, f.detail), f) for f in quote.stopped_by)
    return replace(quote, items=tuple(items), stopped_by=held)


def _most_work(quote: Quote, asked: bool, inline: bool) -> int:
    if inline:
        return OF_INLINE
    of_the_quote = TIMES_QUOTE * effort.whole_quote(item.piece for item in quote.items)
    return max(MOST_WORK, of_the_quote) * (ASKED if asked else 1)


def _targets(item: QuotedItem) -> list[Finding]:
    return [f for f in item.findings if f.level in SERIOUS and f.rule not in NOT_BY_CHANGE]


def _mended_item(trials: Trials, most: int, left: int) -> QuotedItem:
    """The item with its findings mended, ``left`` of the quote's still to come, those looked at on little
    first, stops before cautions; a change found for one that mends the next too is taken for both."""
    found: dict[Finding, Finding] = {}
    known: list[Change] = []
    made = trials.quoted.piece
    sizes = tuple(ways(made, trials.job.units))
    sold = [option for option in options(made, trials.shop) if trials.sold(option)]
    targets = [(trials.on(f), SERIOUS.index(f.level), n, f) for n, f in enumerate(_targets(trials.quoted))]
    for number, (on, _, _, finding) in enumerate(sorted(targets, key=lambda t: t[:3])):
        trials.effort.begin(left - number, round(PROOFS * trials.proof))
        offered = sold if source(finding) in (FIT, WAY_IN) else [o for o in sold if not o.of_place]
        search = Search(trials, finding, offered, sizes, on)
        serve = [c for c in known if most == 1 and trials.proven(c, finding)]
        changes = [c for c in serve if not trials.left(c)][:1] or mending(search, most) or serve[:1]
        known += [c for c in changes if c not in known]
        mends = [mend for change in changes if (mend := _mend(search, change))]
        found[finding] = _mended(finding, mends, trials.effort.stopped)
    return replace(trials.quoted, findings=tuple(found.get(f, f) for f in trials.quoted.findings))


def _mend(search: Search, change: Change) -> Mend | None:
    difference = search.trials.difference(change)
    if difference is None:
        return None
    after = _after(search, change)
    told = (after.title, after.measured, after.limit) if after else ("", "", "")
    unknown = "; ".join(f.title for f in search.trials.left(change) if f.level is Level.NOT_CHECKED)
    said = "; ".join(text for text in (told[0], unknown) if text)
    return Mend(change.dimensions, change.choices, change.text, difference, said, *told[1:])


def _after(search: Search, change: Change) -> Finding | None:
    """What the same check then finds of the same thing: by its title, its limit, or alone; what it leaves to
    be minded before all."""
    before, left = search.finding, search.trials.left(change)
    found = search.trials.findings(change, ALL, On.WHOLE) or ()
    same = [f for f in found if source(f) == source(before) and f.measured]
    calm = [f for f in same if f.level not in SERIOUS]
    minded = [f for f in same if f in left and f.level is Level.CAUTION]
    named = [f for f in calm if f.title.split(":")[0] == before.title.split(":")[0]]
    limited = [f for f in calm if f.limit and f.limit == before.limit]
    return next(iter(minded or named or limited or (calm if len(calm) == 1 else [])), None)


def _mended(finding: Finding, mends: Sequence[Mend], stopped: bool) -> Finding:
    """The finding with its mends in words. A search without one says nothing on paper."""
    if not mends:
        return replace(finding, searched="stopped" if stopped else "nothing")
    kept = finding.mend.rstrip(". ")
    told = "; or ".join(f"{m.text} ({_signed(m)}{_then(m)})" for m in mends)
    mend = f"{kept}; or {told}." if kept else f"{told[0].upper()}{told[1:]}."
    return replace(finding, mends=tuple(mends), searched="found", mend=mend)


def _signed(mend: Mend) -> str:
    sign = "+" if mend.difference.minor >= 0 else ""
    return f"{sign}{mend.difference.text()} {mend.difference.currency}"


def _then(mend: Mend) -> str:
    if not mend.after:
        return ""
    told = f"; then {mend.after[0].lower()}{mend.after[1:]}" + (f", {mend.measured}" if mend.measured else "")
    return told + (f", limit {mend.limit}" if mend.limit else "")
