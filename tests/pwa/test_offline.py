"""In a yard without signal: the form and the fit work, the request waits, and is answered once."""

from __future__ import annotations

import json
import time

import pytest
from playwright.sync_api import Page, expect

from pwa.conftest import Service
from pwa.shell import PWA
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


# Shop, list, and each of two templates in both unit systems.
KEPT = """async () => navigator.serviceWorker.controller !== null && await caches.has('yardwright-data-1')
  && (await (await caches.open('yardwright-data-1')).keys()).length >= 6"""


def ready_for_no_signal(page: Page) -> None:
    deadline = time.monotonic() + 15
    while not page.evaluate(KEPT):
        assert time.monotonic() < deadline, "the worker keeps nothing"
        page.wait_for_timeout(50)


def asked_for_quotes(service: Service) -> int:
    return service.asked.count("POST /v1/quotes")


def test_without_signal_the_job_goes_on_and_the_price_comes_once(phone: Phone, service: Service) -> None:
    page = phone(service.address, service_workers="allow")
    ready_for_no_signal(page)
    page.context.set_offline(True)
    service.stop()
    page.reload()
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    expect(page.locator(".verdict-line")).to_have_text(FITS)
    fill(page, "items.0.dimensions.length", "70")
    expect(page.locator(".verdict-line")).to_contain_text("It does not fit.")
    fill(page, "items.0.dimensions.length", "48")
    name_customer(page)
    ask_price(page)
    expect(page.locator("#step")).to_contain_text("Waiting for signal")
    expect(page.locator("#status")).to_contain_text("Waiting to send: 1")
    page.reload()
    expect(page.locator("#status")).to_contain_text("Waiting to send: 1")
    service.start()
    page.context.set_offline(False)
    priced(page)
    expect(page.locator("#status")).to_have_text("Saved", timeout=20_000)
    page.wait_for_selector("#open-paper", timeout=20_000)
    page.reload()
    priced(page)
    assert asked_for_quotes(service) == 1


def test_an_earlier_quote_and_its_paper_open_without_signal(phone: Phone, service: Service) -> None:
    page = phone(service.address, service_workers="allow")
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    ask_price(page)
    priced(page)
    page.wait_for_selector("#open-paper", timeout=20_000)
    total = page.inner_text("#quote .total")
    ready_for_no_signal(page)
    service.stop()
    page.reload()
    expect(page.locator("#quote .total")).to_have_text(total)
    expect(page.locator("#open-paper")).to_be_visible()
    expect(page.locator("#quote img.drawing")).to_be_visible()
    service.start()


def test_a_refused_request_is_parked_with_its_reason_and_mended(phone: Phone, service: Service) -> None:
    page = phone(service.address)
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    page.route("**/v1/quotes", lambda route: route.fulfill(
        status=422, content_type="application/problem+json",
        body=json.dumps({"title": "The job asks for what cannot be", "detail": "", "code": "bad-job",
                         "errors": [{"pointer": "/items/0/dimensions/length",
                                     "detail": "77 in is too long for the stock"}]})))
    ask_price(page)
    expect(page.locator(".faults a")).to_contain_text("Overall length: 77 in is too long for the stock")
    page.unroute("**/v1/quotes")
    page.click(".faults a")
    expect(page.locator('[data-path="items.0.dimensions.length"]')).to_be_focused()
    ask_price(page)
    priced(page)


def test_a_new_version_asks_and_does_not_reload_by_itself(phone: Phone, service: Service) -> None:
    page = phone(service.address, service_workers="allow")
    ready_for_no_signal(page)
    start_job(page)
    worker = (PWA / "sw.js").read_text()
    service.newer_worker = worker.replace("const VERSION = 'shell-", "const VERSION = 'shell-next-")
    page.evaluate("navigator.serviceWorker.getRegistration().then((one) => one.update())")
    expect(page.locator("#bars")).to_contain_text("A new version is ready")
    go(page, "Customer")
    fill(page, "customer.name", "Maren Oake")
    with page.expect_navigation():
        page.click("text=Use it now")
    page.wait_for_selector("#step-title:has-text('Customer')")
    assert page.input_value('[data-path="customer.name"]') == "Maren Oake"


def test_a_busy_service_is_asked_again_by_itself(phone: Phone, service: Service) -> None:
    page = phone(service.address)
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    page.route("**/v1/quotes", times=1,
               handler=lambda route: route.fulfill(status=429, headers={"Retry-After": "1"}, body="{}"))
    ask_price(page)
    expect(page.locator("#step")).to_contain_text("The service is busy")
    page.wait_for_timeout(1000)
    page.click("text=Try now")
    priced(page)
    assert asked_for_quotes(service) == 1


def test_a_key_that_is_asked_for_is_kept_and_used(
        phone: Phone, service: Service, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("YARDWRIGHT_SHOP_KEY", "salt-and-oak")
    page = phone(service.address)
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    ask_price(page)
    expect(page.locator("#bars")).to_contain_text("asks for the shop’s key")
    page.click("#to-jobs")
    page.click("#settings summary")
    page.fill("#key", "salt-and-oak")
    page.click("text=Keep the key")
    expect(page.locator(".jobs-list a")).to_contain_text("valid until", timeout=30_000)
    expect(page.locator("#bars")).not_to_contain_text("asks for the shop’s key")
