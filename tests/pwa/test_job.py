"""The whole job on a phone, against the real service: from the tape to the paper."""

from __future__ import annotations

import io

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from pwa.visit import (
    FITS,
    Phone,
    ask_price,
    choose_bench,
    fill,
    go,
    measure_between_walls,
    name_customer,
    priced,
    start_job,
)

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]


def paper_text(page: Page) -> str:
    """The text of the PDF the page holds ready to open."""
    page.wait_for_selector("#open-paper", timeout=30_000)
    raw = page.evaluate(PAPER_BYTES)
    return "\n".join(sheet.extract_text() for sheet in PdfReader(io.BytesIO(bytes(raw))).pages)


# The page's own rules forbid fetching a blob, so the bytes are read where the phone keeps them.
PAPER_BYTES = """() => new Promise((done, fail) => {
  const opening = indexedDB.open('yardwright');
  opening.onerror = () => fail(opening.error);
  opening.onsuccess = () => {
    const reading = opening.result.transaction('quotes').objectStore('quotes').getAll();
    reading.onsuccess = () => {
      opening.result.close();
      const last = reading.result.sort((a, b) => b.order - a.order)[0];
      done([...new Uint8Array(last.paper)]);
    };
  };
})"""


def test_from_the_tape_to_the_paper(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page)
    expect(page.locator("#f-site-readings-0-value-told")).to_have_text("63 1/2 in = 1613 mm")
    choose_bench(page)
    expect(page.locator(".verdict-line")).to_have_text(FITS)
    expect(page.locator("#picture img")).to_be_visible()
    go(page, "Choices")
    page.check("text=No back")
    name_customer(page)
    ask_price(page)
    priced(page)
    expect(page.locator("#quote")).to_contain_text("DEMONSTRATION PRICES")
    expect(page.locator("#quote")).to_contain_text("Deposit to order")
    total = page.locator("#quote .total").inner_text()
    text = paper_text(page)
    assert "Maren Oake" in text
    assert total.replace("US", "").replace("$", "").replace("€", "").strip() in text
    expect(page.locator("#save-paper")).to_have_attribute("download", "quote-J001-Maren-Oake.pdf")


def test_the_customer_sees_no_costs_until_the_shop_unfolds_them(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    ask_price(page)
    priced(page)
    seen = page.inner_text("#step")
    assert "How the price is made up" not in seen
    assert "Margin, share of the price" not in seen
    page.click("#shop-side summary")
    expect(page.get_by_text("Margin, share of the price")).to_be_visible()


def test_too_long_a_piece_is_told_and_the_largest_that_fits_is_one_tap_away(
        phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page, ("50", "50 1/8", "49 7/8"))
    choose_bench(page)
    fill(page, "items.0.dimensions.length", "60")
    expect(page.locator(".verdict-line")).to_contain_text("It does not fit.")
    take = page.get_by_role("button", name="Overall length").filter(has_text="take it").first
    take.click()
    expect(page.locator(".verdict-line")).to_have_text(FITS)
    assert page.input_value('[data-path="items.0.dimensions.length"]').startswith("49")


def test_a_signed_paper_carries_the_name(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    ask_price(page)
    priced(page)
    page.wait_for_selector("#open-paper", timeout=30_000)
    page.click("#sign summary")
    page.click("text=Put the signature on the paper")
    expect(page.locator("#sign [role=alert]")).to_contain_text("Type the name")
    page.fill("#sign-name", "Tobin Ashgrove")
    page.fill("#sign-place", "Saltbrook")
    box = page.locator("canvas.pad").bounding_box()
    assert box
    page.locator("canvas.pad").scroll_into_view_if_needed()
    box = page.locator("canvas.pad").bounding_box()
    assert box
    page.mouse.move(box["x"] + 20, box["y"] + 60)
    page.mouse.down()
    page.mouse.move(box["x"] + 160, box["y"] + 90, steps=8)
    page.mouse.up()
    page.click("text=Put the signature on the paper")
    expect(page.get_by_text("Signed by Tobin Ashgrove.")).to_be_visible(timeout=30_000)
    assert "Tobin Ashgrove" in paper_text(page)


def test_a_metric_job_speaks_millimetres_throughout(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    page.check("text=Millimetres")
    page.check("text=Against one wall")
    fill(page, "site.readings.0.value", "2400")
    expect(page.locator("#f-site-readings-0-value-told")).to_have_text("2400 mm = 94 1/2 in")
    choose_bench(page)
    assert page.input_value('[data-path="items.0.dimensions.length"]').isdigit()
    ask_price(page)
    priced(page)
    expect(page.locator("#quote h2").first).to_contain_text("mm")


SHARING = """navigator.canShare = ({ files }) => files.length === 1 && files[0].type === 'application/pdf';
navigator.share = async ({ files: [file] }) => { window.shared = [file.name, file.size]; };"""


def test_where_the_phone_can_share_the_paper_goes_out_as_a_file(phone: Phone, server: str) -> None:
    page = phone("about:blank")
    page.add_init_script(SHARING)
    page.goto(server)
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    name_customer(page)
    ask_price(page)
    page.click("#share-paper", timeout=30_000)
    name, size = page.evaluate("window.shared")
    assert name == "quote-J001-Maren-Oake.pdf"
    assert size > 10_000


def test_a_changed_job_says_that_its_price_is_old(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    ask_price(page)
    priced(page)
    expect(page.locator("#quote")).not_to_contain_text("has changed since")
    go(page, "Piece")
    fill(page, "items.0.dimensions.length", "46")
    go(page, "Price")
    expect(page.locator("#quote")).to_contain_text("The job has changed since this price")
    page.click("#get-price")
    expect(page.locator("#earlier summary")).to_be_visible(timeout=30_000)
    expect(page.locator("#quote")).not_to_contain_text("has changed since")


def test_boards_in_the_rack_and_a_discount_in_money_come_back_on_the_quote(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    go(page, "Customer")
    page.click("#discount summary")
    fill(page, "discount.amount", "100")
    fill(page, "discount.reason", "the old bench comes back")
    page.click("#rack summary")
    page.click("text=Add boards")
    fill(page, "rack.0.section", "1x66")
    fill(page, "rack.0.length", "12 ft")
    fill(page, "rack.0.count", "2")
    ask_price(page)
    refused = page.get_by_role("link", name="Boards 1, section: no section '1x66' is known")
    refused.click()
    expect(page.locator('[data-path="rack.0.section"]')).to_be_focused()
    fill(page, "rack.0.section", "1x6")
    ask_price(page)
    priced(page)
    expect(page.locator("#quote")).to_contain_text("Discount: the old bench comes back")
    expect(page.locator("#quote")).to_contain_text("100.00")
    page.click("#shop-side summary")
    expect(page.locator("#shop-side")).to_contain_text("2 boards from the rack, not to buy")


def test_a_step_with_something_wrong_in_it_is_not_marked_done(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page)
    go(page, "Piece")
    space = page.locator("nav.steps a", has_text="Space")
    expect(space).to_contain_text("(done)")
    go(page, "Space")
    fill(page, "site.readings.1.value", "63 3/")
    go(page, "Piece")
    expect(space).not_to_contain_text("(done)")
