"""What every test may ask for: the shops, the app over them, a real server, a browser."""

from __future__ import annotations

import os
import socket
import threading
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.serving import make_server

from yardwright.domain.shop import Shop

ROOT = Path(__file__).parents[1]
TODAY = date(2026, 11, 25)
KEYS = ("YARDWRIGHT_SHOP_KEY", "YARDWRIGHT_CUSTOMER_KEY", "YARDWRIGHT_SEAL_KEY", "YARDWRIGHT_SHOP")


@pytest.fixture(autouse=True)
def _no_keys_of_the_machine(monkeypatch: pytest.MonkeyPatch) -> None:
    """The tests see no keys and no shop that the machine they run on may have set."""
    for name in KEYS:
        monkeypatch.delenv(name, raising=False)


@pytest.fixture(scope="session", autouse=True)
def _every_cutting_plan_is_checked() -> Iterator[None]:
    from cutting_watch import every_plan_checked

    with every_plan_checked():
        yield


@pytest.fixture(scope="session")
def demo_shop() -> Shop:
    from yardwright.wiring import load_shop

    return load_shop("demo_shop")


@pytest.fixture(scope="session")
def demo_shop_metric() -> Shop:
    from yardwright.wiring import load_shop

    return load_shop("demo_shop_metric")


@pytest.fixture(scope="session")
def app(demo_shop: Shop) -> Flask:
    from yardwright.http import create_app

    return create_app(demo_shop, today=lambda: TODAY)


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    return app.test_client()


@pytest.fixture(scope="session")
def server(app: Flask) -> Iterator[str]:
    """The address of the app served over real HTTP on a free loopback port."""
    served = make_server("127.0.0.1", free_port(), app, threaded=True)
    thread = threading.Thread(target=served.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{served.server_port}"
    served.shutdown()
    thread.join()
    served.server_close()


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@pytest.fixture(scope="session")
def chrome() -> str:
    """The path of a Chromium; without one the test skips, or fails where REQUIRE_BROWSER is set."""
    places = (os.environ.get("CHROME_PATH", ""), "/usr/bin/chromium", "/usr/bin/google-chrome")
    found = next((place for place in places if place and os.access(place, os.X_OK)), "")
    if not found:
        reason = "no Chromium: set CHROME_PATH or install chromium"
        if os.environ.get("REQUIRE_BROWSER") == "1":
            pytest.fail(reason)
        pytest.skip(reason)
    return found
