"""Reading and writing lengths: the shared vectors, round trips, and what no text may do."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yardwright.domain import measure
from yardwright.domain.errors import BadLength

VECTORS = json.loads((Path(__file__).parents[1] / "vectors" / "lengths.json").read_text(encoding="utf-8"))
LENGTHS = st.integers(0, measure.MOST_NM)


@pytest.mark.parametrize("case", VECTORS["read"], ids=lambda c: f"{c['input']!r}-{c['unit']}")
def test_a_written_length_reads_as_the_shared_vectors_say(case: dict[str, Any]) -> None:
    answer = measure.examine(case["input"], case["unit"])
    if case["nm"] is None:
        assert isinstance(answer, measure.Trouble), answer
        assert (answer.code, list(answer.candidates)) == (case["error"], case["candidates"])
    else:
        assert isinstance(answer, measure.Reading), answer
        assert (answer.nm, bool(answer.note)) == (case["nm"], case["note"])


@pytest.mark.parametrize("case", VECTORS["write"], ids=lambda c: f"{c['nm']}-{c['style']}-{c['step_nm']}")
def test_a_length_is_written_as_the_shared_vectors_say(case: dict[str, Any]) -> None:
    assert measure.write(case["nm"], case["style"], case["step_nm"]) == case["text"]


def test_every_candidate_offered_reads_without_asking_again() -> None:
    for case in VECTORS["read"]:
        for candidate in case.get("candidates", ()):
            assert measure.read(candidate, None).nm >= 0, candidate


def test_a_refusal_names_the_candidates() -> None:
    with pytest.raises(BadLength, match=r"Did you mean 1610 in or 1610 mm\?"):
        measure.read("1610", "in")


def test_a_bare_number_outside_a_fields_range_is_asked_about_when_the_other_unit_fits() -> None:
    bench = (24 * measure.INCH, 78 * measure.INCH)
    asked = measure.examine("44", "mm", bench)
    assert isinstance(asked, measure.Trouble) and asked.candidates == ("44 mm", "44 in")
    assert measure.read("20", "in", bench).nm == 20 * measure.INCH, "a range fault is not a unit fault"


@given(st.integers(0, 78 * 64))
def test_any_64th_of_an_inch_survives_writing_and_reading(sixtyfourths: int) -> None:
    nm = sixtyfourths * (measure.INCH // 64)
    for style in ("in", "ft-in"):
        assert measure.read(measure.write(nm, style, measure.INCH // 64), None).nm == nm


@given(st.integers(0, 20_000_0))
def test_any_tenth_of_a_millimetre_survives_writing_and_reading(tenths: int) -> None:
    nm = tenths * 100_000
    assert measure.read(measure.write(nm, "mm", 100_000), None).nm == nm


@given(LENGTHS, st.sampled_from(["in", "ft-in", "mm"]))
def test_writing_is_never_more_than_half_a_step_off(nm: int, style: str) -> None:
    step = measure.MM if style == "mm" else measure.SIXTEENTH
    if nm + step <= measure.MOST_NM:
        assert abs(measure.read(measure.write(nm, style), None).nm - nm) * 2 <= step


@given(st.text(max_size=60), st.sampled_from(["in", "mm", None]))
def test_no_text_does_worse_than_a_refusal(text: str, unit: str | None) -> None:
    answer = measure.examine(text, unit)
    if isinstance(answer, measure.Reading):
        assert 0 <= answer.nm <= measure.MOST_NM


@given(st.text("0123456789 '\"-/.,½inmftc", max_size=14), st.sampled_from(["in", "mm", None]))
def test_no_text_of_measuring_characters_does_worse_than_a_refusal(text: str, unit: str | None) -> None:
    answer = measure.examine(text, unit)
    if isinstance(answer, measure.Trouble):
        for candidate in answer.candidates:
            assert isinstance(measure.examine(candidate, None), measure.Reading), (text, candidate)


@given(LENGTHS, st.sampled_from([measure.SIXTEENTH, measure.MM, 396_875]))
def test_rounding_down_and_up_bracket_the_length(nm: int, step: int) -> None:
    down, up = measure.round_to(nm, step, "down"), measure.round_to(nm, step, "up")
    assert down <= nm <= up and up - down in (0, step)
    assert measure.round_to(nm, step) in (down, up)


def test_what_is_no_finite_length_is_refused() -> None:
    for length_mm in (float("nan"), float("inf"), -1e300):
        with pytest.raises(BadLength):
            measure.from_mm(length_mm)
    with pytest.raises(BadLength, match="no way to write"):
        measure.write(1, "cubits")


def test_the_writer_follows_the_jobs_units() -> None:
    assert measure.Writer("in").mm(1117.6) == "44 in"
    assert measure.Writer("mm").mm(1117.6) == "1118 mm"
    assert measure.to_mm(measure.from_mm(1117.6)) == 1117.6
