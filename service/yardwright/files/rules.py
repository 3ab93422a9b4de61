"""Limits, room to keep clear and time standards from data/."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from ..domain.market import Figure
from ..domain.shop import KeepClear, TimeStandard
from .tomldoc import Entry, read
from .trade import STATUSES, figure

PHASES = ("prepare", "cut", "join", "finish", "fit", "office")


def read_limits(folder: Path) -> Mapping[str, Figure]:
    """Every figure below data/limits/ by its address: file name, then its tables, joined by dots."""
    return {address: figure(entry)
            for path in sorted(folder.glob("*.toml")) if path.stem != "keep_clear"
            for address, entry in _figures(path.stem, read(path))}


def _figures(address: str, entry: Entry) -> Iterator[tuple[str, Entry]]:
    for name, below in entry.tables():
        if "value" in below.value:
            yield f"{address}.{name}", below
        else:
            yield from _figures(f"{address}.{name}", below)


def read_keep_clear(folder: Path) -> Mapping[str, KeepClear]:
    """Room to keep free around things on walls: keep_clear.toml, one table for each kind."""
    return {kind: _keep_clear(kind, entry) for path in folder.glob("keep_clear.toml")
            for kind, entry in read(path).tables()}


def _keep_clear(kind: str, entry: Entry) -> KeepClear:
    entry.only("label", "sides", "front", "above", "below", "solid", "level", "advice", "source", "status")
    return KeepClear(kind, entry.word("label"), entry.length("sides"), entry.length("front"),
                     entry.length("above"), entry.length("below"), entry.truth("solid"),
                     entry.one_of("level", ("stop", "caution")), entry.word("advice"),
                     entry.word("source"), entry.one_of("status", STATUSES))


def read_times(folder: Path) -> Mapping[str, TimeStandard]:
    """All time standards of a folder by id; a later file (the shop's own) replaces an earlier one."""
    return {standard.id: standard for path in sorted(folder.glob("*.toml"))
            for standard in (_standard(name, entry) for name, entry in read(path).tables())}


def _standard(name: str, entry: Entry) -> TimeStandard:
    entry.only("name", "phase", "per", "each", "setup", "source", "status")
    setup = entry.quantity("setup", "min") if entry.has("setup") else 0.0
    each = entry.quantity("each", "min")
    if min(each, setup) < 0:
        raise entry.fault("a time is never below 0")
    return TimeStandard(name, entry.word("name"), entry.one_of("phase", PHASES), entry.word("per"), each,
                        setup, entry.word("source"), entry.one_of("status", STATUSES))
