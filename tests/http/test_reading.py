"""Strict JSON: what must not get through, each with its place."""

from __future__ import annotations

import json
import time
from typing import Any

import pytest

from yardwright.http.reading import MOST_DEPTH, BadJson, read_json


def faults(raw: bytes) -> list[tuple[str, str]]:
    with pytest.raises(BadJson) as caught:
        read_json(raw)
    return [(fault.pointer, fault.detail) for fault in caught.value.faults]


@pytest.mark.parametrize("value", [
    {}, [], "", 0, -1.5, True, None, {"a": [1, {"b": "½ × ⌀ Łódź Ωmega"}]}, "tab\tand\nline", {"a/b~c": [[]]},
    "an emoji \U0001f6e0", 123456789012345678901234567890,
])
def test_sound_json_is_read_as_it_is(value: Any) -> None:
    assert read_json(json.dumps(value).encode()) == value
    assert read_json(json.dumps(value, ensure_ascii=False).encode()) == value


@pytest.mark.parametrize(("raw", "pointer", "says"), [
    (b'{"a": NaN}', "/a", "NaN"),
    (b'{"a": [1, -Infinity]}', "/a/1", "Infinity"),
    (b'{"a": {"b": 1e999}}', "/a/b", "beyond any number"),
    (b'{"a": ' + b"7" * 5000 + b"}", "/a", "5000 digits"),
    (b'{"a": 0.' + b"7" * 5000 + b"}", "/a", "characters"),
    (b'{"a": 1, "a": 2}', "/a", "twice"),
    (rb'{"a": ["x\ud800"]}', "/a/0", "surrogate"),
    (rb'{"a": "x\u0000"}', "/a", "U+0000"),
    (rb'{"a": "x\u202e"}', "/a", "U+202E"),
    (rb'{"x\udfff": 1}', "", "member's name"),
    (b'{"a": "\xff"}', "", "UTF-8"),
    (b'{"a": }', "", "line 1, column 7"),
    (b"", "", "line 1"),
    (b'\xef\xbb\xbf{}', "", "UTF-8 BOM"),
    (b"{} {}", "", "extra data"),
])
def test_unsound_json_is_refused_with_its_place(raw: bytes, pointer: str, says: str) -> None:
    (found,) = faults(raw)
    assert found[0] == pointer
    assert says.lower() in found[1].lower()


def test_every_wrong_value_is_named_at_once() -> None:
    found = faults(b'{"a": NaN, "b": [1e999], "c~d": Infinity}')
    assert [pointer for pointer, _ in found] == ["/a", "/b/0", "/c~0d"]


def test_depth_is_limited_before_parsing_and_brackets_in_text_do_not_count() -> None:
    inside = b"[" * (MOST_DEPTH - 1) + b'"' + b"[{" * 500 + b'\\"[["' + b"]" * (MOST_DEPTH - 1)
    read_json(inside)
    assert faults(b'{"items": [{"site": ' + b'{"x": ' * 20_000)[0][0] == "/items/0/site"
    assert "64 levels" in faults(b"[" * 20_000)[0][1]


@pytest.mark.parametrize("raw", [
    b'"' + b'\\"' * 130_000, b'"' * 262_001, b'"' + b"\\" * 262_001, b'{"a":"' * 40_000, b"9" * 262_000,
    b"[" + b"1," * 131_000], ids=range(6))
def test_hostile_text_costs_no_time(raw: bytes) -> None:
    begun = time.perf_counter()
    with pytest.raises(BadJson):
        read_json(raw)
    assert time.perf_counter() - begun < 2.0
