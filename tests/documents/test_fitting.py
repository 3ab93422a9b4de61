"""Blocks in several sizes: the largest that fits is printed, and nothing is ever lost."""

from __future__ import annotations

from io import BytesIO

from pypdf import PdfReader
from reportlab.platypus import Flowable, Spacer

from yardwright.documents.pages.fitting import FirstThatFits
from yardwright.documents.pages.page import Paper, build
from yardwright.documents.pages.words import para

PAPER = Paper("t", "", "", "mm", False)


def pages(*story: Flowable) -> list[str]:
    return [p.extract_text() or "" for p in PdfReader(BytesIO(build(PAPER, story))).pages]


def block(word: str, high: float) -> list[Flowable]:
    return [para(word), Spacer(0, high)]


def test_the_first_size_is_taken_where_there_is_room() -> None:
    (only,) = pages(FirstThatFits([block("large", 400), block("small", 100)]))
    assert "large" in only and "small" not in only


def test_a_smaller_size_is_taken_at_the_foot_of_a_page() -> None:
    (only,) = pages(Spacer(0, 500), FirstThatFits([block("large", 400), block("small", 100)]))
    assert "small" in only and "large" not in only


def test_where_none_fits_the_first_goes_to_the_next_page() -> None:
    first, second = pages(para("before"), Spacer(0, 680), FirstThatFits([block("large", 400),
                                                                        block("small", 100)]))
    assert "before" in first and "large" in second


def test_what_no_page_holds_is_broken_over_pages() -> None:
    long = [para(f"line {n}") for n in range(120)]
    found = " ".join(pages(FirstThatFits([[*long, Spacer(0, 900)], long])))
    assert all(f"line {n}" in found for n in range(120))
