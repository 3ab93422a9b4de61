"""Real quotes for the papers: the seed jobs worked out with the demonstration shop."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

from yardwright.domain.job import Job, Override
from yardwright.domain.quote import Quote
from yardwright.domain.shop import Shop
from yardwright.http.papers import quote_answer
from yardwright.http.quantities import Speaking, Voice
from yardwright.http.schemas.base import load
from yardwright.http.schemas.job import Job as JobSchema
from yardwright.quoting import make_quote
from yardwright.wiring import load_shop

SEEDS = Path(__file__).parents[2] / "seed_scenarios"
TODAY = date(2026, 11, 25)


@cache
def shop() -> Shop:
    return load_shop("demo_shop")


def job_of(name: str) -> Job:
    """The job of one seed scenario, as the service reads it."""
    with Voice(Speaking(shop(), shop().units, TODAY)):
        job: Job = load(JobSchema(), json.loads((SEEDS / name / "job.json").read_text()))
    return job


@cache
def quote_of(name: str) -> Quote:
    """The quote of one seed scenario; every stop answered for, so that a paper may go out."""
    found = make_quote(job_of(name), shop())
    if not found.stopped_by:
        return found
    answered = tuple(Override(f.rule, "accepted", "Seen on site.") for f in found.stopped_by)
    return replace(found, stopped_by=(), job=replace(found.job, overrides=answered))


def answer_of(name: str) -> dict[str, Any]:
    """The same as the customer's JSON."""
    return quote_answer(quote_of(name), shop(), "customer")
