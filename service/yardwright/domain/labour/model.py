"""Nouns of the labour sheet."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation of the labour sheet. minutes = set-up + count x each, then the allowance on top.

    ``count``, ``per`` and ``each_minutes`` are in the job's units: metres of rip, or feet.
    """

    standard: str
    name: str
    phase: str
    count: float
    per: str
    each_minutes: float
    setup_minutes: float
    minutes: float               # with allowance
    by_item: tuple[float, ...]   # minutes of each item of the job, set-up shared
    working: str


@dataclass(frozen=True, slots=True)
class Labour:
    operations: tuple[Operation, ...]
    hours: float
    wait_hours: float            # clamps and drying, not paid
    elapsed_days: int
    working: str
