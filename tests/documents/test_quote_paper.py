"""The customer's paper, read back from the PDF as a reader's program reads it."""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import replace
from functools import cache
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from documents.sample import bench, gross_quote, quote, stopped_quote
from yardwright.documents import Drawing, quote_pdf
from yardwright.documents.drawing.views import Levels, view_of
from yardwright.documents.paper.signing import strokes_of
from yardwright.domain.measure import Writer


@cache
def drawings(units: str = "in", item: int = 0) -> tuple[Drawing, ...]:
    writer, seat = Writer(units), Levels((("seat_height", 430.0),))
    return tuple(replace(view_of(bench(), view, writer, "Storage bench", seat, text_mm=60), item=item)
                 for view in ("isometric", "front", "side", "plan"))


def pages(pdf: bytes) -> list[str]:
    return [" ".join((page.extract_text() or "").split()) for page in PdfReader(BytesIO(pdf)).pages]


def printed(pdf: bytes) -> str:
    return " ".join(pages(pdf))


@cache
def sample() -> bytes:
    return quote_pdf(quote(), drawings())


def test_the_same_quote_gives_the_same_bytes() -> None:
    quote_pdf(gross_quote(), drawings("mm"))
    assert quote_pdf(quote(), drawings()) == sample()


def test_a_paper_made_in_a_fresh_process_has_the_same_bytes() -> None:
    told = "import sys; from documents.test_quote_paper import sample; sys.stdout.buffer.write(sample())"
    made = subprocess.run([sys.executable, "-c", told], capture_output=True, check=True,
                          env={"PYTHONPATH": ":".join(p for p in sys.path if p)})
    assert made.stdout == sample()


def test_inches_print_on_letter_and_millimetres_on_a4() -> None:
    # Letter 8.5 x 11 in = 612 x 792 pt; A4 210 x 297 mm = 595.3 x 841.9 pt (ISO 216, from memory).
    for pdf, size in ((sample(), (612, 792)), (quote_pdf(gross_quote(), ()), (595.3, 841.9))):
        box = PdfReader(BytesIO(pdf)).pages[0].mediabox
        assert (float(box.width), float(box.height)) == pytest.approx(size, abs=0.1)


def test_every_figure_of_the_price_is_printed_and_no_other_amount() -> None:
    price = quote()["price"]
    asked = {v for line in price["lines"] for v in (line["unit"], line["amount"])}
    asked |= {price["net"], price["total"], price["deposit"], "861.58"}
    asked |= {v for tax in price["tax"] for v in (tax["base"], tax["amount"])}
    found = {sign.replace("−", "-") + digits.replace(",", "")
             for sign, digits in re.findall(r"(−?)\$([\d,]+\.\d\d)", printed(sample()))}
    assert found == asked


def test_every_size_and_choice_is_printed() -> None:
    text = printed(sample())
    item = quote()["items"][0]
    sizes = [v["text"] for v in (*item["overall"].values(), *item["dimensions"].values())]
    for words in (*sizes, *item["choice_labels"].values(), *item["included"], "38 kg / 85 lb"):
        assert words in text


def test_who_to_whom_and_until_when_is_on_the_first_page() -> None:
    first = pages(sample())[0]
    for words in ("Fernhollow Joinery", "4 Millrace Lane", "555 0134", "FH-2231", "Ilse Brandt",
                  "12 Weir Street", "2026-0117", "25 November 2026", "16 December 2026", "$1,292.37"):
        assert words in first


def test_every_page_has_its_number_the_seal_and_the_demonstration_band() -> None:
    texts = pages(sample())
    for number, text in enumerate(texts, 1):
        assert f"Page {number} of {len(texts)}" in text
        assert "9f2c4b7a11" in text
        assert "DEMONSTRATION PRICES" in text


def test_real_prices_carry_no_band() -> None:
    assert "DEMONSTRATION" not in printed(quote_pdf(quote(demonstration=False), ()))


def test_with_vat_inside_the_prices_one_gross_total_leads() -> None:
    text = printed(quote_pdf(gross_quote(), ()))
    assert "Total €1,230.00 of which VAT 23 % €230.00 net of tax €1,000.00" in text
    assert "VAT included" in pages(quote_pdf(gross_quote(), ()))[0]
    assert "Balance on delivery €861.00" in text


def test_fractions_polish_greek_and_cyrillic_come_back_as_written() -> None:
    words = "Zażółć gęślą jaźń · Σκαμνί για τον κήπο · Скамья для сада · 3 ½ ⅛ ⅝ × 20° ≤ ± Ø"
    assert words in printed(quote_pdf(quote(terms=[words]), ()))


def test_decomposed_letters_are_composed() -> None:
    assert "Zoë Ångström" in printed(quote_pdf(quote(terms=["Zoe\u0308 A\u030angstro\u0308m"]), ()))


def test_a_character_the_faces_lack_shows_as_a_box() -> None:
    text = printed(quote_pdf(quote(terms=["name 山田 \U0001f6e0 \ud800 end \x07."]), ()))
    assert "name ☐☐ ☐ ☐ end ☐." in text


HOSTILE = ['<img src="/etc/hostname"/>', "<b>unclosed", "a & b < c > d", "<para>x</para>", "</font>",
           "<br/>", "&lt;b&gt; &#65;", "<a href='file:///etc/passwd'>x</a>", "{{x}} %(y)s <index item='a'/>"]


@pytest.mark.parametrize("words", HOSTILE)
def test_markup_in_any_outside_word_is_printed_as_it_stands(words: str) -> None:
    hostile = quote(reference=words, terms=[words], cautions=[words],
                    overrides=[{"what": words, "to": words, "reason": words}])
    hostile["shop"] |= {"name": words, "address": [words], "phone": words}
    hostile["customer"] = {"name": words, "address": words}
    item = hostile["items"][0]
    item |= {"template_name": words, "included": [words], "choice_labels": {words: words}}
    item["findings"] = [{"level": "stop", "title": words, "detail": words, "mend": words, "measured": words}]
    hostile["price"]["lines"][0]["text"] = words
    pdf = quote_pdf(hostile, (), {"strokes": [], "name": words, "place": words, "time": words})
    assert "".join(printed(pdf).split()).count("".join(words.split())) >= 12
    reader = PdfReader(BytesIO(pdf))
    assert not [image for page in reader.pages for image in page.images]
    assert not [page for page in reader.pages if "/Annots" in page]


def test_a_stop_is_printed_with_its_override_and_reason() -> None:
    text = printed(quote_pdf(stopped_quote(), ()))
    assert "STOP Blocks the way out" in text
    assert "The door behind it was bricked up; the owner signed for it." in text


def test_the_gravest_finding_stands_first_and_what_is_in_order_last() -> None:
    text = printed(quote_pdf(stopped_quote(), ()))
    places = [text.index(w) for w in ("Blocks the way out", "Close to the gas meter",
                                      "Ground under the legs", "Heavy lid", "Checked and in order")]
    assert places == sorted(places)


def test_a_finding_with_an_unknown_level_is_not_dropped() -> None:
    odd = quote(findings=[{"level": "odd", "title": "Something odd", "detail": ""}])
    assert "Something odd" in printed(quote_pdf(odd, ()))


def test_no_cost_no_hours_and_no_parts_are_shown_to_the_customer() -> None:
    shop_side = quote(labour={"hours": 11.5, "operations": [{"name": "Rip strips", "minutes": 33}]})
    shop_side["price"] |= {"build_up": [{"name": "Overhead", "amount": "200.00"}], "margin_share": 0.31}
    text = printed(quote_pdf(shop_side, ()))
    for words in ("Rip strips", "Overhead", "0.31", "31 %", "11.5", "A1"):
        assert words not in text


SIGNED = {"strokes": [[[10, 10], [20, 40], [60, 5]], [[90, 20], [140, 30]]], "name": "Ilse Brandt",
          "place": "Fernhollow", "time": "2026-11-25T10:22:05+01:00"}


def test_a_signature_prints_as_strokes_with_name_place_and_time() -> None:
    pdf = quote_pdf(quote(), (), SIGNED)
    assert "Ilse Brandt Fernhollow, 25 November 2026, 10:22 (UTC+01:00) Signed on the screen" in printed(pdf)
    local = quote_pdf(quote(), (), SIGNED | {"time": "2026-11-25 10:22"})
    assert "Fernhollow, 25 November 2026, 10:22 Signed" in printed(local)
    assert "Fernhollow, at noon Signed" in printed(quote_pdf(quote(), (), SIGNED | {"time": "at noon"}))
    assert not [image for page in PdfReader(BytesIO(pdf)).pages for image in page.images]
    assert pdf != quote_pdf(quote(), (), SIGNED | {"strokes": [[[10, 10], [20, 40]]]})


@pytest.mark.parametrize("strokes", [[], [[]], [[[1, 1]]], [[[1, 1], [1, 1]]], [[[float("nan"), 1], [2, 2]]],
                                     [["x"]], [[[1e300, 1], [2, 3]]], [[[0, 0], [1e5, 1e-9]]]])
def test_odd_strokes_do_no_harm(strokes: Any) -> None:
    assert quote_pdf(quote(), (), SIGNED | {"strokes": strokes}).startswith(b"%PDF")
    assert all(abs(v) < 1e6 for s in strokes_of({"strokes": strokes}) for p in s for v in p)


def test_long_words_many_lines_and_many_items_break_over_pages_whole() -> None:
    long = quote()
    long["customer"]["name"] = "Donaudampfschiffahrtsgesellschaftskapitän" * 4
    long["price"]["lines"] = [{"kind": "item", "text": f"Line {n} " + "with quite a few words " * 12,
                               "quantity": n, "unit": "1.00", "amount": f"{n}.00", "taxed": True}
                              for n in range(1, 41)]
    long["items"] = [long["items"][0] | {"template_name": f"Bench number {n}", "quantity": n}
                     for n in range(1, 13)]
    long["terms"] = ["A very long term. " * 300]
    long["findings"] = [{"level": "caution", "title": "T" * 200, "detail": "word " * 900, "mend": "m " * 300}]
    text = printed(quote_pdf(long, [d for i in range(12) for d in drawings(item=i)]))
    assert all(f"Line {n} with" in text for n in range(1, 41))
    assert all(f"Bench number {n}" in text for n in range(1, 13))
    assert text.count("A very long term.") == 300


def test_an_empty_quote_is_still_a_paper() -> None:
    assert "Acceptance" in printed(quote_pdf({}, ()))


def test_every_face_is_embedded() -> None:
    fonts = {str(f["/BaseFont"]): f for page in PdfReader(BytesIO(sample())).pages
             for f in (r.get_object() for r in page["/Resources"]["/Font"].values())}
    assert fonts and all("SourceSans" in name for name in fonts)
    assert all("/FontFile2" in f["/FontDescriptor"] for f in fonts.values())


def test_importing_the_documents_loads_no_pdf_library_and_no_kernel() -> None:
    told = ("import sys; import yardwright.documents; "
            "print([m for m in ('reportlab', 'PIL', 'numpy', 'manifold3d', 'highspy') if m in sys.modules])")
    made = subprocess.run([sys.executable, "-c", told], capture_output=True, check=True, text=True)
    assert made.stdout.strip() == "[]"


def test_a_paper_of_usual_size_stays_small() -> None:
    assert len(sample()) < 120_000


def test_notices_of_cancellation_go_with_the_quote_only_where_the_shop_asks_for_them() -> None:
    with_notices = printed(quote_pdf(quote(home_sale_notice="us"), ()))
    assert with_notices.count("Notice of cancellation") == 2
    assert "Copy 1 of 2" in with_notices and "Copy 2 of 2" in with_notices
    assert with_notices.count("Cancel not later than midnight of") == 2
    assert "16 CFR Part 429" in with_notices and "Fernhollow Joinery, 4 Millrace Lane" in with_notices
    assert "Notice of cancellation" not in printed(quote_pdf(quote(), ()))
