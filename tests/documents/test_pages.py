"""Every page as it is printed: nothing beyond its edge, nothing too small to read, figures that add up."""

from __future__ import annotations

import csv
import re
from collections import Counter
from decimal import Decimal
from functools import cache
from io import StringIO

import pytest

from documents.printed import Printed, printed
from documents.seeds import SEEDS, answer_of, quote_of
from yardwright.documents import paper_drawings, quote_pdf, shop_sheet_pdf, shopping_list_csv

NAMES = sorted(p.parent.name for p in SEEDS.glob("*/job.json"))
SHEETS = NAMES[1:2] + NAMES[-1:]
EDGE_PT = 40.0
LEAST_PT, LEAST_MARK_PT = 8.95, 7.0


@cache
def paper(name: str) -> Printed:
    quote = quote_of(name)
    drawn = [d for i, item in enumerate(quote.items)
             for d in paper_drawings(item.piece, quote.job.units, quote.job.site, item.fit, i)]
    return printed(quote_pdf(answer_of(name), drawn, {"name": "Ilse Marrow", "place": "Port Ellery",
                                                      "time": "2026-11-25 16:10"}))


@cache
def sheet(name: str) -> Printed:
    quote = quote_of(name)
    return printed(shop_sheet_pdf(quote, [d for i, item in enumerate(quote.items)
                                          for d in paper_drawings(item.piece, quote.job.units, item=i)]))


@pytest.mark.parametrize("read, names", [(paper, NAMES), (sheet, SHEETS)], ids=["quotes", "shop sheets"])
def test_no_words_stand_beyond_the_margins_of_a_page(read, names) -> None:  # type: ignore[no-untyped-def]
    for name in names:
        found = read(name)
        wide, high = found.size
        beyond = [w for w in found.words for x, y in w.ends
                  if not (EDGE_PT <= x <= wide - EDGE_PT and 20 <= y <= high - 20)]
        assert found.words and not beyond, name


@pytest.mark.parametrize("read, names", [(paper, NAMES), (sheet, SHEETS)], ids=["quotes", "shop sheets"])
def test_all_words_print_nine_points_high_but_marks_in_narrow_strips(read, names) -> None:  # type: ignore[no-untyped-def]
    for name in names:
        small = [w for w in read(name).words if w.size_pt < LEAST_PT]
        assert all(re.fullmatch(r"[A-Z]+\d+", w.text) and w.size_pt >= LEAST_MARK_PT for w in small), small


@pytest.mark.parametrize("name", NAMES)
def test_nobody_signs_on_a_page_that_says_nothing_else(name: str) -> None:
    pages = {w.text: w.page for w in paper(name).words if w.text in ("Terms", "Acceptance", "Signature")}
    assert pages["Terms"] == pages["Acceptance"] == pages["Signature"]
    assert "at the total of " + total_of(name) in paper(name).text


def total_of(name: str) -> str:
    return f"${Decimal(answer_of(name)['price']['total']):,}"


def money(found: Printed, label: str) -> list[Decimal]:
    """The amounts printed on the line of a label, from left to right."""
    at = [w for w in found.words if re.match(label, w.text)]
    return [Decimal(w.text.replace("$", "").replace(",", "").replace("−", "-")) for label_ in at[:1]
            for w in sorted(found.words, key=lambda w: w.ends[0][0])
            if w.page == label_.page and abs(w.ends[0][1] - label_.ends[0][1]) < 2
            and re.fullmatch(r"−?\$[\d,]+\.\d\d", w.text)]


@pytest.mark.parametrize("name", NAMES)
def test_the_figures_on_the_quote_add_up_as_they_are_printed(name: str) -> None:
    found, price = paper(name), answer_of(name)["price"]
    lines = [money(found, re.escape(" ".join(line["text"].split()[:5]))) for line in price["lines"]]
    assert all(len(line) == 2 for line in lines), lines
    net, tax, total = (money(found, label)[-1] for label in ("Net$", r"Sales tax \d", "Total$"))
    assert sum(line[-1] for line in lines) == net
    assert net + tax == total
    assert money(found, "Deposit to order$")[-1] + money(found, "Balance")[-1] == total


@pytest.mark.parametrize("name", NAMES)
def test_boards_on_the_shopping_list_are_those_of_the_diagrams_and_the_spares(name: str) -> None:
    quote = quote_of(name)
    drawn = Counter(layout.code for group in quote.cutting for layout in group.plan.layouts)
    for row in csv.DictReader(StringIO(shopping_list_csv(quote))):
        if row["kind"] == "board":
            assert int(row["count"]) == drawn[row["code"]] + int(row["of them spare"]), row
        assert Decimal(row["each"]) * int(row["count"]) == Decimal(row["amount"]), row


@pytest.mark.parametrize("name", SHEETS)
def test_the_sheet_draws_each_board_once_and_its_hours_add_up(name: str) -> None:
    quote, found = quote_of(name), sheet(name)
    counts = Counter[str]()
    for many, code in re.findall(r"(\d+) × ([A-Z][A-Z0-9-]+),", found.text):
        counts[code] += int(many)
    assert counts == Counter(layout.code for group in quote.cutting for layout in group.plan.layouts)
    first, last = (next(i for i, w in enumerate(found.words) if w.text == t) for t in ("Operation", "Checks"))
    hours = [Decimal(w.text[:-2]) for w in found.words[first:last] if re.fullmatch(r"\d+\.\d\d h", w.text)]
    assert abs(sum(hours[:-1]) - hours[-1]) <= Decimal("0.04")  # each phase rounded by itself
    assert hours[-1] == Decimal(f"{quote.labour.hours:.2f}")


@pytest.mark.parametrize("name", SHEETS)
def test_every_part_with_work_on_it_is_drawn_and_every_mark_shown(name: str) -> None:
    quote, found = quote_of(name), sheet(name)
    for item in quote.items:
        for part in item.parts:
            assert sum(w.text == part.mark for w in found.words) >= 2      # the cut list and a picture
            drawn = f"{part.mark} {part.name}" + (f", {part.hand} hand" if part.hand else "")
            if part.shape and part.material != "roll":
                assert f"{drawn}, {part.count} to make" in found.text
