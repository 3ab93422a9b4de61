"""Changes that mend a stop, taken with one tap; sizes and cautions that hold for some choices only."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from pwa.visit import FITS, Phone, ask_price, choose_bench, fill, go, measure_between_walls, priced, start_job

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

LENGTH, BACK_HEIGHT = (f'[data-path="items.0.dimensions.{name}"]' for name in ("length", "back_height"))
LOOK = "button:has-text('Look for other changes that mend it')"
BRACKETS = "button:has-text('Fixed to wall or ground with brackets, +US$')"


def money(text: str) -> Decimal:
    return Decimal(text.removeprefix("US$").replace(",", ""))


def free_standing_bench(page: Page, length: str = "48 1/4") -> None:
    start_job(page)
    measure_between_walls(page, depth="70")
    choose_bench(page)
    fill(page, "items.0.dimensions.length", length)
    go(page, "Choices")
    page.check("#f-items-0-choices-fixing-free")


def test_a_change_that_mends_a_stop_comes_with_the_price_is_taken_priced_and_undone(
        phone: Phone, server: str) -> None:
    page = phone(server)
    free_standing_bench(page)
    asked: list[Any] = []
    page.on("request", lambda one: one.url.endswith("/v1/quotes") and asked.append(one.post_data_json))
    ask_price(page)
    priced(page)
    expect(page.locator(".finding.stop", has_text="Falls over")).to_be_visible()
    before = page.locator("#quote .total").inner_text()
    falls = page.get_by_role("group", name="Changes that mend: Falls over easily")
    expect(falls.locator(BRACKETS)).to_be_visible()
    expect(falls).to_contain_text("Then: stands a push by its fixing alone")
    more = money(falls.locator(BRACKETS).inner_text().split("+")[1])
    falls.locator(BRACKETS).click()
    expect(page.locator(".finding.stop")).to_have_count(0, timeout=30_000)
    priced(page)
    assert money(page.locator("#quote .total").inner_text()) == money(before) + more
    assert asked[1]["items"][0]["choices"]["fixing"] == "brackets"
    assert "mends" not in asked[0] and "mends" not in asked[1]
    page.click("#toast button:has-text('Undo')")
    expect(page.locator("#quote .total")).to_have_text(before)
    expect(falls.locator(BRACKETS)).to_be_visible()
    go(page, "Choices")
    expect(page.locator("#f-items-0-choices-fixing-free")).to_be_checked()
    go(page, "Piece")
    expect(page.locator(LENGTH)).to_have_value("48 1/4")


def test_other_changes_are_looked_for_when_asked(phone: Phone, server: str) -> None:
    page = phone(server)
    free_standing_bench(page, "44")
    ask_price(page)
    priced(page)
    asked: list[Any] = []
    page.on("request", lambda one: one.url.endswith("/v1/quotes") and asked.append(one.post_data_json))
    page.click(LOOK)
    leans = page.get_by_role("group", name="Changes that mend: A sitter leaning back tips it")
    expect(leans.locator("button", has_text="Back: No back")).to_be_visible(timeout=30_000)
    expect(leans.locator(BRACKETS)).to_be_visible()
    expect(page.locator("#look-for-mends")).to_be_focused()
    assert [one["mends"] for one in asked] == [True]


def test_thicker_boards_and_more_posts_are_folded_away_until_one_is_taken(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    go(page, "Choices")
    thick = page.locator("#f-items-0-choices-panel_section-5_4x6, [id^='f-items-0-choices-panel_section-5']")
    expect(thick.first).to_be_hidden()
    page.click("summary:has-text('Made heavier')")
    thick.first.check()
    with page.expect_request("**/v1/quotes") as sent:
        ask_price(page)
    assert sent.value.post_data_json["items"][0]["choices"]["panel_section"] == "5/4x6"
    priced(page)
    go(page, "Choices")
    expect(page.locator("summary:has-text('Made heavier')")).to_contain_text("1 taken")


def test_a_size_that_means_nothing_is_hidden_not_sent_and_comes_back(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    fill(page, "items.0.dimensions.back_height", "36 1/")
    go(page, "Choices")
    free = page.locator("#step .finding li", has_text="Free-standing and with a back")
    expect(free).to_have_count(0)
    page.check("#f-items-0-choices-fixing-free")
    expect(free).to_have_count(1)
    page.check("#f-items-0-choices-back-none")
    expect(free).to_have_count(0)
    go(page, "Piece")
    expect(page.locator(LENGTH)).to_be_visible()
    expect(page.locator(BACK_HEIGHT)).to_have_count(0)
    expect(page.locator("#verdict-line")).to_have_text(FITS)
    assert "Overall length" in page.locator("#verdict").text_content()
    assert "Back height" not in page.locator("#verdict").text_content()
    with page.expect_request("**/v1/quotes") as sent:
        ask_price(page)
    assert "back_height" not in sent.value.post_data_json["items"][0]["dimensions"]
    priced(page)
    go(page, "Choices")
    page.check("#f-items-0-choices-back-straight")
    go(page, "Piece")
    expect(page.locator(BACK_HEIGHT)).to_have_value("36 1/")


def test_only_a_turn_has_a_width_after_it_and_it_is_sent(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page)
    page.click("text=Add a narrow place")
    after = page.locator('[data-path="site.access.0.widthAfter"]')
    expect(after).to_have_count(0)
    page.select_option('[data-path="site.access.0.kind"]', "turn")
    fill(page, "site.access.0.width", "40")
    fill(page, "site.access.0.widthAfter", "36")
    choose_bench(page)
    with page.expect_request("**/v1/quotes") as sent:
        ask_price(page)
    assert sent.value.post_data_json["site"]["access"] == [
        {"kind": "turn", "width": {"mm": 1016}, "width_after": {"mm": 914.4}}]
    priced(page)


def test_an_l_is_drawn_as_an_l_in_its_corner(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    page.check("text=In a corner")
    fill(page, "site.readings.0.value", "120")
    fill(page, "site.depths.0.value", "100")
    choose_bench(page, "corner-bench")
    go(page, "Choices")
    page.check("#f-items-0-choices-side-left")
    go(page, "Piece")
    piece = page.locator(".sketch .piece")
    expect(piece).to_be_attached()
    corners = [tuple(map(float, one.split(","))) for one in (piece.get_attribute("points") or "").split()]
    assert len(corners) == 6
    ends, outs = (sorted(set(values)) for values in zip(*corners, strict=True))
    assert {along for along, out in corners if out == outs[-1]} == set(ends[:2])
    expect(page.locator(".sketch")).to_have_attribute("aria-label", re.compile("its wing on the left"))
