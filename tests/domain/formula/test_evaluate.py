"""Working formulas out: the vectors shared with the phone, bounds, and the trade functions' promises."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from yardwright.domain.errors import BadFormula
from yardwright.domain.formula import Budget, Leg, Spread, Value, evaluate, read, spread

VECTORS = json.loads((Path(__file__).parents[2] / "vectors" / "formulas.json").read_text(encoding="utf-8"))
VALUES: dict[str, Value] = {
    name: Spread(**value) if isinstance(value, dict) else value for name, value in VECTORS["values"].items()}


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda c: str(c["text"]))
def test_a_formula_comes_out_as_the_shared_vectors_say(case: dict[str, Any]) -> None:
    formula = read(case["text"], VECTORS["names"])
    assert (formula.tree, formula.kind) == (case["tree"], case["kind"])
    if case["value"] is None:
        with pytest.raises(BadFormula):
            evaluate(formula, VALUES)
        return
    answer = evaluate(formula, VALUES)
    if isinstance(answer, Spread | Leg):
        assert asdict(answer) == pytest.approx(case["value"])
    elif isinstance(answer, float):
        assert answer == pytest.approx(case["value"], rel=1e-12, abs=1e-12)
    else:
        assert answer is case["value"]


def test_a_tree_survives_its_journey_as_json() -> None:
    for case in VECTORS["cases"]:
        assert json.loads(json.dumps(case["tree"])) == case["tree"]


def test_a_formula_that_has_no_answer_says_which_and_where() -> None:
    formula = read("length/(depth - depth)", VECTORS["names"], "/values/ratio")
    with pytest.raises(BadFormula) as refused:
        evaluate(formula, VALUES)
    (fault,) = refused.value.faults
    assert fault.pointer == "/values/ratio" and fault.detail == "'length/(depth - depth)': division by 0."


def test_a_missing_name_is_a_refusal() -> None:
    with pytest.raises(BadFormula, match="'length' has no value"):
        evaluate(read("length", {"length": "length"}), {})


@pytest.mark.parametrize("value", [float("nan"), float("inf"), 1e300, "text", None])
def test_no_bad_value_becomes_a_number(value: Any) -> None:
    with pytest.raises(BadFormula):
        evaluate(["*", ["name", "x"], 2.0], {"x": value})


@pytest.mark.parametrize("tree", [
    [], ["name"], ["nothing", 1, 2], ["call", "system", "ls"], ["field", 1.0, "count"], ["+", 1.0], None,
    ["choose"], [["name"]], ["name", "x", "y"], {"a": 1},
])
def test_a_malformed_tree_is_a_refusal(tree: Any) -> None:
    with pytest.raises(BadFormula):
        evaluate(tree, {})


def test_a_tree_too_deep_for_the_stack_is_a_refusal() -> None:
    tree: Any = 1.0
    for _ in range(5000):
        tree = ["neg", tree]
    with pytest.raises(BadFormula):
        evaluate(tree, {})


def test_work_is_counted_over_many_formulas() -> None:
    budget, formula = Budget(10), read("1 + 2", {})
    for _ in range(3):
        evaluate(formula, {}, budget)
    with pytest.raises(BadFormula, match="more work"):
        evaluate(formula, {}, budget)


GAPS = st.tuples(st.floats(0, 20), st.floats(0, 20)).map(sorted)


@given(st.floats(10, 4000), st.floats(20, 200), GAPS, st.sampled_from([0.0, 1.0, 1.5875]))
def test_a_spread_fills_its_span_and_keeps_the_least_gap(
        span: float, width: float, gaps: list[float], step: float) -> None:
    assume((span + gaps[0]) / (width + gaps[0]) < 900)
    found = spread(span, width, *gaps, step)
    assert found.count * found.width + (found.count - 1) * found.gap == pytest.approx(span)
    assert found.width <= width + 1e-9
    if found.count > 1:
        assert found.gap >= gaps[0] - 1e-6
    if not found.note:
        assert found.width == pytest.approx(width) and found.gap <= gaps[1] + 1e-6


@given(st.floats(200, 4000), st.floats(60, 180), GAPS)
def test_ripped_boards_keep_gaps_in_range_and_stay_over_half_width(
        span: float, width: float, gaps: list[float]) -> None:
    found = spread(span, width, *gaps)
    if found.note and found.count > 2:
        assert gaps[0] - 1e-6 <= found.gap <= gaps[1] + 1e-6
        assert found.width > width / 2
