"""What a maker does with the app, in the maker's steps, for the tests."""

from __future__ import annotations

import re
from collections.abc import Callable

from playwright.sync_api import Page, expect

# The fixture that opens an address on a fresh phone.
Phone = Callable[..., Page]

# Corners not measured leave a doubt, and the app says so.
FITS = re.compile(r"^(It fits|Fits as far as measured)(, with a caution)?\.")


def start_job(page: Page) -> None:
    page.click("#new-job")
    page.wait_for_selector("#step-title:has-text('The space')")


def saved(page: Page) -> None:
    expect(page.locator("#status")).to_have_text("Saved")


def fill(page: Page, path: str, text: str) -> None:
    page.fill(f'[data-path="{path}"]', text)


def measure_between_walls(page: Page, width: tuple[str, ...] = ("63 1/2", "63 3/4", "63 5/8"),
                          depth: str = "40") -> None:
    page.check("text=Between two walls")
    for index, reading in enumerate(width):
        fill(page, f"site.readings.{index}.value", reading)
    fill(page, "site.depths.0.value", depth)


def go(page: Page, step: str) -> None:
    page.click(f"nav.steps >> text={step}")
    page.wait_for_selector(f"nav.steps a[aria-current]:has-text('{step}')")


def choose_bench(page: Page, template: str = "storage-bench") -> None:
    go(page, "Piece")
    page.check(f"#template-{template}")
    page.wait_for_selector('[data-path$=".dimensions.length"]')


def name_customer(page: Page, name: str = "Maren Oake") -> None:
    go(page, "Customer")
    fill(page, "customer.name", name)
    fill(page, "customer.address", "4 Weir Lane, Saltbrook")


def ask_price(page: Page) -> None:
    go(page, "Price")
    page.click("#get-price")


def priced(page: Page) -> None:
    expect(page.locator("#quote .total")).to_be_visible(timeout=30_000)
