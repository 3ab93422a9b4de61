"""A corner bench into a corner out of square, through a tight gate and round a turn, as a maker does it."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from pwa.conftest import Service
from pwa.visit import Phone, ask_price, choose_bench, fill, name_customer, priced, start_job

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]


def measure_corner(page: Page) -> None:
    """2.4 m of wall, the corner 4 degrees open by three tapes, a gate of 700 mm and a turn."""
    page.check("text=In a corner")
    fill(page, "site.readings.0.value", "2400 mm")
    fill(page, "site.depths.0.value", "3200 mm")
    page.click("summary:has-text('Left wall and corner')")
    page.check("text=Three tapes")
    for key, mm in (("along", 900), ("out", 1200), ("across", 1550)):
        fill(page, f"site.left.{key}", f"{mm} mm")
    fill(page, "site.left.run", "2000 mm")
    page.click("text=Add a narrow place")
    page.select_option('[data-path="site.access.0.kind"]', "gate")
    fill(page, "site.access.0.width", "700 mm")
    fill(page, "site.access.0.height", "2000 mm")
    page.click("text=Add another narrow place")
    page.select_option('[data-path="site.access.1.kind"]', "turn")
    fill(page, "site.access.1.width", "1000 mm")


def test_a_corner_bench_at_a_tight_gate_is_told_in_parts(phone: Phone, service: Service) -> None:
    page = phone(service.address)
    start_job(page)
    measure_corner(page)
    choose_bench(page, "corner-bench")
    line = page.locator(".verdict-line")
    expect(line).to_contain_text("It may not go through the gate whole")
    expect(page.locator(".verdict")).to_contain_text("the turn is too small for it. Its height was")
    name_customer(page)
    ask_price(page)
    priced(page)
    told = page.locator(".finding:visible")
    expect(told.filter(has_text="It goes in in parts")).to_be_visible()
    expect(told.filter(has_text="It may not go through the gate whole")).to_be_visible()


def test_without_signal_a_corner_bench_is_judged_all_the_same_and_half_a_size_is_no_answer(
        phone: Phone, service: Service) -> None:
    page = phone(service.address)
    start_job(page)
    measure_corner(page)
    choose_bench(page, "corner-bench")
    service.stop()
    try:
        line = page.locator(".verdict-line")
        fill(page, "items.0.dimensions.length", "6'")
        expect(line).to_contain_text("It may not go through the gate whole")
        fill(page, "items.0.dimensions.length", "6' 1/")
        expect(line).to_have_text("One of the sizes cannot be read yet.")
        fill(page, "items.0.dimensions.length", "2900 mm")
        expect(line).to_contain_text("It does not fit. Between the ends: too big by")
    finally:
        service.start()
