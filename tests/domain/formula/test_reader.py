"""What a formula may say, and what is said back when it may not."""

from __future__ import annotations

import json
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yardwright.domain.errors import BadFormula
from yardwright.domain.formula import MOST_CHARS, read

NAMES = {
    "length": "length", "seat_depth": "length", "slat.width": "length", "shop.rip_kerf": "length",
    "rows": "number", "rake": "angle", "lid": "truth", "timber": "text", "seat": "spread", "leg": "leg",
    "back": "one of none|straight|curved",
}
WRONG = [
    ("length + 3", "length + number makes no sense. Multiply by inch or mm"),
    ("length*rake + length", "makes no sense"),
    ("rows > length", "makes no sense"),
    ("lenght", "Did you mean 'length'"),
    ("slat.widht", "Did you mean 'slat.width'"),
    ("seat_deph - length", "Did you mean 'seat_depth'"),
    ("seat.gaps", "it has count, width, gap, note"),
    ("length.mm", "length has no fields"),
    ("flor(rows)", "Did you mean 'floor'"),
    ("back == 'curvd'", "Did you mean 'curved'"),
    ("'bent' != back", "none of none, straight, curved"),
    ("back == 3", "text == number makes no sense"),
    ("seat == seat", "makes no sense"),
    ("sin(rows)", "sin(angle) is wanted, not sin(number)"),
    ("sqrt(length)", "sqrt(number) or sqrt(area)"),
    ("min(length)", "all of one kind"),
    ("floor(length)", "floor(number) is wanted"),
    ("spread(length, length)", "spread(span, width, least gap, most gap"),
    ("choose(rows, 1, 2)", "choose(truth, a, b)"),
    ("choose(lid, 1, length)", "choose(truth, a, b)"),
    ("not rows", "not wants a truth"),
    ("-lid", "'-' wants a quantity"),
    ("lid and rows", "truth and number makes no sense"),
    ("1 < 2 < 3", "not chained"),
    ("length = 3", "Compare with =="),
    ("rows ^ 2", "Write x*x"),
    ("rows % 2", "nothing a formula knows"),
    ("length +", "missing at the end"),
    ("", "empty"),
    ("   ", "empty"),
    ("(1 + 2", "')' is missing"),
    ("1 2", "not expected here"),
    ("1e9", "not expected here"),
    ("1 +* 2", "a value is missing before '*'"),
    ("length()", "'length' is no function"),
    ("floor", "'floor' is not declared"),
    ("'open", "nothing a formula knows"),
    ("__import__('os')", "is no function"),
    ("rows if lid else 2", "not expected here"),
    ("[1]", "nothing a formula knows"),
    ("length*length*length*length", "no kind of value"),
    ("1/length", "no kind of value"),
]


@pytest.mark.parametrize(("text", "said"), WRONG)
def test_a_wrong_formula_is_told_what_would_be_right(text: str, said: str) -> None:
    with pytest.raises(BadFormula) as refused:
        read(text, NAMES, "/values/x")
    (fault,) = refused.value.faults
    assert fault.pointer == "/values/x" and said in fault.detail


@pytest.mark.parametrize(("text", "kind"), [
    ("length", "length"), ("length*length", "area"), ("length*seat_depth*slat.width", "volume"),
    ("length/seat_depth", "number"), ("rake + 1*deg", "angle"), ("length > 3*inch", "truth"),
    ("choose(lid, back, timber)", "text"), ("spread(length, slat.width, 1*mm, 9*mm)", "spread"),
    ("l_leg(length, 1*mm, 1*mm, 1*mm).face", "length"), ("seat.note", "text"), ("leg.square", "length"),
    ("sqrt(length*length + seat_depth*seat_depth)", "length"), ("rows*1/length*length", "number"),
    ("(seat).gap - shop.rip_kerf", "length"), ("choose(lid, seat, seat).count", "number"),
])
def test_a_kind_follows_from_its_parts(text: str, kind: str) -> None:
    assert read(text, NAMES).kind == kind


@pytest.mark.parametrize(("text", "expect", "hint"), [
    ("3", "length", "Multiply by inch or mm"), ("3", "angle", "Multiply by deg"),
    ("length", "number", "Divide by inch"), ("lid", "length", "length is wanted here"),
])
def test_the_kind_wanted_is_held_to(text: str, expect: str, hint: str) -> None:
    with pytest.raises(BadFormula, match=hint):
        read(text, NAMES, expect=expect)


@pytest.mark.parametrize("text", [
    "(" * 200 + "1" + ")" * 199, "-" * 399 + "1", "not " * 99 + "lid", "1+" * 199 + "1", "min(" * 99,
    "1" * (MOST_CHARS + 1), "+".join(["rows"] * 80), "9" * 300, "choose(lid," * 36,
])
def test_an_oversized_formula_is_refused_or_small_enough(text: str) -> None:
    try:
        assert json.dumps(read(text, NAMES).tree)
    except BadFormula as refused:
        assert len(str(refused)) < 400


def test_eighty_terms_are_allowed_and_a_hundred_and_one_are_not() -> None:
    assert read("+".join(["rows"] * 80), NAMES).kind == "number"
    with pytest.raises(BadFormula, match="more than 200 parts"):
        read("+".join(["1"] * 101), NAMES)


@given(st.text(max_size=450))
def test_no_text_does_worse_than_a_refusal(text: str) -> None:
    with suppress(BadFormula):
        read(text, NAMES)


@given(st.lists(st.sampled_from([
    "length", "rows", "lid", "back", "seat", "(", ")", "+", "-", "*", "/", "==", "<", "and", "or", "not", "1",
    ".5", "'none'", ",", ".", "count", "min", "choose", "spread", "inch", " "]), max_size=25))
def test_no_row_of_formula_words_does_worse_than_a_refusal(words: list[str]) -> None:
    with suppress(BadFormula):
        read(" ".join(words), NAMES)
