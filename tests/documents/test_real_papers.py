"""Papers and drawings of the seed jobs: what is printed and drawn is what the engine worked out."""

from __future__ import annotations

import re
from io import BytesIO
from itertools import combinations
from typing import Any

import pytest
from pypdf import PdfReader

from documents.apart import apart
from documents.seeds import SEEDS, answer_of, quote_of
from yardwright.documents import draw, paper_drawings, quote_pdf, svg
from yardwright.documents.drawing.model import Text, text_box
from yardwright.documents.drawing.pdf import legible
from yardwright.documents.pages.words import amount
from yardwright.domain.measure import Writer

NAMES = sorted(p.parent.name for p in SEEDS.glob("*/job.json"))


def printed(name: str) -> str:
    quote = quote_of(name)
    drawn = [d for i, item in enumerate(quote.items)
             for d in paper_drawings(item.piece, quote.job.units, quote.job.site, item.fit, i)]
    pdf = quote_pdf(answer_of(name), drawn)
    text = " ".join(" ".join((p.extract_text() or "").split()) for p in PdfReader(BytesIO(pdf)).pages)
    # A sentence may run on over a page: what stands at the foot and the head of each is between its words.
    foot = re.escape(answer_of(name)["shop"]["name"]) + r" · Quote [^·]* · seal \S+ Page \d+ of \d+"
    return re.sub(rf" {foot}( DEMONSTRATION PRICES.*? yet)?", "", text)


@pytest.mark.parametrize("name", NAMES)
def test_the_paper_of_a_seed_job_says_what_its_answer_says(name: str) -> None:
    text, answer = printed(name), answer_of(name)
    price: dict[str, Any] = answer["price"]
    for value in (price["total"], price["deposit"], price["net"], *(v["amount"] for v in price["lines"])):
        assert amount(value, price["currency"]) in text
    for item in answer["items"]:
        assert item["template_name"] in text
        used = [size for name, size in item["dimensions"].items() if name in item["dimension_labels"]]
        assert all(size["text"] in text for size in (*item["overall"].values(), *used))
        assert all(label in text for name, label in item["dimension_labels"].items()
                   if name not in item["overall"])
        assert all(f["title"] in text for f in item["findings"])
    assert answer["customer"]["name"] in text
    assert all(line in text for line in (*answer["terms"], *answer["cautions"], *answer["cancellation"]))
    assert all(o["reason"] in text for o in answer["overrides"])


def test_a_size_that_a_choice_makes_meaningless_is_not_printed() -> None:
    answer = answer_of(NAMES[0])
    labels = answer["items"][0]["dimension_labels"]
    unused = "back_height"
    kept = {name: label for name, label in labels.items() if name != unused}
    answer["items"][0]["dimension_labels"] = kept
    text = " ".join(" ".join((p.extract_text() or "").split())
                    for p in PdfReader(BytesIO(quote_pdf(answer, ()))).pages)
    assert labels[unused] not in text
    assert all(label in text for name, label in kept.items() if name not in answer["items"][0]["overall"])


@pytest.mark.parametrize("name", NAMES)
def test_dimensions_in_the_drawings_are_the_overall_sizes_of_the_answer(name: str) -> None:
    quote = quote_of(name)
    writer = Writer(quote.job.units)
    for item in quote.items:
        overall = {k: writer.length(nm) for k, nm in item.overall_nm().items()}
        front, side = (texts(draw(item.piece, v, quote.job.units)) for v in ("front", "side"))
        assert {overall["length"], overall["height"]} <= front
        assert {overall["depth"], overall["height"]} <= side


def texts(drawing: Any) -> set[str]:
    return {s.text for s in drawing.shapes if isinstance(s, Text)}


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("opened", [False, True])
def test_words_in_the_drawings_of_real_pieces_stand_clear(name: str, opened: bool) -> None:
    quote = quote_of(name)
    for item in quote.items:
        for view in ("front", "side", "plan"):
            site = quote.job.site if not opened else None
            drawing = draw(item.piece, view, quote.job.units, opened, site, item.fit)
            boxes = [text_box(s) for s in drawing.shapes if isinstance(s, Text)]
            assert not [pair for pair in combinations(boxes, 2) if pair[0].overlaps(pair[1])], view
            assert "<script" not in svg(drawing)


@pytest.mark.parametrize("name", [n for n in NAMES if quote_of(n).job.site.kind != "open"])
@pytest.mark.parametrize("high", [230.0, 160.0])
def test_words_in_the_plan_of_the_measured_space_stand_clear_on_paper(name: str, high: float) -> None:
    quote = quote_of(name)
    for item in quote.items:
        for units in ("in", "mm"):
            plan = draw(item.piece, "plan", units, False, quote.job.site, item.fit, 20.0)
            apart(legible(plan, 259.0, high))


def test_an_open_lid_stands_higher_and_shows_in_the_side_view() -> None:
    piece = next(i.piece for n in NAMES for i in quote_of(n).items if i.piece.moving)
    shut, opened = draw(piece, "side", "mm"), draw(piece, "side", "mm", opened=True)
    assert opened.title.endswith("open") and opened.opened
    high = max(p[1] for s in opened.shapes if getattr(s, "style", "") == "outline" for p in s.points)
    assert high == pytest.approx(piece.opened.high[2], abs=1.0)
    assert shut.shapes != opened.shapes
