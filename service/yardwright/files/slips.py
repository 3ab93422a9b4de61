"""A slip in a TOML file as its writer would see it: the line, what stands there, what would be right."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

from ..domain.errors import BadTemplate, Fault

_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)")
_CURLY = re.compile("[\u2018\u2019\u201c\u201d\u201e\u201a]")
_WORD = re.compile(r"=\s*([A-Za-z][\w .-]*)")
SHOWN = 60               # letters of the line


def text_of(path: Path) -> str:
    """The file's text without a byte order mark; BadTemplate where it is not UTF-8."""
    try:
        return path.read_bytes().decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as bad:
        line = bad.object[:bad.start].count(b"\n") + 1
        where = f"{path.name}:{line}"
        raise BadTemplate(Fault(where, "the file is not UTF-8 text here; save it as UTF-8")) from bad


def slip(name: str, text: str, trouble: tomllib.TOMLDecodeError) -> Fault:
    """What is wrong at ``name:line``; the entry that was left open rather than the line where it shows."""
    lines = text.splitlines()
    place = _PLACE.search(str(trouble))
    number = min(int(place[1]) if place and place[1] else len(lines), max(len(lines), 1))
    said = _PLACE.sub("", str(trouble))
    if said.startswith(("Unclosed array", "Unclosed inline table")) or "document" in str(trouble):
        number = _opened(lines, number)
    line = lines[number - 1].strip() if lines else ""
    shown = line if len(line) <= SHOWN else line[:SHOWN] + "..."
    return Fault(f"{name}:{number}", f"{shown!r}: {_meaning(said, line)}")


def _opened(lines: list[str], number: int) -> int:
    """The nearest line, this one or above, that opens more brackets or quotes than it closes."""
    for at in range(number, 0, -1):
        bare = re.sub(r'"[^"]*"|\'[^\']*\'', "", lines[at - 1].split(" #")[0])
        if sum(bare.count(mark) for mark in "[{") > sum(bare.count(mark) for mark in "]}") or '"' in bare:
            return at
    return number


def _meaning(said: str, line: str) -> str:
    if _CURLY.search(line):
        return 'curly quotes; write straight ones: "..."'
    if re.search(r"\b(True|False)\b", line):
        return "write true or false in small letters"
    if said.startswith("Illegal character '\\n'") or said.startswith("Unterminated"):
        return "a text begun on this line has no closing quote"
    if said.startswith(("Unclosed array", "Unclosed inline table")):
        return "a bracket opened here is not closed: [ needs ], { needs }, commas between"
    if said.startswith("Cannot overwrite"):
        return "this entry stands twice in its table; keep one"
    if twice := re.match(r"Cannot declare \((.*?),?\) twice", said):
        table = ".".join(part.strip(" '") for part in twice[1].split(","))
        return (f"[{table}] stands twice: put its entries together; where there are several of a kind, as "
                f"members, write [[{table}]] each time")
    if "Cannot mutate" in said or "namespace" in said.lower():
        return "this table is already written another way above; keep one way"
    if said.startswith("Invalid value") and (word := _WORD.search(line)):
        return f'a text stands in quotes: "{word[1].strip()}"'
    if said.startswith(("Expected '='", "Invalid statement")):
        return 'a line is an entry, name = "value", or a table, [name]; after # it is a remark'
    if said.startswith("Expected newline"):
        return "something is left over after the value: one entry a line, a * or a quote may be missing"
    return f"this is no TOML: {said[:1].lower()}{said[1:]}"
