"""Each seed scenario typed into the phone as its maker would: the same price as over HTTP, and its paper."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import requests
from flask import Flask
from playwright.sync_api import Page, expect

from pwa.conftest import Service
from pwa.test_job import paper_text
from pwa.visit import Phone, ask_price, fill, go, start_job
from yardwright.domain.shop import Shop
from yardwright.http import create_app

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

JOBS = sorted((Path(__file__).parents[2] / "seed_scenarios").glob("*/job.json"))
KINDS = {"between walls": "Between two walls", "corner": "In a corner", "against a wall": "Against one wall",
         "open": "Open ground"}


@pytest.fixture
def metric_service(demo_shop_metric: Shop, app: Flask) -> Iterator[Service]:
    running = Service(create_app(demo_shop_metric, today=app.extensions["yardwright.today"]))
    yield running
    running.stop()


def number_of(list_path: str, page: Page) -> int:
    return page.locator(f'[data-path^="{list_path}."][data-path$=".value"]').count()


def type_readings(page: Page, list_path: str, readings: list[dict[str, str]], keys: dict[str, str]) -> None:
    for index, reading in enumerate(readings):
        fill(page, f"{list_path}.{index}.value", reading["value"])
        for name, key in keys.items():
            if name in reading:
                page.click(f"#at-{list_path.replace('.', '-')}-{index} summary")
                fill(page, f"{list_path}.{index}.{key}", reading[name])


def type_side(page: Page, wall: dict[str, Any]) -> None:
    side = wall["side"]
    page.click(f"#wall-{side} summary")
    for reading in wall["readings"]:
        fill(page, f"site.{side}.run", reading["value"])
    if "out_of_plumb" in wall:
        fill(page, f"site.{side}.lean", wall["out_of_plumb"])
        fill(page, f"site.{side}.leanOver", wall["plumb_over"])


def type_obstructions(page: Page, things: list[dict[str, str]]) -> None:
    for index, thing in enumerate(things):
        page.click("button:has-text('thing')")
        page.select_option(f'[data-path="site.obstructions.{index}.kind"]', thing["kind"])
        for key in thing.keys() - {"kind"}:
            fill(page, f"site.obstructions.{index}.{key}", thing[key])


def type_ground(page: Page, ground: dict[str, Any]) -> None:
    if "surface" in ground:
        page.select_option('[data-path="site.ground.surface"]', ground["surface"])
    for name, key in {"fall_along": "fallAlong", "fall_away": "fallAway", "drop_behind": "dropBehind",
                      "allowed_load_kn_m2": "allowedLoad"}.items():
        if name in ground:
            fill(page, f"site.ground.{key}", str(ground[name]))


def type_site(page: Page, site: dict[str, Any]) -> None:
    page.check(f"text={KINDS[site['kind']]}")
    for wall in site.get("walls", []):
        if wall["side"] == "back":
            type_readings(page, "site.readings", wall["readings"], {"at_height": "height", "at_depth": "out"})
            type_obstructions(page, wall.get("obstructions", []))
        else:
            type_side(page, wall)
    for corner in site.get("corners", []):
        page.check(f"#f-site-{corner['at']}-corner-tapes")
        for key, length in corner["diagonals"][0].items():
            fill(page, f"site.{corner['at']}.{key}", length)
    type_readings(page, "site.depths", site.get("depths", []), {"at_along": "along"})
    type_ground(page, site.get("ground", {}))
    for index, access in enumerate(site.get("access", [])):
        page.click("button:has-text('narrow place')")
        page.select_option(f'[data-path="site.access.{index}.kind"]', access["kind"])
        for key in access.keys() - {"kind"}:
            fill(page, f"site.access.{index}.{key}", access[key])


def type_item(page: Page, index: int, item: dict[str, Any]) -> None:
    page.check(f"#template-{item['template']}")
    page.wait_for_selector(f'[data-path^="items.{index}.dimensions."]')
    for name, length in item.get("dimensions", {}).items():
        fill(page, f"items.{index}.dimensions.{name}", length)
    go(page, "Choices")
    for name, option in item.get("choices", {}).items():
        field = f'[data-path="items.{index}.choices.{name}"]'
        if page.locator(f"select{field}").count():
            page.select_option(field, option)
        else:
            page.check(f'{field}[value="{option}"]')
    fill(page, f"items.{index}.quantity", str(item.get("quantity", 1)))


def type_rest(page: Page, job: dict[str, Any]) -> None:
    go(page, "Customer")
    fill(page, "reference", job["reference"])
    for key, text in job["customer"].items():
        fill(page, f"customer.{key}", text)
    delivery = job["delivery"]
    fill(page, "delivery.distance", delivery["distance"])
    page.set_checked('[data-path="delivery.install"]', delivery.get("install", False))
    fill(page, "delivery.crew", str(delivery.get("crew", "")))
    fill(page, "wantedBy", job.get("wanted_by", ""))
    for index, extra in enumerate(job.get("extras", [])):
        page.click("button:has-text('extra')")
        fill(page, f"extras.{index}.text", extra["text"])
        fill(page, f"extras.{index}.amount", extra["amount"])
        page.set_checked(f'[data-path="extras.{index}.untaxed"]', not extra["taxed"])
    if "discount" in job:
        page.click("#discount summary")
        fill(page, "discount.share", f"{float(job['discount']['share']) * 100:g}")
        fill(page, "discount.reason", job["discount"]["reason"])


def plain(total: str) -> str:
    return "".join(sign for sign in total if sign.isdigit() or sign == ".")


@pytest.mark.parametrize("path", JOBS, ids=[path.parent.name for path in JOBS])
def test_a_scenario_typed_on_the_phone_costs_what_it_costs_over_http(
        phone: Phone, service: Service, metric_service: Service, path: Path) -> None:
    job = json.loads(path.read_text())
    at = metric_service if job["units"] == "mm" else service
    page = phone(at.address)
    start_job(page)
    page.check("text=Millimetres" if job["units"] == "mm" else "text=Inches")
    type_site(page, job["site"])
    for index, item in enumerate(job["items"]):
        if index:
            page.click("text=Add another piece to this job")
            page.wait_for_selector("#step-title:has-text('The piece')")
        else:
            go(page, "Piece")
        type_item(page, index, item)
    type_rest(page, job)
    ask_price(page)
    expect(page.locator("#quote .total")).to_be_visible(timeout=40_000)
    for override in job.get("overrides", []):
        expect(page.locator(".finding.stop").first).to_be_visible()
        assert page.locator("#open-paper").count() == 0
        fill(page, f"overrides.{override['what'].replace(' ', '-')}.reason", override["reason"])
        page.click("text=Ask again with this reason")
        page.wait_for_selector("#open-paper", timeout=40_000)
    text = paper_text(page)
    answered = requests.post(f"{at.address}/v1/quotes", json=job, timeout=60).json()
    assert plain(page.inner_text("#quote .total")) == answered["price"]["total"]
    assert job["customer"]["name"].split()[0] in text
    for override in job.get("overrides", []):
        assert override["reason"].split()[-3] in text
