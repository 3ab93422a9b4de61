"""Named values find their order by what they use."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

import yardwright
from yardwright.domain.template import read_template
from yardwright.domain.template.order import in_order

TEMPLATES = sorted((Path(yardwright.__file__).parent / "data" / "templates").glob("*.toml"))


def test_an_order_that_works_is_kept() -> None:
    assert in_order({"b": "1*inch", "a": "b + length", "c": "a + b"}) == ["b", "a", "c"]


def test_a_value_comes_after_what_it_uses() -> None:
    assert in_order({"a": "b + c", "b": "c*2", "c": "length", "d": "1"}) == ["c", "b", "a", "d"]


def test_a_ring_stays_as_given() -> None:
    assert in_order({"c": "1", "a": "b", "b": "a", "d": 3}) == ["c", "d", "a", "b"]


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.stem)
def test_a_template_whose_members_were_sorted_on_the_way_reads_the_same(path: Path) -> None:
    def sorted_again(value: Any) -> Any:
        if isinstance(value, dict):
            return {name: sorted_again(value[name]) for name in sorted(value)}
        return [sorted_again(inner) for inner in value] if isinstance(value, list) else value

    data = tomllib.loads(path.read_text(encoding="utf-8"))
    ours, theirs = read_template(data), read_template(sorted_again(data))
    assert dict(ours.values) == dict(theirs.values)
    assert ours.members == theirs.members
