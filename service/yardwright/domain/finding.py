"""A finding: the result of one check. Data, never an exception."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from .money import Money


class Level(StrEnum):
    """How serious a finding is; ``stop`` keeps the paper from being issued without a written override."""

    OK = "ok"
    NOTE = "note"
    CAUTION = "caution"
    STOP = "stop"
    NOT_CHECKED = "not checked"


@dataclass(frozen=True, slots=True)
class Mend:
    """A change of the customer's own dimensions or choices that takes a finding away, and what it costs.

    ``dimensions`` (name, nm) and ``choices`` (name, id) hold only what changes; ``difference`` is the new
    total of the whole job less the present one; ``after``, ``measured`` and ``limit`` are what the same
    check then finds, empty where it has nothing more to say.
    """

    dimensions: tuple[tuple[str, int], ...]
    choices: tuple[tuple[str, str], ...]
    text: str
    difference: Money
    after: str = ""              # what the check then says, in short
    measured: str = ""
    limit: str = ""


@dataclass(frozen=True, slots=True)
class Finding:
    """One check's answer: what was measured against which limit, from where, and what would mend it.

    ``measured`` and ``limit`` are already in words with units ("3.1 mm", "250 lbf on one board");
    lengths inside them are written by the caller through a ``measure.Writer`` so that they follow
    the job's units. ``customer`` says whether the customer's paper shows it.
    """

    rule: str
    level: Level
    title: str
    detail: str
    measured: str = ""
    limit: str = ""
    source: str = ""
    mend: str = ""
    working: str = ""
    customer: bool = True
    mends: tuple[Mend, ...] = ()     # nearest first
    searched: str = ""               # "" no change was looked for, "found", "nothing", "stopped"
