"""Formulas against Python's own arithmetic: the same expression read by two independent readers."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from yardwright.domain.errors import BadFormula
from yardwright.domain.formula import evaluate, read

NAMES = {"a": 2.5, "b": -0.75, "c": 13.0}
ATOMS = st.sampled_from(["1", "2", "0.5", "3.25", "7", "a", "b", "c", ".125"])


def _joined(parts: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    binary = st.builds("{} {} {}".format, parts, st.sampled_from(["+", "-", "*", "/"]), parts)
    nested = st.builds("({})".format, parts)
    minus = st.builds("-{}".format, parts)
    calls = st.builds("{}({}, {})".format, st.sampled_from(["min", "max"]), parts, parts)
    return binary | nested | minus | calls | st.builds("abs({})".format, parts)


NUMBERS = st.recursive(ATOMS, _joined, max_leaves=8)
COMPARED = st.builds(lambda x, sign, y: (f"{x} {sign} {y}", [(x, y)]), NUMBERS,
                     st.sampled_from(["<", "<=", ">", ">="]), NUMBERS)


def _combined(parts: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    words = st.sampled_from(["and", "or"])
    both = st.builds(lambda x, word, y: (f"{x[0]} {word} {y[0]}", x[1] + y[1]), parts, words, parts)
    negated = st.builds(lambda x: (f"not {x[0]}", x[1]), parts)
    return both | negated | st.builds(lambda x: (f"({x[0]})", x[1]), parts)


TRUTHS = st.recursive(COMPARED, _combined, max_leaves=4)


def by_python(text: str) -> Any:
    """Python's own reading; None where it has no finite answer."""
    try:
        return eval(text, {"__builtins__": {}}, {**NAMES, "min": min, "max": max, "abs": abs})
    except ZeroDivisionError:
        return None


def by_formula(text: str) -> Any:
    try:
        return evaluate(read(text, dict.fromkeys(NAMES, "number")), NAMES)
    except BadFormula:
        return None


@given(NUMBERS)
def test_arithmetic_agrees_with_python(text: str) -> None:
    assume(len(text) <= 400)
    expected = by_python(text)
    if expected is None:
        assert by_formula(text) is None
    else:
        assert by_formula(text) == pytest.approx(expected, rel=1e-12, abs=1e-12)


@given(TRUTHS)
def test_comparisons_and_their_joining_agree_with_python(said: tuple[str, list[tuple[str, str]]]) -> None:
    text, compared = said
    values = [(by_python(x), by_python(y)) for x, y in compared]
    assume(len(text) <= 400 and all(x is not None and y is not None for x, y in values))
    # within the forgiven floating error Python is the stricter one
    assume(not any(0 < abs(x - y) <= 1e-8 * max(1, abs(x), abs(y)) for x, y in values))
    assert by_formula(text) is bool(by_python(text))


@pytest.mark.parametrize(("text", "expected"), [
    # Trigonometric values of common angles; general mathematics.
    ("sin(30*deg)", 0.5), ("cos(60*deg)", 0.5), ("tan(60*deg)", math.sqrt(3)), ("atan(1)/(1*deg)", 45),
    ("acos(0)/(1*deg)", 90), ("asin(1)/(1*deg)", 90), ("sqrt(2)*sqrt(2)", 2),
    ("round(7.5)", 8), ("floor(-0.5)", -1), ("ceil(-0.5)", 0),
])
def test_functions_give_the_values_every_table_gives(text: str, expected: float) -> None:
    assert by_formula(text) == pytest.approx(expected, abs=1e-12)
