"""The workshop's packet and lists, made from a real quote of a seed job and read back."""

from __future__ import annotations

import csv
from dataclasses import replace
from decimal import Decimal
from functools import cache
from io import BytesIO, StringIO

import pytest
from pypdf import PdfReader

from documents.seeds import quote_of
from yardwright.documents import cut_list_csv, paper_drawings, shop_sheet_pdf, shopping_list_csv
from yardwright.documents.csv_lists import harmless
from yardwright.documents.cutting_diagram import sequence
from yardwright.documents.pages.words import amount
from yardwright.documents.sheet.cutting import alike, said, verdict
from yardwright.documents.sheet.work import marks_of
from yardwright.domain.cutting.model import CutStep, CuttingPlan, Layout
from yardwright.domain.finding import Finding, Level
from yardwright.domain.measure import INCH, Writer
from yardwright.domain.money import Money, total
from yardwright.domain.quote import Quote


@cache
def real() -> Quote:
    return quote_of("01-downpipe-and-gate")


@cache
def sheet() -> str:
    return read(shop_sheet_pdf(real(), paper_drawings(real().items[0].piece, real().job.units)))


def read(pdf: bytes) -> str:
    return " ".join(" ".join((p.extract_text() or "").split()) for p in PdfReader(BytesIO(pdf)).pages)


def test_every_part_is_on_the_cut_list_with_its_finished_size() -> None:
    writer = Writer(real().job.units)
    for part in real().items[0].parts:
        size = " × ".join(writer.length(v) for v in (part.length_nm, part.width_nm, part.thickness_nm))
        assert part.mark in sheet() and part.name in sheet() and size in sheet()


def test_everything_to_buy_is_listed_with_its_price() -> None:
    for line in real().stock:
        assert line.stock.code in sheet()
        assert amount(line.amount.text(), line.amount.currency) in sheet()
    for goods in real().hardware:
        assert goods.goods.code in sheet()


def test_hours_build_up_and_total_are_the_quotes_own() -> None:
    quote = real()
    assert f"{quote.labour.hours:.2f} h" in sheet()
    for line in quote.price.build_up:
        assert amount(line.amount.text(), line.amount.currency) in sheet()
    assert amount(quote.price.total.text(), quote.price.currency) in sheet()
    assert f"Margin {quote.price.margin_share * 100:.1f} %" in sheet()


def test_every_operation_and_every_step_of_assembly_is_there() -> None:
    for operation in real().labour.operations:
        assert operation.name in sheet()
    for step in real().items[0].piece.assembly:
        assert " ".join(step.text.split()) in sheet()


def test_every_finding_is_printed_with_its_rule() -> None:
    for finding in real().items[0].findings:
        assert finding.title in sheet() and f"Rule: {finding.rule}" in sheet()


def test_a_job_that_is_held_says_so_first() -> None:
    stopped = replace(real(), stopped_by=real().items[0].findings[:1])
    text = read(shop_sheet_pdf(stopped, ()))
    assert "Held: do not start" in text[:900]
    assert "Held" not in sheet()


def test_what_nobody_checked_stands_on_the_first_page() -> None:
    item = real().items[0]
    open_ = Finding("unasked", Level.NOT_CHECKED, "Wing seat: its load is not checked", "", customer=False)
    quote = replace(real(), items=(replace(item, findings=(*item.findings, open_)),))
    first = PdfReader(BytesIO(shop_sheet_pdf(quote, ()))).pages[0].extract_text()
    assert "Not checked: look yourself" in first and open_.title in first


def test_cautions_and_stops_answered_for_stand_on_the_first_page() -> None:
    """What holds the paper is told as held, and not again."""
    item = real().items[0]
    tips = Finding("tip over", Level.CAUTION, "Stands a push by its fixing alone", "")
    drop, falls = (Finding("drop behind", Level.STOP, title, "", mend="Do it.") for title in (
        "A drop behind needs a guard", "Falls over easily"))
    risky = replace(item, findings=(*item.findings, tips, drop, falls))
    quote = replace(real(), items=(risky,), stopped_by=(falls,))
    first = PdfReader(BytesIO(shop_sheet_pdf(quote, ()))).pages[0].extract_text()
    first = " ".join(first.split())
    assert first.index("Cautions: mind these.") < first.index(tips.title)
    assert first.index("answered for in writing") < first.index(drop.title)
    assert first.count(falls.title) == 1 and first.index(falls.title) < first.index("answered for")


def test_the_same_sheet_has_the_same_bytes() -> None:
    assert shop_sheet_pdf(real(), ()) == shop_sheet_pdf(real(), ())


def test_hostile_words_of_the_customer_print_as_they_stand() -> None:
    name = '<img src="/etc/hostname"/> <b>Ilse & Söhne'
    quote = replace(real(), job=replace(real().job, customer=replace(real().job.customer, name=name),
                                        notes=name))
    assert read(shop_sheet_pdf(quote, ())).count(name) == 2


def test_the_cut_list_as_csv_has_every_part_once() -> None:
    rows = list(csv.DictReader(StringIO(cut_list_csv(real()))))
    parts = [p for item in real().items for p in item.parts]
    assert [(r["mark"], int(r["count"])) for r in rows] == [(p.mark, p.count) for p in parts]
    assert [round(float(r["length mm"]), 1) for r in rows] == [round(p.length_nm / 1e6, 1) for p in parts]


def test_the_shopping_list_as_csv_adds_up_to_what_is_spent() -> None:
    rows = list(csv.DictReader(StringIO(shopping_list_csv(real()))))
    currency = real().price.currency
    spent = total([s.amount for s in real().stock], currency)
    spent += total([h.goods.price.times(h.packs) for h in real().hardware], currency)
    assert sum(Decimal(r["amount"]) for r in rows) == Decimal(spent.text())


@pytest.mark.parametrize("cell", ["=1+1", "+44 20", "-cmd|' /C calc'!A0", "@SUM(A1)", "\t=1", "\n=1",
                                  '=HYPERLINK("x")'])
def test_a_cell_that_a_spreadsheet_would_run_is_disarmed(cell: str) -> None:
    assert harmless(cell) == f"'{cell}"


@pytest.mark.parametrize("cell", ["-12.50", "A1", "44 in", "Ława – ½", 7, "", "+3.5"])
def test_numbers_and_plain_words_stay_as_they_are(cell: object) -> None:
    assert harmless(cell) == str(cell)


LAYOUT = Layout("1X6-8", 96 * INCH, 11 * INCH // 2, (), (), (), 1725)


def test_layouts_cut_alike_are_drawn_once_with_their_number() -> None:
    other = replace(LAYOUT, code="1X6-10")
    assert alike([LAYOUT, other, LAYOUT, LAYOUT]) == [((1, 3, 4), LAYOUT), ((2,), other)]


def test_a_plan_says_how_good_it_is() -> None:
    plan = CuttingPlan("optimal", 5000, 5000, 5000, 0.815, (), ())
    assert verdict(plan) == "Proven the cheapest; 82 % of the stock becomes parts."
    bounded = replace(plan, status="bounded", lower_bound=4800, stopped="steps")
    assert "4.2 % above the cheapest possible, search stopped at its step limit" in verdict(bounded)
    assert "cheapest possible;" in verdict(replace(bounded, lower_bound=0, stopped=""))


def test_steps_of_the_saw_are_said_in_the_jobs_units() -> None:
    step = CutStep("rip", 9 * INCH // 2, 2, "segment 1", ("A3", "A3", "A4"))
    assert said(step, Writer("in")) == "Rip segment 1 to 4 1/2 in, twice: A3, A4"
    assert said(replace(step, kind="trim", times=1, marks=()), Writer("mm")) == "Trim segment 1 by 114 mm"


def test_a_step_of_assembly_names_its_parts_by_pattern_or_name() -> None:
    parts = real().items[0].parts
    assert marks_of((f"{parts[0].name}*",), parts)[0] == parts[0].mark
    assert marks_of(("No such member",), parts) == []


def test_amounts_show_sign_currency_and_thousands() -> None:
    assert amount("1234.5", "USD") == "$1,234.5"
    assert amount(Money(-200000, "PLN").text(), "PLN") == "−2,000.00 PLN"
    assert amount("not a number", "EUR") == "not a number"


def test_the_saws_are_set_once_for_all_boards_of_a_group() -> None:
    group = next(g for g in real().cutting if len(g.plan.layouts) > 1)
    for line in sequence(group.plan, Writer(real().job.units)):
        assert " ".join(line.split()) in sheet()
    for numbers, layout in alike(group.plan.layouts):
        assert f"{', '.join(map(str, numbers))}: {len(numbers)} × {layout.code}" in sheet()
