"""A phone for the tests: Chromium at 360 x 800 with touch, nothing kept from one test to the next."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, expect, sync_playwright
from werkzeug.serving import make_server

FLAGS = ["--headless=new", "--disable-gpu", "--disable-quic", "--no-first-run",
         "--disable-background-networking", "--disable-component-update", "--disable-sync",
         *(["--no-sandbox"] if os.geteuid() == 0 else [])]
PHONE: dict[str, Any] = {"viewport": {"width": 360, "height": 800}, "has_touch": True, "is_mobile": True,
                         "locale": "en-GB", "timezone_id": "Europe/London", "reduced_motion": "reduce",
                         # The worker has its own tests; elsewhere it would only load every file twice.
                         "service_workers": "block"}


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def browser(playwright: Playwright, chrome: str) -> Iterator[Browser]:
    launched = playwright.chromium.launch(executable_path=chrome, args=FLAGS)
    yield launched
    launched.close()


@pytest.fixture
def phone(browser: Browser) -> Iterator[Callable[..., Page]]:
    """Open an address on a fresh phone; at the end nothing may have gone wrong in the page."""
    contexts: list[BrowserContext] = []
    wrong: list[str] = []

    def open_on_phone(address: str, **also: Any) -> Page:
        context = browser.new_context(**(PHONE | also))
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(15_000)
        watch(page, wrong)
        page.goto(address)
        if address != "about:blank":
            expect(page.locator("#status")).not_to_be_empty(timeout=10_000)
        return page

    yield open_on_phone
    for context in contexts:
        context.close()
    assert wrong == []


NOT_OURS = ("net::ERR_", "status of 4")


def watch(page: Page, wrong: list[str]) -> None:
    """Errors of the page go into ``wrong``; no network and a refusal by the service are none of its own."""
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda said: wrong.append(said.text)
            if said.type == "error" and not any(word in said.text for word in NOT_OURS) else None)


class Service:
    """The real service on one port, to be stopped and started again."""

    def __init__(self, app: Flask) -> None:
        self.app = app
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = int(probe.getsockname()[1])
        self.asked: list[str] = []
        self.newer_worker = ""
        self.start()

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def _counted(self, environ: dict[str, Any], start: Any) -> Any:
        self.asked.append(f"{environ['REQUEST_METHOD']} {environ['PATH_INFO']}")
        if environ["PATH_INFO"] == "/sw.js" and self.newer_worker:
            start("200 OK", [("Content-Type", "text/javascript"), ("Cache-Control", "no-cache")])
            return [self.newer_worker.encode()]
        return self.app(environ, start)

    def start(self) -> None:
        self.served = make_server("127.0.0.1", self.port, self._counted, threaded=True)
        self.thread = threading.Thread(target=self.served.serve_forever, daemon=True)
        self.thread.start()

    def stop(self) -> None:
        self.served.shutdown()
        self.thread.join()
        self.served.server_close()


@pytest.fixture
def service(app: Flask) -> Iterator[Service]:
    running = Service(app)
    yield running
    running.stop()


class KillablePhone:
    """A Chromium of our own with a profile that outlives it, so that it can be killed like a dead battery."""

    def __init__(self, playwright: Playwright, chrome: str, profile: Path) -> None:
        self.playwright, self.chrome, self.profile = playwright, chrome, profile

    def open(self, address: str) -> Page:
        port_file = self.profile / "DevToolsActivePort"
        port_file.unlink(missing_ok=True)
        self.process = subprocess.Popen(
            [self.chrome, *FLAGS, "--remote-debugging-port=0", f"--user-data-dir={self.profile}",
             "--window-size=360,800", "about:blank"],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
        deadline = time.monotonic() + 20
        while not port_file.exists() or not port_file.read_text().strip():
            assert time.monotonic() < deadline, "Chromium did not start"
            time.sleep(0.05)
        port = port_file.read_text().split()[0]
        self.connected = self.playwright.chromium.connect_over_cdp(f"http://127.0.0.1:{port}")
        page = self.connected.contexts[0].pages[0]
        page.set_default_timeout(15_000)
        page.goto(address)
        expect(page.locator("#status")).not_to_be_empty(timeout=10_000)
        return page

    def kill(self) -> None:
        """No farewell: the process and its children end at once."""
        os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait()


@pytest.fixture
def killable(playwright: Playwright, chrome: str, tmp_path: Path) -> Iterator[KillablePhone]:
    made = KillablePhone(playwright, chrome, tmp_path / "profile")
    yield made
    if made.process.poll() is None:
        made.kill()
