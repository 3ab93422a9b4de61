"""Nothing typed is ever lost: kills, reloads, deletions, other pieces, files."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import expect

from pwa.conftest import KillablePhone
from pwa.visit import Phone, choose_bench, fill, go, measure_between_walls, name_customer, saved, start_job

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

SAVED_WITHIN_MS = 300


def test_half_typed_text_survives_a_dead_battery(killable: KillablePhone, server: str) -> None:
    page = killable.open(server)
    start_job(page)
    measure_between_walls(page)
    page.focus('[data-path="site.readings.1.value"]')
    fill(page, "site.readings.1.value", "63 3/")
    page.wait_for_timeout(SAVED_WITHIN_MS)
    killable.kill()
    page = killable.open(server)
    page.wait_for_selector("#step-title:has-text('The space')")
    read = [page.input_value(f'[data-path="site.readings.{index}.value"]') for index in range(3)]
    assert read == ["63 1/2", "63 3/", "63 5/8"]
    expect(page.locator("#f-site-readings-1-value-told")).to_contain_text("lower number")


def test_a_reload_comes_back_to_the_same_step_and_text(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page)
    choose_bench(page)
    fill(page, "items.0.dimensions.length", "4")
    saved(page)
    page.goto(server)
    page.wait_for_selector("#step-title:has-text('The piece')")
    assert page.input_value('[data-path="items.0.dimensions.length"]') == "4"


def test_a_deleted_job_comes_back_by_undo_and_later_from_the_list(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    name_customer(page, "Maren Oake")
    page.click("#to-jobs")
    page.click("text=Delete")
    expect(page.locator(".jobs-list a")).to_have_count(0)
    page.click(".toast >> text=Undo")
    expect(page.locator(".jobs-list a")).to_contain_text("Maren Oake")
    page.click("text=Delete")
    page.wait_for_timeout(SAVED_WITHIN_MS)
    page.reload()
    page.click("#deleted summary")
    page.click("text=Bring back")
    expect(page.locator(".jobs-list a")).to_contain_text("Maren Oake")


def test_a_removed_reading_comes_back_by_undo(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    measure_between_walls(page)
    page.click("#at-site-readings-0 summary")
    page.click("#at-site-readings-0 button")
    assert page.input_value('[data-path="site.readings.0.value"]') == "63 3/4"
    page.click(".toast >> text=Undo")
    assert page.input_value('[data-path="site.readings.0.value"]') == "63 1/2"


def test_sizes_typed_for_one_piece_come_back_after_looking_at_another(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    choose_bench(page)
    fill(page, "items.0.dimensions.length", "51 1/2")
    page.check("#template-planter-box")
    page.wait_for_timeout(50)
    page.check("#template-storage-bench")
    assert page.input_value('[data-path="items.0.dimensions.length"]') == "51 1/2"


def test_jobs_leave_and_come_in_as_a_file(phone: Phone, server: str, tmp_path: Path) -> None:
    page = phone(server)
    start_job(page)
    name_customer(page, "Ilse Brandt")
    page.click("#to-jobs")
    page.click("#settings summary")
    with page.expect_download() as waiting:
        page.click("text=Save all jobs as a file")
    kept = tmp_path / "jobs.json"
    waiting.value.save_as(kept)
    assert json.loads(kept.read_text())["drafts"][0]["customer"]["name"] == "Ilse Brandt"
    other = phone(server)
    other.click("#settings summary")
    other.set_input_files("#import", kept)
    expect(other.locator(".jobs-list a")).to_contain_text("Ilse Brandt")
    no_jobs = {"name": "x.json", "mimeType": "application/json", "buffer": b"not json"}
    other.set_input_files("#import", no_jobs)
    expect(other.locator(".toast")).to_contain_text("holds no jobs")


def test_the_back_button_goes_one_step_back(phone: Phone, server: str) -> None:
    page = phone(server)
    start_job(page)
    go(page, "Piece")
    go(page, "Customer")
    page.go_back()
    page.wait_for_selector("#step-title:has-text('The piece')")


def test_a_half_typed_key_outlives_a_new_drawing_of_the_list(phone: Phone, server: str) -> None:
    page = phone(server)
    page.click("#settings summary")
    page.fill("#key", "salt-and")
    page.evaluate("window.dispatchEvent(new Event('online'))")
    page.wait_for_timeout(500)
    assert page.input_value("#key") == "salt-and"
    assert page.locator("#settings").get_attribute("open") is not None
