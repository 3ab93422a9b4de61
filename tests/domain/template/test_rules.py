"""Patterns of members' names: whole, or any ending after a star."""

from __future__ import annotations

from fnmatch import fnmatchcase

import pytest
from hypothesis import given
from hypothesis import strategies as st

from small_templates import trestle
from yardwright.domain.errors import BadTemplate
from yardwright.domain.template import read_template
from yardwright.domain.template.rules import Called, matching

NAMES = st.lists(st.text("ab ", min_size=1, max_size=4), max_size=8)
PATTERN = st.builds(str.__add__, st.text("ab ", max_size=3), st.sampled_from(["", "*"]))


@given(NAMES, st.lists(PATTERN, max_size=5))
def test_a_name_is_matched_as_a_shell_would_match_it(names: list[str], patterns: list[str]) -> None:
    """Against the standard library's file name patterns, whose star at the end says the same."""
    named, called = matching(patterns), Called.of(names)
    assert [n for n in names if named(n)] == [n for n in names if any(fnmatchcase(n, p) for p in patterns)]
    for pattern in patterns:
        assert called.has(pattern) is any(fnmatchcase(n, pattern) for n in names)


def test_the_same_formula_is_read_once_and_a_repeats_index_only_where_it_stands() -> None:
    data = trestle()
    before = read_template(data).words
    data["members"][1]["when"] = data["members"][2]["when"]
    alike = read_template(data)
    assert alike.words == before + 1
    assert alike.members[1].when is not None and alike.members[2].when is not None
    assert alike.members[1].when.tree == alike.members[2].when.tree
    assert [m.when.where for m in alike.members[1:3] if m.when] == ["/members/1/when", "/members/2/when"]


def test_an_index_means_nothing_to_a_member_that_does_not_repeat_though_the_text_was_read_before() -> None:
    data = trestle()
    data["members"][1] |= {"repeat": [{"index": "k", "count": "2"}], "when": "k > 0 and k > 0 or k == 0"}
    read_template(data)
    data["members"][2]["when"] = data["members"][1]["when"]
    with pytest.raises(BadTemplate) as refused:
        read_template(data)
    assert [(f.pointer, "'k' is not declared" in f.detail) for f in refused.value.faults] == [
        ("/members/2/when", True)]
