"""Wrong measurements: named where they stand, never corrected in silence, and never sent."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from pwa.visit import Phone, ask_price, choose_bench, fill, go, measure_between_walls, start_job

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]


def test_an_ambiguous_reading_offers_its_meanings(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page, ("5-3 1/2", "63 1/4"))
    expect(page.locator("#f-site-readings-0-value-told")).to_contain_text("more than one way")
    page.click("button:has-text(\"Take 5' 3 1/2\")")
    expect(page.locator("#f-site-readings-0-value-told")).to_have_text("63 1/2 in = 1613 mm")


def test_a_reading_in_the_other_unit_is_asked_about(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page, ("1610",))
    page.click("text=Take 1610 mm")
    expect(page.locator("#f-site-readings-0-value-told")).to_have_text("63 3/8 in = 1610 mm")


def test_faults_are_listed_and_lead_to_their_fields(phone: Phone, server: str) -> None:
    page = phone(server)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url) if request.method == "POST" else None)
    start_job(page)
    measure_between_walls(page, ("63 1/", "63 1/4"))
    ask_price(page)
    expect(page.locator("#faults")).to_be_focused()
    expect(page.locator("#faults li")).to_have_count(2)
    assert not [url for url in asked if url.endswith("/v1/quotes")]
    page.click("#faults a >> nth=0")
    expect(page.locator('[data-path="site.readings.0.value"]')).to_be_focused()
    assert page.input_value('[data-path="site.readings.0.value"]') == "63 1/"


def test_a_size_out_of_range_says_what_is_right(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    fill(page, "items.0.dimensions.length", "160 in")
    page.locator('[data-path="items.0.dimensions.length"]').blur()
    told = page.locator("#f-items-0-dimensions-length-told")
    expect(told).to_contain_text("the most this piece is made")
    expect(page.locator('[data-path="items.0.dimensions.length"]')).to_have_attribute("aria-invalid", "true")


def test_what_stops_it_is_named_where_there_is_room_enough(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page, ("120", "120", "120"), "100")
    page.click("button:has-text('thing')")
    page.select_option('[data-path="site.obstructions.0.kind"]', "gas meter")
    for name, inches in {"from": "58", "to": "62", "projection": "3"}.items():
        fill(page, f"site.obstructions.0.{name}", inches)
    choose_bench(page)
    fill(page, "items.0.dimensions.length", "70")
    expect(page.locator(".verdict-line")).to_have_text(
        "It does not fit. Gas meter or regulator is in the way.")


def test_the_keys_write_what_the_keypad_lacks(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    page.check("text=Between two walls")
    page.click('[data-path="site.readings.0.value"]')
    page.keyboard.type("63")
    for key in ("1/2", "1/16"):
        page.click(f".keys button:text-is('{key}')")
    assert page.input_value('[data-path="site.readings.0.value"]') == "63 9/16"
    expect(page.locator('[data-path="site.readings.0.value"]')).to_be_focused()
    page.click('[data-path="site.readings.1.value"]')
    page.keyboard.type("5")
    page.click(".keys button:text-is('ft')")
    page.keyboard.type("3")
    page.click(".keys button:text-is('1/2')")
    expect(page.locator("#f-site-readings-1-value-told")).to_have_text("63 1/2 in = 1613 mm")
    expect(page.locator(".keys")).to_have_count(1)


def test_markup_in_a_name_stays_text(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    go(page, "Customer")
    fill(page, "customer.name", "<img src=x onerror=alert(1)> & Sons")
    ask_price(page)
    expect(page.locator("#quote")).to_contain_text("<img src=x onerror=alert(1)> & Sons", timeout=30_000)
    expect(page.locator("#where")).to_have_text("<img src=x onerror=alert(1)> & Sons")
