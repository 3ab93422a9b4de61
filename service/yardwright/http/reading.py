"""Strict JSON: what Python's reader lets through by default is refused here, with a pointer to it.

RFC 8259 has no NaN and no duplicate members worth trusting; a number beyond a float, a number of
thousands of digits, nesting beyond 64 levels and text that cannot be written as UTF-8 are refused
before any schema sees them. Size is limited by the guard.
"""

from __future__ import annotations

import json
import math
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from ..domain.errors import Fault, Refused

MOST_DEPTH = 64
MOST_DIGITS = 30
MOST_FAULTS = 20

# A whole string (an unfinished one runs to the end, so that the scan stays linear), or a bracket.
_STRINGS = re.compile(r'"(?:[^"\\]|\\.)*+(?:"|\\?\Z)', re.DOTALL)
_BRACKETS = re.compile(r"[\[\]{}]")
_TOKENS = re.compile(_STRINGS.pattern + r"|[\[\]{}:,]", re.DOTALL)
# Control characters other than tab and line ends, text-direction overrides, halves of surrogate pairs.
_UNFIT = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f"
                    "\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]")


class BadJson(Refused):
    """The body is not JSON that can be trusted."""

    code = "bad-json"
    title = "The body is not acceptable JSON"


@dataclass(frozen=True, slots=True)
class _Wrong:
    """Stands in the tree where a value was refused, until the walk finds its pointer."""

    detail: str


def read_json(raw: bytes) -> Any:
    """The value in ``raw``; BadJson names every refused value by its JSON Pointer."""
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as error:
        raise BadJson(Fault("", f"byte {error.start} is not UTF-8; send JSON as UTF-8")) from None
    _limit_depth(text)
    hooks = _Hooks()
    value = _parse(text, hooks)
    suspect = hooks.refused or "\\u" in text or _UNFIT.search(text)      # else there is nothing to look for
    faults = [Fault(pointer, detail) for pointer, detail in _wrongs(value, "")] if suspect else []
    if faults:
        raise BadJson(*faults[:MOST_FAULTS])
    return value


def _parse(text: str, hooks: _Hooks) -> Any:
    try:
        return json.loads(text, parse_constant=hooks.constant, parse_float=hooks.float, parse_int=hooks.int,
                          object_pairs_hook=hooks.object)
    except json.JSONDecodeError as error:
        where = f"line {error.lineno}, column {error.colno}"
        raise BadJson(Fault("", f"{error.msg[0].lower()}{error.msg[1:]} at {where}")) from None


@dataclass(slots=True)
class _Hooks:
    """What the reader asks of numbers and objects; ``refused`` once one of them was."""

    refused: bool = False

    def wrong(self, detail: str) -> _Wrong:
        self.refused = True
        return _Wrong(detail)

    def constant(self, word: str) -> _Wrong:
        return self.wrong(f"{word} is not a number in JSON; give a number with digits")

    def float(self, digits: str) -> Any:
        if len(digits) > 2 * MOST_DIGITS:
            return self.wrong(f"a number of {len(digits)} characters; at most {2 * MOST_DIGITS} are read")
        number = float(digits)
        beyond = f"{digits} is beyond any number that can be worked with"
        return number if math.isfinite(number) else self.wrong(beyond)

    def int(self, digits: str) -> Any:
        if len(digits) > MOST_DIGITS:
            return self.wrong(f"a number of {len(digits)} digits; at most {MOST_DIGITS} are read")
        return int(digits)

    def object(self, pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        found = dict(pairs)
        if len(found) < len(pairs):
            often = Counter(name for name, _ in pairs)
            found |= {name: self.wrong("this member is given twice; keep one")
                      for name, times in often.items() if times > 1}
        return found


def _wrongs(value: Any, pointer: str) -> Iterator[tuple[str, str]]:
    if isinstance(value, _Wrong):
        yield pointer, value.detail
    elif isinstance(value, str):
        if bad := _UNFIT.search(value):
            yield pointer, _unfit(bad.group())
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _wrongs(inner, f"{pointer}/{index}")
    elif isinstance(value, dict):
        for name, inner in value.items():
            if bad := _UNFIT.search(name):
                yield pointer, f"a member's name holds {_unfit(bad.group())}"
            else:
                yield from _wrongs(inner, f"{pointer}/{escaped(name)}")


def _unfit(character: str) -> str:
    kind = "half of a surrogate pair" if 0xD800 <= ord(character) <= 0xDFFF else "a control character"
    return f"{kind} (U+{ord(character):04X}), which cannot be printed; take it out"


def escaped(name: str) -> str:
    """A member's name as one step of a JSON Pointer (RFC 6901), shortened when absurdly long."""
    return name.replace("~", "~0").replace("/", "~1")[:120]


def _limit_depth(text: str) -> None:
    depth = most = 0
    for bracket in _BRACKETS.findall(_STRINGS.sub("", text)):
        depth += 1 if bracket in "[{" else -1
        most = max(most, depth)
    if most > MOST_DEPTH:
        _too_deep(text)


def _too_deep(text: str) -> None:
    """The same again with its place in the text."""
    depth = 0
    for token in _TOKENS.finditer(text):
        first = text[token.start()]
        if first in "[{":
            depth += 1
            if depth > MOST_DEPTH:
                detail = f"nested more than {MOST_DEPTH} levels deep at character {token.start()}"
                raise BadJson(Fault(_path_to(text, token.start()), detail))
        elif first in "]}":
            depth -= 1


def _path_to(text: str, end: int) -> str:
    """The pointer of the outermost members around ``end``: the first three steps name the field."""
    steps: list[str | int] = []
    last = ""
    for token in _TOKENS.finditer(text, 0, end):
        mark = token.group()
        if mark[0] == '"':
            last = mark[1:-1]
        elif mark in "[{":
            steps.append(0 if mark == "[" else "")
        elif mark in "]}" and steps:
            steps.pop()
        elif mark == ":" and steps:
            steps[-1] = last
        elif mark == "," and steps and isinstance(steps[-1], int):
            steps[-1] += 1
    return "".join(f"/{escaped(str(step))}" for step in steps[:3])
