"""Over jobs by chance: every mend offered is quoted and confirmed, and hardly any search is cut short."""

from __future__ import annotations

import functools
from collections import Counter

import pytest

from mends_proven import proven, serious
from random_jobs import TEMPLATES, jobs
from yardwright.domain.job import Job
from yardwright.domain.quote import Quote
from yardwright.domain.shop import Shop
from yardwright.quoting import make_quote, mends, with_mends

JOBS = 30                    # each template six times, three in each shop
MOST_STOPPED = 0.10


@functools.cache
def quoted() -> tuple[tuple[Job, Shop, Quote, Quote], ...]:
    """Each job with its quote without mends and with them."""
    made = ((job, shop, make_quote(job, shop)) for job, shop in jobs(JOBS, seed=11))
    return tuple((job, shop, before, with_mends(before, shop)) for job, shop, before in made)


@pytest.mark.parametrize("template", TEMPLATES)
def test_every_mend_offered_holds_when_it_is_quoted(template: str) -> None:
    offered = 0
    for job, shop, before, quote in quoted():
        if job.items[0].template != template:
            continue
        for finding in serious(quote).values():
            if finding.mends:
                proven(job, finding, before, shop)
                offered += len(finding.mends)
    assert offered


def test_hardly_any_search_is_cut_short() -> None:
    searched = Counter(f.searched for *_, quote in quoted() for f in serious(quote).values()
                       if f.rule not in mends.NOT_BY_CHANGE)
    assert not searched[""] and searched["found"] > searched["stopped"]
    assert searched["stopped"] <= MOST_STOPPED * searched.total()


def test_a_search_tells_the_finding_s_own_mend_too() -> None:
    for *_, before, quote in quoted():
        own = {(f.rule, f.title, f.detail): f.mend.rstrip(". ") for f in before.items[0].findings}
        for f in quote.items[0].findings:
            assert f.mend.startswith(own[f.rule, f.title, f.detail])
