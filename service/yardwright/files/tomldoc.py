"""A TOML file as entries that know where they stand, so that every complaint names file and line.

Read through :class:`Entry`: it hands out words, numbers, lengths and tables, and refuses what is
missing, misspelt or of the wrong kind with what would be right.
"""

from __future__ import annotations

import difflib
import re
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from ..domain import measure
from ..domain.errors import BadData, BadLength, Fault
from .units import BadUnit, to_engine

Keys = tuple[str | int, ...]
_HEADER = re.compile(r"^\s*(\[\[?)\s*(.+?)\s*\]\]?\s*(#.*)?$")
_NAME = r"""(?:[A-Za-z0-9_-]+|"[^"]*"|'[^']*')"""
_ASSIGN = re.compile(rf"^\s*({_NAME}(?:\s*\.\s*{_NAME})*)\s*=")
_KEY = re.compile(r"""[A-Za-z0-9_-]+|"([^"]*)"|'([^']*)'""")


def line_of(text: str, keys: Sequence[str | int]) -> int:
    """The line (from 1) on which the entry at ``keys`` begins, or its nearest parent that can be found.

    >>> line_of('a = 1\\n[[b]]\\nc = 2\\n[[b]]\\nc = 3\\n', ("b", 1, "c"))
    5
    """
    best, best_depth = 1, 0
    for number, path in _starts(text):
        depth = _shared(path, keys)
        if depth == len(path) and depth > best_depth:
            best, best_depth = number, depth
    return best


def _starts(text: str) -> Iterator[tuple[int, Keys]]:
    counts: dict[Keys, int] = {}
    table: Keys = ()
    for number, line in enumerate(text.splitlines(), 1):
        if header := _HEADER.match(line):
            path = _with_indices(_names(header[2]), counts)
            if header[1] == "[[":
                counts[path] = counts.get(path, -1) + 1
                path = (*path, counts[path])
            table = path
            yield number, table
        elif assign := _ASSIGN.match(line):
            yield number, table + _names(assign[1])


def _names(dotted: str) -> Keys:
    return tuple(m[1] if m[1] is not None else m[2] if m[2] is not None else m[0]
                 for m in _KEY.finditer(dotted))


def _with_indices(names: Keys, counts: dict[Keys, int]) -> Keys:
    """``b.c`` below the latest ``[[b]]`` is ``b, 1, c``."""
    path: Keys = ()
    for at, name in enumerate(names):
        path = (*path, name)
        if path in counts and at < len(names) - 1:
            path = (*path, counts[path])
    return path


def _shared(path: Sequence[str | int], keys: Sequence[str | int]) -> int:
    depth = 0
    for one, other in zip(path, keys, strict=False):
        if one != other:
            break
        depth += 1
    return depth


@dataclass(frozen=True, slots=True)
class Entry:
    """A value in a TOML file with its place; ``file`` is the name shown in complaints."""

    file: str
    text: str
    keys: Keys
    value: Any

    def fault(self, detail: str, *below: str | int) -> BadData:
        """The complaint about this entry (or one below it), ready to raise."""
        keys = self.keys + below
        name = ".".join(str(k) for k in keys)
        place = f"{self.file}:{line_of(self.text, keys)}"
        return BadData(Fault(place, f"{name}: {detail}" if name else detail))

    def has(self, key: str) -> bool:
        return key in self.value

    def at(self, key: str) -> Entry:
        """The entry below, which must be there."""
        if key not in self.value:
            near = difflib.get_close_matches(key, list(self.value), 1)
            hint = f"; is {near[0]!r} meant for it?" if near else ""
            raise self.fault(f"{key!r} is missing{hint}")
        return Entry(self.file, self.text, (*self.keys, key), self.value[key])

    def table(self, key: str) -> Entry:
        below = self.at(key)
        if not isinstance(below.value, dict):
            raise below.fault("a table is expected here")
        return below

    def tables(self) -> Iterator[tuple[str, Entry]]:
        """Every table below, by name; anything else there is refused."""
        for key in self.value:
            yield key, self.table(key)

    def rows(self, key: str) -> tuple[Entry, ...]:
        """An array of tables (``[[key]]``)."""
        below = self.at(key)
        if not isinstance(below.value, list) or not all(isinstance(v, dict) for v in below.value):
            raise below.fault(f"[[{key}]] tables are expected here")
        return tuple(Entry(self.file, self.text, (*below.keys, i), v) for i, v in enumerate(below.value))

    def only(self, *names: str) -> None:
        """Refuse keys nobody reads, with the name that may have been meant."""
        for key in self.value:
            if key not in names:
                near = difflib.get_close_matches(key, names, 1)
                hint = f"did you mean {near[0]!r}?" if near else f"known here: {', '.join(names)}"
                raise self.fault(f"unknown key; {hint}", key)

    def word(self, key: str, default: str | None = None) -> str:
        if default is not None and key not in self.value:
            return default
        below = self.at(key)
        if not isinstance(below.value, str):
            raise below.fault(f'a text in quotes is expected, like "{below.value}"')
        return below.value

    def one_of(self, key: str, allowed: Sequence[str]) -> str:
        word = self.word(key)
        if word not in allowed:
            raise self.fault(f"{word!r} is none of {', '.join(map(repr, allowed))}", key)
        return word

    def words(self, key: str) -> tuple[str, ...]:
        if key not in self.value:
            return ()
        below = self.at(key)
        if not isinstance(below.value, list) or not all(isinstance(v, str) for v in below.value):
            raise below.fault('a list of texts is expected, like ["one", "two"]')
        return tuple(below.value)

    def number(self, key: str, least: float = 0.0) -> float:
        below = self.at(key)
        if isinstance(below.value, bool) or not isinstance(below.value, int | float):
            raise below.fault("a number is expected")
        if below.value < least:
            raise below.fault(f"{below.value} is less than {least:g}, the least that makes sense here")
        return float(below.value)

    def numbers(self, key: str) -> tuple[float, ...]:
        below = self.at(key)
        if not isinstance(below.value, list) or not below.value:
            raise below.fault("a list of numbers is expected, like [4.5, 5.9]")
        if any(isinstance(v, bool) or not isinstance(v, int | float) or v <= 0 for v in below.value):
            raise below.fault("every number here must be above 0")
        return tuple(float(v) for v in below.value)

    def whole(self, key: str, least: int = 0) -> int:
        value = self.number(key, least)
        if value != int(value):
            raise self.fault(f"{value} is not a whole number", key)
        return int(value)

    def truth(self, key: str) -> bool:
        below = self.at(key)
        if not isinstance(below.value, bool):
            raise below.fault("true or false is expected")
        return below.value

    def share(self, key: str, below_one: bool = True) -> str:
        """A share as exact decimal text ("0.0725")."""
        word = self.word(key)
        try:
            share = Decimal(word)
        except InvalidOperation:
            raise self.fault(f'{word!r} is no decimal share; 7.25 % is written "0.0725"', key) from None
        if not share.is_finite() or share < 0 or (below_one and share >= 1):
            raise self.fault(f'{word} is no share from 0 to below 1; 7.25 % is written "0.0725"', key)
        return word

    def length(self, key: str) -> int:
        """A length with its unit ("1/8 in", "3.2 mm"), in nm, not below zero."""
        word = self.word(key)
        try:
            return measure.read(word, None).nm
        except BadLength as bad:
            raise self.fault(f"{bad}; a length is written with its unit, like \"1/8 in\"", key) from None

    def quantity(self, key: str, unit: str) -> float:
        """A ``{value, unit}`` table in the engine's ``unit``."""
        below = self.table(key)
        value, got = convert(below)
        if got != unit:
            raise below.fault(f"{below.word('unit')!r} is of another kind; {unit!r} or the like is expected")
        return value


def convert(entry: Entry) -> tuple[float, str]:
    """The value and unit of a ``{value, unit}`` table in engine units."""
    try:
        return to_engine(entry.number("value", least=float("-inf")), entry.word("unit"))
    except BadUnit as bad:
        raise entry.fault(str(bad), "unit") from None


def read(path: Path, shown: str = "") -> Entry:
    """The whole file as one entry; BadData with the line where it is no TOML."""
    shown = shown or f"{path.parent.name}/{path.name}"
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        raise BadData(Fault(shown, "the file is missing")) from None
    except (OSError, UnicodeDecodeError) as bad:
        raise BadData(Fault(shown, f"the file cannot be read as UTF-8 text: {bad}")) from None
    return parse(text, shown)


def parse(text: str, shown: str) -> Entry:
    """TOML text as one entry."""
    try:
        return Entry(shown, text, (), tomllib.loads(text))
    except tomllib.TOMLDecodeError as bad:
        at = re.search(r"line (\d+)", str(bad))
        line = at[1] if at else str(len(text.splitlines()))
        raise BadData(Fault(f"{shown}:{line}", f"this is no TOML: {bad}")) from None
